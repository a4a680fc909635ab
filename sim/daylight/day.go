package daylight

import "time"

// Altitudes of the sun's centre, in degrees, that bound day and twilights.
// Sunrise is 16 minutes of arc of radius and 34 of refraction below 0.
const (
	Horizon      = -50.0 / 60
	Nautical     = -12.0
	Astronomical = -18.0
)

// Span is a part of a day during which the sun stands above an altitude.
type Span struct {
	// Begin and End are the first rise above and the first fall below the
	// altitude within the day; zero when there is none. Where nights are
	// short the fall of the day before may come past midnight, so that End
	// stands before Begin.
	Begin, End time.Time
	Never      bool // under the altitude all day: it never rises
	Always     bool // over the altitude all day: it never sets
}

// Events is what the sun does on one day.
type Events struct {
	Sun          Span // sunrise and sunset
	Civil        Span // dawn and dusk: outside of it is dark
	Nautical     Span
	Astronomical Span

	Noon    time.Time // when the sun stands highest
	Highest float64   // its altitude then, in degrees, without refraction
}

// Day returns the events of the calendar day that date's year, month and day
// name, from midnight to midnight of a clock that is offset ahead of UTC.
// Times are in that clock, rounded to the second.
func Day(latitude, longitude float64, date time.Time, offset time.Duration) Events {
	zone := time.FixedZone("", int(offset/time.Second))
	year, month, day := date.Date()
	midnight := time.Date(year, month, day, 0, 0, 0, 0, zone)
	clock := func(seconds float64) time.Time {
		return midnight.Add(time.Duration(seconds * float64(time.Second)))
	}
	altitude := func(seconds float64) float64 {
		return Altitude(latitude, longitude, clock(seconds))
	}
	span := func(limit float64) Span {
		above := func(seconds float64) float64 { return altitude(seconds) - limit }
		var s Span
		for _, c := range crossings(above, 86400) {
			at := clock(c.at).Round(time.Second)
			switch {
			case c.rising && s.Begin.IsZero():
				s.Begin = at
			case !c.rising && s.End.IsZero():
				s.End = at
			}
		}
		if s.Begin.IsZero() && s.End.IsZero() {
			s.Always = above(0) >= 0
			s.Never = !s.Always
		}
		return s
	}
	noon := 0.0
	for s := 0.0; s < 86400; s += step {
		if altitude(s) > altitude(noon) {
			noon = s
		}
	}
	noon = extreme(altitude, max(0, noon-step), min(86400, noon+step), false)
	return Events{
		Sun:          span(Horizon),
		Civil:        span(Civil),
		Nautical:     span(Nautical),
		Astronomical: span(Astronomical),
		Noon:         clock(noon).Round(time.Second),
		Highest:      altitude(noon),
	}
}
