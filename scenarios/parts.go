package scenarios

import (
	"slices"

	"warmby/sim"
)

// Parts returns the drill without an order, as a search wants it, and the drill
// orders in file order; none when the file has none. The orders are those that
// the file writes: [sim.Drill.Under] completes them. Neither may be changed.
func (s *Scenario) Parts() (*sim.Drill, []sim.Order) { return s.drill, slices.Clone(s.orders) }
