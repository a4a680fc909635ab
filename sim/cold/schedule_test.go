package cold

import (
	"math"
	"testing"

	"warmby/sim"
)

// The work/warm-up schedule of Saskatchewan Occupational Health and Safety
// (the same as the ACGIH's): every cell, at both ends of each row.
func TestScheduleHasEveryPrintedCell(t *testing.T) {
	normal, stop := Allowance{Breaks: 1}, Allowance{Stop: true}
	min := func(minutes, breaks int) Allowance {
		return Allowance{Most: sim.Time(minutes) * sim.Minute, Breaks: breaks}
	}
	for _, row := range []struct {
		from, to float64
		cells    [5]Allowance
	}{
		{-26, -28, [5]Allowance{normal, normal, min(75, 2), min(55, 3), min(40, 4)}},
		{-29, -31, [5]Allowance{normal, min(75, 2), min(55, 3), min(40, 4), min(30, 5)}},
		{-32, -34, [5]Allowance{min(75, 2), min(55, 3), min(40, 4), min(30, 5), stop}},
		{-35, -37, [5]Allowance{min(55, 3), min(40, 4), min(30, 5), stop, stop}},
		{-38, -39, [5]Allowance{min(40, 4), min(30, 5), stop, stop, stop}},
		{-40, -42, [5]Allowance{min(30, 5), stop, stop, stop, stop}},
		{-43, -60, [5]Allowance{stop, stop, stop, stop, stop}},
	} {
		for i, kmh := range []float64{0, 8, 16, 24, 32} {
			for _, air := range []float64{row.from, row.to} {
				if got := Schedule(air, kmh, false); got != row.cells[i] {
					t.Errorf("Schedule(%v, %v) = %+v, want %+v", air, kmh, got, row.cells[i])
				}
			}
		}
	}
}

// The example printed with the schedule: -35 C, little movement, 40 min with
// 4 breaks.
func TestScheduleHasThePrintedExample(t *testing.T) {
	if got := Schedule(-35, 0, true); got.Most != 40*sim.Minute || got.Breaks != 4 {
		t.Errorf("light work at -35 C: %+v, want 40 min with 4 breaks", got)
	}
}

func TestScheduleSaysNothingBeyondItsEdges(t *testing.T) {
	for _, c := range []struct {
		air, kmh float64
		light    bool
	}{{-25.4, 8, false}, {-25.4, 8, true}, {-26, 33, false}, {math.NaN(), 0, false}, {-30, math.NaN(), false}, {-30, -1, false}} {
		if got := Schedule(c.air, c.kmh, c.light); got.OK() || got.Exceeded(sim.Hour) {
			t.Errorf("Schedule(%v, %v) = %+v, want nothing", c.air, c.kmh, got)
		}
	}
	// Between the columns the next one counts, and stop stands beyond the last.
	if got := Schedule(-30, 17, false); got.Most != 40*sim.Minute {
		t.Errorf("at 17 km/h: %+v, want the column of 24", got)
	}
	if got := Schedule(-35, 50, false); !got.Stop {
		t.Errorf("at -35 C and 50 km/h: %+v, want stop", got)
	}
	if got := Schedule(-50, 0, true); !got.Stop {
		t.Errorf("light work at -50 C: %+v, want stop", got)
	}
}

func TestAllowanceIsExceededByLongerSpells(t *testing.T) {
	a := Schedule(-35, 0, false)
	if a.Exceeded(55*sim.Minute) || !a.Exceeded(55*sim.Minute+1) {
		t.Error("55 min must just be allowed")
	}
	if stop := Schedule(-45, 0, false); !stop.Exceeded(1) || stop.Exceeded(0) {
		t.Error("where work should stop any spell is too long")
	}
	if n := Schedule(-26, 0, false); !n.Normal() || n.Exceeded(4*sim.Hour) {
		t.Error("normal breaks limit no spell")
	}
}
