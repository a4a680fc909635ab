package results

import (
	"fmt"

	"warmby/cmd/warmby/internal/report"
	"warmby/sim/batch"
	"warmby/sim/compare"
)

// pointWarning is the worst of a kind over all points.
type pointWarning struct {
	worst float64 // runs that would do, for each that there is
	says  string
}

// worse keeps a warning if it is the worst so far.
func worse(w *pointWarning, enough, runs int64, says func() report.Sentence) *pointWarning {
	if by := float64(enough) / float64(runs); w == nil || by > w.worst {
		return &pointWarning{by, says().Write(report.Full)}
	}
	return w
}

// lookForRare looks for what the runs of the point see too seldom.
func (r *Results) lookForRare(s *batch.Summary) {
	rare := compare.RarestOf(s.Orders[0].Drill, int(s.Runs))
	if rare == nil {
		return
	}
	r.rare = worse(r.rare, int64(rare.Enough), s.Runs, func() report.Sentence {
		says := report.RareWarning(rare, int(s.Runs))
		if r.point == 0 { // at all points, unless another is worse
			return says
		}
		return r.at(says)
	})
}

// lookForSkew looks for means of an order that are too skewed for the runs.
func (r *Results) lookForSkew(o *batch.OrderSummary, runs int64) {
	for m := range o.Milestones {
		odds := compare.OddsOf(o, m, runs)
		if odds.Enough == 0 {
			continue
		}
		r.skewed = worse(r.skewed, odds.Enough, runs, func() report.Sentence {
			of := report.Say("{}", o.Drill.Milestones[m].Name)
			if o.Drill.Order != "" {
				of = report.Say("{} with {}", of, fmt.Sprintf("%q", o.Drill.Order))
			}
			return r.at(report.SkewWarning(of, int(runs), odds.Enough))
		})
	}
}

// at says at which point something is so, where there are several.
func (r *Results) at(s report.Sentence) report.Sentence {
	if r.Plan.Points == 1 {
		return s
	}
	return report.Say("{}: {}", r.Plan.pointName(r.point), s)
}
