package plots

import (
	"strconv"
	"time"

	"warmby/sim"
)

// axis is the ruler of time that all panels share.
type axis struct {
	x0, x1  float64   // where time 0 and time length stand
	length  sim.Time  // over 0
	open    float64   // room right of x1 for what never ends
	arrival time.Time // time 0 on the clock; zero when unknown
}

// x returns where a moment stands; moments off the ruler stand at its ends.
func (a axis) x(t sim.Time) float64 {
	t = min(max(t, 0), a.length)
	return a.x0 + (a.x1-a.x0)*float64(t)/float64(a.length)
}

// right is where panels end.
func (a axis) right() float64 { return a.x1 + a.open }

// steps between the numbers of a ruler.
var steps = []sim.Time{
	1 * sim.Minute, 2 * sim.Minute, 5 * sim.Minute, 10 * sim.Minute, 15 * sim.Minute, 30 * sim.Minute,
	sim.Hour, 2 * sim.Hour, 3 * sim.Hour, 6 * sim.Hour, 12 * sim.Hour, 24 * sim.Hour,
}

// step returns the shortest step at which numbers stand at least so far
// apart.
func (a axis) step(apart float64) sim.Time {
	for _, s := range steps {
		if a.x(min(s, a.length))-a.x0 >= apart {
			return s
		}
	}
	return steps[len(steps)-1]
}

// parts is into how many parts small ticks divide a step.
func parts(step sim.Time) sim.Time {
	switch step {
	case 2 * sim.Minute, sim.Hour, 2 * sim.Hour:
		return 4
	case 15 * sim.Minute, 30 * sim.Minute, 3 * sim.Hour:
		return 3
	case 6 * sim.Hour, 12 * sim.Hour, 24 * sim.Hour:
		return 6
	}
	return 5
}

// tick is a mark on a ruler; a small one has no text.
type tick struct {
	at   sim.Time
	text string
}

// sinceArrival returns the ticks of the ruler that counts from arrival and
// the unit it counts in.
func (a axis) sinceArrival() (ticks []tick, step sim.Time, unit string) {
	step = a.step(26)
	in, unit := sim.Minute, "min since arrival"
	if step%sim.Hour == 0 {
		in, unit = sim.Hour, "h since arrival"
	}
	small := step / parts(step)
	for t := sim.Time(0); t <= a.length; t += small {
		k := tick{at: t}
		if t%step == 0 {
			k.text = strconv.FormatInt(int64(t/in), 10)
		}
		ticks = append(ticks, k)
	}
	return ticks, step, unit
}

// onTheClock returns the ticks of the ruler of clock time, at round times of
// the clock there; midnight shows the date.
func (a axis) onTheClock() []tick {
	if a.arrival.IsZero() {
		return nil
	}
	step := a.step(34)
	h, m, s := a.arrival.Clock()
	sinceMidnight := sim.Time(h)*sim.Hour + sim.Time(m)*sim.Minute + sim.Time(s)*sim.Second
	small := step / parts(step)
	var ticks []tick
	for c := (sinceMidnight + small - 1) / small * small; c-sinceMidnight <= a.length; c += small {
		k := tick{at: c - sinceMidnight}
		if c%step == 0 {
			k.text = a.clock(k.at)
			if c%(24*sim.Hour) == 0 {
				k.text = a.moment(k.at).Format("2 Jan")
			}
		}
		ticks = append(ticks, k)
	}
	return ticks
}

func (a axis) moment(t sim.Time) time.Time {
	return a.arrival.Add(time.Duration(t) * time.Millisecond)
}

// clock returns clock time to the minute, as a clock shows it.
// when writes a moment: by the clock, or the time since arrival when no clock is
// known.
func (a axis) when(t sim.Time) string {
	if a.arrival.IsZero() {
		return sim.Clock(t / sim.Minute * sim.Minute)
	}
	return a.clock(t)
}

func (a axis) clock(t sim.Time) string { return a.moment(t).Format("15:04") }

var (
	rulerStyle   = style{size: 7.2, ink: black}
	captionStyle = style{size: 6.6, ink: soft}
)

// draw draws the ruler, minutes above its edge and the clock below, and
// returns its height.
func (a axis) draw(s *sheet, top float64) float64 {
	ticks, _, unit := a.sinceArrival()
	edge := top + 15
	s.line(grid, point{a.x0, edge}, point{a.x1, edge}, 0.9, black)
	a.caption(s, unit, edge-6)
	for _, k := range ticks {
		a.tick(s, k, edge, -1)
	}
	clock := a.onTheClock()
	if clock == nil {
		return edge - top + 4
	}
	a.caption(s, "on the clock", edge+11)
	for _, k := range clock {
		a.tick(s, k, edge, 1)
	}
	return edge - top + 17
}

func (a axis) caption(s *sheet, text string, y float64) {
	s.text(a.x0-14-s.width(text, captionStyle), y, text, captionStyle)
}

// tick draws a tick upwards (way -1) or downwards (way 1) from the edge.
func (a axis) tick(s *sheet, k tick, edge, way float64) {
	x, long := a.x(k.at), 2.2
	if k.text != "" {
		long = 4.4
		y := edge - 6
		if way > 0 {
			y = edge + 11
		}
		s.text(x-s.width(k.text, rulerStyle)/2, y, k.text, rulerStyle)
	}
	s.line(grid, point{x, edge}, point{x, edge + float64(way*long)}, 0.6, black)
}
