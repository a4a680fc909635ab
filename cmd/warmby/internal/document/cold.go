package document

import (
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
)

// OrderCold is the account of cold of one order over many runs.
type OrderCold struct {
	Runs    int            `json:"runs"`
	Limit   float64        `json:"limit_wh_m2"`
	Over    Share          `json:"over_limit"` // runs in which somebody passes the limit
	P50     float64        `json:"p50_wh_m2"`  // of the coldest person's most heat lost
	P50CI   [2]*float64    `json:"p50_ci95_wh_m2"`
	P90     float64        `json:"p90_wh_m2"`
	P90CI   [2]*float64    `json:"p90_ci95_wh_m2"`
	Persons []PersonInRuns `json:"people"`
}

// PersonInRuns is one person in the account of many runs.
type PersonInRuns struct {
	Name    string `json:"name"`
	Coldest int    `json:"coldest_runs"` // in which nobody is colder
	Over    int    `json:"over_limit_runs"`
}

// OrderColdOf returns the account of a drill; nil where none is kept.
func OrderColdOf(d *sim.Drill, k *compare.Cold) *OrderCold {
	if k == nil {
		return nil
	}
	half, nine := k.Quantile(0.5), k.Quantile(0.9)
	j := &OrderCold{
		Runs: len(k.Peaks), Limit: cold.HeatLimit, Over: ShareOf(k.OverShare()),
		P50: Decimals(half.Value), P50CI: heatEnds(half),
		P90: Decimals(nine.Value), P90CI: heatEnds(nine),
	}
	for i, p := range d.People {
		j.Persons = append(j.Persons, PersonInRuns{p.Name, k.Coldest[i], k.OverBy[i]})
	}
	return j
}

func heatEnds(q compare.HeatQuantile) (ci [2]*float64) {
	for i, end := range []*float64{q.Low, q.High} {
		if end != nil {
			x := Decimals(*end)
			ci[i] = &x
		}
	}
	return ci
}
