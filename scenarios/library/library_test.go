package library_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/inside"
	"warmby/sim/oddity"
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

// A lit stove is never left alone for over a minute, under any order and what-if, at
// the usual values.
func TestNoShippedScenarioLeavesALitStoveAlone(t *testing.T) {
	burns := 0
	eachEvening(t, func(label string, tl *sim.Timeline) {
		burns += len(inside.Burns(tl))
		for _, l := range inside.Alone(tl) {
			t.Errorf("%s: %q burns with nobody there from %s to %s", label, tl.Drill.Tasks[l.Task].Name, sim.Clock(l.From), sim.Clock(l.To))
		}
	})
	if burns < 100 {
		t.Errorf("stoves burn %d times in shelters: too few to tell", burns)
	}
}

// What is warmed is used: under any order and what-if somebody works or rests there
// from then on, who does not just watch the stove.
func TestNoShippedScenarioWarmsAShelterForNobody(t *testing.T) {
	eachEvening(t, func(label string, tl *sim.Timeline) {
		for _, r := range oddity.Played(tl) {
			if r.Kind == oddity.NothingInside {
				t.Errorf("%s: %q is warm from %s on for nobody", label, tl.Drill.Shelters[r.Shelter].Name, sim.Clock(r.At))
			}
		}
	})
}

// No warm-up counts on the warmth of people who are not there: with those who are
// inside while it goes on, its shelter is as warm as asked no more than a minute
// later.
func TestNoShippedScenarioCountsOnPeopleWhoAreNotInside(t *testing.T) {
	warmed := 0
	eachEvening(t, func(label string, tl *sim.Timeline) {
		for _, a := range inside.Assumed(tl) {
			warmed++
			if end := tl.Tasks[a.Task].End; a.End > end+sim.Minute {
				t.Errorf("%s: %q ends at %s counting on %d inside; with the %.1f who were there at %s",
					label, tl.Drill.Tasks[a.Task].Name, sim.Clock(end), a.People, a.Warming, sim.Clock(a.End))
			}
		}
	})
	if warmed < 100 {
		t.Errorf("%d warm-ups: too few to tell", warmed)
	}
}

// eachEvening plays every shipped scenario under every order, as it is and under
// each of its what-ifs, at the usual values.
func eachEvening(t *testing.T, f func(label string, tl *sim.Timeline)) {
	t.Helper()
	eachDrill(t, func(label string, d *sim.Drill) { f(label, reference.Play(d, draw.Usual(d))) })
}

// An order that is warm enough keeps everybody within the limit of cold in most
// evenings; each shipped scenario has one, and one that does not, or there would be
// nothing to ask. The shares are held clear of a half by more than luck: three
// standard errors of so many runs are 0.034.
func TestEachShippedScenarioHasAWarmOrderAndAColdOne(t *testing.T) {
	const runs = 2000
	for _, name := range library.Names() {
		s, warm, cold := read(t, name), "", ""
		var shares []string
		for _, order := range s.Orders() {
			d, err := s.Drill(order)
			if err != nil {
				t.Fatal(err)
			}
			share := float64(runs-overLimit(d, runs)) / runs
			shares = append(shares, fmt.Sprintf("%s %.3f", order, share))
			if share > 0.5+0.034 {
				warm = order
			}
			if share < 0.5 {
				cold = order
			}
		}
		if warm == "" || cold == "" {
			t.Errorf("%s: nobody over the limit in these shares of evenings: %s; want one order over a half and one under", name, strings.Join(shares, ", "))
		}
	}
}

// overLimit counts the evenings of many in which somebody passes the limit of cold.
func overLimit(d *sim.Drill, runs int) (over int) {
	w, m := fast.Compile(d).Worker(), cold.NewMeter(d)
	var tl sim.Timeline
	var peaks []cold.Peak
	for run := range runs {
		w.Record(1, run, &tl)
		peaks = m.Peaks(&tl, peaks[:0])
		if slices.ContainsFunc(peaks, func(p cold.Peak) bool { return p.PassedAt != sim.Never }) {
			over++
		}
	}
	return over
}
