package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/cold"
	"warmby/sim/fast"
	"warmby/sim/stats"
)

// summaryJSON is summary.json.
type summaryJSON struct {
	SchemaVersion int           `json:"schema_version"`
	Scenario      string        `json:"scenario"`
	Title         string        `json:"title"`
	SHA256        string        `json:"scenario_sha256"`
	Version       string        `json:"version"`
	Seed          uint64        `json:"seed"`
	Runs          int           `json:"runs"` // of each order at each point; with precision the most
	Precision     string        `json:"precision,omitempty"`
	Points        []pointJSON   `json:"points"`
	Warnings      []string      `json:"warnings"`
	Cautions      []cautionJSON `json:"cautions"`
	Repeat        string        `json:"repeat"`
}

// pointJSON is one point: what is varied there, and what came of it.
type pointJSON struct {
	Point       int                `json:"point"`
	Values      map[string]string  `json:"values"` // a key that is left out is as in the scenario
	Runs        int64              `json:"runs"`
	Precision   *precisionJSON     `json:"precision,omitempty"`
	Orders      []orderSummaryJSON `json:"orders"`
	Differences []differenceJSON   `json:"differences"`
}

// precisionJSON says whether the interval that was asked for is narrow.
type precisionJSON struct {
	Narrow bool   `json:"narrow"`
	Widest string `json:"widest,omitempty"`
	Why    string `json:"why,omitempty"`
}

type orderSummaryJSON struct {
	Order      string     `json:"order"`
	Milestones []oddsJSON `json:"milestones"`
	Stopped    *stopsJSON `json:"stopped,omitempty"`
}

// endPoint makes figures of the point whose chunks have all been added.
func (r *results) endPoint() error {
	if r.summary == nil {
		return nil
	}
	s, p := r.summary, r.plan
	point := pointJSON{Point: r.point + 1, Values: map[string]string{}, Runs: s.Runs, Differences: []differenceJSON{}}
	for i, key := range p.job.Keys {
		if v := p.job.Points[r.point][i]; v != "" {
			point.Values[key] = v
		}
	}
	for i := range s.Orders {
		o, err := orderSummary(p, &s.Orders[i], s.Runs)
		if err != nil {
			return err
		}
		point.Orders = append(point.Orders, o)
		r.addRows(&s.Orders[i], s.Runs)
	}
	for i := range s.Pairs {
		point.Differences = append(point.Differences, pairDocument(p, &s.Pairs[i])...)
	}
	r.points = append(r.points, point)
	r.summary = nil
	return nil
}

func orderSummary(p *batchPlan, o *batch.OrderSummary, runs int64) (orderSummaryJSON, error) {
	out := orderSummaryJSON{Order: o.Drill.Order}
	if o.Stopped > 0 {
		why, err := stopOf(o.Drill, p.job.Seed, o.FirstStop)
		if err != nil {
			return out, err
		}
		out.Stopped = &stopsJSON{Runs: o.Stopped, First: o.FirstStop, Why: why}
	}
	for m := range o.Milestones {
		out.Milestones = append(out.Milestones, momentsDocument(&o.Milestones[m], o.Drill.Milestones[m], runs))
	}
	return out, nil
}

// stopOf plays a run that came to a stop once more and says why it did.
func stopOf(d *sim.Drill, seed uint64, run int) (string, error) {
	program, err := fast.Compile(d)
	if err != nil {
		return "", err
	}
	if err := program.Worker().Run(seed, run, new(fast.Result)); err != nil {
		return err.Error(), nil
	}
	return "", fmt.Errorf("run %d came to a stop when it was played first, and did not when played again", run)
}

// momentsDocument writes a milestone as compare does.
func momentsDocument(m *batch.Moments, milestone sim.Milestone, runs int64) oddsJSON {
	mean, never := m.Tally.Mean(), stats.ShareOf(m.Tally.Never, runs)
	j := oddsJSON{
		Name: milestone.Name, Why: mean.Why, Never: never.Count, NeverShare: shareDocument(never),
		By: seconds(milestone.By), First: shareDocument(stats.ShareOf(m.First, runs)),
	}
	j.Mean, j.MeanCI = meanDocument(mean)
	j.P50, j.P50CI = quantileDocument(stats.QuantileOf(&m.Counts, 0.5))
	j.P80, j.P80CI = quantileDocument(stats.QuantileOf(&m.Counts, 0.8))
	j.P90, j.P90CI = quantileDocument(stats.QuantileOf(&m.Counts, 0.9))
	j.P95, j.P95CI = quantileDocument(stats.QuantileOf(&m.Counts, 0.95))
	if milestone.By != sim.Never {
		onTime := shareDocument(stats.ShareOf(m.OnTime, runs))
		j.OnTime = &onTime
	}
	return j
}

// pairDocument writes two orders held against each other. Nobody has said which
// milestones the question is about, so that all of it is exploratory.
func pairDocument(p *batchPlan, pair *batch.Pair) []differenceJSON {
	a, b := p.job.Orders[pair.A], p.job.Orders[pair.B]
	var list []differenceJSON
	for m := range pair.Milestones {
		d := pair.Milestones[m].Difference()
		j := differenceJSON{
			Milestone: p.names.Milestones[m].Name, A: a, B: b, Why: d.Mean.Why, Exploratory: true,
			ASooner: decimals(d.ASooner.Value), ASoonerCI: shareDocument(d.ASooner).CI,
			BSooner: decimals(d.BSooner.Value), BSoonerCI: shareDocument(d.BSooner).CI,
		}
		j.Mean, j.CI = meanDocument(d.Mean)
		switch d.Ahead() {
		case -1:
			j.Ahead = &a
		case 1:
			j.Ahead = &b
		}
		list = append(list, j)
	}
	return list
}

