package cold

import (
	"math"

	"warmby/sim"
)

// Allowance is a cell of the work/warm-up schedule: how long a spell of work
// outdoors may last in any four hours, with breaks of ten minutes in a warm
// place.
type Allowance struct {
	Most   sim.Time // longest spell; 0 when normal breaks do or work should stop
	Breaks int      // in four hours
	Stop   bool     // all but emergency work should stop
	Why    string   // why the schedule says nothing; "" when it does
}

// OK reports whether the schedule has a cell.
func (a Allowance) OK() bool { return a.Why == "" }

// Normal reports whether normal breaks do: the schedule limits no spell.
func (a Allowance) Normal() bool { return a.OK() && !a.Stop && a.Most == 0 }

// Exceeded reports whether a spell of work is longer than the schedule has it.
func (a Allowance) Exceeded(spell sim.Time) bool {
	return a.OK() && spell > 0 && (a.Stop || a.Most > 0 && spell > a.Most)
}

// stricter reports whether a leaves less than b.
func (a Allowance) stricter(b Allowance) bool { return a.rank() < b.rank() }

func (a Allowance) rank() int64 {
	switch {
	case !a.OK():
		return math.MaxInt64
	case a.Stop:
		return 0
	case a.Normal():
		return math.MaxInt64 - 1
	}
	return int64(a.Most)
}

// scheduleTop is the warmest air of each row in whole degrees C; rows reach
// down to the next.
var scheduleTop = [...]float64{-26, -29, -32, -35, -38, -40, -43}

// scheduleWind is the wind of each column in km/h.
var scheduleWind = [...]float64{0, 8, 16, 24, 32}

// The spells of the schedule: each row is the one above, moved one column.
var scheduleSpells = [...]Allowance{
	{Breaks: 1},
	{Most: 75 * sim.Minute, Breaks: 2},
	{Most: 55 * sim.Minute, Breaks: 3},
	{Most: 40 * sim.Minute, Breaks: 4},
	{Most: 30 * sim.Minute, Breaks: 5},
	{Stop: true},
}

// unfeltKmh is the wind that counts as none: from memory (very likely right),
// the Beaufort scale has wind felt on the face from 6 km/h on, light air
// below; 5 is its last whole number.
const unfeltKmh = 5

// Schedule returns what the work/warm-up schedule says for air in degrees C
// and wind in km/h. Light says that the work is light: it is for moderate to
// heavy work, and light work goes by one row colder.
//
// Source: Saskatchewan Occupational Health and Safety, the same as the ACGIH
// cold stress schedule. Ours: air is rounded to a whole degree, half away from
// zero; wind counts as the next column up, up to 5 km/h as none; beyond 32
// km/h the last column stands only where it says stop.
func Schedule(airC, windKmh float64, light bool) Allowance {
	if !finite(airC) || !finite(windKmh) || windKmh < 0 {
		return Allowance{Why: "air and wind are not known"}
	}
	row := -1
	for i, top := range scheduleTop {
		if math.Round(airC) <= top {
			row = i
		}
	}
	if row < 0 {
		return Allowance{Why: "air over -26 C: the schedule begins there"}
	}
	if light {
		row = min(row+1, len(scheduleTop)-1)
	}
	column := 0
	if windKmh > unfeltKmh {
		for column < len(scheduleWind) && scheduleWind[column] < windKmh {
			column++
		}
	}
	last := len(scheduleWind) - 1
	cell := scheduleCell(row, min(column, last))
	if column > last && !cell.Stop {
		return Allowance{Why: "wind over 32 km/h: the schedule ends there"}
	}
	return cell
}

// scheduleCell returns a cell. The first row begins with two normal ones; all
// of the last row stops.
func scheduleCell(row, column int) Allowance {
	if row == len(scheduleTop)-1 {
		return scheduleSpells[len(scheduleSpells)-1]
	}
	return scheduleSpells[clampInt(row+column-1, 0, len(scheduleSpells)-1)]
}

func clampInt(x, lo, hi int) int { return min(max(x, lo), hi) }
