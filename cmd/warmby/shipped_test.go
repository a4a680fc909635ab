package main

import (
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"warmby/internal/thorough"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/bound"
	"warmby/sim/draw"
	"warmby/sim/reference"
)

// eachDrill calls a function with every drill of every shipped scenario: each
// order, as the scenario stands and with each what if.
func eachDrill(t *testing.T, do func(name string, d *sim.Drill)) {
	t.Helper()
	e := environment{stderr: io.Discard}
	for _, name := range library.Names() {
		s, err := e.load(name)
		if err != nil {
			t.Fatal(err)
		}
		changes := append([]string{""}, s.Scenario.WhatIfs()...)
		for _, order := range s.Scenario.Orders() {
			for _, change := range changes {
				d, err := s.Drill(order, change)
				if err != nil {
					t.Fatal(err)
				}
				do(name+", "+order+", "+change, d)
			}
		}
	}
}

func TestEnginesAgreeOnShippedScenarios(t *testing.T) {
	played := 0
	eachDrill(t, func(name string, d *sim.Drill) {
		for run := range thorough.Cases(2, 40) {
			tl := reference.Play(d, draw.Run(d, 1, run))
			played++
			if how := differs(tl); how != "" {
				t.Errorf("%s, run %d: the engines differ: %s", name, run, how)
			}
		}
	})
	if played < 50 {
		t.Errorf("only %d drills could be played", played)
	}
}

func TestShippedScenariosPassCheck(t *testing.T) {
	for _, name := range library.Names() {
		answer(t, "warmby", "check", name)
	}
}

func TestSoonestComesBeforeWhatIsPlayed(t *testing.T) {
	eachDrill(t, func(name string, d *sim.Drill) {
		tl := playUsual(d)
		best := bound.Soonest(d)
		for m, at := range tl.Milestones {
			if best[m] > at {
				t.Errorf("%s: %q came after %s, which is held impossible before %s",
					name, d.Milestones[m].Name, sim.Clock(at), sim.Clock(best[m]))
			}
		}
	})
}

// Lake Ossamer without its stove watches has heaters that burn alone: check names
// each of them with shelter, length and order. As it is shipped it names none.
func TestHeatersThatBurnAloneAreNamed(t *testing.T) {
	src, _ := library.Read("lake-ossamer")
	from, to := strings.Index(string(src), "  watch three:"), strings.Index(string(src), "  bear watch:")
	if from < 0 || to < from {
		t.Fatal("lake-ossamer has no stove watches in one piece")
	}
	file := filepath.Join(t.TempDir(), "unwatched.yaml")
	if err := os.WriteFile(file, []byte(string(src[:from])+string(src[to:])), 0o666); err != nil {
		t.Fatal(err)
	}
	alone := func(what string) []string {
		text := strings.Join(strings.Fields(answer(t, "warmby", "check", what, "--all")), " ")
		return regexp.MustCompile(`Order "[^"]*": "[^"]*" burns in "[^"]*" with nobody there for [^,]*, from [^(]*on \("[^"]*"\)`).FindAllString(text, -1)
	}
	named := strings.Join(alone(file), "\n")
	for _, want := range []string{`"heater" burns in "tent two"`, `"heater" burns in "tent three"`} {
		if !strings.Contains(named, `Order "three groups": `+want) {
			t.Errorf("check does not name %s; it names:\n%s", want, named)
		}
	}
	if shipped := alone("lake-ossamer"); len(shipped) > 0 {
		t.Errorf("as shipped:\n%s", strings.Join(shipped, "\n"))
	}
}
