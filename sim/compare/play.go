package compare

import (
	"context"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// Batch says which runs to play, and on how many workers.
type Batch struct {
	Seed    uint64
	Runs    int // runs 0 to Runs - 1 of the seed
	Workers int
	Looks   stats.Looks // at the runs, before it was settled how many there are
	// ReadAs, when it is not nil, gives drills as which a drill is played instead,
	// one or more. They share its runs: of k readings each is played in one run in
	// k, those next to each other.
	ReadAs func(*sim.Drill) []*sim.Drill
	// IfInTime leaves the account of cold out of runs in which a target is missed,
	// for those who only ask in which runs all is well.
	IfInTime bool
}

// read returns the readings of a drill; nil when it is played as it is.
func (b Batch) read(d *sim.Drill) []*sim.Drill {
	if b.ReadAs == nil {
		return nil
	}
	list := b.ReadAs(d)
	return list[:min(len(list), b.Runs)]
}

// reading is the readings of a drill, and how many runs they share.
type reading struct {
	drills []*sim.Drill
	runs   int
}

// of returns which reading a run is played as.
func (r reading) of(run int) int {
	if len(r.drills) == 1 {
		return 0
	}
	return run * len(r.drills) / r.runs
}

// split calls do for each stretch of the runs from one to another that are
// played as one reading.
func (r reading) split(from, to int, do func(k, from, to int)) {
	for from < to {
		k, end := r.of(from), from+1
		for end < to && r.of(end) == k {
			end++
		}
		do(k, from, end)
		from = end
	}
}

// sums adds up a value of each of some runs over what counts as one: a run or,
// where there are several readings, all runs of one, which have its numbers in
// common.
func (r reading) sums(runs int, of func(run int) sim.Time) (list []sim.Time) {
	if len(r.drills) == 1 {
		for run := range runs {
			list = append(list, of(run))
		}
		return list
	}
	r.split(0, runs, func(_, from, to int) {
		var sum sim.Time
		for run := from; run < to; run++ {
			sum += of(run)
		}
		list = append(list, sum)
	})
	return list
}

// programs compiles all readings.
func (r reading) programs() (list []*fast.Program) {
	for _, d := range r.drills {
		list = append(list, fast.Compile(d))
	}
	return list
}

// first returns the batch cut to its first runs.
func (b Batch) first(runs int) Batch {
	b.Runs = min(b.Runs, runs)
	return b
}

// Played is a drill with all its runs.
type Played struct {
	Drill *sim.Drill
	// Times holds when each milestone was reached: by milestone, then by run.
	// sim.Never when it was not.
	Times [][]sim.Time
	// Stopped is how many runs came to a stop that no warm-up is to blame for.
	// They have sim.Never for what they did not reach.
	Stopped int
	// Stop is what the first of them, run StopRun, came to a stop at, a
	// *[sim.NeverError]; nil if none did.
	Stop    error
	StopRun int
	// Looks is how often the runs were looked at before it was settled how many
	// there are.
	Looks stats.Looks
	// Readings are the drills as which it was played, by [Batch.ReadAs]; nil when
	// it was played as it is.
	Readings []*sim.Drill
}

// reading returns the readings as which a drill was played.
func (p *Played) reading() reading { return p.readingOf(len(p.Times[0])) }

// readingOf is reading of one that is to be played so many times.
func (p *Played) readingOf(runs int) reading {
	if p.Readings == nil {
		return reading{[]*sim.Drill{p.Drill}, runs}
	}
	return reading{p.Readings, runs}
}

// chunk is how many runs a worker plays before it asks for more.
const chunk = 256

// Play plays every drill of a list in all runs of a batch. The error is that of
// the context.
func Play(ctx context.Context, drills []*sim.Drill, b Batch) ([]*Played, error) {
	s := seriesOf(drills, b, 0)
	if err := s.playTo(ctx, b.Runs); err != nil {
		return nil, err
	}
	return s.played, nil
}

// PlayCold is [Play] and then [HowCold], but plays each run once.
func PlayCold(ctx context.Context, drills []*sim.Drill, b Batch) ([]*Played, []*Cold, error) {
	s := seriesOf(drills, b, coldRuns)
	if err := s.playTo(ctx, b.Runs); err != nil {
		return nil, nil, err
	}
	return s.played, s.cold(), nil
}

// series is drills that are played under the same luck, run after run, as far as
// is asked for. Those played as several readings are played to the end of the
// batch at once, for their runs are shared out among the readings.
type series struct {
	b       Batch
	played  []*Played
	readers []*readers
	chilled int       // in so many of the first runs the account of cold is kept
	chills  [][]chill // by drill, then by run; nil for one that has no account
	runs    int       // how many have been played
}

func seriesOf(drills []*sim.Drill, b Batch, chilled int) *series {
	s := &series{b: b, chilled: chilled, chills: make([][]chill, len(drills))}
	for _, d := range drills {
		p := &Played{Drill: d, Times: make([][]sim.Time, len(d.Milestones)), Readings: b.read(d), Looks: b.Looks}
		s.played = append(s.played, p)
		s.readers = append(s.readers, readersOf(p.readingOf(b.Runs), b.IfInTime))
	}
	return s
}

// playTo plays on until there are so many runs.
func (s *series) playTo(ctx context.Context, runs int) error {
	first := s.runs
	for i, p := range s.played {
		for m := range p.Times {
			p.Times[m] = append(p.Times[m], make([]sim.Time, runs-first)...)
		}
		if chilled := min(runs, s.chilled); chilled > len(s.chills[i]) && cold.Kept(p.Drill) {
			s.chills[i] = append(s.chills[i], make([]chill, chilled-len(s.chills[i]))...)
		}
	}
	chunks := (runs - first + chunk - 1) / chunk
	halts := make([]stops, len(s.played)*chunks)
	err := each(ctx, s.b.Workers, len(halts), func(job int) {
		i, from := job/chunks, first+job%chunks*chunk
		r := s.readers[i].get()
		defer s.readers[i].put(r)
		halts[job] = s.played[i].play(r, s.b.Seed, from, min(runs, from+chunk), s.chills[i])
	})
	if err != nil {
		return err
	}
	for job, h := range halts {
		s.stopped(job/chunks, h)
	}
	s.runs = runs
	return nil
}

// stopped takes in how many runs of a chunk came to a stop, chunk by chunk.
func (s *series) stopped(drill int, h stops) {
	p := s.played[drill]
	if p.Stopped == 0 && h.count > 0 {
		p.StopRun = h.run
		of := s.readers[drill].of
		k := of.of(h.run)
		p.Stop = s.readers[drill].get().workers[k].Stopped(draw.Run(of.drills[k], s.b.Seed, h.run))
	}
	p.Stopped += h.count
}

// cold sums up the accounts of cold.
func (s *series) cold() []*Cold { return gatherAll(s.played, s.chills) }

// stops is how many runs of a chunk came to a stop, and the first of them.
type stops struct{ count, run int }

// play plays some runs, into the places that are theirs. Those that have one
// among chills get their account.
func (p *Played) play(r *reader, seed uint64, from, to int, chills []chill) (s stops) {
	for run := from; run < to; run++ {
		var at []sim.Time
		var stopped bool
		if run < len(chills) {
			at, stopped = r.record(seed, run, &chills[run])
		} else {
			at, stopped = r.run(seed, run)
		}
		if stopped {
			if s.count++; s.count == 1 {
				s.run = run
			}
		}
		for m := range p.Times {
			p.Times[m][run] = at[m]
		}
	}
	return s
}
