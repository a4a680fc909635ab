package draft

import (
	"fmt"
	"math"
	"strings"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/heat"
)

// tent is one tent with what is done about it.
type tent struct {
	Name, Inside              string
	First, Heated             bool
	Sleepers                  int
	Sled, Bag, Kit, HeaterBox string
	SledLate                  int
	Weight, KitWeight         int
	Shelter                   string

	Tramp, Set, Pitch, Bank, Beds, Vents, Light, WarmUp, PutOut, Lookout string // its tasks and its lookout

	TrampWork, PitchMinutes, BankWork, BedsWork string
	TrampCrew, PitchCrew                        string
	PitchTimed, WarmPeople                      int

	air sim.Shelter
}

// allHeated reports whether there are enough people for a heater in every tent,
// with somebody beside it all the time and others to do the work. Else the
// first tent is the warm one and holds everybody.
func (e *evening) allHeated() bool { return e.answers.People >= 4*e.answers.Tents || !e.Several }

// pitch plans the tents.
func (e *evening) pitch() {
	for i := range e.answers.Tents {
		e.Tents = append(e.Tents, e.newTent(i))
	}
	e.LateSled = e.Tents[0].Sled
	if e.Heater {
		e.heaters()
	}
}

func (e *evening) newTent(i int) *tent {
	t := &tent{First: i == 0, Sleepers: len(e.inTent(i)), Heated: e.Heater && (i == 0 || e.allHeated())}
	room := max(t.Sleepers, 1)
	if t.Heated && !e.allHeated() {
		room = e.answers.People // all eat there
	}
	t.call(i, e.Several)
	room = t.house(room)
	e.work(t, float64(room))
	return t
}

// call gives a tent and its tasks their names.
func (t *tent) call(i int, several bool) {
	the, number := "the tent", ""
	if several {
		number = fmt.Sprintf(" %d", i+1)
		the = "tent" + number
	}
	of := func(pattern string) string { return strings.ReplaceAll(pattern, "TENT", the) }
	t.Name, t.Inside, t.Sled, t.Bag, t.Kit = "tent"+number, "inside"+number, "sled"+number, "tent bag"+number, "sleeping kit"+number
	t.HeaterBox, t.Lookout = "heater box"+number, "heater watch"+number
	t.Tramp, t.Set, t.Pitch = of("tramp the floor of TENT"), of("let the floor of TENT set"), of("pitch TENT")
	t.Bank, t.Beds, t.Vents = of("bank the skirt of TENT"), of("lay out the beds in TENT"), of("vents and alarm of TENT")
	t.Light, t.WarmUp, t.PutOut = "light the heater"+number, of("warm TENT"), "put out the heater"+number
	if several {
		t.Light, t.PutOut = of("light the heater of TENT"), of("put out the heater of TENT")
	}
	t.SledLate = 2 + i
}

// house chooses the smallest double-wall tent with so much room, and returns
// how many it sleeps. A larger one than there are classes of is a ten-person
// tent drawn out.
func (t *tent) house(room int) (sleeps int) {
	for _, class := range []string{"two-person", "four-person", "six-person", "ten-person"} {
		class += " double-wall tent"
		t.air, _ = scenarios.ShelterClass(class)
		if t.air.Sleeps >= room {
			t.Shelter = "like: " + class
			return t.air.Sleeps
		}
	}
	by := float64(room) / float64(t.air.Sleeps)
	t.air.Volume, t.air.Skin, t.air.Contents = math.Round(by*t.air.Volume), math.Round(by*t.air.Skin), math.Round(by*t.air.Contents/1000)*1000
	t.air.Sleeps = room
	t.Shelter = fmt.Sprintf("volume: %.0f m3, skin: %.0f m2, u: %.4g W/m2K, air changes: %.4g /h, contents: %.0f kJ/K, sleeps: %d",
		t.air.Volume, t.air.Skin, t.air.U, t.air.AirChanges, t.air.Contents/1000, room)
	return room
}

