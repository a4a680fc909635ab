package oddity_test

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/oddity"
	"warmby/sim/reference"
)

// camp is an evening of two people with something to be changed in it.
const camp = `warmby: 1
title: A camp
weather: [{at: 0 min, air: -20 C, wind: 3 m/s}]
people:
  - {name: Aila, clothing: {like: expedition}}
  - {name: Berend, clothing: {like: expedition}}
spots: {camp: {walk: 0 min}, inside: {walk: 0 min, in: hut}}
shelters: {hut: {like: wall tent}}
stoves: {heater: {power: 12 kW, efficiency: 65 %, fuel: white gas, flue: true}, burner: {like: alcohol burner}}
tasks:
`

// played plays a camp with some tasks.
func played(t *testing.T, tasks string) *sim.Timeline {
	t.Helper()
	s, err := scenarios.Read("camp.yaml", []byte(camp+tasks))
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill("")
	if err != nil {
		t.Fatal(err)
	}
	tl := reference.Play(d, draw.Usual(d))
	return tl
}

func found(list []oddity.Remark, kind oddity.Kind) *oddity.Remark {
	if i := slices.IndexFunc(list, func(r oddity.Remark) bool { return r.Kind == kind }); i >= 0 {
		return &list[i]
	}
	return nil
}

func TestJacketsPutOnLate(t *testing.T) {
	tasks := func(wait string) string {
		return "  wait: {takes: " + wait + ", crew: 0}\n  jackets: {takes: 1 min, each: true, layers on: true, after: [wait]}\n"
	}
	r := found(oddity.Played(played(t, tasks("20 min"))), oddity.JacketLate)
	if r == nil || r.Person != 0 || r.At != 0 || r.To < 20*sim.Minute || r.Value != 1 {
		t.Errorf("both stand about for 20 min; found %+v", r)
	}
	if r := found(oddity.Played(played(t, tasks("10 min"))), oddity.JacketLate); r != nil {
		t.Errorf("10 min are let pass; found %+v", r)
	}
	work := "  dig: {work: 60 min, crew: 2, effort: high}\n  jackets: {takes: 1 min, each: true, layers on: true, after: [dig]}\n"
	if r := found(oddity.Played(played(t, work)), oddity.JacketLate); r != nil {
		t.Errorf("who works hard is warm in what is worn on the march; found %+v", r)
	}
	if r := found(oddity.Played(played(t, "  wait: {takes: 40 min, crew: 0}\n")), oddity.JacketLate); r != nil {
		t.Errorf("no task puts layers on; found %+v", r)
	}
}

func TestWhoNeverEatsOrDrinks(t *testing.T) {
	const long = "  sleep: {takes: 150 min, crew: 0}\n"
	both := oddity.Played(played(t, long))
	if found(both, oddity.NobodyEats) == nil || found(both, oddity.NobodyDrinks) == nil {
		t.Error("no task is for either, and that is not found")
	}
	fed := oddity.Played(played(t, long+"  sit down: {what: Porridge for all, takes: 10 min}\n  tea: {takes: 10 min}\n"))
	if found(fed, oddity.NobodyEats) != nil || found(fed, oddity.NobodyDrinks) != nil {
		t.Error("porridge and tea are for all")
	}
	one := found(oddity.Played(played(t, long+"  eat supper: {takes: 10 min, each: true, who: [Aila]}\n  drink: {takes: 1 min}\n")), oddity.NeverEats)
	if one == nil || one.Person != 1 {
		t.Errorf("Berend has no supper; found %+v", one)
	}
	if found(oddity.Played(played(t, "  dig: {takes: 60 min}\n")), oddity.NobodyEats) != nil {
		t.Error("nobody must eat within an hour")
	}
}

