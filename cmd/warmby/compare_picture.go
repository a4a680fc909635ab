package main

import (
	"warmby/sim"
	"warmby/sim/stats"
)

// curve is one order at one milestone, as a picture of the odds draws it.
type curve struct {
	order   string
	seconds []float64 // when each run reached it, rising
	never   int       // runs that did not
}

// curves returns the odds of all orders at a milestone.
func (w *bout) curves(m int) []curve {
	var list []curve
	for i, p := range w.played {
		c := curve{order: w.called(i)}
		for _, at := range stats.SortedOf(p.Times[m]) {
			if at == sim.Never {
				c.never++
				continue
			}
			c.seconds = append(c.seconds, at.Seconds())
		}
		list = append(list, c)
	}
	return list
}
