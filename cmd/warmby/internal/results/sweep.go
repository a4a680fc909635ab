package results

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/plots"
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/stats"
)

// Sweep gathers what the picture of a sweep shows: one figure of one
// milestone, for each order at each point.
type Sweep struct {
	milestone int
	what      batch.Measure
	p         float64 // of a quantile
	axes      []plots.SweepKey
	at        []int // by point: its place among the estimates
	lines     []plots.SweepLine
}

// NewSweep refuses what cannot be drawn before anything is played; it returns
// nil when no picture is asked for.
func NewSweep(p *Plan, asked ask.Sweep) (*Sweep, error) {
	if len(asked.Pictures) == 0 {
		if asked.Of != "" {
			return nil, &mistake.Usage{What: "--picture-of says what a picture shows, and there is none", Cure: "add --picture sweep.svg"}
		}
		return nil, nil
	}
	s := &Sweep{}
	if err := s.settleFigure(p, asked.Of); err != nil {
		return nil, err
	}
	if err := s.settleAxes(p.Job); err != nil {
		return nil, err
	}
	for _, order := range p.Job.Orders {
		line := plots.SweepLine{Order: order}
		for range s.at {
			line.Estimates = append(line.Estimates, plots.Estimate{Value: sim.Never, High: sim.Never, NotPlayed: true})
		}
		s.lines = append(s.lines, line)
	}
	return s, nil
}

// settleFigure settles which milestone is drawn and what of it: what was asked
// for, a mean unless it says otherwise, else the mean of the milestone that the
// report shows.
func (s *Sweep) settleFigure(p *Plan, of string) error {
	s.milestone, s.what = ShownMilestone(p.First), batch.Mean
	if of == "" {
		return nil
	}
	var names []string
	for _, m := range p.First.Milestones {
		names = append(names, m.Name)
	}
	name := strings.TrimSpace(of)
	if !slices.Contains(names, name) {
		if n, what, q, err := batch.ParseMeasure(of); err == nil {
			name, s.what, s.p = n, what, q
		}
	}
	if _, err := ask.Asked([]string{name}, names, "milestone", p.Job.Name); err != nil {
		return err
	}
	if s.what == batch.OnTime {
		return &mistake.Usage{What: fmt.Sprintf("--picture-of %q: the picture shows times, not shares", of), Cure: "such as \"hot drink p90\" or \"heated mean\""}
	}
	s.milestone = slices.Index(names, name)
	return nil
}

// settleAxes makes axes of the keys: one, or two whose values all meet.
func (s *Sweep) settleAxes(j *Job) error {
	const hint = "leave out --picture, and draw it from the tables: warmby help results"
	switch {
	case len(j.Keys) == 0:
		return &mistake.Usage{What: "--picture shows what varied keys do, and none is varied", Cure: "add --vary people=4..8; warmby compare draws the odds of the orders"}
	case len(j.Keys) > 2:
		return &mistake.Usage{What: fmt.Sprintf("--picture shows one or two varied keys, and there are %d: %s", len(j.Keys), report.Named(j.Keys)), Cure: hint}
	case len(j.Keys) == 2 && j.How == OneAtATime:
		return &mistake.Usage{What: "--picture makes a map of two keys, for which all their values must meet", Cure: "leave out --vary-how " + OneAtATime + ", or vary one key"}
	}
	cells, places := 1, make([][]int, len(j.Keys)) // by key and point
	for k, name := range j.Keys {
		var values []string
		for _, point := range j.Points {
			values = append(values, point[k])
		}
		for _, l := range j.LeftOut { // last: empty places
			values = append(values, l.Values[k])
		}
		axis, at := sweepAxis(name, values)
		s.axes, places[k] = append(s.axes, axis), at
		cells *= slices.Max(at) + 1
	}
	taken := map[int]int{}
	all := len(j.Points) + len(j.LeftOut)
	for i := range all {
		at := places[0][i]
		if len(j.Keys) == 2 {
			at = at*(slices.Max(places[1])+1) + places[1][i]
		}
		if other, twice := taken[at]; twice {
			return &mistake.Usage{What: fmt.Sprintf("--picture has one place for each value, and points %d and %d are the same", other+1, i+1), Cure: "give each value once"}
		}
		taken[at], s.at = i, append(s.at, at)
	}
	if cells != all {
		return &mistake.Usage{What: fmt.Sprintf("--picture makes a map of two keys, for which all their values must meet: %d points of %d are there", all, cells), Cure: hint}
	}
	return nil
}

// sweepAxis makes an axis of the values of a key, and returns the place of each
// on it. Numbers, and quantities of one kind, are put in rising order; in the
// unit they are given in when all have the same. All else stands as words, in
// the order in which it is given.
func sweepAxis(name string, values []string) (plots.SweepKey, []int) {
	distinct := slices.Clone(values)
	slices.Sort(distinct)
	distinct = slices.Compact(distinct)
	key, at := plots.SweepKey{Name: name}, make([]int, len(values))
	if numbers, unit, ok := inOneUnit(distinct); ok {
		key.Unit = unit
		for _, v := range distinct {
			key.Values = append(key.Values, numbers[v])
		}
		slices.Sort(key.Values)
		key.Values = slices.Compact(key.Values)
		for i, v := range values {
			at[i] = slices.Index(key.Values, numbers[v])
		}
		return key, at
	}
	var seen []string
	for i, v := range values {
		if at[i] = slices.Index(seen, v); at[i] < 0 {
			at[i], seen = len(seen), append(seen, v)
			if v == "" {
				v = "as in the file"
			}
			key.Words = append(key.Words, v)
		}
	}
	return key, at
}

