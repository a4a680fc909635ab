package draft

import (
	"context"
	"fmt"
	"slices"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fast"
)

// targets are when milestones are wanted, as the file says it; "" for never
// mind.
type targets struct{ Up, Drink, Heated, Night string }

// clothing is what may be worn: a class of the format, or one with more on top.
type clothing struct {
	text        string
	march, halt float64 // clo
}

// clothes are what may be worn, the thinnest first. The last is the thickest
// class with one layer more (invented).
func clothes() (list []clothing) {
	for _, class := range []string{"light", "winter", "expedition"} {
		march, halt, _ := scenarios.ClothingClass(class)
		list = append(list, clothing{"like: " + class, march, halt})
	}
	return append(list, clothing{"like: expedition, march: 2.4 clo, halt: 5.2 clo", 2.4, 5.2})
}

// trials is how many evenings are played to choose clothing and targets.
const trials = 40

// settle plays the evening: it chooses the thinnest clothing in which nobody
// gets too cold in three evenings of four under one of the orders, or the
// thickest, and targets that are met in most evenings under every order.
// TooCold is when the thickest is too thin in half of them.
func (e *evening) settle() (tooCold bool, err error) {
	e.Trial, e.Targets.Up = true, "dark" // to be told when that is
	drills, err := e.drills()
	if err != nil {
		return false, err
	}
	batch := compare.Batch{Seed: 1, Runs: trials, Workers: 1}
	played, err := compare.Play(context.Background(), drills, batch)
	if err != nil {
		return false, err
	}
	e.Trial = false
	e.target(played)
	return e.dress(played, batch)
}

// drills reads the evening as it is by now, under each of its orders.
func (e *evening) drills() (list []*sim.Drill, err error) {
	s, err := e.read()
	if err != nil {
		return nil, err
	}
	for _, order := range s.Orders() {
		d, err := s.Drill(order)
		if err != nil {
			return nil, err
		}
		list = append(list, d)
	}
	return list, nil
}

// dress chooses the clothing. In hard frost nobody goes out lightly dressed.
func (e *evening) dress(played []*compare.Played, batch compare.Batch) (tooCold bool, err error) {
	list := clothes()
	if e.answers.Air.Value < -10 {
		list = list[1:]
	}
	for _, worn := range list {
		e.Clothing = worn.text
		for _, p := range played {
			p.Drill = dressed(p.Drill, worn)
		}
		accounts, err := compare.HowCold(context.Background(), played, batch)
		if err != nil {
			return false, err
		}
		warm := 0
		for _, a := range accounts {
			if a != nil {
				warm = max(warm, len(a.Peaks)-a.Over)
			}
		}
		tooCold = 2*warm < trials
		if 4*warm >= 3*trials {
			break
		}
	}
	return tooCold, nil
}

// dressed is a drill in which everybody wears the same.
func dressed(d *sim.Drill, worn clothing) *sim.Drill {
	changed := *d
	changed.People = slices.Clone(d.People)
	for i := range changed.People {
		changed.People[i].March, changed.People[i].Halt = worn.march, worn.halt
	}
	return &changed
}

// target sets what is met in five evenings of six under every order. The
// shelter is wanted by dark where that is so.
func (e *evening) target(played []*compare.Played) {
	usual := usualTimes(played)
	wanted := map[string]string{}
	for m, milestone := range played[0].Drill.Milestones {
		latest := sim.Time(0)
		for _, p := range played {
			latest = max(latest, fiveOfSix(p.Times[m]), usual[p][m])
		}
		if latest == sim.Never {
			continue
		}
		const step = 5 * sim.Minute
		wanted[milestone.Name] = fmt.Sprintf("%d min", (latest+step-1)/step*5)
		if dark := milestone.By; dark != sim.Never && latest <= dark && dark <= latest+2*sim.Hour {
			wanted[milestone.Name] = "dark"
		}
	}
	e.Targets = targets{wanted["shelter up"], wanted["hot drink"], wanted["heated"], wanted["ready for the night"]}
}

// usualTimes is when each milestone comes with usual values, by drill.
func usualTimes(played []*compare.Played) map[*compare.Played][]sim.Time {
	times := map[*compare.Played][]sim.Time{}
	for _, p := range played {
		times[p] = fast.Compile(p.Drill).Worker().Timeline(draw.Usual(p.Drill)).Milestones
	}
	return times
}

// fiveOfSix is by when five runs of six have got there.
func fiveOfSix(times []sim.Time) sim.Time {
	sorted := slices.Sorted(slices.Values(times))
	return sorted[len(sorted)*5/6]
}