func TestShelterWarmedForNobody(t *testing.T) {
	const warm = "  warm: {warm: {shelter: hut, stove: heater, to: 0 C, people: 0}, crew: 0}\n  work: {work: 400 min, crew: 2, spot: camp}\n"
	r := found(oddity.Played(played(t, warm)), oddity.NothingInside)
	if r == nil || r.Shelter != 0 {
		t.Errorf("both work outdoors to the end; found %+v", r)
	}
	if found(oddity.Played(played(t, warm+"  socks: {takes: 5 min, spot: inside, after: [work]}\n")), oddity.NothingInside) != nil {
		t.Error("socks are dried inside")
	}
	if found(oddity.Played(played(t, warm+"  wait: {takes: 300 min, crew: 0, spot: camp}\n")), oddity.NothingInside) != nil {
		t.Error("who is free goes in")
	}
}

func TestLittleWater(t *testing.T) {
	const long = "  sleep: {takes: 150 min, crew: 0}\n"
	melt := func(litres string) string {
		return long + "  tea: {melt: {water: " + litres + ", to: boil, stove: burner, from: ice hole}, spot: camp}\n"
	}
	if r := found(oddity.Played(played(t, melt("1 L"))), oddity.LittleWater); r == nil || r.Value != 0.5 {
		t.Errorf("half a litre a head; found %+v", r)
	}
	if r := found(oddity.Played(played(t, melt("1.5 L"))), oddity.LittleWater); r != nil {
		t.Errorf("three quarters of a litre are enough; found %+v", r)
	}
}

func TestTargetsSeldomMet(t *testing.T) {
	s, err := scenarios.Read("camp.yaml", []byte(camp+"  dig: {takes: [10 min, 20 min, 60 min]}\nmilestones:\n  early: {when: [dig], by: 18 min}\n  late: {when: [dig], by: 50 min}\n"))
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill("")
	if err != nil {
		t.Fatal(err)
	}
	p, err := compare.Play(t.Context(), []*sim.Drill{d}, compare.Batch{Seed: 1, Runs: 200, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	list := oddity.Seldom(p)
	if len(list) != 1 || list[0].Index != 0 || list[0].Share.Value >= 0.5 {
		t.Errorf("only the early target is seldom met; found %+v", list)
	}
}

// What is odd about a shipped scenario is odd: the looks at jackets, food and water
// find nothing there.
func TestShippedScenariosFeedAndClothePeople(t *testing.T) {
	for _, name := range library.Names() {
		data, _ := library.Read(name)
		s, err := scenarios.Read(name, data)
		if err != nil {
			t.Fatal(err)
		}
		for _, order := range s.Orders() {
			d, err := s.Drill(order)
			if err != nil {
				t.Fatal(err)
			}
			tl := reference.Play(d, draw.Usual(d))
			for _, r := range oddity.Played(tl) {
				switch r.Kind {
				case oddity.JacketLate, oddity.NobodyEats, oddity.NobodyDrinks, oddity.NeverEats, oddity.NeverDrinks, oddity.LittleWater:
					t.Errorf("%s, %q: %+v", name, order, r)
				}
			}
		}
	}
}

// Of an exponential law 1 - 2^-0.1 of all draws are under a tenth of the median; of
// a log-normal law with spread 4 the normal law's share under ln 0.1 / ln 4.
func TestLawsThatOftenGiveNextToNothing(t *testing.T) {
	normalBelow := distuv.UnitNormal.CDF(math.Log(0.1) / math.Log(4))
	for _, c := range []struct {
		law   string
		often float64 // 0 where nothing is odd
	}{
		{"{exponential: 10 min}", 1 - math.Exp2(-0.1)},
		{"{lognormal: {median: 10 min, spread: 4}}", normalBelow},
		{"{lognormal: {median: 10 min, spread: 2}}", 0},
		{"[0 min, 10 min, 30 min]", 0},
		{"10 min", 0},
	} {
		tl := played(t, "  wait: {takes: "+c.law+", each: true}\n")
		list := slices.DeleteFunc(oddity.Of(tl.Drill), func(r oddity.Remark) bool { return r.Kind != oddity.NearNothing })
		switch {
		case c.often == 0 && len(list) > 0:
			t.Errorf("%s: %+v, want nothing", c.law, list)
		case c.often > 0 && (len(list) != 1 || math.Abs(list[0].Value-c.often) > 1e-4):
			t.Errorf("%s: %+v, want %.4f, once for all who do it", c.law, list, c.often)
		}
	}
}
