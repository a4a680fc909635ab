package results

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/compare"
	"warmby/sim/draw"
	"warmby/sim/fast"
	"warmby/sim/rehearse"
	"warmby/sim/stats"
)

// summaryHead, "points" and summaryTail are summary.json. Points are written as
// they end, so that many of them take no more memory than one.
type summaryHead struct {
	SchemaVersion int    `json:"schema_version"`
	Scenario      string `json:"scenario"`
	Title         string `json:"title"`
	SHA256        string `json:"scenario_sha256"`
	Version       string `json:"version"`
	Seed          uint64 `json:"seed"`
	Runs          int    `json:"runs"` // of each order at each point; with precision the most
	Precision     string `json:"precision,omitempty"`
}

type summaryTail struct {
	Warnings []string           `json:"warnings"`
	Cautions []document.Caution `json:"cautions"`
	Repeat   string             `json:"repeat"`
}

// summaryFile is summary.json while it is written.
type summaryFile struct {
	file   *os.File
	buf    *bufio.Writer
	points int
}

func newSummaryFile(folder string, head summaryHead) (*summaryFile, error) {
	f, err := os.Create(filepath.Join(folder, "summary.json"))
	if err != nil {
		return nil, err
	}
	s := &summaryFile{file: f, buf: bufio.NewWriterSize(f, 1<<20)}
	text, err := members(head)
	if err == nil {
		_, err = s.buf.WriteString("{\n" + text + ",\n  \"points\": [")
	}
	return s, err
}

// members writes the members of an object without its braces.
func members(v any) (string, error) {
	var b bytes.Buffer
	err := document.Write(&b, v)
	return strings.TrimSuffix(strings.TrimPrefix(b.String(), "{\n"), "\n}\n"), err
}

func (s *summaryFile) add(p pointJSON) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("    ", "  ")
	if err := enc.Encode(p); err != nil {
		return err
	}
	comma := ",\n    "
	if s.points++; s.points == 1 {
		comma = "\n    "
	}
	s.buf.WriteString(comma)
	_, err := s.buf.Write(bytes.TrimSuffix(b.Bytes(), []byte("\n")))
	return err
}

func (s *summaryFile) end(tail summaryTail) error {
	text, err := members(tail)
	if err == nil {
		_, err = s.buf.WriteString("\n  ],\n" + text + "\n}\n")
	}
	return err
}

func (s *summaryFile) close() error {
	err := s.buf.Flush()
	if err == nil {
		err = s.file.Sync()
	}
	return errors.Join(err, s.file.Close())
}

// pointJSON is one point: what is varied there, and what came of it.
type pointJSON struct {
	Point       int                `json:"point"`
	Values      map[string]string  `json:"values"` // a key that is left out is as in the scenario
	Runs        int64              `json:"runs"`
	Precision   *precisionJSON     `json:"precision,omitempty"`
	Orders      []orderSummaryJSON `json:"orders"`
	Differences []document.Match   `json:"differences"`
	// FromFirst holds the point against the first one, at the milestones that a
	// question is about; null at the first point, and where points have a luck of
	// their own.
	FromFirst []fromFirstJSON `json:"from_first_point"`
}

// fromFirstJSON is how much sooner an order reaches a milestone than at the first
// point, run by run.
type fromFirstJSON struct {
	Order      string              `json:"order"`
	Milestone  string              `json:"milestone"`
	Difference document.Difference `json:"difference"`
	document.Apart
}

// precisionJSON says whether the interval that was asked for is narrow.
type precisionJSON struct {
	Narrow bool   `json:"narrow"`
	Widest string `json:"widest,omitempty"`
	Why    string `json:"why,omitempty"`
}

type orderSummaryJSON struct {
	Order      string          `json:"order"`
	Milestones []document.Odds `json:"milestones"`
	Stopped    *document.Stops `json:"stopped,omitempty"`
	InTime     *document.Share `json:"all_in_time"`     // null without targets
	NobodyCold *document.Share `json:"nobody_too_cold"` // null unless the account of cold is kept
	AllWell    *document.Share `json:"all_well"`        // both, or that of the two that there is
}

