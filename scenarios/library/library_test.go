package library_test

import (
	"fmt"
	"strings"
	"testing"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/inside"
	"warmby/sim/reference"
)

// read returns a shipped scenario, soundly read.
func read(t *testing.T, name string) *scenarios.Scenario {
	t.Helper()
	src, ok := library.Read(name)
	if !ok {
		t.Fatalf("Read(%q): no such scenario", name)
	}
	s, err := scenarios.Read(name+".yaml", src)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return s
}

func TestNamesBeginWithTheDefaultAndKeepTheirOrder(t *testing.T) {
	want := []string{"kestrel-fell", "harl-plateau", "harl-plateau-morning", "lake-ossamer", "ravengill"}
	for range 3 {
		if got := library.Names(); fmt.Sprint(got) != fmt.Sprint(want) {
			t.Fatalf("Names() = %q, want %q", got, want)
		}
	}
	if library.Names()[0] != library.Default {
		t.Errorf("Names()[0] = %q, want the default %q", library.Names()[0], library.Default)
	}
}

func TestReadTakesNamesWithAndWithoutEnding(t *testing.T) {
	for _, name := range library.Names() {
		short, ok := library.Read(name)
		long, okLong := library.Read(name + ".yaml")
		if !ok || !okLong || len(short) == 0 || string(short) != string(long) {
			t.Errorf("Read(%q) and Read(%q): %d and %d bytes, %v and %v, want the same text", name, name+".yaml", len(short), len(long), ok, okLong)
		}
	}
	for _, name := range []string{"", ".yaml", "no-such-fell", "kestrel-fell.yaml.yaml", "../library/kestrel-fell", "KESTREL-FELL"} {
		if src, ok := library.Read(name); ok || src != nil {
			t.Errorf("Read(%q) = %d bytes, %v, want nothing", name, len(src), ok)
		}
	}
}

func TestReadGivesACopyOfItsOwn(t *testing.T) {
	src, _ := library.Read(library.Default)
	src[0] = 'X'
	again, _ := library.Read(library.Default)
	if again[0] == 'X' {
		t.Error("writing to the text of one Read changed that of the next")
	}
}

// A shipped scenario is a whole evening and not a toy.
func TestShippedScenariosAreWholeEvenings(t *testing.T) {
	for _, name := range library.Names() {
		t.Run(name, func(t *testing.T) {
			s := read(t, name)
			d, err := s.Drill("")
			if err != nil {
				t.Fatal(err)
			}
			if own := tasksOfTheFile(d); own < 20 || own > 60 {
				t.Errorf("%d tasks of its own, want 20 to 60", own)
			}
			if n := len(s.Orders()); n < 3 {
				t.Errorf("%d orders, want at least 3 to compare", n)
			}
			if n := len(s.WhatIfs()); n < 2 {
				t.Errorf("%d what-ifs, want at least 2", n)
			}
		})
	}
}

// tasksOfTheFile counts tasks without unloading, one that each person does for
// himself as one.
func tasksOfTheFile(d *sim.Drill) int {
	own := map[string]bool{}
	for i := range d.Tasks {
		if !d.Tasks[i].Unloads() {
			name, _, _ := strings.Cut(d.Tasks[i].Name, ": ")
			own[name] = true
		}
	}
	return len(own)
}

func TestShippedScenariosHaveTheMilestonesPeopleAskAbout(t *testing.T) {
	want := map[string][]string{
		"kestrel-fell":         {"shelter up", "heated", "hot drink", "ready for the night"},
		"ravengill":            {"casualty sheltered", "warm drink", "shelter up", "hot drink", "ready for the night"},
		"lake-ossamer":         {"shelter up", "heated", "hot drink", "ready for the night"},
		"harl-plateau":         {"shelter up", "heated", "dogs fed", "heated and dogs fed", "hot drink", "ready for the night"},
		"harl-plateau-morning": {"heated", "hot drink", "tent down", "under way"},
	}
	for _, name := range library.Names() {
		d, err := read(t, name).Drill("")
		if err != nil {
			t.Fatal(err)
		}
		has := map[string]bool{}
		for _, m := range d.Milestones {
			has[m.Name] = true
		}
		for _, m := range want[name] {
			if !has[m] {
				t.Errorf("%s has no milestone %q", name, m)
			}
		}
	}
}

// plausibleFinish bounds how long an evening lasts: nobody settles twelve
// people in an hour, and nobody is still up after seven.
const (
	soonestFinish = 90 * sim.Minute
	latestFinish  = 7 * sim.Hour
)

func TestShippedScenariosReachAllMilestonesUnderEveryOrderAndWhatIf(t *testing.T) {
	eachDrill(t, func(label string, d *sim.Drill) {
		tl := reference.Play(d, draw.Usual(d))
		for i, m := range d.Milestones {
			if tl.Milestones[i] == sim.Never {
				t.Errorf("%s: milestone %q is never reached", label, m.Name)
			}
		}
		if f := tl.Finish(); f < soonestFinish || f > latestFinish {
			t.Errorf("%s: finish after %s, want %s to %s", label, sim.Clock(f), sim.Clock(soonestFinish), sim.Clock(latestFinish))
		}
	})
}

// Whoever is hurt takes a helper from any group, by luck the only one who
// may light a stove: an order must not leave the others waiting for ever.
func TestNoLuckLeavesAShippedScenarioStuck(t *testing.T) {
	const runs = 200
	eachDrill(t, func(label string, d *sim.Drill) {
		p := fast.Compile(d)
		w := p.Worker()
		var r fast.Result
		for run := range runs {
			if w.Run(1, run, &r); r.Stops != nil {
				t.Errorf("%s, seed 1, run %d: %v", label, run, r.Stops)
				return
			}
			if r.Milestones[len(r.Milestones)-1] == sim.Never {
				t.Errorf("%s, seed 1, run %d: never finishes", label, run)
				return
			}
		}
	})
}

// eachDrill calls f with every shipped scenario under every order, as it is
// and under each of its what-ifs.
func eachDrill(t *testing.T, f func(label string, d *sim.Drill)) {
	t.Helper()
	for _, name := range library.Names() {
		s := read(t, name)
		for _, whatIf := range append([]string{""}, s.WhatIfs()...) {
			changed := s
			if whatIf != "" {
				var err error
				if changed, err = s.WhatIf(whatIf); err != nil {
					t.Errorf("%s, %q: %v", name, whatIf, err)
					continue
				}
			}
			for _, order := range changed.Orders() {
				label := strings.TrimSuffix(strings.Join([]string{name, order, whatIf}, ", "), ", ")
				d, err := changed.Drill(order)
				if err != nil {
					t.Errorf("%s: %v", label, err)
					continue
				}
				f(label, d)
			}
		}
	}
}

// A lit stove is never left alone for over a minute, under any order, at the usual
// values. (Under some what-ifs it is: warmby check says so.)
func TestNoShippedScenarioLeavesALitStoveAlone(t *testing.T) {
	burns := 0
	for _, name := range library.Names() {
		s := read(t, name)
		for _, order := range s.Orders() {
			d, err := s.Drill(order)
			if err != nil {
				t.Fatal(err)
			}
			tl := reference.Play(d, draw.Usual(d))
			burns += len(inside.Burns(tl))
			for _, l := range inside.Alone(tl) {
				t.Errorf("%s, %s: %q burns with nobody there from %s to %s", name, order, d.Tasks[l.Task].Name, sim.Clock(l.From), sim.Clock(l.To))
			}
		}
	}
	if burns < 10 {
		t.Errorf("stoves burn %d times in shelters: too few to tell", burns)
	}
}
