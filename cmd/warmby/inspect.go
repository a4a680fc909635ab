package main

import (
	"fmt"
	"math"

	"warmby/sim"
	"warmby/sim/heat"
)

// finding is one thing that check has to say about a scenario.
type finding struct {
	Kind    string `json:"kind"` // one of the kinds below
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
	Line    int    `json:"line,omitempty"` // of a mistake; both from 1
	Column  int    `json:"column,omitempty"`
}

// The kinds of finding.
const (
	unread  = "unread"  // the file cannot be read at all
	broken  = "mistake" // it does not hold what it should
	refused = "never"   // a task can never start or end
	warning = "warning"
	note    = "note"
)

func warnf(format string, args ...any) finding {
	return finding{Kind: warning, Message: fmt.Sprintf(format, args...)}
}

// inspect works the shelters, loads and lookouts of a drill and looks for what
// nothing uses. It does not play the drill. (Melts that ask for water hotter
// than it gets are refused by the reader.)
func inspect(d *sim.Drill) []finding {
	var found []finding
	for _, look := range []func(*sim.Drill) []finding{coldShelters, heavyLoads, emptyLookouts, unused, neverLit, tooWarmAtStart} {
		found = append(found, look(d)...)
	}
	return found
}

// coldShelters finds warm-ups whose stove cannot hold what is asked in some
// weather, and says so once of each, for the weather in which it holds least.
func coldShelters(d *sim.Drill) []finding {
	var found []finding
	for i := range d.Tasks {
		w := d.Tasks[i].Warm
		if w == nil {
			continue
		}
		in := heat.Surroundings{Shelter: shelterAt(d, i), Power: heat.WarmPower(&d.Stoves[w.Stove], w.People, false)}
		least, when := w.To, ""
		for c := range d.Weather {
			for _, row := range d.Weather[c].Rows {
				in.Air = row.Air
				if holds := in.Holds(); holds < least {
					least, when = holds, weatherText(d, c, row)
				}
			}
		}
		if when != "" {
			f := warnf("%q asks for %.1f C, but %q holds no more than %.1f C in %q, %s", d.Tasks[i].Name,
				w.To, d.Stoves[w.Stove].Name, least, d.Shelters[w.Shelter].Name, when)
			f.Hint = "ask for less, or make the skin thicker, the air changes fewer (never none) or the stove stronger"
			found = append(found, f)
		}
	}
	return found
}

func weatherText(d *sim.Drill, weather int, row sim.WeatherRow) string {
	s := fmt.Sprintf("with %.1f C outside from %s on", row.Air, sim.Clock(row.At))
	if len(d.Weather) > 1 {
		s += fmt.Sprintf(" (weather %q)", d.Weather[weather].Name)
	}
	return s
}

// shelterAt returns the shelter of a warm-up with the changes made to it by
// tasks that must have ended before the warm-up starts.
func shelterAt(d *sim.Drill, warmup int) sim.Shelter {
	before := make([]bool, len(d.Tasks))
	var mark func(task int)
	mark = func(task int) {
		for _, a := range d.Tasks[task].After {
			if !a.FromStart && !before[a.Task] {
				before[a.Task] = true
				mark(a.Task)
			}
		}
	}
	mark(warmup)
	index := d.Tasks[warmup].Warm.Shelter
	shelter := d.Shelters[index]
	for i := range d.Tasks {
		for _, m := range d.Tasks[i].Makes {
			if before[i] && m.Shelter == index {
				shelter = heat.Apply(shelter, m)
			}
		}
	}
	return shelter
}

func heavyLoads(d *sim.Drill) []finding {
	var found []finding
	for l, load := range d.Loads {
		if weight, near := d.NearLimit(l); near {
			f := warnf("load %q weighs %.1f kg, close to its limit of %.1f kg", load.Name, weight, load.Limit)
			f.Hint = "snow, ice and wet canvas weigh too: leave some of the limit for them"
			found = append(found, f)
		}
	}
	return found
}

func emptyLookouts(d *sim.Drill) []finding {
	var found []finding
	for _, l := range d.Lookouts {
		who := len(l.Who)
		switch {
		case who < l.Places:
			found = append(found, warnf("lookout %q has %s and only %d in \"who\": some stay empty",
				l.Name, counted(l.Places, "place"), who))
		case who == l.Places && l.Relief > 0:
			found = append(found, warnf("lookout %q has %s and nobody more in \"who\": nobody can ever be relieved",
				l.Name, counted(l.Places, "place")))
		}
	}
	return found
}

// neverLit finds stoves that a task puts out and that warm nothing.
func neverLit(d *sim.Drill) []finding {
	lit := make([]bool, len(d.Stoves))
	for i := range d.Tasks {
		if w := d.Tasks[i].Warm; w != nil {
			lit[w.Stove] = true
		}
	}
	var found []finding
	for i := range d.Tasks {
		for _, kind := range d.Tasks[i].PutsOut {
			if !lit[kind] && d.Parts(i)[0] == i {
				f := warnf("%q puts out %q, which warms no shelter", d.Tasks[i].Name, d.Stoves[kind].Name)
				f.Hint = "only stoves that a warm-up has lit burn on; a stove under a pot goes out with it"
				found = append(found, f)
			}
		}
	}
	return found
}

// tooWarmAtStart finds shelters that are said to be warmer on arrival than any
// stove that warms them could have held them.
func tooWarmAtStart(d *sim.Drill) []finding {
	var found []finding
	for s := range d.Shelters {
		at := d.Shelters[s].AtStart
		if at == nil || len(d.Weather) == 0 || len(d.Weather[0].Rows) == 0 {
			continue
		}
		most, stove := math.Inf(-1), ""
		for i := range d.Tasks {
			if w := d.Tasks[i].Warm; w != nil && w.Shelter == s {
				in := heat.Surroundings{Shelter: d.Shelters[s], Power: heat.WarmPower(&d.Stoves[w.Stove], w.People, false), Air: d.Weather[0].Rows[0].Air}
				if holds := in.Holds(); holds > most {
					most, stove = holds, d.Stoves[w.Stove].Name
				}
			}
		}
		if stove != "" && *at > most {
			f := warnf("%q is at %.1f C at the start, and %q can hold no more than %.1f C in it", d.Shelters[s].Name, *at, stove, most)
			f.Hint = "give the temperature that it has on arrival"
			found = append(found, f)
		}
	}
	return found
}
