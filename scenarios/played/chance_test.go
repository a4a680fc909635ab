package played

import (
	"math"
	"testing"

	"warmby/internal/thorough"
	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// On paper: it blows from minute 10 on, and what adds 3 min never happens before
// and always from then on. Ada digs from 0 to 12: what comes up meanwhile changes no
// chance. Bo fetches from 0 to 10, begins to haul at the very minute 10 and meets it:
// 10 + 1 + 3. Both saw from 14, 4 + 3 min. Each eats from 21, 2 + 3 min. Sweeping, at
// 26, is what the wind keeps from going wrong.
func TestAMishapByTheWeatherAsWorkedByHand(t *testing.T) {
	const windy = "mishap: {chance: {usually: 0 %, when: wind over 8 m/s, then: 100 %}, adds: 3 min}"
	d := drill(t, "chance.yaml", `warmby: 1
title: Wind from minute 10 on
weather: [{at: 0 min, air: -5 C, wind: 2 m/s}, {at: 10 min, air: -5 C, wind: 12 m/s}]
people: [{name: Ada}, {name: Bo}]
teamwork: 1
tasks:
  dig: {takes: 12 min, who: [Ada], `+windy+`}
  fetch: {takes: 10 min, who: [Bo], `+windy+`}
  haul: {takes: 1 min, who: [Bo], after: fetch, `+windy+`}
  saw: {work: 8 min, crew: 2, after: [dig, haul], `+windy+`}
  eat: {takes: 2 min, each: true, after: saw, `+windy+`}
  sweep: {takes: 1 min, after: eat, mishap: {chance: {usually: 100 %, when: wind over 8 m/s, then: 0 %}, adds: 3 min}}
`, "")
	tl, err := play(t, d, draw.Usual(d))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []sim.Time{12, 10, 14, 21, 26, 26, 27} {
		if got := tl.Tasks[i].End; got != want*sim.Minute {
			t.Errorf("%s ends at %s, want %s", d.Tasks[i].Name, sim.Clock(got), sim.Clock(want*sim.Minute))
		}
	}
}

// dusk is a drill whose one risky task begins in the light in some runs and in the
// dark in others; it grows dark so many minutes after the arrival.
func dusk(t *testing.T, dark sim.Time) *sim.Drill {
	t.Helper()
	d := drill(t, "dusk.yaml", `warmby: 1
title: Dusk
site: {latitude: 60, longitude: 10, arrival: 2027-01-16T14:00:00+01:00}
people: [{name: Ada}]
tasks:
  dig: {takes: {uniform: [10 min, 50 min]}}
  light: {takes: 5 min, after: dig, mishap: {chance: {usually: 5 %, when: dark, then: 15 %}, adds: 10 min, again: true, at most: 2}}
`, "")
	d.Light = []sim.Light{{At: 0}, {At: dark * sim.Minute, Dark: true}}
	return d
}

// light plays so many runs and returns in how many the risky task began in the
// light and in the dark, and how often it then met its mishap; met says in which runs.
func light(d *sim.Drill, runs int) (n, mishaps [2]float64, met []bool) {
	w, luck, r := fast.Compile(d).Worker(), new(sim.Luck), new(fast.Result)
	sampler := draw.NewSampler(d)
	for run := range runs {
		sampler.Run(7, run, luck)
		w.Play(luck, r)
		side := 0
		if r.Start[1] >= d.Light[1].At {
			side = 1
		}
		longer := r.End[1]-r.Start[1] > 5*sim.Minute
		n[side]++
		if longer {
			mishaps[side]++
		}
		met = append(met, longer)
	}
	return n, mishaps, met
}

// Of the runs in which work began in the light 5 % meet the mishap and of the others
// 15 %, to three and a half standard deviations of the binomial law.
func TestAMishapComesAsOftenAsItsConditionSays(t *testing.T) {
	n, mishaps, _ := light(dusk(t, 30), thorough.Cases(20_000, 400_000))
	for side, want := range []float64{0.05, 0.15} {
		got := mishaps[side] / n[side]
		if sd := math.Sqrt(want * (1 - want) / n[side]); math.Abs(got-want) > 3.5*sd {
			t.Errorf("condition %d: in %.4f of %.0f runs, want %.2f", side, got, n[side], want)
		}
	}
}

// An earlier dusk makes no run lose its mishap, and some meet one.
func TestMoreDarkNeverMeansFewerMishaps(t *testing.T) {
	_, _, late := light(dusk(t, 40), 5000)
	_, _, early := light(dusk(t, 20), 5000)
	more := 0
	for run := range late {
		switch {
		case late[run] && !early[run]:
			t.Fatalf("run %d meets its mishap with dusk at 40 min and not at 20 min", run)
		case early[run] && !late[run]:
			more++
		}
	}
	if more == 0 {
		t.Error("an earlier dusk made no run meet a mishap")
	}
}

// Both engines and the checker are of one mind on drawn runs, too.
func TestEnginesAgreeOnMishapsByTheLight(t *testing.T) {
	d := dusk(t, 30)
	for run := range thorough.Cases(200, 2000) {
		if _, err := play(t, d, draw.Run(d, 3, run)); err != nil {
			t.Fatal(err)
		}
	}
}

func TestRunsWithAMishapByTheLightDoNotAllocate(t *testing.T) {
	d := dusk(t, 30)
	w, r, run := fast.Compile(d).Worker(), new(fast.Result), 0
	for ; run < 50; run++ {
		w.Run(1, run, r)
	}
	if n := testing.AllocsPerRun(200, func() { w.Run(1, run, r); run++ }); n > 0 {
		t.Errorf("%v allocations a run, want none", n)
	}
	luck := draw.Run(d, 1, 0)
	w.Play(luck, r)
	if n := testing.AllocsPerRun(200, func() { w.Play(luck, r) }); n > 0 {
		t.Errorf("%v allocations a run with given draws, want none", n)
	}
}
