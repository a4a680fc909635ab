package plots

import (
	"cmp"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
)

// leastLoss is the heat in Wh/m2 under which somebody's line would lie on the
// foot of the panel: such people are named instead.
const leastLoss = 2

// coldStrain returns the panel of the heat that each person has lost and not
// yet won back, against the limit, with what is to be said under it; a nil
// panel when nobody has a line.
func coldStrain(people []cold.Person) (*panelLines, []string) {
	p := &panelLines{head: "cold", unit: "Wh/m²", high: 118, least: 1.15 * cold.HeatLimit, byHighest: true,
		levels: []level{{cold.HeatLimit, "limit " + number(cold.HeatLimit) + " Wh/m²"}}}
	var warm, none, others []string
	drawn := coldest(people)
	for i := range people {
		c := &people[i]
		name := clean(c.Name)
		switch {
		case c.Why != "":
			why := clean(strings.TrimPrefix(c.Why, "no account: "))
			none = append(none, name+" ("+why+")")
		case c.Peak < leastLoss:
			warm = append(warm, name)
		case !drawn[i]:
			others = append(others, name+" "+number(c.Peak))
		default:
			t := trace{name: name + " " + number(c.Peak), lineLook: lineLooks[len(p.traces)%len(lineLooks)]}
			t.points = debts(c.Ledger)
			p.traces = append(p.traces, t)
		}
	}
	var said []string
	if len(none) > 0 {
		said = append(said, "No cold account: "+strings.Join(none, ", ")+".")
	}
	if len(p.traces) == 0 {
		if len(none) < len(people) {
			said = append(said, "Cold: nobody loses "+number(leastLoss)+" Wh/m² or more that is not won back.")
		}
		return nil, said
	}
	if len(p.traces) > 6 {
		p.high = 160
	}
	if len(others) > 0 {
		said = append(said, "Lines of the "+number(mostLines)+" coldest. The most heat that the others lost, in Wh/m²: "+strings.Join(others, ", ")+".")
	}
	if len(warm) > 0 {
		said = append(said, "Without a line, for their loss stays under "+number(leastLoss)+" Wh/m²: "+strings.Join(warm, ", ")+".")
	}
	return p, append(said, coldScope)
}

// With more than manyPeople only the lines of the mostLines coldest are drawn.
const (
	manyPeople = 8
	mostLines  = 3
)

// coldest says whose lines are drawn.
func coldest(people []cold.Person) []bool {
	drawn, order := make([]bool, len(people)), make([]int, len(people))
	for i := range people {
		order[i] = i
	}
	n := len(people)
	if n > manyPeople {
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(people[b].Peak, people[a].Peak) })
		n = mostLines
	}
	for _, i := range order[:n] {
		drawn[i] = true
	}
	return drawn
}

// coldScope says what the lines are and are not.
const coldScope = "Cold: heat lost and not yet won back, beside each name the most of it; a running sum over the heat balance of ISO 11079, " +
	"which is our extension of a standard for steady exposure. It knows neither wet clothing nor fingers, and nobody is safe for being under the limit."

// debts returns a ledger as the corners of a line: the debt changes evenly
// over an entry, until it is all won back.
func debts(ledger []cold.Entry) []sample {
	var out []sample
	before := 0.0
	for i, e := range ledger {
		if i == 0 || out[len(out)-1].at != e.From {
			out = append(out, sample{e.From, before})
		}
		if e.Debt == 0 && before > 0 && e.S > 0 {
			if at := e.From + sim.Time(before/e.S*float64(sim.Hour)); at < e.To {
				out = append(out, sample{at, 0})
			}
		}
		out = append(out, sample{e.To, e.Debt})
		before = e.Debt
	}
	return out
}
