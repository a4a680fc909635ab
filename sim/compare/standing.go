package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"warmby/sim"
	"warmby/sim/stats"
)

// Quantiles are the shares of runs by which [Odds] tells a milestone.
var Quantiles = []float64{0.5, 0.8, 0.9, 0.95}

// NineOfTen is the place of 0.9 in [Quantiles].
const NineOfTen = 2

// Odds is when one drill reaches one milestone.
type Odds struct {
	Mean      stats.Mean
	Quantiles []stats.Quantile // one for each of [Quantiles]
	Never     stats.Share
	OnTime    *stats.Share // nil without a target
	First     stats.Share  // runs in which no other drill is sooner
	// Enough is how many runs the interval of the mean needs, as skewed as the
	// moments are; 0 when there are as many, and without a mean.
	Enough int64
}

// Match is two drills, by index, held against each other at one milestone:
// Diff is A less B.
type Match struct {
	A, B  int
	Diff  stats.Difference
	Apart Apart // likewise
	// Exploratory says that it is not one of the family whose intervals hold
	// together.
	Exploratory bool
}

// Turned returns the match the other way round.
func (m Match) Turned() Match {
	m.A, m.B = m.B, m.A
	m.Diff, m.Apart = m.Diff.Turned(), m.Apart.Turned()
	return m
}

// Level reports whether there is no telling which of the two is ahead.
func (m Match) Level() bool { return m.Diff.Ahead() == 0 }

// Standing is how drills of one scenario stand at every milestone.
type Standing struct {
	Played  []*Played
	Odds    [][]Odds  // by milestone, then drill
	Matches [][]Match // by milestone: every drill with every later one
}

// Stand works out how drills stand that were played under the same luck. The
// differences at the primary milestones, by index, make one family: their
// intervals hold together and who is ahead is told by Holm's procedure (see
// [stats.Simultaneous]). Those at other milestones are exploratory.
func Stand(played []*Played, primary []int) *Standing {
	n, looks := len(played[0].Drill.Milestones), played[0].Looks
	s := &Standing{Played: played, Odds: make([][]Odds, n), Matches: make([][]Match, n)}
	var family []*stats.Paired
	var members [][2]int // milestone and match of each of the family
	for m := range n {
		for i := range played {
			s.Odds[m] = append(s.Odds[m], s.oddsOf(m, i))
		}
		isPrimary := slices.Contains(primary, m)
		moments := s.Moments(m)
		for i := range played {
			for j := i + 1; j < len(played); j++ {
				paired := Pair(played[i].Times[m], played[j].Times[m])
				if isPrimary {
					family, members = append(family, paired), append(members, [2]int{m, len(s.Matches[m])})
				}
				s.Matches[m] = append(s.Matches[m], Match{
					A: i, B: j, Diff: looks.Difference(paired), Apart: moments[i].Apart(&moments[j]), Exploratory: !isPrimary})
			}
		}
	}
	for k, d := range looks.Simultaneous(family) {
		s.Matches[members[k][0]][members[k][1]].Diff = d
	}
	for m := range s.Matches {
		for k := range s.Matches[m] {
			match := &s.Matches[m][k]
			match.Diff.Doubt = Doubtful(played[match.A], played[match.B], m, match.Diff)
		}
	}
	return s
}

// Moments are those of all drills at a milestone.
func (s *Standing) Moments(m int) (list []Moments) {
	for i, p := range s.Played {
		list = append(list, Moments{p.Times[m], p.Drill.Milestones[m].By, s.Odds[m][i].Quantiles, p.Looks})
	}
	return list
}

func (s *Standing) oddsOf(m, drill int) Odds {
	p := s.Played[drill]
	times := p.Times[m]
	var tally stats.Tally
	var first int64
	for run, at := range times {
		tally.Add(at)
		if at != sim.Never && !s.sooner(m, run, at) {
			first++
		}
	}
	runs := int64(len(times))
	level := p.Looks.Level(stats.Level, runs)
	o := Odds{Mean: tally.MeanAt(level), Never: stats.ShareAt(tally.Never, runs, level), First: stats.ShareAt(first, runs, level)}
	if by := p.Drill.Milestones[m].By; by != sim.Never {
		share := stats.ShareAt(reachedBy(times, by), runs, level)
		o.OnTime = &share
	}
	if need := stats.EnoughFor(stats.SkewnessOf(times)); o.Mean.OK() && need > runs {
		o.Enough = need
	}
	o.Quantiles = MomentsOf(times, sim.Never, p.Looks).Quantiles
	return o
}

