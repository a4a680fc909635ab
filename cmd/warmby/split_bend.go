package main

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/compare"
	"warmby/sim/split"
	"warmby/sim/stats"
)

// bend is what the splits of one size do in all cases.
type bend struct {
	size  *split.Size
	runs  [][][]sim.Time // by case, then split: the milestone in each run; nil when it cannot be played
	times [][]sim.Time   // by case, then split: mean or usual time; Never when some run never comes
	left  []int          // cases in which no split gets there: left out of the judgement
	least int            // the split whose latest time is earliest; -1 when none gets there in all others
	worst []int          // by split: the case in which it is latest, of those judged; -1 for never
}

// tellBends plays the splits of every size in every case, when there are
// several.
func (s *splitting) tellBends(ctx context.Context) error {
	if len(s.cases) < 2 {
		return nil
	}
	for _, size := range s.sizes {
		b := &bend{size: size, least: -1}
		for i, c := range s.cases {
			runs, err := s.runsIn(ctx, size, i, c)
			if err != nil {
				return fmt.Errorf("%s: what if %q: %w", s.name, c.called(), err)
			}
			var times []sim.Time
			for _, moments := range runs {
				times = append(times, meanOrNever(moments))
			}
			b.runs, b.times = append(b.runs, runs), append(b.times, times)
		}
		b.judge()
		s.bends = append(s.bends, b)
	}
	return nil
}

// runsIn returns when each split of a size reaches the milestone in a case, run
// by run; nil for one that cannot be played there.
func (s *splitting) runsIn(ctx context.Context, size *split.Size, i int, c *scenarioCase) ([][]sim.Time, error) {
	runs := make([][]sim.Time, len(size.Splits))
	if i == 0 { // played already
		for k, one := range size.Splits {
			runs[k] = one.Times[s.game.Milestone]
		}
		return runs, nil
	}
	in := &split.Case{Bare: c.scenario.InFileOrder()}
	for _, o := range s.game.Orders {
		d, err := c.scenario.Drill(o.Order)
		if err != nil {
			return nil, err
		}
		in.Orders = append(in.Orders, d)
	}
	played, err := s.game.Case(ctx, size, in)
	if err != nil {
		return nil, err
	}
	for k, p := range played {
		if p != nil {
			runs[k] = p.Times[s.game.Milestone]
		}
	}
	return runs, nil
}

// meanOrNever returns the mean of some moments; Never when one is, or for none.
func meanOrNever(moments []sim.Time) sim.Time {
	if m := meanOf(moments); m.OK() {
		return wholeMillis(m.Value)
	}
	return sim.Never
}

// judge finds the split that bends least.
func (b *bend) judge() {
	for i, times := range b.times {
		if !slices.ContainsFunc(times, func(t sim.Time) bool { return t != sim.Never }) {
			b.left = append(b.left, i)
		}
	}
	for k := range b.size.Splits {
		worst, never := -1, false
		for i, times := range b.times {
			if slices.Contains(b.left, i) {
				continue
			}
			never = never || times[k] == sim.Never
			if worst < 0 || times[k] > b.times[worst][k] {
				worst = i
			}
		}
		if never {
			worst = -1
		}
		b.worst = append(b.worst, worst)
		if worst >= 0 && (b.least < 0 || times(b, k) < times(b, b.least)) {
			b.least = k
		}
	}
}

// times returns the latest time of a split in the cases judged.
func times(b *bend, k int) sim.Time { return b.times[b.worst[k]][k] }

// bendsText says for each size which split bends least, with a table by case of
// the team's own size, or else of the last size.
func (s *splitting) bendsText(width int) string {
	if len(s.bends) == 0 {
		return ""
	}
	var out strings.Builder
	rows := [][]string{{"people", "bends least", "latest", "in case"}}
	for _, b := range s.bends {
		row := []string{fmt.Sprint(b.size.People), "none", "never", "-"}
		if b.least >= 0 {
			row = []string{fmt.Sprint(b.size.People), kindOf(b.size.Splits[b.least]), short(times(b, b.least)), s.cases[b.worst[b.least]].called()}
		}
		rows = append(rows, row)
	}
	out.WriteString(table("  ", rows, 0, 2))
	for _, b := range s.bends {
		out.WriteString(s.leftWords(b, width))
	}
	shown := s.bends[0]
	for _, b := range s.bends {
		if b.size == s.shown() {
			shown = b
		}
	}
	fmt.Fprintf(&out, "\n  %s by case (* bends least)\n", sentenceCase(countedPeople(shown.size.People)))
	out.WriteString(s.caseTable(shown, width))
	if len(shown.size.Splits) > 0 {
		out.WriteString("\n" + wrap(fmt.Sprintf("Each case against the scenario as it stands, %s (%s)", countedPeople(shown.size.People), s.intervalWords()), width, "  ", "    "))
		out.WriteString(s.changesTable(shown, width))
	}
	out.WriteString(wrap("Which bends least: of the splits above, the one whose latest time over all cases is earliest. Splits were chosen for the scenario as it stands, and played in every case under the same luck; "+
		"whoever is absent there is missing from their group. One is never there when it is not in some run. The sizes, kinds and worth above, and the picture, are of the scenario as it stands.", width, "  ", "  "))
	return out.String()
}