// endPoint makes figures of the point whose chunks have all been added.
func (r *Results) endPoint() error {
	if r.summary == nil {
		return nil
	}
	s, p := r.summary, r.Plan
	point := pointJSON{Point: r.point + 1, Values: map[string]string{}, Runs: s.Runs, Differences: []document.Match{}}
	for i, key := range p.Job.Keys {
		if v := p.Job.Points[r.point][i]; v != "" {
			point.Values[key] = v
		}
	}
	for i := range s.Orders {
		o, err := orderSummary(p, r.point, &s.Orders[i], s.Runs)
		if err != nil {
			return err
		}
		point.Orders = append(point.Orders, o)
		r.addRows(&s.Orders[i], s.Runs)
		r.lookForSkew(&s.Orders[i], s.Runs)
		if o.Stopped != nil {
			r.stops = append(r.stops, fmt.Sprintf("%s, order %q came to a stop in %d of %d runs, first in run %d (%s); what was not reached by then counts as never",
				p.pointName(r.point), o.Order, o.Stopped.Runs, s.Runs, o.Stopped.First, o.Stopped.Why))
		}
	}
	r.lookForRare(s)
	if r.sweep != nil {
		r.sweep.add(r.point, s)
	}
	for i := range s.Pairs {
		point.Differences = append(point.Differences, r.pairDocument(&s.Pairs[i])...)
	}
	point.FromFirst = r.fromFirst()
	if p.Until != nil {
		v := r.course.Verdicts()[r.point]
		point.Precision = &precisionJSON{v.Narrow, v.Wide, v.Why}
	}
	r.runs, r.summary = append(r.runs, s.Runs), nil
	if r.point >= mostSummed {
		return nil
	}
	if err := r.figures.add(point); err != nil {
		return r.cannotWrite("summary.json", err)
	}
	return nil
}

func orderSummary(p *Plan, point int, o *batch.OrderSummary, runs int64) (orderSummaryJSON, error) {
	out := orderSummaryJSON{Order: o.Drill.Order}
	if o.Stopped > 0 {
		why, err := p.stopOf(o.Drill, point, o.FirstStop)
		if err != nil {
			return out, err
		}
		out.Stopped = &document.Stops{Runs: o.Stopped, First: int(p.firstRun(point)) + o.FirstStop, Why: why}
	}
	well := compare.WellOf(o, runs, p.Cold)
	out.InTime, out.NobodyCold, out.AllWell = shareOrNil(well.Targets), shareOrNil(well.NobodyCold), shareOrNil(well.All)
	for m := range o.Milestones {
		odds := compare.OddsOf(o, m, runs)
		out.Milestones = append(out.Milestones, document.OddsOf(&odds, o.Drill.Milestones[m]))
	}
	return out, nil
}

// shareOrNil returns a share in its shape, if there is one.
func shareOrNil(s *stats.Share) *document.Share {
	if s == nil {
		return nil
	}
	share := document.ShareOf(*s)
	return &share
}

// stopOf plays a run that came to a stop once more and says why it did.
func (p *Plan) stopOf(d *sim.Drill, point, run int) (string, error) {
	luck := new(sim.Luck)
	p.luckOf(point, run, draw.NewSampler(d), luck)
	if err := fast.Compile(d).Worker().Stopped(luck); err != nil {
		return err.Error(), nil
	}
	return "", fmt.Errorf("run %d came to a stop when it was played first, and did not when played again", run)
}

