package played

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
)

// What held the end up, worked out on paper: each task of the critical
// sequence with why it was called no sooner, and, where it was for want of
// people, tools, stoves or its turn, when it could have been.
func TestWhatHeldItUpIsAsWorkedByHand(t *testing.T) {
	for _, c := range []struct {
		name, body string
		want       []string
	}{
		{"comes after another", `
people: [{name: Una}, {name: Pal}]
tasks:
  tramp: {takes: 10 min}
  set: {takes: 20 min, crew: 0, after: tramp}
  pitch: {takes: 5 min, after: [{task: set, lag: 2 min}]}
  dig: {takes: 30 min}`,
			[]string{"tramp: from the start", "set: after tramp", "pitch: after set"}},
		{"comes after the start of another", `
people: [{name: Una}, {name: Pal}]
tasks:
  haul: {takes: 10 min}
  watch: {takes: 20 min, after: [{task: haul, from: start, lag: 4 min}]}`,
			[]string{"haul: from the start", "watch: after haul"}},
		{"lay on a load that was away", `
people: [{name: Una}]
loads: {pulk: {arrives: 4 min, pack: [{item: mats, takes: 2 min}, {item: tent, takes: 3 min}]}}
tasks: {pitch: {takes: 10 min, needs: tent}}`,
			[]string{"unpack mats: load pulk", "unpack tent: item mats", "pitch: item tent"}},
		// One shovel: the second to dig waits for the first.
		{"too few tools", `
people: [{name: Una}, {name: Pal}]
tools: {shovel: 1}
tasks: {dig the floor: {takes: 10 min, tools: {shovel: 1}}, dig the ledge: {takes: 10 min, tools: {shovel: 1}}}`,
			[]string{"dig the floor: from the start", "dig the ledge: tool shovel of dig the floor, ready 0:00"}},
		// The shovel comes off at 32 min and nobody could dig before that: it could
		// not have begun any sooner. Its unpacking could, from when the load came.
		{"a tool that was on its load", `
people: [{name: Una}, {name: Pal}]
loads: {pulk: {arrives: 20 min, pack: [{item: shovels, takes: 2 min, brings: {shovel: 1}}]}}
tasks: {look round: {takes: 30 min, crew: 2}, dig: {takes: 10 min, tools: {shovel: 1}}}`,
			[]string{"look round: from the start", "unpack shovels: Una of look round, ready 20:00", "dig: tool shovel of unpack shovels, ready 32:00"}},
		// Nobody is free until 30 min, and no shovel is there before 7.
		{"people who were busy while a tool came", `
people: [{name: Una}, {name: Pal}]
loads: {pulk: {arrives: 5 min, pack: [{item: shovels, takes: 2 min, brings: {shovel: 1}}]}}
tasks: {look round: {takes: 30 min, crew: 1}, wait: {takes: 40 min, crew: 0}, dig: {takes: 20 min, crew: 2, tools: {shovel: 1}}}`,
			[]string{"look round: from the start", "dig: Una of look round, ready 7:00"}},
		// Bea is pulled from the wall at 10 min, and her shovel comes back.
		{"a tool of somebody pulled away", `
people: [{name: Ann}, {name: Bea}, {name: Cid}]
tools: {shovel: 2}
tasks: {wall: {work: 15 min, crew: 1-2, tools: {shovel: each}}, pit: {takes: 40 min, crew: 1, tools: {shovel: 1}}}
lookouts: {post: {from: 4 min, who: [Bea], if nobody is free: pull}}
orders: {two: {groups: {a: {people: [Ann, Bea], sequence: [wall]}, b: {people: [Cid], sequence: [pit]}}}}`,
			[]string{"pit: tool shovel of Bea pulled to post, ready 0:00"}},
		// A stove that comes off at 6 min and is taken until 16.
		{"no stove free", `
people: [{name: Una}, {name: Pal}]
site: {snow: {temperature: -5 C}}
stoves: {burner: {power: 2 kW, efficiency: 50 %, count: 1}}
loads: {pulk: {arrives: 5 min, pack: [{item: kitchen, takes: 1 min, brings: {burner: 1}}]}}
tasks:
  first: {melt: {water: 1 L, to: 20 C, stove: burner}, crew: 0}
  second: {melt: {water: 1 L, to: 20 C, stove: burner}, crew: 0}`,
			[]string{"unpack kitchen: load pulk", "first: stove burner of unpack kitchen, ready 6:00", "second: stove burner of first, ready 6:00"}},
		{"nobody with the skill", `
people: [{name: Una, skills: stove}, {name: Pal}]
tasks:
  sort: {takes: 12 min, skills: {stove: 1}}
  light: {takes: 3 min, skills: {stove: 1}}`,
			[]string{"sort: from the start", "light: Una (stove) of sort, ready 0:00"}},
		{"came off a lookout", `
people: [{name: Una, skills: stove}, {name: Pal}]
lookouts: {post: {relief: 20 min}}
tasks: {light: {takes: 3 min, skills: {stove: 1}}}`,
			[]string{"light: Una (stove), ready 0:00"}},
		{"somebody had not arrived", `
people: [{name: Una, arrives: 9 min}]
tasks: {light: {takes: 3 min}}`,
			[]string{"light: Una, ready 0:00"}},
		{"its turn had not come", `
people: [{name: Una}, {name: Pal}]
tasks: {wait: {takes: 8 min, crew: 0}, haul: {takes: 4 min, after: wait}, dig: {takes: 6 min}}
orders: {o: {rule: in turn, sequence: [wait, haul, dig]}}`,
			[]string{"wait: from the start", "haul: after wait", "dig: turn behind haul, ready 0:00"}},
		{"another group lent nobody before", `
people: [{name: Una}, {name: Pal}]
tasks: {wait: {takes: 8 min, crew: 0}, tidy: {takes: 1 min, after: wait}, carry: {takes: 6 min, crew: 2}}
orders: {o: {groups: {a: {people: Una, sequence: [wait, tidy], then: b}, b: {people: Pal, sequence: carry}}}}`,
			[]string{"wait: from the start", "tidy: after wait", "carry: Una of tidy, ready 0:00"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			tl := usual(t, drill(t, c.name, text("held up", c.body), ""))
			var got []string
			for _, l := range tl.HeldUp(len(tl.Drill.Milestones) - 1) {
				got = append(got, linkWords(tl, l))
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// linkWords writes a link of a critical sequence on a line.
func linkWords(tl *sim.Timeline, l sim.Link) string {
	d, why := tl.Drill, l.Why
	of := ""
	if why.Task >= 0 {
		of = " of " + d.Tasks[why.Task].Name
	}
	ready := fmt.Sprintf(", ready %d:%02d", why.Ready/sim.Minute, why.Ready%sim.Minute/sim.Second)
	words := map[sim.ReasonKind]func() string{
		sim.FromTheStart: func() string { return "from the start" },
		sim.AfterTask:    func() string { return "after " + d.Tasks[why.Task].Name },
		sim.UnderItem:    func() string { return "item " + d.Items[why.Item].Name },
		sim.LoadAway:     func() string { return "load " + d.Loads[why.Load].Name },
		sim.ToolShort: func() string {
			if why.Task < 0 {
				of = " of " + d.People[why.Person].Name + " pulled to " + d.Lookouts[why.Lookout].Name
			}
			return "tool " + d.Tools[why.Tool].Name + of + ready
		},
		sim.StoveShort: func() string { return "stove " + d.Stoves[why.Stove].Name + of + ready },
		sim.PeopleShort: func() string {
			skill := ""
			if why.Skill >= 0 {
				skill = " (" + d.Skills[why.Skill] + ")"
			}
			return d.People[why.Person].Name + skill + of + ready
		},
		sim.BehindInTurn:  func() string { return "turn behind " + d.Tasks[why.Task].Name + ready },
		sim.NotLent:       func() string { return "not lent before " + d.Tasks[why.Task].Name + ready },
		sim.NothingToTell: func() string { return "its turn" },
	}
	return strings.Join([]string{d.Tasks[l.Task].Name, words[why.Kind]()}, ": ")
}
