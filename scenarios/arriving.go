package scenarios

import (
	"errors"
	"strings"
	"time"

	"warmby/sim"
	"warmby/sim/daylight"
)

// errNoArrival says that a scenario does not know when the team arrives.
var errNoArrival = errors.New("site: arrival is missing\n  hint: such as arrival: 2027-01-16 13:40 +02:00 (date, time, offset from UTC)")

// Arriving returns the drill of an order with the team arriving at another
// moment, while light and weather stay on the clock:
//
//   - Weather rows hold from the same clock time on; one that began before the
//     new arrival holds from it on, and before the first row of the file the
//     first row holds.
//   - Targets on the clock keep their moment, also when it has passed at the
//     new arrival; they then lie below 0 and are missed. Dark is the nightfall
//     that the file means: the first after its own arrival or, where that is in
//     the dark already, that of the night in which it is. Arriving within that
//     night it is dark at once.
//
// All that counts from arrival still does: targets such as "100 min", lookouts,
// loads and people that come behind. The clock keeps the offset of the file.
// The name of the order is as for [Scenario.Drill].
func (s *Scenario) Arriving(order string, at time.Time) (*sim.Drill, error) {
	d, err := s.Drill(order)
	if err != nil {
		return nil, err
	}
	return laidOn(d, at)
}

// PartsArriving returns the drill without an order with the team arriving at
// another moment, as [Scenario.Arriving] does with one.
func (s *Scenario) PartsArriving(at time.Time) (*sim.Drill, error) { return laidOn(s.drill, at) }

// laidOn lays a drill on another arrival.
func laidOn(d *sim.Drill, at time.Time) (*sim.Drill, error) {
	if d.Site.Arrival.IsZero() {
		return nil, errNoArrival
	}
	out := *d
	later := sim.Time(at.Sub(d.Site.Arrival).Milliseconds())
	out.Site.Arrival = at.In(d.Site.Arrival.Location())
	if d.Site.Placed {
		out.Light = daylight.Changes(d.Site.Latitude, d.Site.Longitude, out.Site.Arrival, sim.Horizon)
	}
	out.Weather = nil
	for _, c := range d.Weather {
		c.Rows = rowsAfter(c.Rows, later)
		out.Weather = append(out.Weather, c)
	}
	out.Milestones = append([]sim.Milestone(nil), d.Milestones...)
	for i := range out.Milestones {
		m := &out.Milestones[i]
		switch {
		case m.ByText == "dark" && m.By == 0:
			m.By = darkOf(d, later)
		case m.ByText == "dark" && m.By == sim.Never:
			m.By = firstDark(out.Light)
		case m.By != sim.Never && onTheClock(m.ByText):
			m.By -= later
		}
	}
	return &out, nil
}

// darkOf returns when it grows dark, for a team that arrives later by some time
// than one that arrives in the dark: that night is meant.
func darkOf(d *sim.Drill, later sim.Time) sim.Time {
	const day = 24 * sim.Hour
	nightfall := sim.Time(0) // where the sun has not been up for a day
	for _, l := range daylight.Changes(d.Site.Latitude, d.Site.Longitude, d.Site.Arrival.Add(-24*time.Hour), day) {
		if l.Dark && l.At > 0 {
			nightfall = l.At - day
		}
	}
	dawn := sim.Never
	for _, l := range d.Light {
		if !l.Dark {
			dawn = l.At
			break
		}
	}
	if nightfall < later && later < dawn {
		return 0
	}
	return nightfall - later
}

// onTheClock reports whether a target stays where it is when the arrival moves.
func onTheClock(target string) bool {
	_, clock := parseClock(strings.TrimSpace(target))
	return clock || target == "dark"
}

// rowsAfter returns weather rows as they are seen by a team that arrives later
// by some time, which may be less than 0.
func rowsAfter(rows []sim.WeatherRow, later sim.Time) []sim.WeatherRow {
	var out []sim.WeatherRow
	for i, row := range rows {
		if i+1 < len(rows) && rows[i+1].At <= later {
			continue // over before the team arrives
		}
		row.At = max(0, row.At-later)
		if i == 0 {
			row.At = 0
		}
		out = append(out, row)
	}
	return out
}