// pairDocument writes two orders held against each other. Nobody has said which
// milestones the question is about, so that all of it is exploratory.
func (r *Results) pairDocument(pair *batch.Pair) []document.Match {
	p := r.Plan
	a, b := p.Job.Orders[pair.A], p.Job.Orders[pair.B]
	var list []document.Match
	for m := range pair.Milestones {
		d := pair.Milestones[m].Difference()
		d.Doubt = compare.DoubtfulForRare(r.summary.Orders[pair.A].Drill, r.summary.Orders[pair.B].Drill, d)
		j, apart := document.MatchOf(a, b, d), r.kept.of(pair.A, m).Apart(r.kept.of(pair.B, m))
		if m == ShownMilestone(p.First) {
			r.addOver(a, b, d)
			if p.Points == 1 {
				r.addApart(report.BatchApart{Order: a, Than: b, Diff: d, Apart: apart})
			}
		}
		j.Apart = document.ApartOf(apart)
		j.Milestone, j.Exploratory = p.First.Milestones[m].Name, true
		list = append(list, j)
	}
	return list
}

// fromFirst holds the point against the first one.
func (r *Results) fromFirst() (list []fromFirstJSON) {
	p := r.Plan
	switch {
	case r.point == 0:
		r.first = r.kept
		return nil
	case !p.common():
		return nil
	}
	for o, order := range p.Job.Orders {
		for _, m := range compare.Primary(p.First) {
			d, apart := r.kept.against(r.first, o, m)
			if m == ShownMilestone(p.First) {
				r.addApart(report.BatchApart{Point: r.point + 1, Order: order, Values: p.Job.Points[r.point], Diff: d, Apart: apart})
			}
			list = append(list, fromFirstJSON{order, p.First.Milestones[m].Name, document.DifferenceOf(d.Mean), document.ApartOf(apart)})
		}
	}
	return list
}

// addOver takes a point into what there is of two orders over all points.
func (r *Results) addOver(a, b string, d stats.Difference) {
	i := slices.IndexFunc(r.over, func(o report.BatchOver) bool { return o.A == a && o.B == b })
	if i < 0 {
		i = len(r.over)
		r.over = append(r.over, report.BatchOver{A: a, B: b})
	}
	r.over[i].Add(d)
}

// addApart keeps how far things are apart for the report, as long as there is
// room.
func (r *Results) addApart(a report.BatchApart) {
	if len(r.apart) < mostRows {
		r.apart = append(r.apart, a)
	}
}

// addRows keeps the odds of an order for the report, of all points as long as
// there is room, and of those that come first.
func (r *Results) addRows(o *batch.OrderSummary, runs int64) {
	row := report.BatchRow{Point: r.point + 1, Values: r.Plan.Job.Points[r.point], Drill: o.Drill, Well: compare.WellOf(o, runs, r.Plan.Cold)}
	for m := range o.Milestones {
		row.Odds = append(row.Odds, compare.OddsOf(o, m, runs))
	}
	if len(r.rows) < mostRows {
		r.rows = append(r.rows, row)
	}
	shown := ShownMilestone(r.Plan.First)
	at := len(r.best)
	for at > 0 && report.BetterRow(shown, &row, &r.best[at-1]) < 0 {
		at--
	}
	r.best = slices.Insert(r.best, at, row)
	r.best = r.best[:min(len(r.best), report.MostLeading)]
}

// ShownMilestone is the milestone that a sweep is about unless another is asked
// for: the first with a target, else the finish.
func ShownMilestone(d *sim.Drill) int {
	if i := slices.IndexFunc(d.Milestones, func(m sim.Milestone) bool { return m.By != sim.Never }); i >= 0 {
		return i
	}
	return len(d.Milestones) - 1
}

func (r *Results) summaryHead() summaryHead {
	j := r.Plan.Job
	return summaryHead{
		SchemaVersion: 2, Scenario: j.Name, Title: r.Plan.First.Title, SHA256: j.SHA256, Version: j.Version,
		Seed: j.Seed, Runs: j.Runs, Precision: j.Precision,
	}
}

