package bound

import (
	"slices"

	"warmby/sim"
)

// quick is the chance with which a drawn quantity falls below what [Soonest]
// takes it for.
const quick = 0.001

// Soonest returns for each milestone of a drill a moment before which it cannot
// be reached under any order, save with luck beyond one in a thousand: every
// length, delay and day as short as that, no mishap, and of the weather cases
// the one that is kindest to the milestone. [sim.Possible] must have been asked
// before.
func Soonest(d *sim.Drill) []sim.Time {
	b, luck := New(d), quickLuck(d)
	least := b.Of(luck, nil)
	for luck.Weather = 1; luck.Weather < len(d.Weather); luck.Weather++ {
		for m, at := range b.Of(luck, nil) {
			least[m] = min(least[m], at)
		}
	}
	return least
}

// quickLuck is the luck in which everything drawn is as short as one in a
// thousand.
func quickLuck(d *sim.Drill) *sim.Luck {
	n := len(d.Tasks)
	luck := &sim.Luck{Amount: make([]sim.Time, n), Mishap: make([]sim.Time, n), Mishaps: make([]int, n)}
	day := quickest(d.Day, 1)
	for i := range d.Tasks {
		amount := quickest(d.Tasks[i].Amount, 0)
		if d.Tasks[i].FollowsDay() {
			amount *= day
		}
		luck.Amount[i] = sim.Milliseconds(amount)
	}
	for i := range d.People {
		luck.Person = append(luck.Person, sim.Milliseconds(quickest(d.People[i].Arrives, 0)))
	}
	if slices.ContainsFunc(d.People, func(p sim.Person) bool { return p.Day != nil }) {
		for i := range d.People {
			luck.Pace = append(luck.Pace, sim.PaceBy(d.People[i].Pace, quickest(d.People[i].Day, 1)))
		}
	}
	for i := range d.Loads {
		luck.Load = append(luck.Load, sim.Milliseconds(quickest(d.Loads[i].Arrives, 0)))
	}
	return luck
}

// quickest returns the quantile of a law; otherwise where there is none.
func quickest(law sim.Distribution, otherwise float64) float64 {
	if law == nil {
		return otherwise
	}
	return law.Quantile(quick)
}
