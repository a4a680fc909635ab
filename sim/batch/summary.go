package batch

import (
	"warmby/sim"
	"warmby/sim/stats"
)

// Summary adds up the runs of one point. It takes memory by how long drills
// last, in whole seconds, and not by how many runs there are.
type Summary struct {
	Runs   int64
	Orders []OrderSummary
	// Pairs holds every two orders against each other, the first with the
	// second, the first with the third, and so on.
	Pairs []Pair
}

// OrderSummary is one order at one point.
type OrderSummary struct {
	Drill              *sim.Drill
	Milestones         []Moments
	Stopped, FirstStop int // as in [OrderRuns]

	InTime int64 // runs in which every milestone with a target is reached by it
	// Warm is runs in which nobody passes the cold limit, and Well those that
	// are also in time; both 0 unless the account of cold is kept.
	Warm, Well int64
}

// Moments is when a milestone was reached.
type Moments struct {
	Tally  stats.Tally
	Counts stats.Histogram // whole seconds
	OnTime int64           // runs that reached it by its target
	First  int64           // runs in which no other order is sooner
}

// Pair is two orders by their place, A before B, held against each other at
// every milestone.
type Pair struct {
	A, B       int
	Milestones []stats.Paired
}

// NewSummary returns a summary without runs of the drills of a point.
func NewSummary(drills []*sim.Drill) *Summary {
	s := &Summary{}
	for i, d := range drills {
		s.Orders = append(s.Orders, OrderSummary{Drill: d, Milestones: make([]Moments, len(d.Milestones))})
		for j := i + 1; j < len(drills); j++ {
			s.Pairs = append(s.Pairs, Pair{i, j, make([]stats.Paired, len(d.Milestones))})
		}
	}
	return s
}

// fits reports whether a chunk has the orders and milestones of the point.
func (s *Summary) fits(c *Chunk) bool {
	ok := len(c.Orders) == len(s.Orders)
	for i := 0; ok && i < len(s.Orders); i++ {
		ok = len(c.Orders[i].Milestones) == c.Runs()*len(s.Orders[i].Milestones)
	}
	return ok
}

// Add counts the runs of a chunk of the point.
func (s *Summary) Add(c *Chunk) {
	s.Runs += int64(c.Runs())
	for i := range s.Orders {
		s.Orders[i].add(&c.Orders[i])
	}
	for i := range s.Pairs {
		p := &s.Pairs[i]
		a, b := c.Orders[p.A].Milestones, c.Orders[p.B].Milestones
		for k := range a {
			p.Milestones[k%len(p.Milestones)].Add(a[k], b[k])
		}
	}
	s.addFirsts(c)
}

func (o *OrderSummary) add(runs *OrderRuns) {
	if o.Stopped == 0 {
		o.FirstStop = runs.FirstStop
	}
	o.Stopped += runs.Stopped
	for m := range o.Milestones {
		moments, milestone := &o.Milestones[m], &o.Drill.Milestones[m]
		for k := m; k < len(runs.Milestones); k += len(o.Milestones) {
			at := runs.Milestones[k]
			moments.Tally.Add(at)
			moments.Counts.Add(at)
			if milestone.Met(at) {
				moments.OnTime++
			}
		}
	}
	people := len(o.Drill.People)
	for k := range len(runs.Milestones) / len(o.Milestones) {
		inTime := o.inTime(runs.Milestones[k*len(o.Milestones):])
		warm := len(runs.Cold) > 0 && nobodyOver(runs.Cold[k*people:(k+1)*people])
		o.InTime += one(inTime)
		o.Warm += one(warm)
		o.Well += one(inTime && warm)
	}
}

func one(yes bool) int64 {
	if yes {
		return 1
	}
	return 0
}

// inTime reports whether all targets are met in a run whose milestones stand
// first in times.
func (o *OrderSummary) inTime(times []sim.Time) bool {
	for m := range o.Milestones {
		if by := o.Drill.Milestones[m].By; by != sim.Never && times[m] > by {
			return false
		}
	}
	return true
}

// nobodyOver reports whether there is an account of a run, and nobody passes the
// limit in it.
func nobodyOver(chills []Chill) bool {
	kept := false
	for _, c := range chills {
		if c.PassedAt != sim.Never {
			return false
		}
		kept = kept || c.Peak >= 0
	}
	return kept
}

// addFirsts counts in which runs each order is first at each milestone; those
// that are equal all are.
func (s *Summary) addFirsts(c *Chunk) {
	for k := range c.Orders[0].Milestones {
		soonest := sim.Never
		for i := range c.Orders {
			soonest = min(soonest, c.Orders[i].Milestones[k])
		}
		if soonest == sim.Never {
			continue
		}
		for i := range c.Orders {
			if c.Orders[i].Milestones[k] == soonest {
				milestones := s.Orders[i].Milestones
				milestones[k%len(milestones)].First++
			}
		}
	}
}
