package checker

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"testing"

	"warmby/sim"
)

// TestCrewsAreChosenAlikeThreeWays compares trying every crew, taking people
// in rank, and the picker that the engines share.
func TestCrewsAreChosenAlikeThreeWays(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	called := 0
	for range 3000 {
		d := &sim.Drill{Skills: []string{"a", "b", "c"}, Spots: []sim.Spot{{}, {Walk: 1}, {Walk: 2}}}
		var free, spot []int
		for p := range 1 + r.IntN(8) {
			d.People = append(d.People, sim.Person{Skills: sim.SkillSet(r.IntN(8))})
			spot = append(spot, r.IntN(3))
			if r.IntN(4) > 0 {
				free = append(free, p)
			}
		}
		task := &sim.Task{Kind: sim.Work, Spot: r.IntN(3), Crew: sim.Crew{Min: 1 + r.IntN(3)}}
		task.Crew.Max = task.Crew.Min + r.IntN(4)
		for skill := range 3 {
			if r.IntN(2) == 0 {
				task.Roles = append(task.Roles, sim.Role{Skill: skill, Count: 1 + r.IntN(2)})
			}
		}
		c := &check{d: d}
		most := r.IntN(7)
		got, ok := c.choose(task, free, spot, most)
		var picker sim.Picker
		want := picker.Pick(d, task, free, spot, most)
		if ok != (want != nil) || fmt.Sprint(got) != fmt.Sprint(want) {
			t.Fatalf("choose(%+v, %v) = %v, %v, the picker has %v", task, free, got, ok, want)
		}
		if a, b := c.short(task, free), c.unfilled(task, free); a != b {
			t.Fatalf("short(%+v, %v) = %d by Hall's theorem, %d by filling them", task.Roles, free, a, b)
		}
		if !ok {
			continue
		}
		called++
		greedy := c.greedy(task, c.rank(task, free, spot), len(got))
		if len(greedy) != len(got) || missingAny(greedy, got) {
			t.Fatalf("greedy(%+v) = %v, every crew tried %v", task, greedy, got)
		}
	}
	if called < 500 {
		t.Errorf("%d of 3000 crews could be called, want at least 500 or this tells little", called)
	}
}

func missingAny(a, b []int) bool { return missing(a, b) || missing(b, a) }

// TestEffectiveCrewIsExact checks e_n = round(10^6 n^0.9) in whole numbers:
// (2e - 1)^10 <= (2 * 10^6)^10 n^9 < (2e + 1)^10.
func TestEffectiveCrewIsExact(t *testing.T) {
	pow := func(x int64, n int64) *big.Int { return new(big.Int).Exp(big.NewInt(x), big.NewInt(n), nil) }
	for n := 1; n <= 60; n++ {
		e := effective(n, .9)
		middle := new(big.Int).Mul(pow(2_000_000, 10), pow(int64(n), 9))
		if pow(2*e-1, 10).Cmp(middle) > 0 || middle.Cmp(pow(2*e+1, 10)) >= 0 {
			t.Errorf("effective(%d, 0.9) = %d is not the nearest whole number", n, e)
		}
	}
}
