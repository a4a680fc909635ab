package daylight

import (
	"time"

	"warmby/sim"
)

// Civil is the altitude of the sun's centre, in degrees, under which it is
// dark: the end of civil twilight.
const Civil = -6.0

// Changes returns when it grows dark and light again at a place, from the
// state at arrival (At 0) up to the horizon: every moment at which the sun's
// centre passes -6 degrees, in whole seconds since arrival. Without any such
// moment, as in polar night, the first entry stands alone.
func Changes(latitude, longitude float64, arrival time.Time, horizon sim.Time) []sim.Light {
	above := func(seconds float64) float64 {
		at := arrival.Add(time.Duration(seconds * float64(time.Second)))
		return Altitude(latitude, longitude, at) - Civil
	}
	changes := []sim.Light{{At: 0, Dark: above(0) < 0}}
	for _, c := range crossings(above, horizon.Seconds()) {
		at := sim.Milliseconds(c.at) * sim.Second // whole seconds, half away from zero
		if at > horizon {
			break
		}
		last := len(changes) - 1
		if changes[last].At == at { // two within a second, or at arrival
			changes[last].Dark = !c.rising
			if last > 0 && changes[last-1].Dark == changes[last].Dark {
				changes = changes[:last]
			}
			continue
		}
		changes = append(changes, sim.Light{At: at, Dark: !c.rising})
	}
	return changes
}

type crossing struct {
	at     float64 // seconds
	rising bool
}

// step is how far apart the altitude is looked at, in seconds. Between two
// looks it turns at most once: by day and night it turns every twelve hours.
const step = 600.0

// crossings returns where f passes zero between 0 and end, in rising order.
// Where f turns between two looks that lie on the same side, the turning
// point is looked at too, so that a sun that shows for a minute is not missed.
func crossings(f func(float64) float64, end float64) []crossing {
	var found []crossing
	between := func(a, fa, b, fb float64) {
		if (fa < 0) != (fb < 0) {
			found = append(found, crossing{bisect(f, a, b, fa < 0), fa < 0})
		}
	}
	turn := func(a, fa, b, fb float64) {
		x := extreme(f, a, b, fa >= 0)
		fx := f(x)
		between(a, fa, x, fx)
		between(x, fx, b, fb)
	}
	a, fa := 0.0, f(0)
	slope := f(1) - fa
	for a < end {
		b := min(a+step, end)
		fb := f(b)
		ahead := fb - f(b-1)
		if (fa < 0) == (fb < 0) && (slope > 0) != (ahead > 0) {
			turn(a, fa, b, fb)
		} else {
			between(a, fa, b, fb)
		}
		a, fa, slope = b, fb, ahead
	}
	return found
}

// bisect returns where f passes zero between a and b, to a millisecond.
func bisect(f func(float64) float64, a, b float64, rising bool) float64 {
	for b-a > 1e-3 {
		m := (a + b) / 2
		if (f(m) < 0) == rising {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2
}

// extreme returns where f is least (or greatest) between a and b, where it
// turns once, to a tenth of a second.
func extreme(f func(float64) float64, a, b float64, least bool) float64 {
	for b-a > 0.1 {
		l, r := a+(b-a)/3, b-(b-a)/3
		if (f(l) < f(r)) == least {
			b = r
		} else {
			a = l
		}
	}
	return (a + b) / 2
}
