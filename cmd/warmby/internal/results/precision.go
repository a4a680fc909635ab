package results

import (
	"fmt"
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/compare"
)

// until reads "hot drink p90 1 min".
func (j *Job) until(d *sim.Drill) (*batch.Until, error) {
	const hint = "such as \"hot drink p90 1 min\", \"heated mean 30 s\" or \"heated on time 1 %\": how far apart the ends of the interval may be"
	words := strings.Fields(j.Precision)
	for i := len(words) - 1; i > 0; i-- {
		name, what, p, err := batch.ParseMeasure(strings.Join(words[:i], " "))
		if err != nil {
			continue
		}
		return j.untilOf(d, name, what, p, strings.Join(words[i:], " "), hint)
	}
	return nil, &mistake.Usage{What: fmt.Sprintf("--precision expects a milestone, what is asked of it and how narrow, got %q", j.Precision), Cure: hint}
}

func (j *Job) untilOf(d *sim.Drill, name string, what batch.Measure, p float64, wide, hint string) (*batch.Until, error) {
	var there []string
	for _, m := range d.Milestones {
		there = append(there, m.Name)
	}
	if _, err := ask.Asked([]string{name}, there, "milestone", j.Name); err != nil {
		return nil, err
	}
	u := &batch.Until{Milestone: slices.Index(there, name), What: what, P: p}
	number, unit, ok := scenarios.Quantity(wide)
	var v float64
	if ok {
		_, err := fmt.Sscan(number, &v)
		ok = err == nil && v > 0
	}
	switch {
	case !ok, what == batch.OnTime && unit != "share", what != batch.OnTime && unit != "s":
		need := "a length of time, such as \"1 min\""
		if what == batch.OnTime {
			need = "a share, such as \"1 %\""
		}
		return nil, &mistake.Usage{What: fmt.Sprintf("--precision: how narrow must be %s, got %q", need, wide), Cure: hint}
	case what == batch.OnTime && d.Milestones[u.Milestone].By == sim.Never:
		return nil, &mistake.Usage{What: fmt.Sprintf("--precision: the milestone %q has no target to be on time for", name), Cure: "give it one with by: in the scenario"}
	case what == batch.OnTime && v >= 1:
		return nil, &mistake.Usage{What: fmt.Sprintf("--precision: a share is never less narrow than 100 %%, got %q", wide), Cure: hint}
	case what == batch.Quantile && v < 2:
		return nil, &mistake.Usage{What: fmt.Sprintf("--precision: quantiles are kept to the whole second; how narrow must be 2 s or more, got %q", wide), Cure: hint}
	}
	u.Wide, u.Share = sim.Milliseconds(1000*v), v
	u.Least = func(d *sim.Drill) int {
		if rare := compare.RarestOf(d, batch.FirstStage); rare != nil {
			return rare.Enough
		}
		return 0
	}
	return u, nil
}
