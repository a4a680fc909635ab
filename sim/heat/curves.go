package heat

import "warmby/sim"

// Point is a temperature at a moment.
type Point struct {
	At sim.Time
	C  float64 // degrees C
}

// Curve is the temperature of a shelter, or of the water of a melt.
type Curve struct {
	Name    string // of the shelter, or of the task of a melt
	Task    int    // of a melt; -1
	Shelter int    // -1 for a melt
	Points  []Point
}

// sampling is how far apart the points of a bent curve are at most.
const sampling = 30 * sim.Second

// Curves returns a curve for every shelter that is not always as warm as the air
// outside, from then to the end of the timeline, and after them one for every
// melt that began, of its water.
func Curves(tl *sim.Timeline) []Curve {
	var curves []Curve
	for _, room := range RoomsOf(tl) {
		if room.Lit < tl.End {
			curves = append(curves, roomCurve(tl, &room))
		}
	}
	for i := range tl.Drill.Tasks {
		if tl.Drill.Tasks[i].Kind == sim.Melt && tl.Tasks[i].Start != sim.Never {
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

// roomCurve takes the temperature of a room at every change and, between them,
// often enough for a smooth line.
func roomCurve(tl *sim.Timeline, room *Room) Curve {
	c := Curve{Name: tl.Drill.Shelters[room.Shelter].Name, Task: -1, Shelter: room.Shelter}
	for i := range room.Spans {
		s := &room.Spans[i]
		if s.From < room.Lit {
			continue
		}
		for at := s.From; at < s.To; at += sampling {
			c.Points = append(c.Points, Point{at, s.Temperature(at)})
		}
	}
	last := &room.Spans[len(room.Spans)-1]
	c.Points = append(c.Points, Point{last.To, last.Temperature(last.To)})
	return c
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
// melts at 0 C and then warms, heated evenly until the heat is in; handling comes
// after. From an ice hole it starts at 0 C.
func meltCurve(tl *sim.Timeline, task int) Curve {
	d := tl.Drill
	m := d.Tasks[task].Melt
	start, end := tl.Tasks[task].Start, endOf(tl, task)
	c := Curve{Name: d.Tasks[task].Name, Task: task, Shelter: -1}
	from := 0.0
	if snow(m) > 0 {
		from = min(0, d.Site.SnowTemperature)
	}
	c.Points = append(c.Points, Point{start, from})
	total := MeltEnergy(&d.Site, m)
	heating := heatingTime(tl, task)
	if heating == sim.Never || total <= 0 {
		return c
	}
	knee := func(energy, celsius float64) {
		at := start + sim.Milliseconds(float64(heating)*energy/total)
		last := c.Points[len(c.Points)-1]
		switch {
		case at <= last.At || last.At >= end:
		case at > end: // cut off by the end of the timeline
			share := float64(end-last.At) / float64(at-last.At)
			c.Points = append(c.Points, Point{end, last.C + float64(share*(celsius-last.C))})
		default:
			c.Points = append(c.Points, Point{at, celsius})
		}
	}
	ice, water := iceEnergy(&d.Site, m), waterEnergy(&d.Site, m)
	knee(ice, 0)
	knee(total-water, 0)
	knee(total, finalTemperature(&d.Site, m))
	if last := c.Points[len(c.Points)-1]; last.At < end && last.C == finalTemperature(&d.Site, m) {
		c.Points = append(c.Points, Point{end, last.C})
	}
	return c
}

// heatingTime returns how long the water of a melt is heated: what it took less
// the handling or, when it never ended, what it takes when nothing slows it.
func heatingTime(tl *sim.Timeline, task int) sim.Time {
	m := tl.Drill.Tasks[task].Melt
	melted := Melt(&tl.Drill.Site, &tl.Drill.Stoves[m.Stove], m)
	if worked := tl.Tasks[task].Worked; worked != sim.Never {
		return max(0, worked-tl.Tasks[task].Start-handling(melted.Fillings, m.Handling))
	}
	return melted.Heating
}