// work sizes the work on a tent by the room in it and the snow under it.
func (e *evening) work(t *tent, room float64) {
	n := e.answers.People
	deep := math.Max(0.6, math.Min(1.6, 0.5+e.answers.Snow.Value/1.4))
	t.TrampWork = minutes(deep * (8 + 2.2*room))
	t.TrampCrew = crew(1, min(4, n))
	t.PitchTimed = min(3, n)
	t.PitchMinutes = minutes(6 + 1.5*room)
	t.PitchCrew = crew(min(2, n-1), min(n, 2+int(room)/4))
	t.BankWork, t.BedsWork = minutes(6+1.2*room), minutes(3+1.3*float64(t.Sleepers))
	t.Weight, t.KitWeight = 8+int(2.5*room), max(1, int(3.5*float64(t.Sleepers)))
	t.WarmPeople = 1
}

func crew(low, high int) string {
	if low == high {
		return fmt.Sprint(low)
	}
	return fmt.Sprintf("%d-%d", low, high)
}

// heaters gives the heaters half as much power again as holds 10 C in the
// largest tent when it has grown colder.
func (e *evening) heaters() {
	air, most := e.answers.Air.Value-3, 0.0
	for _, t := range e.Tents {
		if t.Heated {
			most = math.Max(most, heat.Loss(t.air, air))
		}
	}
	e.Power = fmt.Sprintf("%.1f kW", math.Ceil(1.5*most*(10-air)/0.65/100)/10)
}

// tables says who eats where: in the own tent, or all in the warm one.
func (e *evening) tables() {
	for i, t := range e.Tents {
		own := !e.Heater || e.allHeated()
		if own && t.Sleepers == 0 || !own && i > 0 {
			continue
		}
		suffix := ""
		if own && e.Several {
			suffix = " in " + t.Name
		}
		one := table{Eat: "eat supper" + suffix, Socks: "dry socks" + suffix, Bottle: "fill the night bottle" + suffix, Inside: t.Inside, Pitch: t.Pitch, SocksAfter: t.Pitch}
		if t.Heated {
			one.SocksAfter = t.WarmUp
		}
		if suffix != "" {
			one.Who = names(e.inTent(i))
		}
		e.Tables = append(e.Tables, one)
	}
	e.CheckSpot = e.Tents[0].Inside
	after := []string{"put out the burners", "look at faces again"}
	for _, one := range e.Tables {
		after = append(after, one.Eat, one.Socks, one.Bottle)
	}
	e.CheckAfter = strings.Join(append(after, e.each(func(t *tent) string { return t.bedsIfAny() })...), ", ")
}

func (t *tent) bedsIfAny() string {
	if t.Sleepers == 0 {
		return ""
	}
	return t.Beds
}

// Used reports whether anything is done inside a tent.
func (t *tent) Used() bool { return t.Sleepers > 0 || t.Heated }

// each lists something of every tent that has it.
func (e *evening) each(of func(*tent) string) (list []string) {
	for _, t := range e.Tents {
		if one := of(t); one != "" {
			list = append(list, one)
		}
	}
	return list
}

// heated lists something of every tent with a heater.
func (e *evening) heated(of func(*tent) string) []string {
	return e.each(func(t *tent) string {
		if !t.Heated {
			return ""
		}
		return of(t)
	})
}

// PitchTasks lists what puts the tents up.
func (e *evening) PitchTasks() string {
	return strings.Join(e.each(func(t *tent) string { return t.Pitch }), ", ")
}

// WarmTasks lists what warms the tents that are heated.
func (e *evening) WarmTasks() string {
	return strings.Join(e.heated(func(t *tent) string { return t.WarmUp }), ", ")
}

// NightTasks lists what comes last.
func (e *evening) NightTasks() string {
	return strings.Join(append([]string{"evening check"}, e.heated(func(t *tent) string { return t.PutOut })...), ", ")
}
