package main

import (
	"fmt"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
)

// coldText says how cold the coldest gets under each order.
func (c *comparison) coldText(w *bout, width int) string {
	var lines []coldLine
	for i, k := range w.cold {
		lines = append(lines, coldLine{w.called(i), w.played[i].Drill, k})
	}
	return coldTable(lines, occasions(c.d), width)
}

// coldLine is the account of cold of one drill, to be written as a line.
type coldLine struct {
	name string
	d    *sim.Drill
	cold *compare.Cold // nil without an account
}

// coldTable writes accounts of cold one below the other; nothing when there are
// none.
func coldTable(lines []coldLine, occasions string, width int) string {
	rows := [][]string{{"", "over the limit", "5 of 10", "9 of 10", "coldest most often"}}
	runs := 0
	for _, l := range lines {
		k := l.cold
		if k == nil {
			continue
		}
		runs = max(runs, len(k.Peaks))
		over := k.OverShare()
		who := k.MostOften()
		rows = append(rows, []string{l.name, shareCell(&over, ""), peakCell(k, 0.5), peakCell(k, 0.9),
			fmt.Sprintf("%s, %d of %d", l.d.People[who].Name, k.Coldest[who], len(k.Peaks))})
	}
	if runs == 0 {
		return ""
	}
	out := tableWithin(width, 1, "  ", rows)
	return out + wrap(fmt.Sprintf("The most heat that anybody has lost at any moment of a run, in Wh/m2, reached at most in 5 and in 9 of 10 %s, and in how many somebody passes the limit of %d; beside each its 95 %% interval. The account is kept in the first %s. Coldest most often: who in most runs loses more than anybody else.",
		occasions, cold.HeatLimit, counted(runs, "run")), width, "  ", "  ")
}

func peakCell(k *compare.Cold, p float64) string {
	q := k.Quantile(p)
	return fmt.Sprintf("%.0f (%s to %s)", q.Value, whCell(q.Low), whCell(q.High))
}

func whCell(v *float64) string {
	if v == nil {
		return "?"
	}
	return fmt.Sprintf("%.0f", *v)
}

// heatEnds returns the interval as JSON has it.
func heatEnds(q compare.HeatQuantile) (ci interval[*float64]) {
	for i, end := range []*float64{q.Low, q.High} {
		if end != nil {
			x := decimals(*end)
			ci[i] = &x
		}
	}
	return ci
}

// orderColdJSON is the account of cold of one order.
type orderColdJSON struct {
	Runs    int                `json:"runs"`
	Limit   float64            `json:"limit_wh_m2"`
	Over    shareJSON          `json:"over_limit"` // runs in which somebody passes the limit
	P50     float64            `json:"p50_wh_m2"`  // of the coldest person's most heat lost
	P50CI   interval[*float64] `json:"p50_ci95_wh_m2"`
	P90     float64            `json:"p90_wh_m2"`
	P90CI   interval[*float64] `json:"p90_ci95_wh_m2"`
	Persons []personColdJSON   `json:"people"`
}

type personColdJSON struct {
	Name    string `json:"name"`
	Coldest int    `json:"coldest_runs"` // in which nobody is colder
	Over    int    `json:"over_limit_runs"`
}

func coldOrderDocument(d *sim.Drill, k *compare.Cold) *orderColdJSON {
	if k == nil {
		return nil
	}
	half, nine := k.Quantile(0.5), k.Quantile(0.9)
	j := &orderColdJSON{
		Runs: len(k.Peaks), Limit: cold.HeatLimit, Over: shareDocument(k.OverShare()),
		P50: decimals(half.Value), P50CI: heatEnds(half),
		P90: decimals(nine.Value), P90CI: heatEnds(nine),
	}
	for i, p := range d.People {
		j.Persons = append(j.Persons, personColdJSON{p.Name, k.Coldest[i], k.OverBy[i]})
	}
	return j
}

// coldSentence says in how many runs somebody gets too cold under the order
// that is best for it, and under the one that is worst.
func (c *comparison) coldSentence() string {
	best, worst, kept := -1, -1, 0
	for i, k := range c.asIs.cold {
		if k == nil {
			continue
		}
		kept++
		if best < 0 || k.Over < c.asIs.cold[best].Over {
			best = i
		}
		if worst < 0 || k.Over > c.asIs.cold[worst].Over {
			worst = i
		}
	}
	if best < 0 {
		return ""
	}
	say := func(i int) string {
		return inHundred(c.asIs.cold[i].OverShare(), occasions(c.d)) + " under " + c.asIs.called(i)
	}
	k, somebody := c.asIs.cold, fmt.Sprintf("Cold: somebody passes the limit of %d Wh/m2 ", cold.HeatLimit)
	switch {
	case k[worst].Over > k[best].Over:
		return somebody + say(best) + ", and " + say(worst) + "."
	case kept > 1:
		return somebody + inHundred(k[best].OverShare(), occasions(c.d)) + " under every order."
	}
	return somebody + say(best) + "."
}
