package fit_test

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/internal/thorough"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/fast"
	"warmby/sim/fit"
	"warmby/sim/fit/invent"
	"warmby/sim/stats"
)

// small is a drill of which logs are made: crews that change, walks, loads,
// lookouts and mishaps, and quick to play.
const small = `warmby: 1
title: invented, for tests
site: {snow: {depth: 60 cm, density: 240 kg/m3, temperature: -10 C}}
weather: [{at: 0 min, air: -15 C, wind: 3 m/s}]
day: 10 %
people: [{name: A, skills: [stove]}, {name: B}, {name: C, pace: 1.1}, {name: D}]
spots: {kitchen: {walk: 1 min}}
loads: {sled: {arrives: 3 min, pack: [{item: tent, takes: 2 min}, {item: box, takes: 1 min, brings: {burner: 1}}]}}
stoves: {burner: {power: 2.5 kW, efficiency: 50 %}}
tasks:
  look: {takes: [2 min, 4 min, 8 min], crew: 1}
  tramp: {work: [15 min, 20 min, 34 min], crew: 1-3, after: look}
  pitch: {timed: {people: 3, minutes: [14 min, 20 min, 34 min]}, crew: 2-3, needs: tent, after: tramp}
  guys: {work: [8 min, 12 min, 22 min], crew: 1-2, after: pitch}
  kitchen: {work: [10 min, 14 min, 25 min], crew: 1-2, spot: kitchen, after: look}
  light: {takes: [2 min, 4 min, 8 min], skills: {stove: 1}, needs: box, after: kitchen, spot: kitchen, mishap: {chance: 15 %, adds: [3 min, 5 min, 10 min], again: true, at most: 2}}
  melt: {melt: {water: 2 L, to: boil, stove: burner, handling: 1 min}, after: light, spot: kitchen}
  serve: {takes: [4 min, 6 min, 10 min], after: melt, spot: kitchen}
  wall: {work: [30 min, 40 min, 70 min], crew: 1-3, after: pitch}
  bank: {work: [10 min, 14 min, 24 min], crew: 1-2, after: guys}
  trench: {work: [5 min, 8 min, 15 min], crew: 1, after: pitch}
milestones:
  tent up: {when: guys}
  drink: {when: serve}
`

func drillOf(t testing.TB, text string) *sim.Drill {
	t.Helper()
	s, err := scenarios.Read("test.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill("")
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// logOf makes a log of n drills of a truth.
func logOf(t testing.TB, d *sim.Drill, tr invent.Truth, h invent.Habits, seed uint64, n int) []fit.Evening {
	t.Helper()
	var out []fit.Evening
	for k := 1; k <= n; k++ {
		own := h
		if k%4 == 0 && h.Stops == 0 { // every fourth is stopped for the clock
			own.Stops = 60 * sim.Minute
		}
		one, _ := invent.Drill(d, tr, own, seed, k)
		out = append(out, fit.Evening{Timed: one, Drill: d})
	}
	return out
}

// nextOf plays evenings of the truth that no log has.
func nextOf(t testing.TB, d *sim.Drill, tr invent.Truth, seed uint64, runs int) []stats.Sorted {
	t.Helper()
	p := fast.Compile(tr.Played(d))
	w := p.Worker()
	var res fast.Result
	moments := make([][]sim.Time, len(d.Milestones))
	for k := range runs {
		w.Play(tr.Luck(d, seed, 10_000+k), &res)
		for m, at := range res.Milestones {
			moments[m] = append(moments[m], at)
		}
	}
	var out []stats.Sorted
	for _, m := range moments {
		out = append(out, stats.SortedOf(m))
	}
	return out
}

// held returns which share of moments lies in the 80 % range of others.
func held(told, came stats.Sorted) float64 {
	n := int64(len(told))
	low, high := told.At(max(1, n/10)), told.At(n-n/10)
	from, _ := slices.BinarySearch(came, low)
	to, _ := slices.BinarySearch(came, high+1)
	return float64(to-from) / float64(len(came))
}

// covered fits logs of n drills and returns what the 80 % ranges of tasks and
// of milestones hold of the truth, on average.
func covered(t testing.TB, d *sim.Drill, h invent.Habits, how invent.Differs, n, logs int) (tasks, milestones float64) {
	var ofTasks, ofMilestones, nTasks, nMilestones float64
	for k := range logs {
		seed := uint64(n*100_000 + k)
		tr := invent.TruthOf(d, how, seed)
		f := fit.Fit(d, logOf(t, d, tr, h, seed, n), fit.Options{Effort: fit.Quick, Seed: 1})
		for i, l := range tr.Laws {
			next, sd := f.Next(i, nil), l.Spread
			if l.Work {
				sd = math.Hypot(sd, tr.Day)
			}
			law := distuv.Normal{Mu: l.Level, Sigma: sd}
			ofTasks += law.CDF(math.Log(next.Quantile(0.9))) - law.CDF(math.Log(next.Quantile(0.1)))
			nTasks++
		}
		told := f.Foretell(d, nil, 400, seed)
		came := nextOf(t, d, tr, seed, 400)
		for m := range d.Milestones {
			ofMilestones += held(told.Milestones[m], came[m])
			nMilestones++
		}
	}
	return ofTasks / nTasks, ofMilestones / nMilestones
}

// named tells of a task whether it is one of some.
func named(d *sim.Drill, names ...string) func(int) bool {
	return func(task int) bool { return slices.Contains(names, d.Tasks[task].Name) }
}

// TestRangesHoldTruthOfSyntheticLogs is the promise of the package: ranges that
// are said to hold in 8 of 10 drills do.
func TestRangesHoldTruthOfSyntheticLogs(t *testing.T) {
	drills, logs, off := []int{3, 8}, 15, 0.08 // few logs: standard error about 0.02 for milestones
	if thorough.Asked() {
		drills, logs, off = []int{3, 5, 8, 16}, 120, 0.03 // standard error about 0.008; of 500 logs no range was off by 0.01
	}
	d := drillOf(t, small)
	how := invent.Usually
	for _, habits := range []struct {
		name string
		h    invent.Habits
	}{
		{"starts and names", invent.Habits{Missed: 0.3}},
		{"ends only", invent.Habits{Ends: true, Missed: 0.3}},
		{"ends of four tasks only", invent.Habits{Ends: true, Missed: 0.3, Only: named(d, "pitch", "guys", "serve", "wall")}},
	} {
		for _, n := range drills {
			tasks, milestones := covered(t, d, habits.h, how, n, logs)
			t.Logf("%s, %d drills: tasks %.3f, milestones %.3f", habits.name, n, tasks, milestones)
			// Of 120 logs of four tasks 0.74 to 0.84 were held: the chain goes through the
			// drill by small steps. A delay that counts twice held 0.87 to 0.92.
			most := off
			if habits.h.Only != nil {
				most = max(off, 0.065)
			}
			if math.Abs(tasks-0.8) > most || math.Abs(milestones-0.8) > most {
				t.Errorf("%s, %d drills: 80 %% ranges hold %.3f of tasks and %.3f of milestones", habits.name, n, tasks, milestones)
			}
		}
	}
}
