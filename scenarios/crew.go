package scenarios

import (
	"fmt"
	"math/big"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// readCrew reads who does a task: crew, skills, teamwork and joining.
func (b *builder) readCrew(t *sim.Task, v *yaml.Node) {
	crew := b.get(v, "crew")
	switch {
	case crew == nil:
	case crew.Value == wholeGroup:
		t.Everybody = true
		everybody := max(1, len(b.people.list)-len(b.unfit))
		t.Crew = sim.Crew{Min: everybody, Max: everybody}
	default:
		t.Crew, _ = parseCrew(crew.Value)
	}
	b.readRoles(t, b.get(v, "skills"))
	worked := t.Worked()
	if worked && countKinds(v) == 1 && crew != nil && t.Crew.Max == 0 {
		b.failGot(crew, "work needs a crew", "somebody has to do it; a wait is \"takes\"")
	}
	if n := t.RoleCount(); n > t.Crew.Max && b.ok(crew) || n > t.Crew.Max && b.absent(v, "crew") {
		b.fail(keyOf(v, "skills"), fmt.Sprintf("asks for %d people with skills, the crew has %d at most", n, t.Crew.Max), "make the crew larger, or ask for fewer")
	}
	t.Joinable = worked && t.Crew.Max > t.Crew.Min && b.yes(v, "joinable", true)
	t.Teamwork = b.float(v, "teamwork", t.Teamwork)
	if worked || countKinds(v) != 1 {
		return
	}
	for _, key := range []string{"slowed", "teamwork", "joinable"} {
		if key == "slowed" && t.Kind == sim.Melt {
			continue
		}
		if k := keyOf(v, key); k != nil && b.ok(k) {
			only := "work and timed only"
			if key == "slowed" {
				only = "work, timed and melt only"
			}
			b.fail(k, fmt.Sprintf("%s belongs to %s", key, only), "clock time is not changed by crew, pace or conditions")
			if n := b.get(v, key); n != nil {
				b.bad[n] = true
			}
		}
	}
}

func countKinds(v *yaml.Node) int {
	n := 0
	for _, kind := range kinds {
		if keyOf(v, kind) != nil {
			n++
		}
	}
	return n
}

func (b *builder) readRoles(t *sim.Task, n *yaml.Node) {
	b.pairs(n, func(k, v *yaml.Node) {
		if !b.ok(v) {
			return
		}
		i, ok := b.skill(k)
		switch {
		case !ok:
		case v.Value == "all":
			t.All = t.All.With(i)
		case b.values[v] != nil:
			t.Roles = append(t.Roles, sim.Role{Skill: i, Count: b.number(v)})
		}
	})
}

// readSlowed reads the conditions that slow a task, and refuses those about
// which the scenario knows nothing.
func (b *builder) readSlowed(t *sim.Task, n *yaml.Node) {
	for _, one := range b.each(n) {
		when, to := b.get(one, "when"), b.value(one, "to")
		if when == nil || to == nil {
			continue
		}
		c, _, _ := parseCondition(when.Value)
		if !b.known(when, c) {
			continue
		}
		t.Slowed = append(t.Slowed, sim.Slowdown{When: c, To: new(big.Rat).Set(to)})
	}
}

func (b *builder) known(n *yaml.Node, c sim.Condition) bool {
	root := b.doc.root
	switch {
	case (c.Kind == sim.AirBelow || c.Kind == sim.WindOver) && b.absent(root, "weather"):
		b.failGot(n, "a condition on air or wind needs weather, and the file has none", "add \"weather:\"")
	case (c.Kind == sim.Dark || c.Kind == sim.DarkWithLights) && !b.lightKnown() && !b.brokenSite("latitude", "longitude", "arrival"):
		b.failGot(n, "darkness needs a place and a date", "give site latitude, longitude and arrival")
	case c.Kind == sim.SnowDeeper && b.value(b.get(b.get(root, "site"), "snow"), "depth") == nil && !b.brokenSite("snow"):
		b.failGot(n, "a condition on snow needs its depth", "give site snow depth")
	default:
		return true
	}
	return false
}

// brokenSite reports whether keys of the site stand there and are wrong, so
// that what follows from them is not reported as missing.
func (b *builder) brokenSite(keys ...string) bool {
	site := keyOf(b.doc.root, "site")
	if site == nil {
		return false
	}
	n := b.get(b.doc.root, "site")
	if n == nil {
		return true
	}
	for _, key := range keys {
		if b.has(n, key) && b.get(n, key) == nil {
			return true
		}
		if key == "snow" && b.has(b.get(n, key), "depth") && b.value(b.get(n, key), "depth") == nil {
			return true
		}
	}
	return false
}
