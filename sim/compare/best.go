package compare

import (
	"warmby/sim"
	"warmby/sim/stats"
)

// Best is how several drills stand against the best of them at one thing that
// they may be taken for: to be in time at a milestone, to get there soon where it
// has no target or nobody is ever in time, or that all is well.
type Best struct {
	Milestone int // -1 for all well
	// Shares are in how many runs of each drill it goes as it should, Means when
	// each gets there; one of the two is nil. Their intervals hold although a drill
	// was chosen for looking best.
	Shares []stats.Share
	Means  []stats.Mean
	// Within is how far each drill is from the best at most, in milliseconds or in
	// shares of the runs.
	Within []stats.Within
	// Doubt says why nothing should be made of it; "" for nothing.
	Doubt string
}

// BestAt holds drills against the best of them at a milestone; nil for one drill,
// and where they are to be soon and one of them does not always get there.
func (s *Standing) BestAt(m int) *Best {
	if len(s.Played) < 2 {
		return nil
	}
	if MostOftenInTime(s.Played, m) == nil {
		return s.soonest(m)
	}
	in := make([][]bool, len(s.Played))
	for i, p := range s.Played {
		for _, at := range p.Times[m] {
			in[i] = append(in[i], p.Drill.Milestones[m].Met(at))
		}
	}
	return oftenest(m, in, s.Played[0].Looks)
}

// BestWell holds drills against the one in which all is well most often; nil for
// one drill, and where it never is.
func BestWell(list []Well) *Best {
	if len(list) < 2 || MostOftenWell(list) == nil {
		return nil
	}
	var in [][]bool
	for i := range list {
		in = append(in, list[i].in)
	}
	return oftenest(-1, in, list[0].looks)
}

func oftenest(milestone int, in [][]bool, looks stats.Looks) *Best {
	b, runs := &Best{Milestone: milestone}, int64(len(in[0]))
	level := looks.Level(stats.WithinLevel(len(in)), runs)
	b.Within = stats.WithinOfBest(len(in), func(i, j int) float64 {
		var f stats.Fourfold
		for run := range in[i] {
			f.Add(in[i][run], in[j][run])
		}
		return -f.GapAt(level).Low
	})
	for _, row := range in {
		b.Shares = append(b.Shares, stats.ShareAt(stats.Count(row), runs, looks.Level(stats.Chosen(len(in)), runs)))
	}
	return b
}

func (s *Standing) soonest(m int) *Best {
	b := &Best{Milestone: m}
	n, looks, runs := len(s.Played), s.Played[0].Looks, int64(len(s.Played[0].Times[m]))
	for _, p := range s.Played {
		var tally stats.Tally
		for _, at := range p.Times[m] {
			tally.Add(at)
		}
		mean := tally.MeanAt(looks.Level(stats.Chosen(n), runs))
		if !mean.OK() {
			return nil
		}
		b.Means = append(b.Means, mean)
	}
	b.Within = stats.WithinOfBest(n, func(i, j int) float64 {
		return Pair(s.Played[i].Times[m], s.Played[j].Times[m]).Behind(looks.Level(stats.WithinLevel(n), runs))
	})
	for _, match := range s.Matches[m] {
		if match.Diff.Doubt != "" {
			b.Doubt = match.Diff.Doubt
		}
	}
	return b
}

// AtMost returns by how much a drill is behind the best at most, as a length of
// time, and ok as false where it is about shares.
func (b *Best) AtMost(drill int) (late sim.Time, ok bool) {
	return sim.Milliseconds(b.Within[drill].AtMost), b.Means != nil
}

// IsClear reports whether a drill is the only one that may be the best.
func (b *Best) IsClear(drill int) bool {
	for i, one := range b.Within {
		if one.MayBe != (i == drill) {
			return false
		}
	}
	return true
}
