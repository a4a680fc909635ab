package heat

import (
	"math"

	"warmby/sim"
	"warmby/sim/portable"
)

// Fire is what the stove of a shelter is about.
type Fire int8

// What the stove of a shelter may be about.
const (
	// Unlit: no warm-up of the shelter has begun, and it was not warm at the
	// start. It is as warm as the air outside, whatever that does.
	Unlit   Fire = iota
	Out          // no stove burns: people, and what warmth there is
	Full         // a warm-up: the stove gives all that it can
	Keeping      // the stove gives what it takes to keep a temperature
)

// Terms are what the air of a shelter depends on while nothing changes.
type Terms struct {
	Shelter sim.Shelter // as it is then, see [Apply]
	Outside float64     // air, degrees C
	People  float64     // watts that people give, see [PersonPower]
	Fire    Fire
	Stove   float64 // watts that the stove can give the air, see [StovePower]
	To      float64 // degrees C, the temperature kept
}

// Balance is the air of a shelter over time. It obeys
//
//	C dT/dt = P - H (T - T_out)
//
// with the capacity C of [Capacity], the loss H of [Loss] and the power P of
// people and stove, solved exactly from one change to the next. A stove that
// keeps a temperature gives between nothing and all that it can: where all is
// not enough the air falls below the temperature kept and comes back up when it
// can; where people alone hold more it is above.
//
// A Balance is a plain value: a copy goes its own way.
type Balance struct {
	told sim.Time // the moment of the last change
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
	rates
}

// rates are what the terms come to.
type rates struct {
	fire           Fire
	outside, to    float64
	people, stove  float64 // W
	capacity, loss float64 // J/K and W/K
}

func (in *Terms) rates() rates {
	r := rates{fire: in.Fire, outside: in.Outside, people: in.People, capacity: Capacity(in.Shelter, in.Outside), loss: Loss(in.Shelter, in.Outside)}
	if in.Fire == Full || in.Fire == Keeping {
		r.stove = in.Stove
	}
	if in.Fire == Keeping {
		r.to = in.To
	}
	return r
}

// Start returns the balance of a shelter that has a temperature in degrees C at
// a moment. While its fire is [Unlit] the shelter is as warm as the air outside
// instead, and the first change to another fire starts from that of its moment.
func Start(at sim.Time, celsius float64, in Terms) Balance {
	l := leg{at, celsius, in.rates()}
	return Balance{told: at, before: l, now: l}
}

// Change tells the balance that the terms are others from a moment on, which
// must not be before an earlier change.
func (b *Balance) Change(at sim.Time, in Terms) {
	if at != b.told {
		b.before, b.told = b.now, at
	}
	r := in.rates()
	switch {
	case r == b.before.rates:
		b.now = b.before
	case b.before.fire == Unlit:
		b.now = leg{at, in.Outside, r}
	default:
		b.now = leg{at, b.before.temperature(at), r}
	}
}

// Temperature returns the temperature in degrees C at a moment not before the
// last change.
func (b *Balance) Temperature(at sim.Time) float64 { return b.now.temperature(at) }

// Reaches returns the first moment from the last change on at which the
// shelter is as warm as a temperature in degrees C if nothing changes any more,
// rounded half away from zero to a millisecond: the moment of the last change
// if it is so already, sim.Never if it never will be.
func (b *Balance) Reaches(celsius float64) sim.Time {
	if b.now.temperature(b.told) >= celsius {
		return b.told
	}
	ms := b.now.meets(celsius)
	if !(ms < float64(sim.Never/4)) {
		return sim.Never
	}
	return max(b.told, b.now.at+sim.Time(math.Round(ms)))
}

// Holds returns the temperature in degrees C at which the shelter ends if the
// stove gives all that it can and nothing changes any more; infinite for one
// that loses no heat.
func (b *Balance) Holds() float64 { return b.now.holds(b.now.people + b.now.stove) }

// Gives returns the joules that the stove gives the air from one moment to
// another, both not before the last change.
func (b *Balance) Gives(from, to sim.Time) float64 { return b.now.given(to) - b.now.given(from) }

// Takes returns the watts that the stove gives the air at a moment not before
// the last change.
func (b *Balance) Takes(at sim.Time) float64 {
	first, then, change := b.now.phases()
	if float64(at-b.now.at) < change {
		return first.stove
	}
	return then.stove
}

