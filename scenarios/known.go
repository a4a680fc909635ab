package scenarios

import (
	"math/big"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
	"warmby/sim/daylight"
)

// known is what reading a file that is right has found. Trees made of its tree,
// for a what-if or a sweep, share most of their values with it, and what is known
// of those is not worked out anew. It is not changed once made.
type known struct {
	values  map[*yaml.Node]*big.Rat
	laws    map[*yaml.Node]sim.Distribution
	checked map[*yaml.Node]shape
	drill   *sim.Drill
}

// found returns what a builder has found.
func (b *builder) found() *known {
	return &known{b.values, b.laws, b.checked, b.d}
}

// checkOnce lets a shape check a value, unless it has found nothing wrong with it
// before. The shape must be comparable.
func (r *reader) checkOnce(s shape, n *yaml.Node, check func(*reader, *yaml.Node)) {
	if r.checked[n] == s {
		return
	}
	before := len(r.list)
	check(r, n)
	if len(r.list) == before && !r.bad[n] {
		r.checked[n] = s
	}
}

// light returns when it grows dark and light again at a site.
func (k *known) light(s *sim.Site) []sim.Light {
	if k != nil {
		old := &k.drill.Site
		if len(k.drill.Light) > 0 && s.Latitude == old.Latitude && s.Longitude == old.Longitude && s.Arrival.Equal(old.Arrival) {
			return k.drill.Light
		}
	}
	return daylight.Changes(s.Latitude, s.Longitude, s.Arrival, sim.Horizon)
}
