package played

import (
	"testing"

	"warmby/sim"
	"warmby/sim/draw"
)

// On paper: Ada has a bad day and Bo a good one, so that their paces are 0.8 and
// 1.25. Ada alone digs 30 person-minutes in 37 min 30 s. Both together, with
// nothing lost by being two, saw 41 person-minutes in 41 / 2.05 = 20 min. With usual
// values they take 30 min and 20 min 30 s. What takes clock time stays as it is.
func TestAPersonsOwnDayAsWorkedByHand(t *testing.T) {
	d := drill(t, "day.yaml", `warmby: 1
title: Own days
people: [{name: Ada, day: 20 %}, {name: Bo, day: 20 %}]
teamwork: 1
tasks:
  dig: {work: 30 min, who: [Ada]}
  saw: {work: 41 min, crew: 2, after: dig}
  rest: {takes: 5 min, after: saw}
`, "")
	ends := func(luck *sim.Luck) (list []sim.Time) {
		tl, err := play(t, d, luck)
		if err != nil {
			t.Fatal(err)
		}
		for i := range tl.Tasks {
			list = append(list, tl.Tasks[i].End)
		}
		return list
	}
	luck := draw.Usual(d)
	check := func(what string, want ...sim.Time) {
		t.Helper()
		for i, got := range ends(luck) {
			if got != want[i] {
				t.Errorf("%s: %s ends at %s, want %s", what, d.Tasks[i].Name, sim.Clock(got), sim.Clock(want[i]))
			}
		}
	}
	const half = 30 * sim.Second
	check("usual values", 30*sim.Minute, 50*sim.Minute+half, 55*sim.Minute+half)
	luck.Pace = []int64{sim.PaceBy(1000, 1.25), sim.PaceBy(1000, 0.8)}
	check("a bad day and a good one", 37*sim.Minute+half, 57*sim.Minute+half, 62*sim.Minute+half)
	differ := false
	for run := range 20 {
		differ = differ || ends(draw.Run(d, 1, run))[0] != 30*sim.Minute
	}
	if !differ {
		t.Error("no run has another day than usual")
	}
}
