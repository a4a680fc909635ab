package compare

import (
	"context"

	"warmby/sim"
	"warmby/sim/stats"
)

// Told is how runs were added until orders were told apart.
type Told struct {
	First, Most int  // runs at the first look, and at most
	Runs        int  // so many it took
	All         bool // whether all that can be told apart is
}

// UntilTold looks how many runs it takes until all drills are told apart at some
// milestones: those of the batch at first, then twice as many each time, up to
// most. Whoever plays so many must play them with [Told.Looks]. Two drills that
// are the same in every run, or of which one does not always get there, are never
// told apart, and not waited for.
func UntilTold(ctx context.Context, drills []*sim.Drill, b Batch, milestones []int, most int) (Told, error) {
	t := Told{First: b.Runs, Most: most}
	b.Looks = t.Looks()
	for {
		played, err := Play(ctx, drills, b)
		if err != nil {
			return t, err
		}
		t.Runs, t.All = b.Runs, allTold(Stand(played, milestones), milestones)
		if t.All || b.Runs >= most {
			return t, nil
		}
		b.Runs = min(most, 2*b.Runs)
	}
}

// Looks is how often the runs are looked at.
func (t Told) Looks() stats.Looks { return stats.Looks{First: int64(t.First)} }

func allTold(s *Standing, milestones []int) bool {
	for _, m := range milestones {
		for _, match := range s.Matches[m] {
			d := match.Diff
			same := d.ASooner.Count+d.BSooner.Count == 0
			if d.Mean.OK() && !same && match.Level() {
				return false
			}
		}
	}
	return true
}
