package cold

import (
	"slices"

	"warmby/sim"
)

// OfTasks returns those of some cautions that matter to who does some tasks and
// stands at some lookouts, both by index: fire to who handles it, hot water to
// who melts, the wind to who stands out in it. What goes for everybody (cold
// injury, a casualty, a line between tents) is among them.
func OfTasks(d *sim.Drill, all []Caution, tasks, lookouts []int) []Caution {
	o := own{d, tasks, lookouts}
	var out []Caution
	for _, c := range all {
		if o.concerns(c) {
			out = append(out, c)
		}
	}
	return out
}

// own is what one person does.
type own struct {
	d               *sim.Drill
	tasks, lookouts []int
}

func (o own) concerns(c Caution) bool {
	switch c.Topic {
	case "cold injury", "cold casualty", "hand line":
		return true
	case "carbon monoxide", "flame in a tent", "alarm":
		return o.any(func(i int) bool { return fireInside(o.d, i) }) || o.looksOut(func(in bool) bool { return in })
	case "liquid fuel", "fuel gas":
		return o.any(func(i int) bool { return handlesFire(o.d, i) })
	case "scalds":
		return o.any(func(i int) bool { return o.d.Tasks[i].Kind == sim.Melt })
	case "melting in the open wind":
		return o.any(func(i int) bool { return o.d.Tasks[i].Kind == sim.Melt && outdoors(o.d, i) })
	case "pitching in wind":
		return o.any(func(i int) bool { return raises(o.d, i) })
	case "wind chill":
		return o.looksOut(func(in bool) bool { return !in })
	case "bare hands":
		return o.any(func(i int) bool { h := o.d.Tasks[i].Hands; return h == sim.Thin || h == sim.Bare })
	case "felling":
		return o.any(func(i int) bool { return o.d.Tasks[i].Felling })
	case "ice":
		return o.any(func(i int) bool { m := o.d.Tasks[i].Melt; return m != nil && m.IceHole })
	case "overload":
		return o.any(func(i int) bool {
			t := &o.d.Tasks[i]
			return t.Unloads() && o.d.Loads[o.d.Items[t.Item].Load].Name == c.about
		})
	}
	return false
}

func (o own) any(is func(task int) bool) bool { return slices.ContainsFunc(o.tasks, is) }

// looksOut reports whether a lookout is such a one, in a shelter or not.
func (o own) looksOut(is func(inside bool) bool) bool {
	return slices.ContainsFunc(o.lookouts, func(l int) bool { return is(o.d.Spots[o.d.Lookouts[l].Spot].In >= 0) })
}

func outdoors(d *sim.Drill, task int) bool { return d.Spots[d.Tasks[task].Spot].In < 0 }

func burns(t *sim.Task) bool { return t.Kind == sim.Warm || t.Kind == sim.Melt }

// handlesFire reports whether a task burns a stove, puts one out, or gets one
// ready: clock time without mittens, with something that burns close after it.
func handlesFire(d *sim.Drill, task int) bool {
	t := &d.Tasks[task]
	ready := t.Kind == sim.Takes && (t.Hands == sim.Thin || t.Hands == sim.Bare)
	return burns(t) || len(t.PutsOut) > 0 || ready && follows(d, task, 2, burns)
}

// fireInside reports whether a task has to do with a fire in a shelter.
func fireInside(d *sim.Drill, task int) bool {
	t := &d.Tasks[task]
	return t.Kind == sim.Warm || !outdoors(d, task) && (handlesFire(d, task) || follows(d, task, 2, func(t *sim.Task) bool { return t.Kind == sim.Warm }))
}

// raises reports whether a task outdoors is one after which work inside a shelter
// can begin.
func raises(d *sim.Drill, task int) bool {
	t := &d.Tasks[task]
	return t.Kind != sim.Takes && !t.Unloads() && outdoors(d, task) && len(d.Shelters) > 0 &&
		follows(d, task, 1, func(t *sim.Task) bool { return d.Spots[t.Spot].In >= 0 })
}

// follows reports whether such a task comes after one, with no more than so many
// steps between them.
func follows(d *sim.Drill, task, steps int, is func(*sim.Task) bool) bool {
	for i := range d.Tasks {
		if slices.ContainsFunc(d.Tasks[i].After, func(a sim.After) bool { return a.Task == task }) &&
			(is(&d.Tasks[i]) || steps > 1 && follows(d, i, steps-1, is)) {
			return true
		}
	}
	return false
}
