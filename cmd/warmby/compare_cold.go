package main

import (
	"fmt"
	"slices"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/stats"
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
		who := mostOften(k.Coldest)
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
	q := peakQuantile(k, p)
	return fmt.Sprintf("%.0f (%s to %s)", q.value, whCell(q.low), whCell(q.high))
}

func whCell(v *float64) string {
	if v == nil {
		return "?"
	}
	return fmt.Sprintf("%.0f", *v)
}

// mostOften returns the index of the greatest count, the first of equals.
func mostOften(counts []int) int { return slices.Index(counts, slices.Max(counts)) }

// whQuantile is a quantile in Wh/m2 with its interval; nil for an end that so
// few runs cannot tell.
type whQuantile struct {
	value     float64
	low, high *float64
}

// places stands for runs in order by their places, so that the rules for
// quantiles of moments serve for heat as well.
type places int

func (n places) Len() int64             { return int64(n) }
func (n places) At(rank int64) sim.Time { return sim.Time(rank) }

func peakQuantile(k *compare.Cold, p float64) whQuantile {
	q := stats.QuantileOf(places(len(k.Peaks)), p)
	at := func(rank sim.Time) *float64 {
		if rank < 1 || rank > sim.Time(len(k.Peaks)) {
			return nil
		}
		return &k.Peaks[rank-1]
	}
	return whQuantile{value: k.Peaks[q.Value-1], low: at(q.Low), high: at(q.High)}
}

// ends returns the interval as JSON has it.
func (q whQuantile) ends() (ci interval[*float64]) {
	for i, end := range []*float64{q.low, q.high} {
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
	half, nine := peakQuantile(k, 0.5), peakQuantile(k, 0.9)
	j := &orderColdJSON{
		Runs: len(k.Peaks), Limit: cold.HeatLimit, Over: shareDocument(k.OverShare()),
		P50: decimals(half.value), P50CI: half.ends(),
		P90: decimals(nine.value), P90CI: nine.ends(),
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
