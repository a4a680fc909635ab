package checker

import "warmby/sim"

// Covers reports whether Check knows all rules that a drill goes by. It does not
// yet know lookouts that need nobody at times.
func Covers(d *sim.Drill) bool {
	for i := range d.Lookouts {
		if d.Lookouts[i].UnlessWorked {
			return false
		}
	}
	return true
}
