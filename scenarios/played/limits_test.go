package played

import (
	"fmt"
	"strings"
	"testing"

	"warmby/sim"
	"warmby/sim/draw"
)

// Drills at the bounds of the format, and ones that an engine once played
// wrongly: when tasks start and end, worked out on paper.
func TestDrillsAtTheBoundsOfTheFormat(t *testing.T) {
	// items writes a load of n items that bring something, the last of them
	// something else as well.
	items := func(n int, brings, last string) string {
		var list []string
		for i := range n {
			b := brings
			if i == n-1 {
				b += last
			}
			list = append(list, fmt.Sprintf("{item: bundle %d, takes: 0 min, brings: {%s}}", i, b))
		}
		return strings.Join(list, ", ")
	}
	// many writes people.
	many := func(n int) string {
		var list []string
		for i := range n {
			list = append(list, fmt.Sprintf("{name: P%d}", i))
		}
		return strings.Join(list, ", ")
	}
	for _, c := range []struct {
		name, body string
		want       string // start and end of tasks
	}{
		// Who is pulled from the wall at 10 min leaves a shovel, which the pit of the
		// other group waits for. The wall is then the work of one: 60 person-minutes,
		// 10 min of two at 2^0.9 = 1.8660660 done, 41 min 20.361 s left, its end as
		// the engine rounds: at 51:20.361.
		{"a tool given back by somebody pulled away", `
people: [{name: Ann}, {name: Bea}, {name: Cid}]
tools: {shovel: 2}
tasks: {wall: {work: 60 min, crew: 1-2, tools: {shovel: each}}, pit: {takes: 10 min, crew: 1, tools: {shovel: 1}}}
lookouts: {post: {from: 10 min, who: [Ann, Bea], if nobody is free: pull}}
orders: {two: {groups: {a: {people: [Ann, Bea], sequence: [wall]}, b: {people: [Cid], sequence: [pit]}}}}`,
			"wall 0-3080361, pit 600000-1200000"},
		{"more of a tool than anybody would carry", `
people: [{name: Una}]
loads: {sled: {pack: [` + items(33, "peg: 1000", "") + `]}}
tasks: {peg out: {takes: 10 min, tools: {peg: 1000}, needs: bundle 32}}`,
			"peg out 0-600000"},
		{"more of one tool than spills into the next", `
people: [{name: Una}]
loads: {sled: {pack: [` + items(66, "peg: 1000", "") + `]}, other: {arrives: 3 h, pack: [{item: saw, takes: 0 min, brings: {saw: 1}}]}}
tasks: {cut: {takes: 10 min, tools: {saw: 1}}}`,
			"cut 10800000-11400000"},
		// e_100 is 10^6 100^2: a hundred people work for as long as they were timed.
		{"work that overflows 64 bits", `
teamwork: 2
people: [` + many(100) + `]
tasks: {haul: {timed: {people: 100, minutes: 100 h}, crew: 100}}`,
			"haul 0-360000000"},
		// e_2 is 4 times e_1: 40 h of one are 10 h of two.
		{"work of a few at the strongest teamwork", `
teamwork: 2
people: [` + many(2) + `]
tasks: {haul: {timed: {people: 1, minutes: 40 h}, crew: 2}}`,
			"haul 0-36000000"},
		{"more people than bits in a word", `
people: [` + many(70) + `]
tasks: {tramp: {takes: 10 min, crew: 66}, dig: {takes: 5 min, crew: 5}}`,
			"tramp 0-600000, dig 600000-900000"},
	} {
		t.Run(c.name, func(t *testing.T) {
			tl := usual(t, drill(t, c.name, text("bounds", c.body), ""))
			var got []string
			for i, task := range tl.Drill.Tasks {
				if !task.Unloads() {
					got = append(got, fmt.Sprintf("%s %d-%d", task.Name, tl.Tasks[i].Start, tl.Tasks[i].End))
				}
			}
			if g := strings.Join(got, ", "); g != c.want {
				t.Errorf("%s, want %s", g, c.want)
			}
		})
	}
}

// What mishaps add may be longer than any drill: both engines then say that it
// never finishes, and neither wraps around.
func TestMishapsLongerThanAnyDrillNeverEnd(t *testing.T) {
	d := drill(t, "mishaps", text("mishaps", `
people: [{name: Una}]
tasks: {wait: {takes: 10 min, mishap: {chance: 100 %, adds: 68719476.736 s, again: true, at most: 64}}}`), "")
	if _, err := play(t, d, draw.Run(d, 1, 0)); !never(err) {
		t.Errorf("played with %v, want a drill that never finishes", err)
	}
	if sum := draw.Run(d, 1, 0).Mishap[0]; sum < sim.Horizon {
		t.Errorf("mishaps add %s, want more than a drill may last", sim.Clock(sum))
	}
}
