package search_test

import (
	"context"
	"fmt"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/search"
)

// Two people pitch a tent and make tea. In file order they begin with the tent
// and a wall; the tea can be had in 20 minutes.
func ExampleImprove() {
	d := &sim.Drill{
		Spots:  []sim.Spot{{Name: "centre", In: -1}},
		People: []sim.Person{{Name: "Aila", Pace: 1000}, {Name: "Berend", Pace: 1000}},
	}
	task := func(name string, minutes float64, after ...sim.After) {
		d.Tasks = append(d.Tasks, sim.Task{
			Name: name, Kind: sim.Takes, Amount: draw.Fixed(minutes * 60000), Item: -1,
			Crew: sim.Crew{Min: 1, Max: 1}, After: after,
		})
	}
	task("pitch", 20)
	task("wall", 30)
	task("melt", 15)
	task("serve", 5, sim.After{Task: 2})
	d.Milestones = []sim.Milestone{
		{Name: "hot drink", When: []int{3}, By: sim.Never},
		{Name: sim.FinishName, When: []int{0, 1, 2, 3}, By: sim.Never},
	}
	r, err := search.Improve(context.Background(), d, search.Options{Aims: []search.Aim{{Milestone: 0}}, Evaluations: 500})
	if err != nil {
		fmt.Println(err)
		return
	}
	best := r.Orders[0]
	fmt.Println("hot drink at", sim.Clock(best.Milestones[0]), "instead of", sim.Clock(r.Before.Milestones[0]))
	fmt.Println("no order can before", sim.Clock(r.UsualBound[0]))
	// Output:
	// hot drink at 20 min instead of 40 min
	// no order can before 20 min
}
