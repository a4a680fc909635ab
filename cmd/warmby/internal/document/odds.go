package document

import (
	"math"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/stats"
)

// Odds is when one order reaches one milestone.
type Odds struct {
	Name       string    `json:"name"`
	Mean       Seconds   `json:"mean_s"`
	MeanCI     *Interval `json:"mean_ci95_s"`
	SD         *Seconds  `json:"sd_s"`
	Why        string    `json:"why,omitempty"`
	P50        Seconds   `json:"p50_s"`
	P50CI      Interval  `json:"p50_ci95_s"`
	P80        Seconds   `json:"p80_s"`
	P80CI      Interval  `json:"p80_ci95_s"`
	P90        Seconds   `json:"p90_s"`
	P90CI      Interval  `json:"p90_ci95_s"`
	P95        Seconds   `json:"p95_s"`
	P95CI      Interval  `json:"p95_ci95_s"`
	Never      int64     `json:"never"` // runs
	NeverShare Share     `json:"never_in"`
	By         Seconds   `json:"by_s"`
	OnTime     *Share    `json:"on_time"`
	First      Share     `json:"first"`
}

// OddsOf returns the odds of a milestone in their shape.
func OddsOf(o *compare.Odds, milestone sim.Milestone) Odds {
	j := Odds{
		Name: milestone.Name, Why: o.Mean.Why, Never: o.Never.Count, NeverShare: ShareOf(o.Never),
		By: Seconds(milestone.By), First: ShareOf(o.First),
	}
	j.Mean, j.MeanCI = Mean(o.Mean)
	j.SD = deviation(o.Mean)
	j.P50, j.P50CI = Quantile(o.Quantiles[0])
	j.P80, j.P80CI = Quantile(o.Quantiles[1])
	j.P90, j.P90CI = Quantile(o.Quantiles[2])
	j.P95, j.P95CI = Quantile(o.Quantiles[3])
	if o.OnTime != nil {
		s := ShareOf(*o.OnTime)
		j.OnTime = &s
	}
	return j
}

// Match is one order held against another at one milestone.
type Match struct {
	Milestone  string     `json:"milestone"`
	A          string     `json:"a"`
	B          string     `json:"b"`
	WhatIf     *string    `json:"what_if"`
	Difference Difference `json:"difference"` // of a against b
	ASooner    Share      `json:"a_sooner"`
	BSooner    Share      `json:"b_sooner"`
	Apart
	Ahead       *string  `json:"ahead"` // null when there is no telling
	Doubt       string   `json:"doubt,omitempty"`
	P           *float64 `json:"p_holm,omitempty"`
	Exploratory bool     `json:"exploratory"`
}

// MatchOf returns two orders held against each other in its shape, without the
// milestone, the what-if, and whether it was planned.
func MatchOf(a, b string, d stats.Difference) Match {
	j := Match{A: a, B: b, Difference: DifferenceOf(d.Mean), Doubt: d.Doubt, ASooner: ShareOf(d.ASooner), BSooner: ShareOf(d.BSooner)}
	switch d.Ahead() {
	case -1:
		j.Ahead = &a
	case 1:
		j.Ahead = &b
	}
	return j
}

// Apart is how far one thing is from another otherwise than on average.
type Apart struct {
	P50    *Difference `json:"p50"`
	P80    *Difference `json:"p80"`
	P90    *Difference `json:"p90"`
	P95    *Difference `json:"p95"`
	OnTime *ShareGap   `json:"on_time_more"` // null without a target
}

// ApartOf returns it in its shape: how much sooner the first is, and how much
// more often on time.
func ApartOf(gap compare.Apart) Apart {
	var quantiles []*Difference
	for _, g := range gap.Quantiles {
		quantiles = append(quantiles, soonerOf(g.Turned()))
	}
	j := Apart{P50: quantiles[0], P80: quantiles[1], P90: quantiles[2], P95: quantiles[3]}
	if s := gap.OnTime; s != nil {
		j.OnTime = &ShareGap{Decimals(s.Value), [2]float64{Decimals(s.Low), Decimals(s.High)}, s.Runs}
	}
	return j
}

// soonerOf returns how much sooner something has come in a share of the runs.
func soonerOf(g stats.QuantileGap) *Difference {
	if !g.OK() {
		return &Difference{Sooner: Seconds(sim.Never), Why: g.Why}
	}
	low, high := Seconds(g.Low), Seconds(g.High)
	ci := Interval{&low, &high}
	if g.LowOpen {
		ci[0] = nil
	}
	if g.HighOpen {
		ci[1] = nil
	}
	return &Difference{Sooner: Seconds(g.Value), CI95: &ci}
}

// BestRow is how one order stands against the best at one thing that orders may be
// taken for.
type BestRow struct {
	For    string    `json:"taken_for"`
	WhatIf *string   `json:"what_if"`
	Order  string    `json:"order"`
	Taken  bool      `json:"taken"`
	MayBe  bool      `json:"may_be_best"`
	Behind *Seconds  `json:"behind_best_at_most_s"`   // null where it is about shares
	Fewer  *float64  `json:"fewer_than_best_at_most"` // null where it is about means
	Share  *Share    `json:"share_though_chosen"`
	Mean   *Seconds  `json:"mean_though_chosen_s"`
	MeanCI *Interval `json:"mean_though_chosen_ci95_s"`
	Doubt  string    `json:"doubt,omitempty"`
}

// BestRowOf returns how an order stands in its shape, without what it is about.
func BestRowOf(b *compare.Best, order int) BestRow {
	j := BestRow{MayBe: b.Within[order].MayBe, Doubt: b.Doubt}
	if late, ok := b.AtMost(order); ok {
		behind := Seconds(late)
		mean, ci := Mean(b.Means[order])
		j.Behind, j.Mean, j.MeanCI = &behind, &mean, ci
		return j
	}
	fewer, share := Decimals(b.Within[order].AtMost), ShareOf(b.Shares[order])
	j.Fewer, j.Share = &fewer, &share
	return j
}

// Stops says in how many runs a drill came to a stop.
type Stops struct {
	Runs  int    `json:"runs"`
	First int    `json:"first_run"`
	Why   string `json:"why"`
}

// Mean returns a mean in its shape; null without one, and no interval for one
// run.
func Mean(m stats.Mean) (Seconds, *Interval) {
	if !m.OK() {
		return Seconds(sim.Never), nil
	}
	value := Seconds(WholeMillis(m.Value))
	if m.Runs < 2 {
		return value, nil
	}
	return value, IntervalOf(m.Low, m.High)
}

// deviation returns the standard deviation behind a mean; nil without one, and
// for one run.
func deviation(m stats.Mean) *Seconds {
	if !m.OK() || m.Runs < 2 {
		return nil
	}
	sd := Seconds(WholeMillis(m.SD))
	return &sd
}

// WholeMillis rounds a mean of milliseconds, half away from zero.
func WholeMillis(ms float64) sim.Time { return sim.Time(math.Round(ms)) }