// reachedBy counts the moments that come, and no later than one.
func reachedBy(times []sim.Time, by sim.Time) (n int64) {
	for _, at := range times {
		if onTime(at, by) {
			n++
		}
	}
	return n
}

// sooner reports whether any drill reaches a milestone before a moment in a run.
func (s *Standing) sooner(m, run int, than sim.Time) bool {
	return slices.ContainsFunc(s.Played, func(p *Played) bool { return p.Times[m][run] < than })
}

// Ranking returns the drills at a milestone, the one with the soonest mean
// first. Those without a mean follow, by the moment of 9 in 10 and then by how
// seldom they never get there.
func (s *Standing) Ranking(m int) []int {
	list := make([]int, len(s.Played))
	for i := range list {
		list[i] = i
	}
	slices.SortStableFunc(list, func(a, b int) int {
		x, y := &s.Odds[m][a], &s.Odds[m][b]
		return cmp.Or(cmp.Compare(x.meanOrLast(), y.meanOrLast()), x.compareNineOfTen(y))
	})
	return list
}

func (o *Odds) meanOrLast() float64 {
	if o.Mean.OK() {
		return o.Mean.Value
	}
	return math.Inf(1)
}

// compareNineOfTen compares the moments of 9 in 10, and of equals how often the
// milestone is never reached.
func (o *Odds) compareNineOfTen(other *Odds) int {
	return cmp.Or(cmp.Compare(o.Quantiles[NineOfTen].Value, other.Quantiles[NineOfTen].Value),
		cmp.Compare(o.Never.Count, other.Never.Count))
}

// Soonest returns the drill that reaches a milestone soonest in 9 of 10 runs; of
// equals the one that never gets there least often, then the first of the
// ranking.
func (s *Standing) Soonest(m int) int {
	return slices.MinFunc(s.Ranking(m), func(a, b int) int { return s.Odds[m][a].compareNineOfTen(&s.Odds[m][b]) })
}

// Surest returns the drill that is on time most often at a milestone, if it
// clearly is so more often than [Standing.Soonest]: if their intervals lie
// apart. Else it returns the soonest.
func (s *Standing) Surest(m int) int {
	soonest := s.Soonest(m)
	best, first := soonest, s.Odds[m][soonest].OnTime
	for i := range s.Played {
		if on := s.Odds[m][i].OnTime; on != nil && on.Low > first.High && on.Count > s.Odds[m][best].OnTime.Count {
			best = i
		}
	}
	return best
}

// LevelWith returns the drills of which there is no telling whether they or the
// given one is ahead at a milestone, in their order; the given one is not among
// them.
func (s *Standing) LevelWith(m, drill int) (list []int) {
	for i := range s.Played {
		if i != drill && s.Between(m, drill, i).Level() {
			list = append(list, i)
		}
	}
	return list
}

// Between returns the match of two drills at a milestone, turned so that A is
// the first of them. It panics when both are the same.
func (s *Standing) Between(m, a, b int) Match {
	for _, match := range s.Matches[m] {
		switch {
		case match.A == a && match.B == b:
			return match
		case match.A == b && match.B == a:
			return match.Turned()
		}
	}
	panic(fmt.Sprintf("compare: no match of drills %d and %d", a, b))
}

// Same returns the first milestone before m that every drill reaches at the same
// moment as m in every run, -1 for none.
func (s *Standing) Same(m int) int {
	for earlier := range m {
		if !slices.ContainsFunc(s.Played, func(p *Played) bool { return !slices.Equal(p.Times[m], p.Times[earlier]) }) {
			return earlier
		}
	}
	return -1
}

// Primary returns the milestones that a question is about when it names none:
// those with a target; else all but the finish; else the finish.
func Primary(d *sim.Drill) []int {
	var list []int
	for i, m := range d.Milestones {
		if m.By != sim.Never {
			list = append(list, i)
		}
	}
	last := len(d.Milestones) - 1
	if list != nil {
		return list
	}
	for i := range last {
		list = append(list, i)
	}
	if list == nil {
		list = []int{last}
	}
	return list
}
