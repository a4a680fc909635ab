package fit_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
	"warmby/sim/fit"
	"warmby/sim/fit/invent"
)

// windy is small with a mishap that the wind makes likelier, which comes up while
// the kitchen is being dug.
var windy = strings.NewReplacer(
	"mishap: {chance: 15 %,", "mishap: {chance: {usually: 20 %, when: wind over 8 m/s, then: 80 %},",
	"wind: 3 m/s}]", "wind: 3 m/s}, {at: 22 min, air: -15 C, wind: 10 m/s}]").Replace(small)

// Mishaps count for the chance that held when work on their task started, be that
// noted in the log or follow from the ends in it.
func TestMishapsCountForTheConditionAtTheStart(t *testing.T) {
	d := drillOf(t, windy)
	task := d.TaskNamed("light")
	tr := invent.TruthOf(d, invent.Usually, 5)
	var log, ends []fit.Evening
	want := map[bool][2]int{} // happened, drills
	for k := 1; k <= 60; k++ {
		one, played := invent.Drill(d, tr, invent.Habits{}, 5, k)
		blunt, _ := invent.Drill(d, tr, invent.Habits{Ends: true}, 5, k)
		log, ends = append(log, fit.Evening{Timed: one, Drill: d}), append(ends, fit.Evening{Timed: blunt, Drill: d})
		j, _ := one.Job(task)
		blows := played.Tasks[task].Start >= 22*sim.Minute
		w := want[blows]
		want[blows] = [2]int{w[0] + j.Mishaps, w[1] + 1}
	}
	if want[false][1] < 5 || want[true][1] < 5 {
		t.Fatalf("%v: one condition is hardly met, so that this test tells little", want)
	}
	for name, of := range map[string][]fit.Evening{"starts and ends": log, "ends only": ends} {
		f := fit.Fit(d, of, fit.Options{Effort: fit.Quick, Seed: 1})
		got := map[bool][2]int{}
		for _, c := range f.Chances {
			if c.Task == task {
				got[c.Then] = [2]int{c.Happened, c.Drills}
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: by whether the wind blew, happened and drills (-want +got):\n%s", name, diff)
		}
	}
}
