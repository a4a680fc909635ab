package main

import (
	"fmt"
	"strings"

	"warmby/sim"
	"warmby/sim/stats"
)

func whenHeading(d *sim.Drill) string {
	if d.Site.Arrival.IsZero() {
		return "minutes:seconds since arrival, under each its 95 % interval"
	}
	return "minutes:seconds since arrival and clock, under each its 95 % interval"
}

// whenText writes for each milestone the odds of every order and all
// differences.
func (c *comparison) whenText(w *bout, width int) string {
	d := w.played[0].Drill
	many := occasions(d)
	var b strings.Builder
	for m, milestone := range d.Milestones {
		heading := milestone.Name
		if milestone.By != sim.Never {
			heading += ", target by " + byText(d, milestone)
		}
		if m > 0 {
			b.WriteByte('\n')
		}
		if as := w.Same(m); as >= 0 {
			b.WriteString(wrap(fmt.Sprintf("%s: as %s, to the moment, in every run", sentenceCase(heading), d.Milestones[as].Name), width, "  ", "    "))
			continue
		}
		fmt.Fprintf(&b, "  %s\n%s", sentenceCase(heading), w.oddsTable(m, width))
		for i, o := range w.Odds[m] {
			if o.Never.Count > 0 {
				b.WriteString(wrap(fmt.Sprintf("%s: never reached %s", w.called(i), inHundred(o.Never, many)), width, "  ", "    "))
			}
		}
		if len(w.orders) < 2 {
			continue
		}
		b.WriteString(w.differencesTable(m, c.isPrimary(m), width))
	}
	return b.String()
}

// differencesTable writes how far each order is ahead of each other one, the
// soonest first.
func (w *bout) differencesTable(m int, primary bool, width int) string {
	heading := "by (all hold together)"
	if !primary {
		heading = "by (exploratory)"
	}
	rows := [][]string{{"", "", "", heading, "sooner in"}}
	ranking := w.Ranking(m)
	for i, a := range ranking {
		for _, b := range ranking[i+1:] {
			p := w.Between(m, a, b)
			if p.Diff.Ahead() == 1 { // ranked by something else
				p = p.Turned()
			}
			rows = append(rows, []string{w.orders[p.A], aheadWord(p.Diff), w.orders[p.B], byHowMuch(p.Diff.Mean.Negated()), soonerShort(p.Diff.ASooner)})
		}
	}
	return tableWithin(width, 3, "  ", rows)
}

// aheadWord says what is between two orders, of which the first has the sooner
// mean.
func aheadWord(d stats.Difference) string {
	switch {
	case d.Ahead() == 0:
		return "or"
	case d.Mean.High > 0:
		return "ahead of?"
	}
	return "ahead of"
}

func byHowMuch(m stats.Mean) string {
	switch {
	case !m.OK():
		return "no mean (not always reached)"
	case m.Value == 0 && m.SD == 0:
		return "the same in every run"
	}
	return signed(wholeMillis(m.Value)) + " (" + shortRange(m) + ")"
}

func soonerShort(s stats.Share) string {
	return outOf(s) + " (" + percentRange(s) + ")"
}

// called names an order in a table.
func (w *bout) called(order int) string {
	if w.orders[order] == "" {
		return "file order"
	}
	return w.orders[order]
}

func (w *bout) oddsTable(m, width int) string {
	d := w.played[0].Drill
	heading := []string{"", "mean", "5 of 10", "8 of 10", "9 of 10", "19 of 20"}
	target := d.Milestones[m].By != sim.Never
	if target {
		heading = append(heading, "on time")
	}
	rows := [][]string{heading}
	for i := range w.orders {
		o := w.Odds[m][i]
		figures, ranges := []string{w.called(i)}, []string{""}
		if o.Mean.OK() {
			figures = append(figures, withClock(d, wholeMillis(o.Mean.Value)))
			ranges = append(ranges, meanRange(o.Mean))
		} else {
			figures, ranges = append(figures, "none"), append(ranges, "not always")
		}
		for _, q := range o.Quantiles {
			figures = append(figures, withClock(d, q.Value))
			ranges = append(ranges, quantileRange(q))
		}
		if target {
			figures = append(figures, hundredths(o.OnTime.Value)+" %")
			ranges = append(ranges, hundredths(o.OnTime.Low)+"-"+hundredths(o.OnTime.High)+" %")
		}
		rows = append(rows, figures, ranges)
	}
	return tableWithin(width, 1, "  ", rows)
}

func meanRange(m stats.Mean) string {
	if m.Runs < 2 {
		return "?"
	}
	return signed(wholeMillis(m.Low)) + "-" + signed(wholeMillis(m.High))
}

// withClock writes a moment since arrival and by when that is on the clock.
func withClock(d *sim.Drill, t sim.Time) string {
	if t == sim.Never {
		return short(t)
	}
	return strings.TrimSpace(short(t) + " " + clockUp(d, t))
}

func quantileRange(q stats.Quantile) string {
	low, high := short(q.Low), short(q.High)
	if q.LowOpen {
		low = "?"
	}
	if q.HighOpen {
		high = "?"
	}
	return low + "-" + high
}
