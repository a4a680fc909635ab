package main

import (
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
)

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
