package batch

import (
	"fmt"

	"warmby/sim"
	"warmby/sim/draw"
)

// ChunkRuns is how many runs a chunk has; the last of a point may have fewer.
const ChunkRuns = 256

// Plan says what is to be played.
type Plan struct {
	Seed uint64
	// Runs is how many runs every order at every point has: runs 0 to Runs - 1
	// of the seed. With Until it is the most.
	Runs   int
	Points int
	// Drills returns the drills of a point, counted from 0, one for each order:
	// the same orders, with the same milestones and tasks, at every point. It
	// is called from several goroutines.
	Drills func(point int) ([]*sim.Drill, error)
	Tasks  bool   // whether what becomes of each task is kept as well
	People bool   // whether it is kept how long each person is about what
	Cold   bool   // whether the account of cold of each person is kept as well
	Fuel   bool   // whether it is kept what each kind of stove burns
	Shard  Shard  // which part of the plan; the zero value is all of it
	Until  *Until // nil when the number of runs is fixed; not with shards
	// Luck fills in the luck of a run at a point, with a sampler of its drills;
	// nil where it is that of Seed and the run. It is called from several
	// goroutines.
	Luck func(point, run int, s *draw.Sampler, l *sim.Luck)
}

// timelines reports whether more is kept than when things come and end.
func (p *Plan) timelines() bool { return p.Tasks || p.People || p.Cold || p.Fuel }

// Span is some runs of one point, those From up to but not including To.
type Span struct{ Point, From, To int }

// Runs returns how many runs a span has.
func (s Span) Runs() int { return s.To - s.From }

// chunks returns how many chunks a number of runs makes.
func chunks(runs int) int { return (runs + ChunkRuns - 1) / ChunkRuns }

// span returns chunk i of a plan with a fixed number of runs.
func (p *Plan) span(i int) Span {
	each := chunks(p.Runs)
	from := i % each * ChunkRuns
	return Span{i / each, from, min(p.Runs, from+ChunkRuns)}
}

// Course is how far a plan has got: which chunks come next, and, with Until,
// whether more are asked for.
type Course struct {
	p        *Plan
	at, end  int // chunks of a fixed plan: the next, and the one after the last
	point    int // with Until
	runs     int // with Until: had of the point
	goal     int // with Until: when to look again
	summary  *Summary
	done     int64 // runs played
	verdicts []Verdict
}

// Course returns the beginning of a plan.
func (p *Plan) Course() *Course {
	c := &Course{p: p}
	if p.Until != nil {
		c.goal = p.Until.first(p.Runs)
		return c
	}
	c.at, c.end = p.Shard.chunks(p.Points * chunks(p.Runs))
	return c
}

// Done returns how many runs have been added, of each order.
func (c *Course) Done() int64 { return c.done }

// Left returns how many runs are to be played still; with Until those of the
// points not begun are guesses.
func (c *Course) Left() int64 {
	if c.p.Until != nil {
		if c.point >= c.p.Points {
			return 0
		}
		return int64(c.goal-c.runs) + int64(c.p.Points-1-c.point)*int64(c.p.Until.first(c.p.Runs))
	}
	left := int64(c.end-c.at) * ChunkRuns
	return max(0, left-c.short(c.at, c.end))
}

// short returns how many runs chunks lack of ChunkRuns, those from a up to b.
func (c *Course) short(a, b int) int64 {
	each := chunks(c.p.Runs)
	lasts := b/each - a/each
	return int64(lasts) * int64(each*ChunkRuns-c.p.Runs)
}

// Stretch returns the chunks that can be played without looking at what they
// gave, in sequence: how many, and each by its number. None when the plan is
// done.
func (c *Course) Stretch() (n int, at func(i int) Span) {
	if c.p.Until == nil {
		first := c.at
		return c.end - first, func(i int) Span { return c.p.span(first + i) }
	}
	if c.point >= c.p.Points {
		return 0, nil
	}
	point, from, goal := c.point, c.runs, c.goal
	return chunks(goal - from), func(i int) Span {
		start := from + i*ChunkRuns
		return Span{point, start, min(goal, start+ChunkRuns)}
	}
}

// Add takes the next chunk into account. One that is not the next is an error.
func (c *Course) Add(chunk *Chunk) error {
	n, at := c.Stretch()
	if n == 0 {
		return fmt.Errorf("a chunk more than the plan has: runs %d to %d of point %d", chunk.From, chunk.To-1, chunk.Point+1)
	}
	if want := at(0); chunk.Span != want {
		return fmt.Errorf("runs %d to %d of point %d, where %d to %d of point %d come next",
			chunk.From, chunk.To-1, chunk.Point+1, want.From, want.To-1, want.Point+1)
	}
	c.done += int64(chunk.Runs())
	if c.p.Until == nil {
		c.at++
		return nil
	}
	return c.look(chunk)
}

// look adds a chunk to what is known of a point and, at a goal, decides
// whether it needs more runs.
func (c *Course) look(chunk *Chunk) error {
	if c.summary == nil {
		drills, err := c.p.Drills(c.point)
		if err != nil {
			return err
		}
		c.summary = NewSummary(drills)
	}
	if !c.summary.fits(chunk) {
		return fmt.Errorf("runs %d to %d of point %d have other orders or milestones than the plan", chunk.From, chunk.To-1, chunk.Point+1)
	}
	c.summary.Add(chunk)
	if c.runs = chunk.To; c.runs < c.goal {
		return nil
	}
	verdict, next := c.p.Until.judge(c.summary, c.p.Runs)
	if next > c.runs {
		c.goal = next
		return nil
	}
	c.verdicts = append(c.verdicts, verdict)
	c.point, c.runs, c.goal, c.summary = c.point+1, 0, c.p.Until.first(c.p.Runs), nil
	return nil
}

// Verdicts returns, with Until, what was decided on each point that is done.
func (c *Course) Verdicts() []Verdict { return c.verdicts }
