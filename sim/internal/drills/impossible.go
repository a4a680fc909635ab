package drills

import (
	"slices"

	"pgregory.net/rapid"

	"warmby/sim"
)

// Impossible returns a drill with one of its tasks made such that it can never
// start: more people, more of a tool, or a stove than are there.
func Impossible(t *rapid.T, d *sim.Drill) *sim.Drill {
	out := *d
	out.Tasks, out.Stoves = slices.Clone(d.Tasks), slices.Clone(d.Stoves)
	k := &out.Tasks[rapid.IntRange(0, len(out.Tasks)-1).Draw(t, "impossible task")]
	switch {
	case k.Kind == sim.Melt:
		out.Stoves[k.Melt.Stove].Count = 0
	case k.Kind == sim.Warm:
		out.Stoves[k.Warm.Stove].Count = 0
	case len(d.Tools) > 0 && rapid.Bool().Draw(t, "for want of tools"):
		k.Tools = []sim.ToolNeed{{Tool: 0, Count: 99}}
	case k.Each == "" && !k.Everybody:
		k.Crew = sim.Crew{Min: len(d.People) + 1, Max: len(d.People) + 2}
	}
	return &out
}
