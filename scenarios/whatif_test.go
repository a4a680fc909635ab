package scenarios

import (
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
)

// changedEvening reads the evening with a what-if of its own and returns the
// scenario under it.
func changedEvening(t *testing.T, change string) *Scenario {
	t.Helper()
	src, err := os.ReadFile("testdata/evening.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := Read("evening.yaml", []byte(string(src)+"  this: "+change+"\n"))
	if err != nil {
		t.Fatal(err)
	}
	changed, err := s.WhatIf("this")
	if err != nil {
		t.Fatal(err)
	}
	return changed
}

func TestAbsentPeopleAreGoneEverywhere(t *testing.T) {
	s := changedEvening(t, "{people: {Berend: absent, Aila: absent}}")
	d, err := s.Drill("two groups")
	if err != nil {
		t.Fatal(err)
	}
	if len(d.People) != 2 || d.People[1].Name != "Ciro" {
		t.Errorf("people %+v", d.People)
	}
	// Both who may stand there are absent.
	if len(d.Lookouts) != 0 {
		t.Errorf("lookouts %+v, want none", d.Lookouts)
	}
	if !cmp.Equal(d.Groups[0].People, []int{0, 1}) || len(d.Groups[1].People) != 0 {
		t.Errorf("groups of %v and %v", d.Groups[0].People, d.Groups[1].People)
	}
}

func TestTheHurtStandOutWithTheirHelpers(t *testing.T) {
	d := changedEvening(t, "{people: {Berend: absent, Aila: {hurt: 20 min, helpers: 2}}}").drill
	want := []sim.Lookout{
		{Name: "north post", Places: 1, From: 10 * sim.Minute, Relief: 20 * sim.Minute, Spot: 3, Who: []int{1}, Longest: 40 * sim.Minute},
		{Name: "hurt: Aila", Places: 1, From: 20 * sim.Minute, Who: []int{1}, IfNobody: sim.Pull, Effort: sim.Resting, Hurt: true},
		{Name: "with Aila", Places: 2, From: 20 * sim.Minute, Who: []int{0, 2}, IfNobody: sim.Pull, Effort: sim.Low},
	}
	if diff := cmp.Diff(want, d.Lookouts); diff != "" {
		t.Errorf("lookouts (-want +got):\n%s", diff)
	}
}

func TestTheHurtLieWhereTheChangeSays(t *testing.T) {
	d := changedEvening(t, "{people: {Aila: {hurt: 20 min, spot: inside}}}").drill
	for _, l := range d.Lookouts[1:] {
		if d.Spots[l.Spot].Name != "inside" {
			t.Errorf("%s is at %s, want inside", l.Name, d.Spots[l.Spot].Name)
		}
	}
	if len(d.Lookouts) != 3 {
		t.Errorf("%d lookouts, want 3", len(d.Lookouts))
	}
}

func TestHurtWithoutHelpers(t *testing.T) {
	d := changedEvening(t, "{people: {Aila: {hurt: 20 min, helpers: 0, pace: 0.5}}}").drill
	if len(d.Lookouts) != 2 || d.People[1].Pace != 500 {
		t.Errorf("%d lookouts, pace %d", len(d.Lookouts), d.People[1].Pace)
	}
}

func TestChangesLeaveTheRestAsItIs(t *testing.T) {
	s := readGood(t, "evening.yaml")
	changed := changedEvening(t, "{stoves: {heater: {count: 0}}, site: {snow: {temperature: -3 C}}, tools: {shovel: 2}, teamwork: 1, loads: {pulk: {arrives: 9 min}}, tasks: {let it set: {takes: 5 min}, serve tea: {work: {uniform: [1 min, 2 min]}}, tramp the floor: {work: {exponential: 4 min}}}}").drill
	was := s.drill
	if was.Stoves[0].Count != 1 || changed.Stoves[0].Count != 0 || changed.Stoves[0].Power != was.Stoves[0].Power || changed.Stoves[1].Count != 2 {
		t.Errorf("stoves %+v", changed.Stoves)
	}
	if changed.Site.SnowTemperature != -3 || changed.Site.SnowDepth != was.Site.SnowDepth || was.Site.SnowTemperature != -12 {
		t.Errorf("site %+v", changed.Site)
	}
	tea := changed.Tasks[changed.TaskNamed("serve tea")]
	if tea.Kind != sim.Work || tea.Teamwork != 1 || len(tea.After) != 1 || was.Tasks[was.TaskNamed("serve tea")].Kind != sim.Takes {
		t.Errorf("serve tea = %+v", tea)
	}
	for i, want := range []int{1, 2, 0} { // axe, shovel, pot: what is carried by hand
		if changed.Tools[i].Count != want {
			t.Errorf("tool %q: %d by hand, want %d", changed.Tools[i].Name, changed.Tools[i].Count, want)
		}
	}
	if got := changed.Loads[0].Arrives.Usual(); got != 540_000 {
		t.Errorf("pulk arrives at %v ms", got)
	}
}

func TestAWeatherCaseMayBeMadeCertain(t *testing.T) {
	src := `warmby: 1
title: a
weather: {calm: {weight: 70 %, rows: {at: 0 min, air: -5 C}}, storm: {weight: 30 %, rows: {at: 0 min, air: -9 C, wind: 20 m/s}}}
people: {name: A}
tasks: {a: {takes: 1 min}}
what if: {storm: {weather: {calm: {weight: 0 %}}}}
`
	s, err := Read("w.yaml", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	w, err := s.WhatIf("storm")
	if err != nil {
		t.Fatal(err)
	}
	if c := w.drill.Weather; len(c) != 2 || c[0].Weight != 0 || c[1].Weight != 0.3 || c[1].Rows[0].Wind != 20 {
		t.Errorf("weather %+v", c)
	}
}
