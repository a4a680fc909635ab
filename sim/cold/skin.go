package cold

import "warmby/sim"

// Skin is what the weather does to bare skin.
type Skin struct {
	Chill   Value    // the wind chill, the worst of a time outdoors
	ChillAt sim.Time // when it begins
	Hazard  Hazard   // its class; HazardNone without a wind chill
	// Frostbite is the time to frostbite in minutes, the shortest of a time
	// outdoors; no value where the formula stands nowhere along the way, which
	// does not mean that skin cannot freeze: see Hazard.
	Frostbite Value
}

// SkinIn returns what air in degrees C and wind in km/h at 10 m do to bare
// skin from a moment on.
func SkinIn(at sim.Time, airC, windKmh float64) Skin {
	s := Skin{Chill: WindChill(airC, windKmh), ChillAt: at, Frostbite: FrostbiteTime(airC, windKmh)}
	if s.Chill.OK() {
		s.Hazard = HazardOf(s.Chill.X)
	}
	return s
}

// SkinAlong returns what each step of the weather does to bare skin in the
// open.
func SkinAlong(steps []sim.Step) []Skin {
	out := make([]Skin, len(steps))
	for i, s := range steps {
		if !s.Weather {
			out[i] = noSkin("no weather")
			continue
		}
		out[i] = SkinIn(s.At, s.Air, Kmh(s.Wind))
	}
	return out
}

func noSkin(why string) Skin { return Skin{Chill: noValue(why), Frostbite: noValue(why)} }

// worsen takes over what is worse in another.
func (s *Skin) worsen(other Skin) {
	if !s.Chill.OK() || other.Chill.OK() && other.Chill.X < s.Chill.X {
		s.Chill, s.ChillAt, s.Hazard = other.Chill, other.ChillAt, other.Hazard
	}
	f, o := s.Frostbite, other.Frostbite
	if !f.OK() || o.OK() && (o.X < f.X || o.X == f.X && o.Under) {
		s.Frostbite = o
	}
}
