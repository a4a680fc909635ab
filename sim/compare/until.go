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

// UntilTold plays on until all drills are told apart at some milestones, and keeps
// the account of cold as [PlayCold] does: the runs of the batch at first, then twice
// as many each time, up to most. Two drills that are the same in every run, or of
// which one does not always get there, are never told apart, and not waited for. The
// batch must not be read in several ways.
func UntilTold(ctx context.Context, drills []*sim.Drill, b Batch, milestones []int, most int) (Told, []*Played, []*Cold, error) {
	if b.ReadAs != nil {
		panic("compare: runs that are shared by several readings cannot be added to")
	}
	t := Told{First: b.Runs, Most: most}
	b.Looks = t.Looks()
	s := seriesOf(drills, b, coldRuns)
	for t.Runs = b.Runs; ; t.Runs = min(most, 2*t.Runs) {
		if err := s.playTo(ctx, t.Runs); err != nil {
			return t, nil, nil, err
		}
		if t.All = allTold(Stand(s.played, milestones), milestones); t.All || t.Runs >= most {
			return t, s.played, s.cold(), nil
		}
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