// addRows adds lines to the report: all milestones of the only point, of
// several points the first milestone with a target.
func (r *results) addRows(o *batch.OrderSummary, runs int64) {
	only := -1
	if r.plan.Points > 1 {
		only = len(o.Milestones) - 1
		if i := slices.IndexFunc(r.plan.names.Milestones, func(m sim.Milestone) bool { return m.By != sim.Never }); i >= 0 {
			only = i
		}
	}
	for m := range o.Milestones {
		if only >= 0 && m != only || len(r.rows) == shownRows {
			continue
		}
		moments, milestone := &o.Milestones[m], o.Drill.Milestones[m]
		row := tableRow{
			point: r.point, order: o.Drill.Order, milestone: milestone.Name, mean: moments.Tally.Mean(),
			nine: stats.QuantileOf(&moments.Counts, 0.9), never: stats.ShareOf(moments.Tally.Never, runs),
		}
		if milestone.By != sim.Never {
			share := stats.ShareOf(moments.OnTime, runs)
			row.onTime = &share
		}
		r.rows = append(r.rows, row)
	}
}

func (r *results) summaryJSON() ([]byte, error) {
	p := r.plan
	doc := summaryJSON{
		SchemaVersion: 1, Scenario: p.job.Name, Title: p.names.Title, SHA256: p.job.SHA256, Version: p.job.Version,
		Seed: p.job.Seed, Runs: p.job.Runs, Precision: p.job.Precision, Cautions: []cautionJSON{},
		Repeat: p.job.command(p.job.fileArg()),
	}
	for i, v := range r.course.Verdicts() {
		r.points[i].Precision = &precisionJSON{v.Narrow, v.Wide, v.Why}
	}
	doc.Points, doc.Warnings = r.points, append([]string{}, r.warnings()...)
	for _, c := range cold.Cautions(p.names, nil) {
		doc.Cautions = append(doc.Cautions, cautionJSON{c.Topic, c.Because, c.Text, c.DeferTo})
	}
	var b bytes.Buffer
	err := writeJSON(&b, doc)
	return b.Bytes(), err
}

// mostWarnings is how many warnings of one kind are given; the others are
// counted.
const mostWarnings = 5

// warnings says what is to be known before the figures are leaned on.
func (r *results) warnings() []string {
	p := r.plan
	var list, stops, wide []string
	few := int64(stats.FewRuns)
	for i := range r.points {
		few = min(few, r.points[i].Runs)
		for _, o := range r.points[i].Orders {
			if o.Stopped != nil {
				stops = append(stops, fmt.Sprintf("%s, order %q came to a stop in %d of %d runs, first in run %d (%s); what was not reached by then counts as never",
					p.pointName(i), o.Order, o.Stopped.Runs, r.points[i].Runs, o.Stopped.First, o.Stopped.Why))
			}
		}
	}
	for i, v := range r.course.Verdicts() {
		if !v.Narrow {
			wide = append(wide, fmt.Sprintf("%s is not as precise as asked (%s): %s", p.pointName(i), p.job.Precision, v.Why))
		}
	}
	if warning := stats.ShareOf(0, few).Warning; warning != "" {
		list = append(list, warning)
	}
	if p.Points == 1 && !isDrawn(p.names) {
		list = append(list, "nothing in this scenario is left to luck: every run is the same, and intervals say nothing")
	}
	for _, kind := range [][]string{stops, wide} {
		if n := len(kind); n > mostWarnings {
			kind = append(kind[:mostWarnings:mostWarnings], fmt.Sprintf("%d more of the same kind", n-mostWarnings))
		}
		list = append(list, kind...)
	}
	return list
}

// pointsCSV writes points.csv: how many runs each point has, a column for each
// key as it was given, and beside one that holds quantities another with the
// numbers in the base unit, which its heading names.
func (r *results) pointsCSV() (data []byte, rows int64) {
	p := r.plan
	head, isNumber := []string{"point", "runs"}, []bool{true, true}
	units := make([]string, len(p.job.Keys)) // "" for none
	for i, key := range p.job.Keys {
		unit, same := p.columnUnit(i)
		head, isNumber = append(head, key), append(isNumber, same && unit == "")
		if same && unit != "" {
			units[i] = unit
			head, isNumber = append(head, key+"_"+unit), append(isNumber, true)
		}
	}
	table := [][]string{head}
	for i := range r.points {
		row := []string{fmt.Sprint(i + 1), fmt.Sprint(r.points[i].Runs)}
		for k := range p.job.Keys {
			value := p.job.Points[i][k]
			row = append(row, value)
			if units[k] != "" {
				number, _, _ := scenarios.Quantity(value)
				row = append(row, number)
			}
		}
		table = append(table, row)
	}
	return csvFile(dialects[p.job.CSV], isNumber, table), int64(len(r.points))
}

// columnUnit returns the unit that all values of a key have in common; same is
// false when they are not all quantities of one kind.
func (p *batchPlan) columnUnit(key int) (unit string, same bool) {
	for _, values := range p.job.Points {
		if values[key] == "" {
			continue
		}
		_, u, ok := scenarios.Quantity(values[key])
		if !ok || same && u != unit {
			return "", false
		}
		unit, same = u, true
	}
	return unit, same
}

// percentOf writes a share, with a decimal where the whole number would say too
// little.
func percentOf(share float64) string {
	s := fmt.Sprintf("%.1f", 100*share)
	return strings.TrimSuffix(s, ".0") + " %"
}
