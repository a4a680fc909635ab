package split_test

import (
	"testing"

	"warmby/sim"
	"warmby/sim/split"
)

// Without B the first two of the camp are A alone: under the order of the file
// it unloads for 10 min, digs for 10 and pitches for 20. A split found for two
// people keeps its groups, and those left do what they can.
func TestACaseMissesWhoIsAbsent(t *testing.T) {
	d := camp(3)
	for i := range d.People {
		d.People[i].Skills = d.People[i].Skills.With(0)
	}
	without := *d
	without.People = []sim.Person{d.People[0], d.People[2]}
	away := without.Under(sim.Order{Name: d.Order})
	g := split.Game{Bare: d.Under(sim.Order{}), Orders: []*sim.Drill{d}, Workers: 1}
	size, err := g.Size(ctx, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	c := &split.Case{Bare: without.Under(sim.Order{}), Orders: []*sim.Drill{away}}
	played, err := g.Case(ctx, size, c)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range played {
		if p == nil {
			t.Errorf("split %d cannot be played without B", i)
			continue
		}
		if n := len(p.Drill.People); n != 1 || p.Drill.People[0].Name != "A" {
			t.Errorf("split %d: %d people, want A alone", i, n)
		}
		if got, want := len(p.Drill.Groups), len(size.Splits[i].Drill.Groups); got != want {
			t.Errorf("split %d: %d groups, want %d still", i, got, want)
		}
		if at := p.Times[0][0]; at < 40*sim.Minute {
			t.Errorf("split %d: shelter up at %s, and A alone takes 40 min", i, sim.Clock(at))
		}
		if size.Splits[i].Order != "" && p.Times[0][0] != 40*sim.Minute {
			t.Errorf("under the order of the file at %s, want 40 min", sim.Clock(p.Times[0][0]))
		}
	}
	// A case that changes nothing gives the same times.
	same, err := g.Case(ctx, size, &split.Case{Bare: g.Bare, Orders: g.Orders})
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range same {
		if got, want := p.Times[0][0], size.Splits[i].Times[0][0]; got != want {
			t.Errorf("split %d as it stands: %s, and %s as a case", i, sim.Clock(want), sim.Clock(got))
		}
	}
}
