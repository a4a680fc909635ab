package cold

import "warmby/sim"

// Outing is a person's time outdoors without a break: from when it begins, or
// the person arrives, until the person is inside a shelter that is or was warmed,
// or the drill ends.
type Outing struct {
	From, To sim.Time
	// Rate is the mean metabolic rate, W/m2. Light says that it is under 130:
	// the schedule is then read one row colder.
	Rate  float64
	Light bool
	// Allowed is the least that the work/warm-up schedule allows in the
	// weather of the outing, for its whole length. Where it says nothing of
	// any of that weather, Why gives the reason.
	Allowed Allowance
	Skin    // the worst of the outing

	weather []weather
}

// weather is the air in degrees C and the wind in km/h at 10 m, as the spot
// lets it through.
type weather struct{ air, kmh float64 }

// Length returns how long the outing lasts.
func (o *Outing) Length() sim.Time { return o.To - o.From }

// TooLong reports whether the schedule asks for a break, or for no work at
// all, before the outing ends.
func (o *Outing) TooLong() bool { return o.Allowed.Exceeded(o.Length()) }

// weather returns the weather that an entry meets outdoors, and from what
// wind the spot lets through.
func (b *books) weather(e Entry, p *part) weather {
	spot := sim.Spot{}
	if p.spot >= 0 {
		spot = b.drill.Spots[p.spot]
	}
	return weather{b.steps[p.step].Air, Kmh(sheltered(b.steps[p.step], spot))}
}

// feel enters what the weather of an entry does outdoors.
func (p *Person) feel(e Entry, w weather) {
	if e.Indoors {
		return
	}
	n := len(p.Outings)
	if n == 0 || p.Outings[n-1].To != e.From {
		p.Outings = append(p.Outings, Outing{From: e.From, Skin: noSkin("never outdoors")})
		n++
	}
	o := &p.Outings[n-1]
	o.Rate = (float64(o.Rate*hours(o.Length())) + float64(e.M*hours(e.To-e.From))) / hours(e.To-o.From)
	o.To = e.To
	o.weather = append(o.weather, w)

	skin := SkinIn(e.From, w.air, w.kmh)
	o.worsen(skin)
	p.worsen(skin)
}

// judge reads the schedule for the outing.
func (o *Outing) judge() {
	o.Light = o.Rate < lightWork
	for i, w := range o.weather {
		a := Schedule(w.air, w.kmh, o.Light)
		if i == 0 || a.stricter(o.Allowed) {
			o.Allowed = a
		}
	}
	o.weather = nil
}