// inOneUnit returns the numbers of quantities that are all written alike, such
// as "-40 C", with the unit they are written in.
func inOneUnit(values []string) (numbers map[string]float64, unit string, ok bool) {
	numbers = map[string]float64{}
	for i, text := range values {
		number, u, _ := strings.Cut(strings.TrimSpace(text), " ")
		v, err := strconv.ParseFloat(number, 64)
		if u = strings.TrimSpace(u); err != nil || math.IsInf(v, 0) || math.IsNaN(v) || i > 0 && u != unit {
			return nil, "", false
		}
		numbers[text], unit = v, u
	}
	return numbers, unit, true
}

// add takes the runs of a point.
func (s *Sweep) add(point int, sum *batch.Summary) {
	for o := range sum.Orders {
		m := &sum.Orders[o].Milestones[s.milestone]
		s.lines[o].Estimates[s.at[point]] = s.estimate(m)
	}
}

func (s *Sweep) estimate(m *batch.Moments) plots.Estimate {
	none := plots.Estimate{Value: sim.Never, High: sim.Never}
	if s.what == batch.Quantile {
		q := stats.QuantileOf(&m.Counts, s.p)
		if q.Value == sim.Never {
			return none
		}
		return plots.Estimate{Value: q.Value, Low: q.Low, High: q.High}
	}
	mean := m.Tally.Mean()
	if !mean.OK() {
		return none
	}
	e := plots.Estimate{Value: document.WholeMillis(mean.Value), High: sim.Never}
	if mean.Runs > 1 {
		e.Low, e.High = document.WholeMillis(mean.Low), document.WholeMillis(mean.High)
	}
	return e
}

// Picture draws the picture of a batch that is done.
func (r *Results) Picture() *plots.Picture {
	s := r.sweep
	p, m := r.Plan, r.Plan.First.Milestones[s.milestone]
	var keys []string
	axes := slices.Clone(s.axes)
	for i := range axes {
		axes[i].Name = strings.ReplaceAll(axes[i].Name, ".", " ") // "weather.air" is a key, and no words
		keys = append(keys, axes[i].Name)
	}
	in := plots.SweepInput{
		Title: fmt.Sprintf("%s: how does it change with %s?", capital(m.Name), strings.Join(keys, " and ")), Lead: p.First.Title, Milestone: m.Name,
		By: sim.Never, Measure: "mean", Partly: true, Interval: "95 % interval of the mean", Keys: axes, Lines: s.lines,
		Foot: fmt.Sprintf("%s of each order at each point, seed %d. Played by: %s", r.RunsText(), p.Job.Seed, p.Job.Command(p.Job.FileArg())),
	}
	if s.what == batch.Quantile {
		in.Partly = false
		in.Measure = fmt.Sprintf("when %g in 100 runs are there", 100*s.p)
		in.Interval = "95 % interval of it"
	}
	if len(s.axes) == 2 {
		in.Measure += s.widest()
	}
	if n := len(p.Job.LeftOut); n > 0 {
		in.Foot = fmt.Sprintf("%s left out at which the drill can never finish. ", wereCounted(n, "point")) + in.Foot
	}
	if !varies(p.Job.Keys, "site.", "milestones.") { // else another one at each point
		in.By, in.ByText, in.Arrival = m.By, m.ByText, p.First.Site.Arrival
	}
	return plots.Sweep(in)
}

// PictureTable has what the picture shows.
func (r *Results) PictureTable() report.Table {
	s := r.sweep
	t := report.Table{Caption: "what varied keys do", Columns: []report.Column{{Head: "order"}}}
	for _, key := range r.Plan.Job.Keys {
		t.Columns = append(t.Columns, report.Column{Head: key})
	}
	t.Columns = append(t.Columns, report.Column{Head: r.Plan.First.Milestones[s.milestone].Name + " since arrival"}, report.Column{Head: "interval"})
	for _, line := range s.lines {
		for point, values := range r.Plan.Job.Points {
			row := report.Cells(line.Order)
			for _, v := range values {
				row = append(row, report.Say("{}", cmp.Or(v, "as in the file")))
			}
			e := line.Estimates[s.at[point]]
			row = append(row, report.Say("{}", report.Length(e.Value)), report.Say("{} to {}", report.Length(e.Low), report.Length(e.High)))
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// widest says, for a map that has no room for them, how wide the intervals are.
func (s *Sweep) widest() string {
	most, open := sim.Time(0), false
	for _, l := range s.lines {
		for _, e := range l.Estimates {
			switch {
			case e.Value == sim.Never:
			case e.High == sim.Never || e.Low == 0:
				open = true
			default:
				most = max(most, e.High-e.Low)
			}
		}
	}
	switch {
	case open:
		return "; too few runs to tell all of the 95 % intervals"
	case most == 0:
		return ""
	}
	return fmt.Sprintf("; its 95 %% interval is %.1f min wide or less in every cell", most.Minutes())
}

// varies reports whether a key with one of the beginnings is varied.
func varies(keys []string, beginnings ...string) bool {
	return slices.ContainsFunc(keys, func(key string) bool {
		return slices.ContainsFunc(beginnings, func(b string) bool { return strings.HasPrefix(key, b) })
	})
}
