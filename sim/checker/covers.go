package checker

import "warmby/sim"

// Covers reports whether Check knows all rules that a drill goes by. It does not
// yet know lookouts that end or begin with tasks or need nobody at times.
func Covers(d *sim.Drill) bool {
	for i := range d.Lookouts {
		if l := &d.Lookouts[i]; len(l.FromTasks)+len(l.UntilTasks) > 0 || l.Until > 0 || l.UnlessWorked {
			return false
		}
	}
	return true
}
