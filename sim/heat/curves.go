package heat

import (
	"sort"

	"warmby/sim"
)

// Point is a temperature at a moment.
type Point struct {
	At sim.Time
	C  float64 // degrees C
}

// Curve is the temperature of a shelter during a warm-up, or of the water of
// a melt.
type Curve struct {
	Name    string // of the shelter, or of the task of a melt
	Task    int
	Shelter bool // a warm-up; else a melt
	Points  []Point
}

// sampling is how far apart the points of a bent curve are at most.
const sampling = 30 * sim.Second

// Curves returns a curve for every warm-up and every melt that a timeline
// began, in task order: of a shelter from the start of its warm-up to the
// end, or to the timeline's when it never ended, and of the water of a melt.
func Curves(tl *sim.Timeline) []Curve {
	var curves []Curve
	for i := range tl.Drill.Tasks {
		if tl.Tasks[i].Start == sim.Never {
			continue
		}
		switch tl.Drill.Tasks[i].Kind {
		case sim.Warm:
			curves = append(curves, warmCurve(tl, i))
		case sim.Melt:
			curves = append(curves, meltCurve(tl, i))
		}
	}
	return curves
}

// endOf returns when a task ended, the end of the timeline for one that
// had not.
func endOf(tl *sim.Timeline, task int) sim.Time {
	return max(tl.Tasks[task].Start, min(tl.Tasks[task].End, tl.End))
}

// warmCurve walks a warm-up through the changes that an engine makes.
func warmCurve(tl *sim.Timeline, task int) Curve {
	shelter := tl.Drill.Tasks[task].Warm.Shelter
	start, end := tl.Tasks[task].Start, endOf(tl, task)
	changes := changesOf(tl, task, start, end)
	w := Begin(start, surroundings(tl, task, start), tl.Drill.Tasks[task].Warm.To)
	c := Curve{Name: tl.Drill.Shelters[shelter].Name, Task: task, Shelter: true}
	c.Points = append(c.Points, Point{start, w.Temperature(start)})
	at := start
	for _, next := range append(changes, end) {
		for at+sampling < next {
			at += sampling
			c.Points = append(c.Points, Point{at, w.Temperature(at)})
		}
		if next > at {
			at = next
			c.Points = append(c.Points, Point{at, w.Temperature(at)})
		}
		if at < end {
			w.Change(at, surroundings(tl, task, at))
		}
	}
	return c
}

// changesOf returns the moments after start and before end at which the
// surroundings of a warm-up may change, rising.
func changesOf(tl *sim.Timeline, task int, start, end sim.Time) []sim.Time {
	var at []sim.Time
	add := func(t sim.Time) {
		if t > start && t < end {
			at = append(at, t)
		}
	}
	for _, s := range tl.Drill.Steps(tl.Luck.Weather) {
		add(s.At)
	}
	for i := range tl.Drill.Tasks {
		if len(tl.Drill.Tasks[i].Makes) > 0 {
			add(tl.Tasks[i].End)
		}
		if sameStove(tl, task, i) && tl.Drill.Tasks[i].Kind == sim.Melt {
			add(tl.Tasks[i].Start)
			add(tl.Tasks[i].End)
		}
	}
	sort.Slice(at, func(i, j int) bool { return at[i] < at[j] })
	return at
}

// surroundings returns what a warm-up depends on from a moment on.
func surroundings(tl *sim.Timeline, task int, at sim.Time) Surroundings {
	d, warm := tl.Drill, tl.Drill.Tasks[task].Warm
	steps := d.Steps(tl.Luck.Weather)
	potOn := false
	for i := range d.Tasks {
		potOn = potOn || d.Tasks[i].Kind == sim.Melt && sameStove(tl, task, i) &&
			tl.Tasks[i].Start <= at && at < tl.Tasks[i].End
	}
	return Surroundings{
		Shelter: shelterAt(tl, warm.Shelter, at),
		Power:   WarmPower(&d.Stoves[warm.Stove], warm.People, potOn),
		Air:     steps[sim.StepAt(steps, at)].Air,
	}
}

// shelterAt returns a shelter with all changes that tasks ended by then have
// made to it: in the order of their ends and, at one instant, file order.
func shelterAt(tl *sim.Timeline, shelter int, at sim.Time) sim.Shelter {
	var ended []int
	for i := range tl.Drill.Tasks {
		if tl.Tasks[i].End <= at {
			ended = append(ended, i)
		}
	}
	sort.SliceStable(ended, func(i, j int) bool { return tl.Tasks[ended[i]].End < tl.Tasks[ended[j]].End })
	s := tl.Drill.Shelters[shelter]
	for _, i := range ended {
		for _, m := range tl.Drill.Tasks[i].Makes {
			if m.Shelter == shelter {
				s = Apply(s, m)
			}
		}
	}
	return s
}

// sameStove reports whether two begun tasks have the same stove.
func sameStove(tl *sim.Timeline, a, b int) bool {
	return tl.Tasks[b].Start != sim.Never && tl.Tasks[a].Unit == tl.Tasks[b].Unit &&
		stoveOf(&tl.Drill.Tasks[a]) == stoveOf(&tl.Drill.Tasks[b])
}

// stoveOf returns the kind of stove that a task burns, or -1.
func stoveOf(t *sim.Task) int {
	switch {
	case t.Melt != nil:
		return t.Melt.Stove
	case t.Warm != nil:
		return t.Warm.Stove
	}
	return -1
}

// meltCurve takes all fillings as one body of water, which starts as snow,
// melts at 0 C and then warms, heated evenly over the length of the task,
// handling included. From an ice hole it starts at 0 C.
func meltCurve(tl *sim.Timeline, task int) Curve {
	d := tl.Drill
	m := d.Tasks[task].Melt
	start, end := tl.Tasks[task].Start, endOf(tl, task)
	c := Curve{Name: d.Tasks[task].Name, Task: task}
	from := 0.0
	if snow(m) > 0 {
		from = min(0, d.Site.SnowTemperature)
	}
	c.Points = append(c.Points, Point{start, from})
	total := MeltEnergy(&d.Site, m)
	melted := Melt(&d.Site, &d.Stoves[m.Stove], m)
	if melted.Time == sim.Never || total <= 0 {
		return c
	}
	length := float64(melted.Time)
	knee := func(energy, celsius float64) {
		at := start + sim.Milliseconds(length*energy/total)
		last := c.Points[len(c.Points)-1]
		switch {
		case at <= last.At || last.At >= end:
		case at > end: // cut off by the end of the timeline
			share := float64(end-last.At) / float64(at-last.At)
			c.Points = append(c.Points, Point{end, last.C + share*(celsius-last.C)})
		default:
			c.Points = append(c.Points, Point{at, celsius})
		}
	}
	ice, water := iceEnergy(&d.Site, m), waterEnergy(&d.Site, m)
	knee(ice, 0)
	knee(total-water, 0)
	knee(total, melted.To)
	return c
}
