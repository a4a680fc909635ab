package played

import (
	"math"
	"testing"

	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/heat"
)

// Over a whole evening, from the first fire to the end, the heat that stove and
// people give a shelter is what it stores and what it loses: in every shipped
// scenario under every order, with usual values and with drawn ones.
func TestEnergyClosesOverEveryShippedEvening(t *testing.T) {
	closed := 0
	for _, name := range library.Names() {
		src, _ := library.Read(name)
		s, err := scenarios.Read(name+".yaml", src)
		if err != nil {
			t.Fatal(err)
		}
		for _, order := range s.Orders() {
			d, err := s.Drill(order)
			if err != nil {
				t.Fatal(err)
			}
			w := fast.Compile(d).Worker()
			for run := range 5 {
				luck := draw.Run(d, 11, run)
				if run == 0 {
					luck = draw.Usual(d)
				}
				tl := w.Timeline(luck)
				for _, room := range heat.RoomsOf(tl) {
					in, out := energy(tl, &room)
					if in == 0 {
						continue
					}
					if closed++; math.Abs(in-out) > 1e-6*in {
						t.Errorf("%s, %s, run %d: %q is given %.0f J and stores and loses %.0f J", name, order, run, d.Shelters[room.Shelter].Name, in, out)
					}
				}
			}
		}
	}
	if closed < 100 {
		t.Errorf("only %d evenings of a shelter: too few to tell", closed)
	}
}

// energy returns the joules that a room gets from its first fire on, and those that
// it stores and loses.
func energy(tl *sim.Timeline, room *heat.Room) (in, out float64) {
	for i := range room.Spans {
		s := &room.Spans[i]
		if s.From < room.Lit {
			continue
		}
		row := weatherAt(tl, s.From)
		in += s.Gives() + s.Terms.People*(s.To-s.From).Seconds()
		out += heat.Capacity(s.Terms.Shelter, row.Air)*(s.Temperature(s.To)-s.Temperature(s.From)) +
			heat.Loss(s.Terms.Shelter, row.Air)*degreeSeconds(s, row.Air)
	}
	return in, out
}

// weatherAt returns the row that holds at a moment, which holds until the next.
func weatherAt(tl *sim.Timeline, at sim.Time) sim.WeatherRow {
	rows := tl.Drill.Weather[tl.Luck.Weather].Rows
	row := rows[0]
	for _, r := range rows {
		if r.At <= at {
			row = r
		}
	}
	return row
}

// degreeSeconds sums the temperature of a span over that outside, by Simpson's rule
// in pieces of at most five seconds.
func degreeSeconds(s *heat.Span, outside float64) float64 {
	const piece = 5 * sim.Second
	sum := 0.0
	for at := s.From; at < s.To; at += piece {
		h := min(piece, s.To-at)
		sum += h.Seconds() / 6 * (s.Temperature(at) + 4*s.Temperature(at+h/2) + s.Temperature(at+h) - 6*outside)
	}
	return sum
}
