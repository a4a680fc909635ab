// Package steps says what each person does, step by step: with whom, with what,
// whom a lookout relieves, and whose end is called out.
//
// Steps are read off a timeline and hold nothing that is not in it.
package steps

import (
	"slices"

	"warmby/sim"
)

// Step is one thing that a person does: tasks worked on, or a time at a lookout.
type Step struct {
	From, To sim.Time // when this person works or stands there
	// Tasks are worked on, one for a task, several for items taken off loads one
	// after the other; none at a lookout.
	Tasks   []int
	Lookout int   // -1 for tasks
	With    []int // who else is there meanwhile, in roster order
	Spot    int
	// Before is who stood at the lookout until this person came, After who takes
	// over; at a task After is who stays on when this person leaves before its
	// end. -1 for nobody.
	Before, After int
	// CallsOut says that the end is called out ([CallOuts]), and by this person.
	CallsOut bool
}

// unpackingPause is how long may lie between two items for them to be one step.
const unpackingPause = sim.Minute

// Of returns the steps of each person, in roster order, by time.
func Of(tl *sim.Timeline) [][]Step {
	called := CallOuts(tl)
	all := make([][]Step, len(tl.People))
	for p := range tl.People {
		for _, s := range tl.People[p] {
			switch {
			case s.What == sim.Working:
				all[p] = appendWork(tl, all[p], p, s, slices.Contains(called, s.Task))
			case s.What == sim.Watching && s.To > s.From:
				all[p] = append(all[p], atLookout(tl, p, s))
			}
		}
	}
	return all
}

// appendWork adds a stretch of work, to the step before it where it goes on with
// the same task or with the next item of a load.
func appendWork(tl *sim.Timeline, list []Step, person int, s sim.Stretch, called bool) []Step {
	d := tl.Drill
	work := Step{From: s.From, To: s.To, Tasks: []int{s.Task}, Lookout: -1, Spot: s.Spot, Before: -1, After: -1,
		With: atTask(tl, person, s)}
	if end := tl.Tasks[s.Task].End; called && s.To == end {
		work.CallsOut = caller(tl, s.Task) == person
	} else if s.To < end && end != sim.Never {
		work.After = staysOn(tl, person, s)
	}
	if n := len(list); n > 0 && len(list[n-1].Tasks) > 0 {
		last := &list[n-1]
		task := last.Tasks[len(last.Tasks)-1]
		switch {
		case task == s.Task && last.To == s.From:
			last.To, last.With, last.CallsOut, last.After = s.To, union(last.With, work.With), work.CallsOut, work.After
			return list
		case d.Tasks[task].Unloads() && d.Tasks[s.Task].Unloads() && s.From-last.To <= unpackingPause && !last.CallsOut && last.After < 0:
			last.Tasks, last.To, last.With = append(last.Tasks, s.Task), s.To, union(last.With, work.With)
			last.CallsOut, last.After = work.CallsOut, work.After
			return list
		}
	}
	return append(list, work)
}

// atTask returns who else works on a task during a stretch.
func atTask(tl *sim.Timeline, person int, s sim.Stretch) (with []int) {
	for q := range tl.People {
		if q != person && slices.ContainsFunc(tl.People[q], func(o sim.Stretch) bool {
			return o.What == sim.Working && o.Task == s.Task && o.From < s.To && o.To > s.From
		}) {
			with = append(with, q)
		}
	}
	return with
}

// staysOn returns the first who works on at a task when a stretch there ends; -1
// for nobody.
func staysOn(tl *sim.Timeline, person int, s sim.Stretch) int {
	for _, q := range atTask(tl, person, s) {
		if slices.ContainsFunc(tl.People[q], func(o sim.Stretch) bool {
			return o.What == sim.Working && o.Task == s.Task && o.From < s.To && o.To > s.To
		}) {
			return q
		}
	}
	return -1
}

// caller returns who calls out the end of a task: the first of those there then;
// -1 where it goes on by itself.
func caller(tl *sim.Timeline, task int) int {
	end := tl.Tasks[task].End
	for p := range tl.People {
		if slices.ContainsFunc(tl.People[p], func(s sim.Stretch) bool { return s.What == sim.Working && s.Task == task && s.To == end }) {
			return p
		}
	}
	return -1
}

// atLookout is a stretch at a lookout.
func atLookout(tl *sim.Timeline, person int, s sim.Stretch) Step {
	w := Step{From: s.From, To: s.To, Lookout: s.Lookout, Spot: s.Spot, Before: -1, After: -1}
	for q := range tl.People {
		for _, o := range tl.People[q] {
			switch {
			case q == person || o.What != sim.Watching || o.Lookout != s.Lookout:
			case o.Place == s.Place && o.To == s.From:
				w.Before = q
			case o.Place == s.Place && o.From == s.To:
				w.After = q
			case o.From < s.To && o.To > s.From:
				w.With = union(w.With, []int{q})
			}
		}
	}
	return w
}

// union returns the people of both lists, in roster order.
func union(a, b []int) []int {
	all := append(slices.Clone(a), b...)
	slices.Sort(all)
	return slices.Compact(all)
}
