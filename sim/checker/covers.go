package checker

import "warmby/sim"

// Covers reports whether Check knows all rules that a drill goes by. It does not
// yet know lookouts that need nobody at times, nor those that are relieved and end
// with a task: a relief who is called to that task at the very moment of coming
// stood there for no time, which a timeline does not tell.
func Covers(d *sim.Drill) bool {
	for i := range d.Lookouts {
		if l := &d.Lookouts[i]; l.UnlessWorked || len(l.UntilTasks) > 0 && l.Relief > 0 {
			return false
		}
	}
	return true
}
