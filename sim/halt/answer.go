package halt

import (
	"cmp"
	"slices"

	"warmby/sim/stats"
)

// Answer is what came of one case under one order, at each arrival.
type Answer struct {
	Milestone int     // which must be in time, by index
	Odds      float64 // how often, over 0 and up to 1
	// Points are by arrival, rising; none when the case cannot be played.
	Points []Point
}

// share is how often the milestone is in time at arrival i; nil where it has no
// target then.
func (a *Answer) share(i int) *stats.Share { return a.Points[i].OnTime[a.Milestone] }

// Meets reports whether the milestone is in time often enough at arrival i; where
// it has no target it is not.
func (a *Answer) Meets(i int) bool {
	share := a.share(i)
	if share == nil {
		return false
	}
	// Counted rather than divided: 900 of 1000 are 90 %.
	return float64(share.Count) >= float64(a.Odds*float64(share.Runs))-1e-9
}

// MeetsSurely reports whether the lower end of the interval is enough as well.
func (a *Answer) MeetsSurely(i int) bool {
	share := a.share(i)
	return share != nil && share.Low >= a.Odds
}

// Latest returns the last arrival, by index, at which the milestone is in time
// often enough, by the share itself; -1 for none.
func (a *Answer) Latest() int { return last(len(a.Points), a.Meets) }

// LatestSure returns the last arrival at which the lower end of the interval is
// enough as well: the sure moment; -1 for none.
func (a *Answer) LatestSure() int { return last(len(a.Points), a.MeetsSurely) }

// last returns the last of n for which something holds, -1 for none.
func last(n int, holds func(i int) bool) int {
	for i := n - 1; i >= 0; i-- {
		if holds(i) {
			return i
		}
	}
	return -1
}

// Best returns the arrival with the best odds, the latest of equals.
func (a *Answer) Best() int {
	best, most := 0, int64(0)
	for i := range a.Points {
		if share := a.share(i); share != nil && share.Count >= most {
			best, most = i, share.Count
		}
	}
	return best
}

// MissedBefore returns the arrivals before one at which the milestone is not in
// time often enough: earlier is not always better.
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
