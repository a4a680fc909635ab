package plots

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"warmby/sim"
)

// ofHundred writes a count as so many of a hundred, or of as many as there
// are when that would say none or all.
func ofHundred(count, of int) string {
	if of <= 0 {
		return "none of 0"
	}
	share := (200*count + of) / (2 * of)
	if count > 0 && share == 0 || count < of && share == 100 || of < 100 {
		return strconv.Itoa(count) + " of " + strconv.Itoa(of)
	}
	return strconv.Itoa(share) + " of 100"
}

// by writes a moment by which something has come: the clock, in the minute
// after it unless it is a whole one, and the minutes since arrival.
func (a axis) by(t sim.Time) string {
	whole := sim.ByMinute(t)
	if a.arrival.IsZero() {
		return about(whole) + " after arrival"
	}
	return a.clock(whole) + " (" + about(whole) + ")"
}

// sentence says what the odds of a milestone are; "" where bars do.
func (p *panelOdds) sentence(a axis, many string) string {
	if p.milestone.Sentence != "" {
		return p.milestone.Sentence
	}
	if p.barred() {
		return ""
	}
	var come, seldom []string
	order := slices.Clone(p.curves)
	slices.SortStableFunc(order, func(x, y curve) int { return cmp.Compare(x.moment(0.9), y.moment(0.9)) })
	name := "“" + clean(p.milestone.Name) + "”"
	for _, c := range order {
		with := ""
		if c.name != "" {
			with = " with “" + c.name + "”"
		}
		switch at := c.moment(0.9); {
		case c.runs == 0:
			seldom = append(seldom, "Nothing was played"+with+".")
		case at != sim.Never:
			come = append(come, "by "+a.by(at)+with)
		case len(c.times) == 0:
			seldom = append(seldom, "It is never reached"+with+".")
		default:
			seldom = append(seldom, "It is reached"+with+" in only "+ofHundred(len(c.times), c.runs)+" "+many+".")
		}
	}
	text := name + ": " + strings.Join(seldom, " ")
	if len(come) > 0 {
		text = strings.TrimSpace("In 9 of 10 " + many + " " + name + " is reached " + strings.Join(come, ", ") + ". " + strings.Join(seldom, " "))
	}
	return text
}
