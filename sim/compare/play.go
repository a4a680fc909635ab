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
func (r reading) of(run int) int { return run * len(r.drills) / r.runs }

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
func (p *Played) reading() reading {
	if p.Readings == nil {
		return reading{[]*sim.Drill{p.Drill}, len(p.Times[0])}
	}
	return reading{p.Readings, len(p.Times[0])}
}

// chunk is how many runs a worker plays before it asks for more.
const chunk = 256

// Play plays every drill of a list in all runs of a batch. The error is that of
// the context.
func Play(ctx context.Context, drills []*sim.Drill, b Batch) ([]*Played, error) {
	played, _, err := play(ctx, drills, b, 0)
	return played, err
}

// PlayCold is [Play] and then [HowCold], but plays each run once.
func PlayCold(ctx context.Context, drills []*sim.Drill, b Batch) ([]*Played, []*Cold, error) {
	played, chills, err := play(ctx, drills, b, min(b.Runs, coldRuns))
	if err != nil {
		return nil, nil, err
	}
	return played, gatherAll(played, chills), nil
}

// play plays drills, and keeps the account of cold of those that have one in so
// many of the first runs: by drill, then by run.
func play(ctx context.Context, drills []*sim.Drill, b Batch, chilled int) ([]*Played, [][]chill, error) {
	played, chills := make([]*Played, len(drills)), make([][]chill, len(drills))
	readers := make([]*readers, len(drills))
	for i, d := range drills {
		played[i] = &Played{Drill: d, Times: make([][]sim.Time, len(d.Milestones)), Readings: b.read(d), Looks: b.Looks}
		for m := range played[i].Times {
			played[i].Times[m] = make([]sim.Time, b.Runs)
		}
		readers[i] = readersOf(played[i].reading())
		if chilled > 0 && cold.Kept(d) {
			chills[i] = make([]chill, chilled)
		}
	}
	chunks := (b.Runs + chunk - 1) / chunk
	halts := make([]stops, len(drills)*chunks)
	err := each(ctx, b.Workers, len(halts), func(job int) {
		i, from := job/chunks, job%chunks*chunk
		r := readers[i].get()
		defer readers[i].put(r)
		halts[job] = played[i].play(r, b.Seed, from, min(b.Runs, from+chunk), chills[i])
	})
	if err != nil {
		return nil, nil, err
	}
	for job, s := range halts {
		p := played[job/chunks]
		if p.Stopped == 0 && s.count > 0 {
			p.StopRun = s.run
			read := p.reading()
			k := read.of(s.run)
			p.Stop = readers[job/chunks].get().workers[k].Stopped(draw.Run(read.drills[k], b.Seed, s.run))
		}
		p.Stopped += s.count
	}
	return played, chills, nil
}

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
