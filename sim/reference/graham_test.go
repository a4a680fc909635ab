package reference_test

import (
	"fmt"
	"testing"

	"warmby/sim"
	"warmby/sim/reference"
)

// graham returns the nine jobs with which R. L. Graham showed the anomalies of
// list dispatch (SIAM J. Appl. Math. 17 (1969) 416-429; the jobs and figures are
// known to us from memory and were re-computed independently), as tasks of one
// person each, in the sequence of a list.
func graham(workers int, list []int, minus int, after map[int][]int) (*sim.Drill, *sim.Luck) {
	lengths := []int{3, 2, 2, 2, 4, 4, 4, 4, 9}
	d := &sim.Drill{Spots: []sim.Spot{{In: -1}}}
	for i := range workers {
		d.People = append(d.People, sim.Person{Name: fmt.Sprint("worker ", i+1), Pace: 1000})
	}
	luck := &sim.Luck{Person: make([]sim.Time, workers)}
	for i, n := range lengths {
		t := sim.Task{Name: fmt.Sprint("job ", i+1), Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Item: -1}
		for _, a := range after[i+1] {
			t.After = append(t.After, sim.After{Task: a - 1})
		}
		d.Tasks = append(d.Tasks, t)
		luck.Amount = append(luck.Amount, sim.Time(n-minus)*sim.Minute)
		luck.Mishap = append(luck.Mishap, 0)
	}
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	var seq []int
	for _, i := range list {
		seq = append(seq, i-1)
		finish.When = append(finish.When, i-1)
	}
	d.Milestones = []sim.Milestone{finish}
	return d.Under(sim.Order{Groups: []sim.Group{{Name: sim.Everyone, Sequence: seq}}}), luck
}

// The anomalies of list dispatch: more people, shorter tasks or fewer
// precedences can lengthen a drill: 12; with another list 14; with four workers
// 15; with every job a unit shorter 13; without 4 before 5 and 6, 16.
func TestListDispatchHasGrahamsAnomalies(t *testing.T) {
	all := map[int][]int{9: {1}, 5: {4}, 6: {4}, 7: {4}, 8: {4}}
	fewer := map[int][]int{9: {1}, 7: {4}, 8: {4}}
	inOrder := []int{1, 2, 3, 4, 5, 6, 7, 8, 9}
	for _, c := range []struct {
		name    string
		workers int
		list    []int
		minus   int
		after   map[int][]int
		want    int
	}{
		{"three workers", 3, inOrder, 0, all, 12},
		{"another list", 3, []int{1, 2, 4, 5, 6, 3, 9, 7, 8}, 0, all, 14},
		{"a fourth worker", 4, inOrder, 0, all, 15},
		{"every job shorter", 3, inOrder, 1, all, 13},
		{"fewer precedences", 3, inOrder, 0, fewer, 16},
	} {
		t.Run(c.name, func(t *testing.T) {
			tl := reference.Play(graham(c.workers, c.list, c.minus, c.after))
			if got := tl.Finish(); got != sim.Time(c.want)*sim.Minute {
				t.Errorf("finish = %v, want %d min", sim.Clock(got), c.want)
			}
		})
	}
}