// leftWords names the cases that are left out of the judgement.
func (s *splitting) leftWords(b *bend, width int) string {
	var names []string
	for _, i := range b.left {
		names = append(names, quoteWord(s.cases[i].called()))
	}
	if names == nil {
		return ""
	}
	return wrap(fmt.Sprintf("%s: no split always gets there in %s: left out of the judgement.", sentenceCase(countedPeople(b.size.People)), list(names)), width, "  ", "    ")
}

func (s *splitting) caseTable(b *bend, width int) string {
	rows := [][]string{{"case"}}
	var right []int
	for k, one := range b.size.Splits {
		kind := kindOf(one)
		if k == b.least {
			kind += " *"
		}
		rows[0], right = append(rows[0], kind), append(right, k+1)
	}
	for i, c := range s.cases {
		row := []string{c.called()}
		for _, t := range b.times[i] {
			row = append(row, short(t))
		}
		rows = append(rows, row)
	}
	return tableWithin(width, 1, "  ", rows, right...)
}

// changesTable writes what each case changes under the order worth is told of,
// and under the split that is soonest and the one that bends least, if they are
// others.
func (s *splitting) changesTable(b *bend, width int) string {
	var of []int
	for k, one := range b.size.Splits {
		if k == b.size.Best || k == b.least || one.Order != "" && one.Order == cmp.Or(s.flags.order, s.d.Order) {
			of = append(of, k)
		}
	}
	rows := [][]string{{"case"}}
	for _, k := range of {
		rows[0] = append(rows[0], kindOf(b.size.Splits[k]))
	}
	for i, c := range s.cases[1:] {
		row := []string{c.called()}
		for _, k := range of {
			cell := "not always there"
			if diff := b.against(i+1, k); diff.Mean.OK() {
				cell = changeCell(diff)
			}
			row = append(row, cell)
		}
		rows = append(rows, row)
	}
	return tableWithin(width, 1, "  ", rows)
}

// against holds a case against the scenario as it stands, under one split: over
// 0 is later.
func (b *bend) against(i, k int) stats.Difference {
	if b.runs[i][k] == nil {
		return stats.Difference{Mean: stats.Mean{Why: "cannot be played"}}
	}
	return compare.Pair(b.runs[i][k], b.runs[0][k]).Difference()
}

// bendJSON is which split of a size bends least, and what each does in each
// case.
type bendJSON struct {
	People  int             `json:"people"`
	Least   *string         `json:"least"` // "2 groups" or an order; null when none gets there
	Latest  seconds         `json:"latest_s"`
	Case    string          `json:"latest_in"`
	LeftOut []string        `json:"left_out"` // cases in which no split gets there
	Times   []bendTimesJSON `json:"times"`
}

type bendTimesJSON struct {
	Case   string  `json:"case"` // "" as it stands
	Split  string  `json:"split"`
	Groups int     `json:"groups"`
	Mean   seconds `json:"mean_s"` // null when some run never gets there
	// Later is by how much it is later than in the scenario as it stands.
	Later seconds            `json:"later_s"`
	CI    *interval[seconds] `json:"later_ci95_s"`
}

func (s *splitting) bendsDocument() []bendJSON {
	var out []bendJSON
	for _, b := range s.bends {
		j := bendJSON{People: b.size.People, Latest: seconds(sim.Never), LeftOut: []string{}, Times: []bendTimesJSON{}}
		if b.least >= 0 {
			kind := kindOf(b.size.Splits[b.least])
			j.Least, j.Latest, j.Case = &kind, seconds(times(b, b.least)), s.cases[b.worst[b.least]].whatIf
		}
		for _, i := range b.left {
			j.LeftOut = append(j.LeftOut, s.cases[i].whatIf)
		}
		for i, c := range s.cases {
			for k, one := range b.size.Splits {
				t := bendTimesJSON{Case: c.whatIf, Split: kindOf(one), Groups: len(one.Drill.Groups), Mean: seconds(b.times[i][k])}
				t.Later, t.CI = meanDocument(b.against(i, k).Mean)
				j.Times = append(j.Times, t)
			}
		}
		out = append(out, j)
	}
	return out
}