func (r *Results) summaryTail() summaryTail {
	j := r.Plan.Job
	tail := summaryTail{Warnings: append([]string{}, r.Warnings()...), Repeat: j.Command(j.FileArg())}
	tail.Cautions = document.Cautions(r.Plan.Cautions())
	return tail
}

// mostSummed is how many points summary.json tells of; more would make it larger
// than the tables.
const mostSummed = 10_000

// mostWarnings is how many warnings of one kind are given; the others are
// counted.
const mostWarnings = 5

// Warnings says what is to be known before the figures are leaned on.
func (r *Results) Warnings() []string {
	p := r.Plan
	var list, wide []string
	if p.Points > mostSummed {
		list = append(list, fmt.Sprintf("summary.json has the first %s of %s points; the tables have all", grouped(mostSummed), grouped(int64(p.Points))))
	}
	few := slices.Min(append([]int64{stats.FewRuns}, r.runs...))
	for i, v := range r.course.Verdicts() {
		if !v.Narrow {
			wide = append(wide, fmt.Sprintf("%s is not as precise as asked (%s): %s", p.pointName(i), p.Job.Precision, v.Why))
		}
	}
	if n := len(p.Job.LeftOut); n > 0 {
		list = append(list, fmt.Sprintf("%s left out at which the drill can never finish; they count in no figure (datapackage.json names them)", wereCounted(n, "point")))
	}
	if warning := stats.ShareOf(0, few).Warning; warning != "" {
		list = append(list, warning)
	}
	for _, w := range []*pointWarning{r.rare, r.skewed} {
		if w != nil {
			list = append(list, w.says)
		}
	}
	if p.Points == 1 && !rehearse.IsDrawn(p.First) {
		list = append(list, "nothing in this scenario is left to luck: every run is the same, and intervals say nothing")
	}
	for _, kind := range [][]string{r.stops, wide} {
		if n := len(kind); n > mostWarnings {
			kind = append(kind[:mostWarnings:mostWarnings], fmt.Sprintf("%d more of the same kind", n-mostWarnings))
		}
		list = append(list, kind...)
	}
	return list
}

// wereCounted is "1 point was" or "2 points were".
func wereCounted(n int, thing string) string {
	if n == 1 {
		return report.Counted(n, thing) + " was"
	}
	return report.Counted(n, thing) + " were"
}

// pointsCSV writes points.csv: how many runs each point has, a column for each
// key as it was given, and beside one that holds quantities another with the
// numbers in the base unit, which its heading names.
func (r *Results) pointsCSV() (data []byte, rows int64) {
	p := r.Plan
	head, isNumber := []string{"point", "runs"}, []bool{true, true}
	units := make([]string, len(p.Job.Keys)) // "" for none
	for i, key := range p.Job.Keys {
		unit, same := p.columnUnit(i)
		head, isNumber = append(head, columnOf(key)), append(isNumber, same && unit == "")
		if same && unit != "" {
			units[i] = unit
			head, isNumber = append(head, key+"_"+unit), append(isNumber, true)
		}
	}
	table := [][]string{head}
	for i, runs := range r.runs {
		row := []string{fmt.Sprint(i + 1), fmt.Sprint(runs)}
		for k := range p.Job.Keys {
			value := p.Job.Points[i][k]
			row = append(row, value)
			if units[k] != "" {
				number, _, _ := scenarios.Quantity(value)
				row = append(row, number)
			}
		}
		table = append(table, row)
	}
	return csvFile(dialects[p.Job.CSV], isNumber, table), int64(len(r.runs))
}

// columnOf names the column of a key. That of the first run of a point is not
// called as the column of runs is, so that tables can be joined.
func columnOf(key string) string {
	if key == runKey {
		return "first_run"
	}
	return key
}

// columnUnit returns the unit that all values of a key have in common; same is
// false when they are not all quantities of one kind.
func (p *Plan) columnUnit(key int) (unit string, same bool) {
	for _, values := range p.Job.Points {
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
