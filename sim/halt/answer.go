package halt

import (
	"cmp"
	"slices"

	"warmby/sim/stats"
)

// Answer is what came of one case under one order, at each arrival.
type Answer struct {
	Asked
	// Points are by arrival, rising; none when the case cannot be played.
	Points []Point
}

// Asked is what must go well, and how often, at an arrival.
type Asked struct {
	// AllWell asks that every target be met and nobody pass the cold limit, where
	// there are targets and an account of cold; else a milestone must be in time.
	AllWell   bool
	Milestone int     // by index
	Odds      float64 // how often, over 0 and up to 1
	// ColdOdds is how often nobody may pass the cold limit besides; 0 for no matter.
	ColdOdds float64
}

// ShareOf is how often what is asked goes well, cold odds apart; nil where nothing
// is asked for, because the milestone has no target.
func (a Asked) ShareOf(p Point) *stats.Share {
	if a.AllWell {
		return p.Well.All
	}
	return p.OnTime[a.Milestone]
}

// share is that of arrival i.
func (a *Answer) share(i int) *stats.Share { return a.ShareOf(a.Points[i]) }

// Meets reports whether what is asked goes well often enough at arrival i; where
// there is no target it does not.
func (a *Answer) Meets(i int) bool {
	return enough(a.share(i), a.Odds) && (a.ColdOdds == 0 || enough(a.Points[i].Well.NobodyCold, a.ColdOdds))
}

// enough counts rather than divides: 900 of 1000 are 90 %.
func enough(s *stats.Share, odds float64) bool {
	return s != nil && float64(s.Count) >= float64(odds*float64(s.Runs))-1e-9
}

// MeetsSurely reports whether the lower ends of the intervals are enough as well.
func (a *Answer) MeetsSurely(i int) bool {
	surely := func(s *stats.Share, odds float64) bool { return s != nil && s.Low >= odds }
	return surely(a.share(i), a.Odds) && (a.ColdOdds == 0 || surely(a.Points[i].Well.NobodyCold, a.ColdOdds))
}

// Latest returns the last arrival, by index, at which all that is asked goes well
// often enough, by the share itself; -1 for none.
func (a *Answer) Latest() int { return last(len(a.Points), a.Meets) }

// LatestSure returns the last arrival at which the lower end of the interval is
// enough as well: the sure moment; -1 for none.
func (a *Answer) LatestSure() int { return last(len(a.Points), a.MeetsSurely) }

// LatestWell returns the last arrival at which all is well as often as asked;
// -1 for none.
func (a *Answer) LatestWell() int {
	return last(len(a.Points), func(i int) bool { return enough(a.Points[i].Well.All, a.Odds) })
}

// BestWell returns the arrival at which all is well most often, the latest of
// equals; -1 where nobody asks for anything.
func (a *Answer) BestWell() int {
	return most(len(a.Points), func(i int) *stats.Share { return a.Points[i].Well.All })
}

// last returns the last of n for which something holds, -1 for none.
func last(n int, holds func(i int) bool) int {
	for i := n - 1; i >= 0; i-- {
		if holds(i) {
			return i
		}
	}
	return -1
}

// most returns the last of n with the greatest share, -1 when none has one.
func most(n int, share func(i int) *stats.Share) int {
	best, count := -1, int64(-1)
	for i := range n {
		if s := share(i); s != nil && s.Count >= count {
			best, count = i, s.Count
		}
	}
	return best
}

// Best returns the arrival with the best odds, the latest of equals.
func (a *Answer) Best() int { return max(0, most(len(a.Points), a.share)) }

// MissedBefore returns the arrivals before one at which what is asked does not go
// well often enough: earlier is not always better.
func (a *Answer) MissedBefore(at int) (list []int) {
	for i := range at {
		if a.share(i) != nil && !a.Meets(i) {
			list = append(list, i)
		}
	}
	return list
}

// LatestOfAll returns the last arrival at which the odds are kept in every case;
// -1 for none. Cases that cannot be played are left out.
func LatestOfAll(cases []*Answer) int { return lastOfAll(cases, (*Answer).Meets) }

// LatestSureOfAll is the same by the lower ends of the intervals.
func LatestSureOfAll(cases []*Answer) int { return lastOfAll(cases, (*Answer).MeetsSurely) }

func lastOfAll(cases []*Answer, meets func(a *Answer, i int) bool) int {
	cases = slices.DeleteFunc(slices.Clone(cases), func(a *Answer) bool { return len(a.Points) == 0 })
	if len(cases) == 0 {
		return -1
	}
	return last(len(cases[0].Points), func(i int) bool {
		return !slices.ContainsFunc(cases, func(a *Answer) bool { return !meets(a, i) })
	})
}

// Ranking returns orders, each given by its cases, the one under which one may
// halt latest in all of them first.
func Ranking(orders [][]*Answer) []int {
	list := make([]int, len(orders))
	latest := make([]int, len(orders))
	for i := range list {
		list[i], latest[i] = i, LatestOfAll(orders[i])
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(latest[b], latest[a]) })
	return list
}
