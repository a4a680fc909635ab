package compare

import (
	"context"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/reference"
)

// Batch says which runs to play, and on how many workers.
type Batch struct {
	Seed    uint64
	Runs    int // runs 0 to Runs - 1 of the seed
	Workers int
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
}

// chunk is how many runs a worker plays before it asks for more.
const chunk = 256

// Play plays every drill of a list in all runs of a batch. The error is that of
// the context.
func Play(ctx context.Context, drills []*sim.Drill, b Batch) ([]*Played, error) {
	played := make([]*Played, len(drills))
	programs := make([]*fast.Program, len(drills))
	for i, d := range drills {
		programs[i] = fast.Compile(d)
		played[i] = &Played{Drill: d, Times: make([][]sim.Time, len(d.Milestones))}
		for m := range played[i].Times {
			played[i].Times[m] = make([]sim.Time, b.Runs)
		}
	}
	chunks := (b.Runs + chunk - 1) / chunk
	halts := make([]stops, len(drills)*chunks)
	err := each(ctx, b.Workers, len(halts), func(job int) {
		i, from := job/chunks, job%chunks*chunk
		halts[job] = played[i].play(programs[i], b.Seed, from, min(b.Runs, from+chunk))
	})
	if err != nil {
		return nil, err
	}
	for job, s := range halts {
		p := played[job/chunks]
		if p.Stopped == 0 && s.count > 0 {
			p.StopRun = s.run
			p.Stop = reference.Play(p.Drill, draw.Run(p.Drill, b.Seed, s.run)).Stopped()
		}
		p.Stopped += s.count
	}
	return played, nil
}

// stops is how many runs of a chunk came to a stop, and the first of them.
type stops struct{ count, run int }

// play plays some runs, into the places that are theirs.
func (p *Played) play(program *fast.Program, seed uint64, from, to int) (s stops) {
	w := program.Worker()
	var r fast.Result
	for run := from; run < to; run++ {
		if w.Run(seed, run, &r); r.Stops != nil {
			if s.count++; s.count == 1 {
				s.run = run
			}
		}
		for m := range p.Times {
			p.Times[m][run] = r.Milestones[m]
		}
	}
	return s
}
