package scenarios

import (
	"fmt"
	"math/big"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
	"warmby/sim/heat"
)

// leastWater is the least water that may be melted, and the smallest pot, in
// litres.
var leastWater = big.NewRat(1, 1_000_000)

func (b *builder) readMelt(t *sim.Task, n *yaml.Node) {
	m := &sim.Melting{
		Water: b.value(n, "water"), Start: b.value(n, "start with"), Pot: b.value(n, "pot"),
		Boil: b.text(n, "to") == "boil", To: b.float(n, "to", 0),
		IceHole: b.text(n, "from") == "ice hole", Handling: b.ms(n, "handling"),
	}
	t.Melt = m
	if stove := b.get(n, "stove"); stove != nil {
		m.Stove, _ = b.find(b.stoves, stove)
	}
	if m.Water != nil && m.Water.Cmp(leastWater) < 0 {
		b.failGot(b.get(n, "water"), "must be at least a thousandth of a millilitre", "such as \"2 L\"")
	}
	if m.Pot != nil && m.Pot.Cmp(leastWater) < 0 {
		b.failGot(b.get(n, "pot"), "must be at least a thousandth of a millilitre", "such as \"2 L\"")
	}
	if m.Start != nil && m.Water != nil && m.Start.Cmp(m.Water) > 0 {
		b.failGot(b.get(n, "start with"), "must not be more than water", "start with counts towards water")
	}
	if to := b.value(n, "to"); to != nil && !m.Boil {
		if boils, ok := heat.BoilingPoint(b.d.Site.Elevation); ok && m.To > max(boils, 0) && !b.brokenSite("elevation") {
			b.failGot(b.get(n, "to"), fmt.Sprintf("water boils at %.1f C at the site's elevation", boils), "write \"to: boil\"")
		}
	}
	snow := b.get(b.get(b.doc.root, "site"), "snow")
	if !m.IceHole && !(b.has(n, "from") && b.get(n, "from") == nil) && b.absent(snow, "temperature") && !b.brokenSite("snow") {
		b.fail(n, "melting snow needs its temperature", "give site snow temperature, or \"from: ice hole\"")
	}
}

func (b *builder) readWarm(t *sim.Task, n *yaml.Node) {
	w := &sim.Warming{To: b.float(n, "to", 0), People: b.whole(n, "people", 0)}
	t.Warm = w
	if shelter := b.get(n, "shelter"); shelter != nil {
		w.Shelter, _ = b.find(b.shelters, shelter)
	}
	if stove := b.get(n, "stove"); stove != nil {
		w.Stove, _ = b.find(b.stoves, stove)
	}
	if b.absent(b.doc.root, "weather") {
		b.fail(n, "a warm-up needs weather, and the file has none", "add \"weather:\" with the air temperature")
	}
}