// Holds returns the temperature in degrees C that the stove at its most and the
// people can hold for ever: T_out + P / H; infinite without any loss.
func (in Terms) Holds() float64 {
	r := in.rates()
	return r.holds(r.people + r.stove)
}

// Needs returns the watts that the stove must give the air to keep a
// temperature in degrees C: H (T - T_out) less what people give, at least 0.
func (in Terms) Needs(celsius float64) float64 {
	r := in.rates()
	return max(0, r.needs(celsius))
}

// holds returns the temperature at which a power ends.
func (r *rates) holds(power float64) float64 {
	switch {
	case r.loss > 0:
		return r.outside + power/r.loss
	case power > 0:
		return math.Inf(1)
	}
	return r.outside
}

// needs returns what the stove must give to hold a temperature, below 0 when
// people alone give more.
func (r *rates) needs(celsius float64) float64 {
	return float64(r.loss*(celsius-r.outside)) - r.people
}

// phase is a part of a leg in which the stove gives one power.
type phase struct {
	from  float64 // temperature at its beginning
	stove float64 // W
	still bool    // whether the temperature stays what it is
}

// phases returns what a leg does at first, and what it does from so many
// milliseconds after its beginning on; infinite when there is no second part.
func (l *leg) phases() (first, then phase, change float64) {
	switch {
	case l.fire != Keeping:
		return phase{from: l.temp, stove: l.stove}, phase{}, math.Inf(1)
	case l.temp == l.to:
		return l.keeps(), phase{}, math.Inf(1)
	case l.temp < l.to:
		first = phase{from: l.temp, stove: l.stove}
	default:
		first = phase{from: l.temp}
	}
	return first, l.keeps(), l.timeTo(first, l.to)
}

// keeps returns the phase that begins at the temperature to keep: held, or as
// near as the stove and the people can.
func (l *leg) keeps() phase {
	need := l.needs(l.to)
	p := phase{from: l.to, stove: clamp(need, 0, l.stove)}
	p.still = p.stove == need
	return p
}

// timeTo returns the milliseconds that a phase takes to a temperature, infinite
// when it does not get there.
func (l *leg) timeTo(p phase, to float64) float64 {
	if p.from == to {
		return 0
	}
	power := l.people + p.stove
	if p.still {
		return math.Inf(1)
	}
	if !(l.loss > 0) {
		if power > 0 && to > p.from {
			return 1000 * l.capacity * (to - p.from) / power
		}
		return math.Inf(1)
	}
	rest := l.holds(power) - to // what is left from there on
	if way := to - p.from; way > 0 && rest > 0 || way < 0 && rest < 0 {
		return 1000 * l.capacity / l.loss * portable.Log1p(way/rest)
	}
	return math.Inf(1)
}

// after returns the temperature of a phase so many milliseconds after its
// beginning.
func (l *leg) after(p phase, ms float64) float64 {
	power, seconds := l.people+p.stove, ms/1000
	switch {
	case p.still:
		return p.from
	case !(l.capacity > 0):
		return l.holds(power)
	case !(l.loss > 0):
		return p.from + float64(power*seconds)/l.capacity
	}
	holds := l.holds(power)
	return holds + float64((p.from-holds)*portable.Exp(-seconds*l.loss/l.capacity))
}

func (l *leg) temperature(at sim.Time) float64 {
	if l.fire == Unlit {
		return l.outside
	}
	if at <= l.at {
		return l.temp
	}
	ms := float64(at - l.at)
	first, then, change := l.phases()
	if ms <= change {
		return l.after(first, ms)
	}
	return l.after(then, ms-change)
}

// meets returns how many milliseconds after the beginning of a leg its
// temperature first is another, infinite when it never is.
func (l *leg) meets(celsius float64) float64 {
	if l.fire == Unlit {
		return math.Inf(1)
	}
	first, then, change := l.phases()
	if ms := l.timeTo(first, celsius); ms <= change {
		return ms
	}
	return change + l.timeTo(then, celsius)
}

// given returns the joules that the stove has given from the beginning of a leg
// to a moment.
func (l *leg) given(at sim.Time) float64 {
	ms := max(0, float64(at-l.at))
	first, then, change := l.phases()
	if ms <= change {
		return first.stove * ms / 1000
	}
	return float64(first.stove*change/1000) + float64(then.stove*(ms-change)/1000)
}

func clamp(x, lo, hi float64) float64 { return min(max(x, lo), hi) }
