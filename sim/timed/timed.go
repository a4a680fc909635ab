// Package timed says what a stop-watch tells of drills that were done: which
// task ended when, who was on it, what went wrong, what it was like outside.
//
// [Drill] is one such drill, in the plain numbers of package sim: tasks, people
// and stoves by index, moments in milliseconds since arrival. [Conditions.Over]
// lays what it was like over the drill of the scenario, so that the same drill
// can be played. Who reads logs is package warmby/scenarios/stopwatch.
package timed

import (
	"slices"

	"warmby/sim"
)

// Drill is one drill as it was timed.
type Drill struct {
	Name, Team string
	Date       string   // 2027-01-16; "" when unknown
	Order      string   // of the scenario; "" when unknown
	Arrival    sim.Time // on the clock, since midnight; Never when unknown
	Conditions Conditions
	CalledOff  bool  // it was broken off, and not for the clock's sake
	Jobs       []Job // by task, each task at most once
	Moments    []Moment
	Stoves     []StoveUse
	Felt       []Felt
}

// Job is one task as it was timed.
type Job struct {
	Task       int
	Start      sim.Time // Never when the log gives only the end
	End        sim.Time // when it ended, or until when it was watched
	Unfinished bool     // it had not ended by End
	Stints     []Stint  // who was on it; none when the log does not say
	Mishaps    int
	MishapTime sim.Time // of all of them; Never when it is not known
	Line       int      // of the log, the first of the task's
}

// Stint is some people on a task for a time.
type Stint struct {
	People   []int    // of the drill; -1 for somebody whom it does not name
	From, To sim.Time // From is Never when the log gives only the end
}

// Moment is a milestone that was called out.
type Moment struct {
	Milestone int
	At        sim.Time
}

// StoveUse is what a kind of stove did in a drill.
type StoveUse struct {
	Stove int
	Fuel  float64 // burnt: litres, or kilograms of fuel that is weighed; 0 when unknown
	Water float64 // litres melted and boiled; 0 when unknown
}

// Felt is how cold somebody felt: 0 neutral, -1 slightly cool, -2 cool, -3
// cold, -4 very cold (the scale of ISO 10551, on its cold side; from memory).
type Felt struct {
	Person int
	At     sim.Time
	Sense  float64
}

// Answer is a yes or no that may be left open.
type Answer int

// The answers.
const (
	Unknown Answer = iota
	No
	Yes
)

// Conditions is what it was like in a drill.
type Conditions struct {
	Air, Wind              *float64 // degrees C, m/s at 10 m; nil when unknown
	Dark, Indoor, Learning Answer   // learning: the team was new to it
}

// Over returns the drill of the scenario with the conditions laid over it: air
// and wind all the time as they were noted, dark or light from beginning to
// end, and indoors neither weather nor dark. What is not known stays as the
// scenario has it.
func (c Conditions) Over(d *sim.Drill) *sim.Drill {
	out := *d
	if c.Indoor == Yes {
		out.Weather, out.Light, out.Site.SnowDepth = nil, []sim.Light{{}}, 0
		return &out
	}
	if c.Air != nil || c.Wind != nil {
		out.Weather = []sim.WeatherCase{{Weight: 1, Rows: []sim.WeatherRow{c.row(d)}}}
	}
	if c.Dark != Unknown {
		out.Light = []sim.Light{{Dark: c.Dark == Yes}}
	}
	return &out
}

func (c Conditions) row(d *sim.Drill) sim.WeatherRow {
	r := sim.WeatherRow{Humidity: 0.85}
	if len(d.Weather) > 0 {
		r = d.Weather[0].Rows[0]
	}
	r.At = 0
	if c.Air != nil {
		r.Air = *c.Air
	}
	if c.Wind != nil {
		r.Wind = *c.Wind
	}
	return r
}

// Job returns what was timed of a task.
func (d *Drill) Job(task int) (*Job, bool) {
	i := slices.IndexFunc(d.Jobs, func(j Job) bool { return j.Task == task })
	if i < 0 {
		return nil, false
	}
	return &d.Jobs[i], true
}

// Last returns the last moment that the log knows of.
func (d *Drill) Last() sim.Time {
	var last sim.Time
	for _, j := range d.Jobs {
		last = max(last, j.End)
	}
	for _, m := range d.Moments {
		last = max(last, m.At)
	}
	return last
}

// Milestone returns when a milestone of the drill of the scenario was reached:
// called out, or the last end of its tasks. It is not known while one of them
// is missing.
func (d *Drill) Milestone(of *sim.Drill, m int) (at sim.Time, known bool) {
	for _, one := range d.Moments {
		if one.Milestone == m {
			return one.At, true
		}
	}
	for _, task := range of.Milestones[m].When {
		j, ok := d.Job(task)
		if !ok || j.Unfinished {
			return 0, false
		}
		at = max(at, j.End)
	}
	return at, len(of.Milestones[m].When) > 0
}

// Evening is a drill as it was timed beside the drill of the scenario, under the
// order that was followed and with the conditions of that day.
type Evening struct {
	Timed *Drill
	Drill *sim.Drill
}
