package checker

import "warmby/sim"

// Follows tells for each way to read the allocation whether a timeline follows
// it, so that a test can ask all drills of an engine for the same one.
func Follows(tl *sim.Timeline) []bool {
	var list []bool
	for _, r := range readings() {
		c := &check{tl: tl, d: tl.Drill, luck: tl.Luck}
		c.readSpells()
		c.follow(r)
		list = append(list, len(c.found) == 0)
	}
	return list
}
