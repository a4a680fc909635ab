package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/ask"
	"warmby/sim"
	"warmby/sim/search"
)

// nameOrders gives what is new a name: the one asked for, or what the order is
// good for.
func (m *improvement) nameOrders() {
	var taken []string
	for i := range m.result.Orders {
		f := &m.result.Orders[i]
		if f.Known == "" {
			f.Order.Name = m.freshName(cmp.Or(m.flags.name, goodFor(m.strengths(i))), taken)
		}
		taken = append(taken, f.Order.Name)
	}
}

// strengths names the aims in which the order at a place is the best of all that
// were found; with one aim that one.
func (m *improvement) strengths(place int) (names []string) {
	for k, a := range m.result.Aims {
		if !isBest(m.result.Orders, place, k) {
			continue
		}
		switch {
		case a.Goal.Share():
			names = append(names, a.Goal.String())
		case m.d.Milestones[a.Milestone].Name == sim.FinishName:
			names = append(names, "early finish")
		default:
			names = append(names, "early "+m.d.Milestones[a.Milestone].Name)
		}
	}
	return slices.Compact(names)
}

func isBest(orders []search.Found, place, aim int) bool {
	least := math.Inf(1)
	for _, f := range orders {
		least = min(least, f.Value[aim])
	}
	return len(orders[place].Value) == 1 || orders[place].Value[aim] == least
}

// goodFor makes a name of what an order is good for.
func goodFor(strengths []string) string {
	if len(strengths) == 0 {
		return "in between"
	}
	return strings.Join(strengths, ", ")
}

// freshName returns a name that is new to the file, and none of those taken.
func (m *improvement) freshName(name string, taken []string) string {
	taken = append(append(slices.Clone(m.own), ask.FileOrder), taken...)
	fresh := name
	for n := 2; slices.Contains(taken, fresh); n++ {
		fresh = fmt.Sprintf("%s %d", name, n)
	}
	return fresh
}
