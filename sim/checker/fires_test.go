package checker_test

import (
	"testing"

	"warmby/sim"
)

// twoFires is a drill that comes to a stop: the heater of heated is still at it when
// after 5 minutes, with the skirt banked, a warm-up of the same tent starts with a
// wood stove. The skirt has ended at that moment and is told; both warm-ups and what
// Ada sews never end.
func twoFires() *sim.Timeline {
	tl := heated()
	d := tl.Drill
	d.Stoves = append(d.Stoves, sim.Stove{Name: "wood stove", Count: 1, Power: 4000, Efficiency: .5})
	d.Shelters = append(d.Shelters, d.Shelters[0])
	d.Tasks[1] = sim.Task{Name: "sew", Kind: sim.Takes, Crew: sim.Crew{Min: 1, Max: 1}, Item: -1}
	d.Tasks = append(d.Tasks, sim.Task{Name: "warm with wood", Kind: sim.Warm, Item: -1, Warm: &sim.Warming{Stove: 1, To: 10}, After: []sim.After{{Task: 2}}})
	d.Milestones[0].When = []int{0, 1, 2, 3}
	tl.Drill = d.Under(sim.Order{})
	tl.Luck = sure(1, 0, 6*minute, 5*minute, 0)
	tl.Tasks[0].Worked, tl.Tasks[0].End = sim.Never, sim.Never
	tl.Tasks[1] = sim.TaskTimes{Worked: sim.Never, End: sim.Never, People: []int{0}, Unit: -1}
	tl.Tasks = append(tl.Tasks, sim.TaskTimes{Called: 5 * minute, Start: 5 * minute, Worked: sim.Never, End: sim.Never, Unit: 0})
	tl.People[0] = []sim.Stretch{work(0, 5*minute, 1, 0)}
	tl.End = 5 * minute
	tl.SetMilestones()
	return tl
}

func TestASecondStoveInAShelterStopsTheDrill(t *testing.T) {
	mustCatch(t, twoFires, []broken{
		{"the drill goes on", func(tl *sim.Timeline) {
			tl.Tasks[1].Worked, tl.Tasks[1].End, tl.End = 6*minute, 6*minute, 6*minute
			tl.People[0][0].To = tl.End
		}, "shelter"},
		{"what had ended by then is not told", func(tl *sim.Timeline) { tl.Tasks[2].Worked, tl.Tasks[2].End = sim.Never, sim.Never }, "end"},
		{"a stop for a stove in another shelter", func(tl *sim.Timeline) { tl.Drill.Tasks[3].Warm.Shelter = 1 }, "end"},
		{"a stop for nothing", func(tl *sim.Timeline) {
			tl.Tasks[3] = sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Group: -1, Unit: -1}
		}, "idle"},
	})
}

// keptBeside is a drill that stops although its first warm-up has ended: the heater of
// heated keeps the tent warm when, a minute later, one with a wood stove starts.
func keptBeside() *sim.Timeline {
	tl := heated()
	d := tl.Drill
	d.Stoves = append(d.Stoves, sim.Stove{Name: "wood stove", Count: 1, Power: 4000, Efficiency: .5})
	d.Tasks = append(d.Tasks, sim.Task{Name: "warm with wood", Kind: sim.Warm, Item: -1, Warm: &sim.Warming{Stove: 1, To: 10},
		After: []sim.After{{Task: 0, Lag: 1 * minute}}})
	d.Milestones[0].When = []int{0, 1, 2, 3}
	tl.Drill = d.Under(sim.Order{})
	tl.Luck = sure(1, 0, 0, 5*minute, 0)
	tl.End = tl.Tasks[0].End + 1*minute
	tl.Tasks = append(tl.Tasks, sim.TaskTimes{Called: tl.End, Start: tl.End, Worked: sim.Never, End: sim.Never, Unit: 0})
	tl.People[0][len(tl.People[0])-1].To = tl.End
	tl.SetMilestones()
	return tl
}

func TestAStoveThatKeepsAShelterWarmStopsASecond(t *testing.T) {
	mustCatch(t, keptBeside, []broken{
		{"the drill goes on", func(tl *sim.Timeline) {
			tl.Tasks[3].Worked, tl.Tasks[3].End = tl.End+1, tl.End+1
			tl.End++
			tl.People[0][len(tl.People[0])-1].To++
			tl.SetMilestones()
		}, "shelter"},
		{"a stop for the same stove, which is taken over", func(tl *sim.Timeline) { tl.Drill.Tasks[3].Warm.Stove = 0 }, "end"},
	})
}
