package scenarios

import "warmby/sim"

// InFileOrder returns the drill with all tasks in file order, whatever orders
// the file has: no crew narrowed and everybody in one group.
func (s *Scenario) InFileOrder() *sim.Drill { return s.drill.Under(sim.Order{}) }
