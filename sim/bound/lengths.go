package bound

import (
	"cmp"
	"math"
	"slices"

	"warmby/sim"
	"warmby/sim/heat"
)

// lengths is how quickly the tasks of a drill can be done at best under one
// weather case.
type lengths struct {
	rate  []int64    // by task: the highest rate of any crew; of work only
	each  []float64  // by task: the highest rate of any crew for each of its people
	fixed []sim.Time // melts and warm-ups
	low   []int      // the smallest crew
	able  [][]int    // by task: people with the skills asked of all
}

func lengthsOf(d *sim.Drill, weather int) lengths {
	n := len(d.Tasks)
	c := lengths{make([]int64, n), make([]float64, n), make([]sim.Time, n), make([]int, n), make([][]int, n)}
	steps := d.Steps(weather)
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Crew.Max > 0 {
			c.low[i], _ = t.CrewBounds()
		}
		for p := range d.People {
			if d.People[p].Skills.Holds(t.All) && d.MayDo(t, p) {
				c.able[i] = append(c.able[i], p)
			}
		}
		switch {
		case t.Worked():
			c.rate[i], c.each[i] = bestRates(d, i, c.able[i], steps)
		case t.Kind == sim.Melt:
			c.fixed[i] = shortestMelt(d, t, steps)
		case t.Kind == sim.Warm:
			c.fixed[i] = shortestWarmUp(d, t, steps)
		}
	}
	return c
}

// shortestMelt returns how long a melt takes at least: slowed least.
func shortestMelt(d *sim.Drill, t *sim.Task, steps []sim.Step) sim.Time {
	m := heat.Melt(&d.Site, &d.Stoves[t.Melt.Stove], t.Melt)
	if m.Time == sim.Never {
		return m.Time
	}
	slowed := int64(math.MaxInt64)
	for _, s := range steps {
		slowed = min(slowed, t.Slowed1000(&d.Site, s))
	}
	heating := sim.WorkOf(m.Heating, sim.WorkUnit).Takes(sim.MeltRate(slowed))
	if heating == sim.Never {
		return sim.Never
	}
	return m.Time - m.Heating + heating
}

// bestRates returns the highest rate that any crew of a task can reach, and
// the highest for each person of the crew.
func bestRates(d *sim.Drill, task int, able []int, steps []sim.Step) (all int64, each float64) {
	t := &d.Tasks[task]
	slowed := int64(math.MaxInt64)
	for _, s := range steps {
		slowed = min(slowed, t.Slowed1000(&d.Site, s))
	}
	var paces []int64
	for _, p := range able {
		paces = append(paces, d.People[p].Pace)
	}
	slices.SortFunc(paces, func(a, b int64) int { return cmp.Compare(b, a) })
	low, high := t.CrewBounds()
	sum := int64(0)
	for n := 1; n <= min(high, len(paces)); n++ {
		if sum += paces[n-1]; n >= low {
			rate := sim.Rate(n, t.Teamwork, sum, slowed)
			all, each = max(all, rate), max(each, float64(rate)/float64(n))
		}
	}
	return all, each
}

// shortestWarmUp returns how long a warm-up takes at least: in the warmest air
// of the weather, no pot on the stove, and each property of the shelter the
// best that anything makes of it. Warmer air, a smaller loss and a smaller
// capacity each make it no longer, at every moment.
func shortestWarmUp(d *sim.Drill, t *sim.Task, steps []sim.Step) sim.Time {
	w := t.Warm
	s := d.Shelters[w.Shelter]
	if s.AtStart != nil || warmedTwice(d, w.Shelter) {
		return 0 // it may be as warm already
	}
	least := func(value *float64, to *float64) {
		if to != nil {
			*value = min(*value, *to)
		}
	}
	for i := range d.Tasks {
		for _, m := range d.Tasks[i].Makes {
			if m.Shelter == w.Shelter {
				least(&s.Volume, m.Volume)
				least(&s.Skin, m.Skin)
				least(&s.U, m.U)
				least(&s.AirChanges, m.AirChanges)
				least(&s.Contents, m.Contents)
			}
		}
	}
	air := steps[0].Air
	for _, step := range steps {
		air = max(air, step.Air)
	}
	up := heat.Start(0, air, heat.Warming(w, &d.Stoves[w.Stove], s, air))
	at := up.Reaches(w.To)
	if at == sim.Never || at == 0 {
		return at
	}
	return at - 1 // for what rounding may do where nothing ever changes
}

// warmedTwice reports whether more than one task warms a shelter.
func warmedTwice(d *sim.Drill, shelter int) bool {
	n := 0
	for i := range d.Tasks {
		if w := d.Tasks[i].Warm; w != nil && w.Shelter == shelter {
			n++
		}
	}
	return n > 1
}

// of returns the shortest length of a task with a luck and the least of its
// people's time that it takes, in person-milliseconds.
func (c *lengths) of(t *sim.Task, task int, luck *sim.Luck) (length sim.Time, effort float64) {
	switch {
	case t.Worked():
		work := t.Work(luck.Amount[task])
		if length = work.Takes(c.rate[task]); length == sim.Never {
			return sim.Never, 0
		}
		if !work.None() {
			effort = work.Float() / c.each[task]
		}
	case t.Kind == sim.Takes:
		length = luck.Amount[task]
	default:
		length = c.fixed[task]
	}
	if length == sim.Never {
		return length, 0
	}
	adds := luck.LeastMishap(task)
	low := float64(c.low[task])
	return length + adds, max(effort+float64(low*float64(adds)), low*float64(length+adds))
}

// release returns the moment before which a task cannot start for want of its
// load or of people, who walk there from where they begin.
func (c *lengths) release(d *sim.Drill, task int, luck *sim.Luck) sim.Time {
	t := &d.Tasks[task]
	at := sim.Time(0)
	if t.Unloads() {
		at = luck.Load[d.Items[t.Item].Load]
	}
	if c.low[task] > 0 {
		at = max(at, nth(d, t.Spot, luck.Person, c.able[task], c.low[task]))
	}
	for _, r := range t.Roles {
		var players []int
		for _, p := range c.able[task] {
			if d.People[p].Skills.Has(r.Skill) {
				players = append(players, p)
			}
		}
		at = max(at, nth(d, t.Spot, luck.Person, players, r.Count))
	}
	return at
}

// nth returns when the nth of some people can be at a spot; 0 when there are not
// so many, for the drill is then refused elsewhere.
func nth(d *sim.Drill, spot int, arrives []sim.Time, people []int, n int) sim.Time {
	if n <= 0 || n > len(people) {
		return 0
	}
	at := make([]sim.Time, len(people))
	for k, p := range people {
		at[k] = arrives[p] + d.WalkTime(d.People[p].Begin, spot)
	}
	slices.Sort(at)
	return at[n-1]
}
