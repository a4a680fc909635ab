package fast_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/internal/drills"
)

// anotherOrder draws an order of a drill: one to three groups, tasks and
// people dealt out, some tasks to more than one, some crews narrowed.
func anotherOrder(t *rapid.T, d *sim.Drill) sim.Order {
	var o sim.Order
	n := rapid.IntRange(1, 3).Draw(t, "groups")
	for i := range n {
		det := sim.Group{Name: fmt.Sprint(i), InTurn: rapid.Bool().Draw(t, "in turn")}
		if other := rapid.IntRange(0, n-1).Draw(t, "then"); other != i {
			det.Then = []int{other}
		}
		o.Groups = append(o.Groups, det)
	}
	for p := range d.People {
		k := rapid.IntRange(0, n-1).Draw(t, "of")
		o.Groups[k].People = append(o.Groups[k].People, p)
	}
	tasks := make([]int, len(d.Tasks))
	for i := range tasks {
		tasks[i] = i
	}
	for _, i := range rapid.Permutation(tasks).Draw(t, "sequence") {
		for range rapid.IntRange(0, 2).Draw(t, "times") {
			seq := &o.Groups[rapid.IntRange(0, n-1).Draw(t, "for")].Sequence
			if len(*seq) == 0 || (*seq)[len(*seq)-1] != i {
				*seq = append(*seq, i)
			}
		}
		c := d.Tasks[i].Crew
		if c.Max > c.Min && rapid.Bool().Draw(t, "narrow") {
			from := rapid.IntRange(c.Min, c.Max).Draw(t, "from")
			to := rapid.IntRange(from, c.Max).Draw(t, "to")
			if to >= d.Tasks[i].RoleCount() {
				o.Crews = append(o.Crews, sim.CrewChoice{Task: i, Crew: sim.Crew{Min: from, Max: to}})
			}
		}
	}
	return o
}

// A trial given another order plays it as a program compiled for it does, whatever
// orders other trials of the same program are given meanwhile.
func TestTrialPlaysAsACompiledProgram(t *testing.T) {
	played := 0
	rapid.Check(t, func(t *rapid.T) {
		d := drills.Any(t)
		p := fast.Compile(d)
		trials := []*fast.Trial{p.Trial(), p.Trial()}
		under := []*sim.Drill{d, d}
		for round := range 4 {
			under[round%2] = d.Under(anotherOrder(t, d))
			trials[round%2].Reorder(under[round%2])
			for k, trial := range trials {
				playsAs(t, trial, fast.Compile(under[k]), d)
				played++
			}
		}
		var got, want fast.Result
		luck := draw.Run(d, 5, 0)
		p.Worker().Play(luck, &got)
		fast.Compile(d).Worker().Play(luck, &want)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("trials have changed their program (-compiled +after):\n%s", diff)
		}
	})
	if played == 0 {
		t.Error("nothing was ever played: the test says nothing")
	}
}

// playsAs checks that a trial plays as a compiled program does.
func playsAs(t *rapid.T, trial *fast.Trial, fresh *fast.Program, d *sim.Drill) {
	var got, want fast.Result
	for run := range 2 {
		luck := draw.Run(d, 5, run)
		fresh.Worker().Play(luck, &want)
		trial.Play(luck, &got)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("results differ (-compiled +trial):\n%s", diff)
		}
		tl, again := fresh.Worker().Timeline(luck), trial.Timeline(luck)
		if diff := cmp.Diff(tl.People, again.People); diff != "" {
			t.Fatalf("what people do differs (-compiled +trial):\n%s", diff)
		}
	}
}

// One op gives a trial another order of a shipped scenario, and nothing is played.
func BenchmarkReorder(b *testing.B) {
	for _, name := range library.Names() {
		b.Run(name, func(b *testing.B) {
			d := shipped(b, name)
			turned := *d
			turned.Groups = slices.Clone(d.Groups)
			for i := range turned.Groups {
				g := &turned.Groups[i]
				g.Sequence = slices.Clone(g.Sequence)
				slices.Reverse(g.Sequence[g.Lead:])
			}
			trial := fast.Compile(d).Trial()
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				trial.Reorder([]*sim.Drill{d, &turned}[i%2])
			}
		})
	}
}
