package cold

import (
	"slices"

	"warmby/sim"
)

// Relief is somebody who should be relieved, or taken in, by a moment.
type Relief struct {
	Person int // in roster order
	By     sim.Time
	// After says that the moment lies after the drill's end: it is foretold,
	// as if the last entry of the ledger went on.
	After bool
	Doing Entry // what the person is about then
}

// Reliefs returns who should be relieved by when, soonest first, equals in
// roster order. People without an account and those who would never reach
// the limit are not in it.
func Reliefs(people []Person) []Relief {
	var out []Relief
	for i := range people {
		p := &people[i]
		if p.RelieveBy == sim.Never {
			continue
		}
		r := Relief{Person: i, By: p.RelieveBy, After: p.PassedAt == sim.Never}
		r.Doing = p.Ledger[len(p.Ledger)-1]
		for _, e := range p.Ledger {
			if !r.After && e.From < r.By && r.By <= e.To {
				r.Doing = e
				break
			}
		}
		out = append(out, r)
	}
	slices.SortStableFunc(out, func(a, b Relief) int { return int(min(max(a.By-b.By, -1), 1)) })
	return out
}
