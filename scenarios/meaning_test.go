package scenarios

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
)

// wholeEvening has all keys that say who does what, when stoves go out, and
// what the account of cold asks.
const wholeEvening = `warmby: 1
title: Lantern Saddle
begin: road
free: {effort: moderate, go in: false}
spots:
  road: {walk: 4 min}
  inside: {in: tent}
weather: [{at: 0 min, air: -20 C}]
people:
  - {name: Ada, skills: [stove]}
  - {name: Bo, begin: inside}
  - {name: Cy, skills: [stove, lead]}
  - {name: Di, casualty: true}
shelters:
  tent: {like: wall tent, at start: 3 C}
stoves:
  heater: {like: tent heater}
  bare: {power: 3 kW, efficiency: 50 %}
tasks:
  pitch: {work: 20 min, crew: all}
  eat: {takes: 5 min, each: true, after: pitch, layers on: true, worn: halt, dry clothes: true}
  drink: {takes: 2 min, each: true, who: [Cy, Ada]}
  heat: {warm: {shelter: tent, stove: heater, to: 10 C}, spot: inside}
  douse: {takes: 1 min, spot: inside, puts out: [heater, bare], after: eat, who: Bo}
  fell: {work: 9 min, felling: true, can wait: true}
  count: {takes: 1 min, can wait: true, each: true}
lookouts:
  stove watch: {from: heat, until: douse, unless somebody works there: true, spot: inside}
  gate: {from: 5 min, until: 30 min}
  kitchen: {from: eat, until: [drink, fell], who: [Ada, Bo]}
milestones:
  fed: {when: [eat, drink]}
orders:
  plain: {sequence: [pitch, eat, heat]}
  apart:
    groups:
      one: {people: [Ada], sequence: [pitch, eat, heat]}
      two: {people: [Bo, Cy], sequence: [pitch, "drink: Ada", "eat: Cy", eat]}
what if:
  hurt: {people: {Cy: {hurt: 20 min}}}
  named: {people: {Ada: {hurt: 20 min, helpers: Cy}}}
  away: {people: {Bo: absent}}
`

