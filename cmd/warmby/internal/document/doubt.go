package document

import (
	"math"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/doubt"
)

// Doubt begins what tells luck from numbers: the same runs with the numbers
// doubted.
type Doubt struct {
	From   string `json:"numbers_from"` // file or log
	Drills int    `json:"log_drills"`
	Runs   int    `json:"runs"`
}

// DoubtedDrill is that of one drill.
type DoubtedDrill struct {
	Doubt
	Milestones []DoubtedMilestone `json:"milestones"`
}

// DoubtedOrders is that of several orders.
type DoubtedOrders struct {
	Doubt
	Orders  []DoubtedOrder `json:"orders"`
	Choices []Choice       `json:"choices"`
}

// DoubtedMilestone is when a milestone comes either way, and how often it is in
// time.
type DoubtedMilestone struct {
	Name    string   `json:"name"`
	Luck    Range    `json:"by_luck"`
	Numbers Range    `json:"with_numbers"`
	OnTime  *float64 `json:"on_time_with_numbers"` // null without a target
}

// Range is what holds in 8 of 10 runs, and its middle.
type Range struct {
	Low    Seconds `json:"low80_s"`
	Median Seconds `json:"median_s"`
	High   Seconds `json:"high80_s"`
}

// DoubtedOrder is one order either way.
type DoubtedOrder struct {
	Order      string             `json:"order"`
	AllWell    *float64           `json:"all_well_with_numbers"` // null where nothing is asked for
	Milestones []DoubtedMilestone `json:"milestones"`
}

// Choice is what an order is taken for, and whether that holds.
type Choice struct {
	For   string   `json:"taken_for"`
	Order string   `json:"order"`
	Holds bool     `json:"holds"`
	Best  []string `json:"best_with_numbers"`
}

// DoubtOf returns how numbers are doubted in so many runs.
func DoubtOf(n doubt.Numbers, runs int) Doubt {
	if n.Drills > 0 {
		return Doubt{"log", n.Drills, runs}
	}
	return Doubt{"file", 0, runs}
}

// DoubtedMilestones returns the milestones of a drill that was played as it is,
// and with its numbers doubted.
func DoubtedMilestones(luck, numbers *compare.Played) (list []DoubtedMilestone) {
	for m, one := range doubt.Of(luck, numbers) {
		milestone := luck.Drill.Milestones[m]
		j := DoubtedMilestone{Name: milestone.Name, Luck: rangeOf(one.Luck), Numbers: rangeOf(one.Numbers)}
		if milestone.By != sim.Never {
			share := shareMet(&milestone, numbers.Times[m])
			j.OnTime = &share
		}
		list = append(list, j)
	}
	return list
}

func rangeOf(r doubt.Range) Range { return Range{Seconds(r.Low), Seconds(r.Middle), Seconds(r.High)} }

func shareMet(milestone *sim.Milestone, times []sim.Time) float64 {
	n := 0
	for _, at := range times {
		if milestone.Met(at) {
			n++
		}
	}
	return math.Round(1e6*float64(n)/float64(len(times))) / 1e6
}
