package steps

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/internal/drills"
	"warmby/sim/reference"
)

// Whatever is played: each step is a stretch of that person's timeline or several
// that follow on each other, and all work and all time at lookouts are in some step.
func TestStepsAreTheTimeline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		tl := reference.Play(d, draw.Usual(d))
		for p, list := range Of(tl) {
			var work, told sim.Time
			for _, s := range tl.People[p] {
				if s.What == sim.Working || s.What == sim.Watching {
					work += s.To - s.From
				}
			}
			last := sim.Time(0)
			for _, s := range list {
				if s.From < last || s.To < s.From || (len(s.Tasks) == 0) != (s.Lookout >= 0) {
					t.Fatalf("person %d: %+v after %d ms", p, s, last)
				}
				last = s.To
				told += s.To - s.From
				if slices.Contains(s.With, p) {
					t.Fatalf("person %d is with himself: %+v", p, s)
				}
				if s.Before >= 0 && !stands(tl, s.Before, s.Lookout, s.From, func(o sim.Stretch) sim.Time { return o.To }) {
					t.Fatalf("person %d relieves %d, who does not leave then: %+v", p, s.Before, s)
				}
			}
			if len(list) > 0 && (told < work || told > work+sim.Time(len(tl.People[p]))*unpackingPause) {
				t.Fatalf("person %d works and stands at lookouts for %d ms, the steps for %d", p, work, told)
			}
		}
	})
}

func stands(tl *sim.Timeline, person, lookout int, at sim.Time, of func(sim.Stretch) sim.Time) bool {
	return slices.ContainsFunc(tl.People[person], func(o sim.Stretch) bool {
		return o.What == sim.Watching && o.Lookout == lookout && of(o) == at
	})
}

// One person calls out each end, nobody calls out any other, and there are no more
// than one with a stop-watch writes down.
func TestEachEndIsCalledOutOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		tl := reference.Play(d, draw.Usual(d))
		called := CallOuts(tl)
		if len(called) > MostCallOuts || !slices.IsSortedFunc(called, func(a, b int) int { return int(min(1, max(-1, tl.Tasks[a].End-tl.Tasks[b].End))) }) {
			t.Fatalf("called out: %v", called)
		}
		times := map[int]int{}
		for _, list := range Of(tl) {
			for _, s := range list {
				if s.CallsOut {
					times[s.Tasks[len(s.Tasks)-1]]++
				}
			}
		}
		for task, n := range times {
			if n != 1 || !slices.Contains(called, task) {
				t.Fatalf("task %d is called out %d times; called out are %v", task, n, called)
			}
		}
	})
}