func wholeDrill(t *testing.T, whatIf, order string) *sim.Drill {
	t.Helper()
	s, err := Read("whole", []byte(wholeEvening))
	if err == nil && whatIf != "" {
		s, err = s.WhatIf(whatIf)
	}
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill(order)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func taskNames(d *sim.Drill, tasks []int) string {
	var names []string
	for _, i := range tasks {
		names = append(names, d.Tasks[i].Name)
	}
	return strings.Join(names, ", ")
}

func TestWhatEachPersonDoesIsOneTaskAPerson(t *testing.T) {
	d := wholeDrill(t, "", "plain")
	want := "pitch, eat: Ada, eat: Bo, eat: Cy, heat, drink: Ada, drink: Cy, douse, fell, count: Ada, count: Bo, count: Cy"
	if got := taskNames(d, d.Groups[0].Sequence); got != want {
		t.Errorf("the sequence is %s, want %s", got, want)
	}
	douse := d.Tasks[d.TaskNamed("douse")]
	if got := len(douse.After); got != 3 {
		t.Errorf("douse comes after %d tasks, want those of all three", got)
	}
	if got := taskNames(d, d.Milestones[0].When); got != "eat: Ada, eat: Bo, eat: Cy, drink: Ada, drink: Cy" {
		t.Errorf("fed is when %s", got)
	}
	eat := d.Tasks[d.TaskNamed("eat: Cy")]
	if eat.Each != "eat" || !cmp.Equal(eat.Who, []int{2}) || eat.Crew != (sim.Crew{Min: 1, Max: 1}) {
		t.Errorf("eat: Cy is %+v", eat)
	}
}

// A group's sequence means its own people; what it does not name follows where
// somebody may do it.
func TestAGroupDoesWhatItsOwnPeopleDo(t *testing.T) {
	d := wholeDrill(t, "", "apart")
	for i, want := range []string{
		"pitch, eat: Ada, heat, fell, count: Ada",
		"pitch, drink: Ada, eat: Cy, eat: Bo, drink: Cy, douse, count: Bo, count: Cy",
	} {
		if got := taskNames(d, d.Groups[i].Sequence); got != want {
			t.Errorf("group %s does %s, want %s", d.Groups[i].Name, got, want)
		}
	}
	// Everybody of the smallest of the groups that have it; Di is a casualty and
	// belongs to the first.
	if got := d.Tasks[d.TaskNamed("pitch")].Crew; got != (sim.Crew{Min: 1, Max: 1}) {
		t.Errorf("pitch has a crew of %v, want everybody of group one", got)
	}
	if got := wholeDrill(t, "", "plain").Tasks[0].Crew; got != (sim.Crew{Min: 3, Max: 3}) {
		t.Errorf("pitch has a crew of %v, want everybody but the casualty", got)
	}
}

func TestTheHurtAndTheAbsentAreNotCountedOn(t *testing.T) {
	d := wholeDrill(t, "hurt", "apart")
	if got := taskNames(d, d.Groups[1].Sequence); got != "pitch, drink: Ada, douse" {
		t.Errorf("with Cy hurt and Bo beside him group two does %s", got)
	}
	if at := d.People[2].Hurt; at == nil || *at != 20*sim.Minute {
		t.Errorf("Cy is hurt at %v, want 20 min", at)
	}
	if got := d.Tasks[d.TaskNamed("pitch")].Crew.Min; got != 1 {
		t.Errorf("pitch calls %d, want 1", got)
	}
	last := len(d.Lookouts) - 1
	if got := d.Lookouts[last]; got.Name != "with Cy" || !cmp.Equal(got.Who, []int{1}) {
		t.Errorf("with Cy stays %+v, want Bo, who has the fewest skills", got)
	}
	d = wholeDrill(t, "named", "plain")
	if got := d.Lookouts[last]; !cmp.Equal(got.Who, []int{2}) {
		t.Errorf("with Ada stays %v, want Cy, who is named", got.Who)
	}
	// Who stays with Ada does there what each does, and nobody waits for him.
	if got := taskNames(d, d.Groups[0].Sequence); got != "pitch, eat: Bo, heat, douse, fell, count: Bo" {
		t.Errorf("with Ada hurt and Cy beside her they do %s", got)
	}
	if pitch := d.Tasks[d.TaskNamed("pitch")]; pitch.Crew.Min != 1 || !d.People[2].Helps || d.People[1].Helps {
		t.Errorf("pitch calls %d, want Bo alone", pitch.Crew.Min)
	}
	d = wholeDrill(t, "away", "plain")
	if douse := d.Tasks[d.TaskNamed("douse")]; douse.Who == nil || len(douse.Who) > 0 || len(douse.After) != 2 {
		t.Errorf("with Bo away douse is %+v, want nobody who may do it", douse)
	}
}

func TestLookoutsBeginAndEndWithTasks(t *testing.T) {
	d := wholeDrill(t, "", "plain")
	watch, gate, kitchen := d.Lookouts[0], d.Lookouts[1], d.Lookouts[2]
	if taskNames(d, watch.FromTasks) != "heat" || taskNames(d, watch.UntilTasks) != "douse" || !watch.UnlessWorked {
		t.Errorf("stove watch is %+v", watch)
	}
	if gate.From != 5*sim.Minute || gate.Until != 30*sim.Minute || gate.FromTasks != nil {
		t.Errorf("gate is %+v", gate)
	}
	if taskNames(d, kitchen.FromTasks) != "eat: Ada, eat: Bo, eat: Cy" || taskNames(d, kitchen.UntilTasks) != "drink: Ada, drink: Cy, fell" {
		t.Errorf("kitchen is %+v", kitchen)
	}
	if !cmp.Equal(watch.Who, []int{0, 1, 2}) {
		t.Errorf("at the stove may stand %v, want all but the casualty", watch.Who)
	}
}

func TestWhatTheAccountAsksIsRead(t *testing.T) {
	d := wholeDrill(t, "", "plain")
	if d.Idle != (sim.Idle{Effort: sim.Moderate, StayOut: true}) {
		t.Errorf("free people do %+v", d.Idle)
	}
	if d.People[0].Begin != 1 || d.People[1].Begin != 2 || !d.People[3].Casualty {
		t.Errorf("people are %+v", d.People)
	}
	if at := d.Shelters[0].AtStart; at == nil || *at != 3 {
		t.Errorf("the tent is at %v at the start, want 3 C", at)
	}
	if !d.Stoves[0].Flue || d.Stoves[1].Flue {
		t.Error("a tent heater has a flue, a stove of which nothing is said has none")
	}
	eat, douse := d.Tasks[d.TaskNamed("eat: Bo")], d.Tasks[d.TaskNamed("douse")]
	if !eat.LayersOn || eat.Worn != sim.WornHalt || !eat.DryClothes || !d.Tasks[d.TaskNamed("fell")].Felling {
		t.Errorf("eat is %+v", eat)
	}
	if !cmp.Equal(douse.PutsOut, []int{0, 1}) {
		t.Errorf("douse puts out %v", douse.PutsOut)
	}
}

// What can wait is left out with all that names it.
func TestLeavingOutATaskOfEverybody(t *testing.T) {
	s, err := Read("whole", []byte(wholeEvening))
	if err != nil {
		t.Fatal(err)
	}
	if got := s.CanWait(); !cmp.Equal(got, []string{"fell", "count"}) {
		t.Errorf("%v can wait", got)
	}
	for _, task := range []string{"count", "eat"} {
		left, err := s.Without(task)
		if err != nil {
			t.Fatal(err)
		}
		if left.drill.TaskNamed(task+": Ada") >= 0 {
			t.Errorf("%s is still there", task)
		}
		if task == "eat" && taskNames(left.drill, left.drill.Lookouts[2].FromTasks) != "pitch" {
			t.Errorf("kitchen begins with %v, want pitch", left.drill.Lookouts[2].FromTasks)
		}
	}
}

// A good or bad day counts for all work, and for what takes clock time where the
// file says so: for each person's part, too, and in a what-if.
func TestTheDayCountsForWhatTakesTimeWhereAsked(t *testing.T) {
	const file = `warmby: 1
title: Days
people: [{name: Ada}, {name: Bo}]
day: 10 %
tasks:
  dig: {work: 20 min}
  glue: {takes: 20 min}
  wait: {takes: 20 min, day: true}
  eat: {takes: 20 min, each: true, day: true}
what if:
  slow glue: {tasks: {glue: {day: true}, wait: {day: false}}}
`
	s, err := Read("days.yaml", []byte(file))
	if err != nil {
		t.Fatal(err)
	}
	changed, err := s.WhatIf("slow glue")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		s    *Scenario
		want string
	}{{s, "wait, eat: Ada, eat: Bo"}, {changed, "glue, eat: Ada, eat: Bo"}} {
		d, err := c.s.Drill("")
		if err != nil {
			t.Fatal(err)
		}
		var by []int
		for i := range d.Tasks {
			if d.Tasks[i].ByDay {
				by = append(by, i)
			}
		}
		if got := taskNames(d, by); got != c.want {
			t.Errorf("the day counts for %s, want %s", got, c.want)
		}
	}
}
