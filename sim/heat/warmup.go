package heat

import (
	"math"

	"warmby/sim"
)

const (
	airHeat     = 1005.0 // J/(kg K)
	personPower = 100.0  // W
)

// Surroundings is all that a warm-up depends on at a moment.
type Surroundings struct {
	Shelter sim.Shelter // as it is then, see [Apply]
	Power   float64     // watts into the air, people included, see [WarmPower]
	Air     float64     // outside, degrees C
}

// WarmPower returns the watts that go into the air of a shelter: what the
// stove gives it, less the share of a pot on the same stove while a melt runs
// there, and 100 W for each of the people.
func WarmPower(stove *sim.Stove, people int, potOn bool) float64 {
	power := stove.Power * stove.Efficiency
	if potOn && stove.HoldsPots {
		power *= 1 - stove.ToPots
	}
	return power + float64(personPower*float64(people))
}

// airDensity returns kg/m3 at a temperature in degrees C: 353 / T.
func airDensity(celsius float64) float64 { return 353 / max(1, celsius+zeroCelsius) }

// Loss returns what a shelter loses to the outside air in watts for each
// kelvin of difference: U A + rho c_p n V / 3600, rho that of the outside air.
func Loss(s sim.Shelter, air float64) float64 {
	return float64(s.U*s.Skin) + float64(airDensity(air)*airHeat*s.AirChanges*s.Volume/3600)
}

// Capacity returns the heat that warms a shelter by a kelvin, in joules: its
// contents and its air, at the density of the outside air.
func Capacity(s sim.Shelter, air float64) float64 {
	return s.Contents + float64(airDensity(air)*airHeat*s.Volume)
}

// Warmup is a shelter that is being warmed. It obeys
//
//	C dT/dt = P - H (T - T_air)
//
// with the capacity C of [Capacity], the loss H of [Loss] and the power P,
// solved exactly from one change of the surroundings to the next. A Warmup
// is a plain value: a copy goes its own way.
type Warmup struct {
	begun, told sim.Time // told: of the last change
	to          float64
	// Of several changes at one moment only the last counts, and one that
	// changes nothing leaves no trace, so that two engines that tell the same
	// story in different ways get the same bits.
	before leg // what held until the last change
	now    leg // what has held since
}

// leg is a stretch of time over which nothing changes.
type leg struct {
	at   sim.Time
	temp float64 // at its beginning
	balance
}

// balance is what the surroundings come to.
type balance struct {
	air, power     float64
	capacity, loss float64 // J/K and W/K
	holds          float64 // see [Surroundings.Holds]
}

func (in *Surroundings) balance() balance {
	b := balance{air: in.Air, power: in.Power, capacity: Capacity(in.Shelter, in.Air), loss: Loss(in.Shelter, in.Air), holds: in.Air}
	if b.loss > 0 {
		b.holds += b.power / b.loss
	} else if b.power > 0 {
		b.holds = math.Inf(1)
	}
	return b
}

// Begin returns a warm-up to a temperature in degrees C that starts at a
// moment, from the outside air of that moment.
func Begin(at sim.Time, in Surroundings, to float64) Warmup {
	l := leg{at, in.Air, in.balance()}
	return Warmup{begun: at, told: at, to: to, before: l, now: l}
}

// Change tells the warm-up that the surroundings are different from at on,
// which must not be before an earlier change.
func (w *Warmup) Change(at sim.Time, in Surroundings) {
	if at == w.begun {
		*w = Begin(at, in, w.to)
		return
	}
	if at != w.told {
		w.before, w.told = w.now, at
	}
	if b := in.balance(); b == w.before.balance {
		w.now = w.before
	} else {
		w.now = leg{at, w.before.temperature(at), b}
	}
}

// Reaches returns the first moment at which the shelter is as warm as asked
// if nothing changes any more, rounded half away from zero to a millisecond:
// the moment of the last change if it is so already, sim.Never if it never
// will be.
func (w *Warmup) Reaches() sim.Time {
	if w.now.temp >= w.to {
		return w.told
	}
	ms := w.now.timeTo(w.now.temp, w.to)
	if !(ms < float64(sim.Never/4)) {
		return sim.Never
	}
	return max(w.told, w.now.at+sim.Time(math.Round(ms)))
}

// Temperature returns the temperature in degrees C at a moment not before the
// last change.
func (w *Warmup) Temperature(at sim.Time) float64 { return w.now.temperature(at) }

// To returns the temperature asked for in degrees C.
func (w *Warmup) To() float64 { return w.to }

// Holds returns the temperature in degrees C at which the shelter ends if
// nothing changes any more; infinite for one that loses no heat.
func (w *Warmup) Holds() float64 { return w.now.holds }

// Holds returns the temperature in degrees C that the power can hold for
// ever: T_air + P / H; infinite without any loss.
func (in Surroundings) Holds() float64 { return in.balance().holds }

// timeTo returns the milliseconds from a temperature up to a higher one.
func (b *balance) timeTo(from, to float64) float64 {
	if !(b.loss > 0) {
		if b.power > 0 {
			return 1000 * b.capacity * (to - from) / b.power
		}
		return math.Inf(1)
	}
	if b.holds <= to {
		return math.Inf(1)
	}
	return 1000 * b.capacity / b.loss * math.Log1p((to-from)/(b.holds-to))
}

func (l *leg) temperature(at sim.Time) float64 {
	if at <= l.at {
		return l.temp
	}
	seconds := (at - l.at).Seconds()
	switch {
	case !(l.capacity > 0):
		return l.holds
	case !(l.loss > 0):
		return l.temp + float64(l.power*seconds)/l.capacity
	}
	return l.holds + float64((l.temp-l.holds)*math.Exp(-seconds*l.loss/l.capacity))
}
