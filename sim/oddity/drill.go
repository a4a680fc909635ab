package oddity

import (
	"math"

	"warmby/sim"
	"warmby/sim/heat"
)

// Of looks at a drill that nobody has played. (Melts that ask for water hotter than
// it gets are refused by the reader.)
func Of(d *sim.Drill) []Remark {
	var found []Remark
	for _, look := range []func(*sim.Drill) []Remark{coldShelters, heavyLoads, emptyLookouts, unused, neverLit, tooWarmAtStart, nearNothing, otherLights} {
		found = append(found, look(d)...)
	}
	return found
}

// coldShelters finds warm-ups whose stove cannot hold what is asked in some weather,
// once each, for the weather in which it holds least.
func coldShelters(d *sim.Drill) (found []Remark) {
	for i := range d.Tasks {
		w := d.Tasks[i].Warm
		if w == nil {
			continue
		}
		shelter := shelterAt(d, i)
		r := remark(d, ColdShelter)
		r.Task, r.Stove, r.Shelter, r.Value = i, w.Stove, w.Shelter, w.To
		for c := range d.Weather {
			for k, row := range d.Weather[c].Rows {
				if holds := heat.Warming(w, &d.Stoves[w.Stove], shelter, row.Air).Holds(); holds < r.Value {
					r.Value, r.Weather, r.Index, r.At = holds, c, k, row.At
				}
			}
		}
		if r.Weather >= 0 {
			found = append(found, r)
		}
	}
	return found
}

// shelterAt returns the shelter of a warm-up with the changes made to it by tasks
// that must have ended before the warm-up starts.
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

func heavyLoads(d *sim.Drill) (found []Remark) {
	for l := range d.Loads {
		if weight, near := d.NearLimit(l); near {
			r := remark(d, HeavyLoad)
			r.Index, r.Value = l, weight
			found = append(found, r)
		}
	}
	return found
}

func emptyLookouts(d *sim.Drill) (found []Remark) {
	for i, l := range d.Lookouts {
		r := remark(d, EmptyLookout)
		r.Index = i
		switch who := len(l.Who); {
		case who < l.Places:
			found = append(found, r)
		case who == l.Places && l.Relief > 0:
			r.Kind = NoRelief
			found = append(found, r)
		}
	}
	return found
}

// neverLit finds stoves that a task puts out and that warm nothing.
func neverLit(d *sim.Drill) (found []Remark) {
	lit := make([]bool, len(d.Stoves))
	for i := range d.Tasks {
		if w := d.Tasks[i].Warm; w != nil {
			lit[w.Stove] = true
		}
	}
	for i := range d.Tasks {
		for _, kind := range d.Tasks[i].PutsOut {
			if !lit[kind] && d.Parts(i)[0] == i {
				r := remark(d, NeverLit)
				r.Task, r.Stove = i, kind
				found = append(found, r)
			}
		}
	}
	return found
}

// tooWarmAtStart finds shelters that are said to be warmer on arrival than any stove
// that warms them could have held them.
func tooWarmAtStart(d *sim.Drill) (found []Remark) {
	for s := range d.Shelters {
		at := d.Shelters[s].AtStart
		if at == nil || len(d.Weather) == 0 || len(d.Weather[0].Rows) == 0 {
			continue
		}
		r := remark(d, TooWarmAtStart)
		r.Shelter, r.Value = s, math.Inf(-1)
		for i := range d.Tasks {
			if w := d.Tasks[i].Warm; w != nil && w.Shelter == s {
				if holds := heat.Warming(w, &d.Stoves[w.Stove], d.Shelters[s], d.Weather[0].Rows[0].Air).Holds(); holds > r.Value {
					r.Value, r.Stove = holds, w.Stove
				}
			}
		}
		if r.Stove >= 0 && *at > r.Value {
			found = append(found, r)
		}
	}
	return found
}

const (
	// hardlyAny is what part of its usual length counts as next to none.
	hardlyAny = 0.1
	// tooOften is in what share of runs a task may take next to no time.
	tooOften = 0.02
)

// nearNothing finds tasks whose law often gives next to no length: no work is done
// in a tenth of its usual time, but the exponential law says so in 7 runs of 100.
func nearNothing(d *sim.Drill) (found []Remark) {
	for i := range d.Tasks {
		law := d.Tasks[i].Amount
		if law == nil || law.Usual() <= 0 || d.Parts(i)[0] != i {
			continue
		}
		if often := below(law, hardlyAny*law.Usual()); often > tooOften {
			r := remark(d, NearNothing)
			r.Task, r.Value = i, often
			found = append(found, r)
		}
	}
	return found
}

// otherLights finds mishaps that are likelier, or less likely, in a darkness that never
// is: dark is without lights, and dark with lights with them.
func otherLights(d *sim.Drill) (found []Remark) {
	for i := range d.Tasks {
		m := d.Tasks[i].Mishap
		if m == nil || m.When == nil || d.Parts(i)[0] != i {
			continue
		}
		if d.Site.Lights && m.When.Kind == sim.Dark || !d.Site.Lights && m.When.Kind == sim.DarkWithLights {
			r := remark(d, OtherLights)
			r.Task = i
			found = append(found, r)
		}
	}
	return found
}

// below returns with what chance a draw is under a value, by halving.
func below(law sim.Distribution, value float64) float64 {
	low, high := 0.0, 1.0
	for range 30 {
		if mid := (low + high) / 2; law.Quantile(mid) < value {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
