package main

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"warmby/cmd/warmby/internal/ask"
	"warmby/sim"
	"warmby/sim/split"
)

// tellBends plays the splits of every size in every case, when there are
// several.
func (s *splitting) tellBends(ctx context.Context) error {
	if len(s.cases) < 2 {
		return nil
	}
	for _, size := range s.sizes {
		var runs [][][]sim.Time
		for i, c := range s.cases {
			own, err := s.runsIn(ctx, size, i, c)
			if err != nil {
				return fmt.Errorf("%s: what if %q: %w", s.name, c.Called(), err)
			}
			runs = append(runs, own)
		}
		s.bends = append(s.bends, split.JudgeCases(size, runs))
	}
	return nil
}

// runsIn returns when each split of a size reaches the milestone in a case, run
// by run; nil for one that cannot be played there.
func (s *splitting) runsIn(ctx context.Context, size *split.Size, i int, c *ask.Case) ([][]sim.Time, error) {
	runs := make([][]sim.Time, len(size.Splits))
	if i == 0 { // played already
		for k, one := range size.Splits {
			runs[k] = one.Times[s.game.Milestone]
		}
		return runs, nil
	}
	in := &split.Case{Bare: c.Scenario.InFileOrder()}
	for _, o := range s.game.Orders {
		d, err := c.Scenario.Drill(o.Order)
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

// bendsText says for each size which split bends least, with a table by case of
// the team's own size, or else of the last size.
func (s *splitting) bendsText(width int) string {
	if len(s.bends) == 0 {
		return ""
	}
	var out strings.Builder
	rows := [][]string{{"people", "bends least", "latest", "in case"}}
	for _, b := range s.bends {
		row := []string{fmt.Sprint(b.Size.People), "none", "never", "-"}
		if b.Least >= 0 {
			row = []string{fmt.Sprint(b.Size.People), kindOf(b.Size.Splits[b.Least]), short(b.Latest(b.Least)), s.cases[b.Worst[b.Least]].Called()}
		}
		rows = append(rows, row)
	}
	out.WriteString(table("  ", rows, 0, 2))
	for _, b := range s.bends {
		out.WriteString(s.leftWords(b, width))
	}
	shown := s.bends[0]
	for _, b := range s.bends {
		if b.Size == s.shown() {
			shown = b
		}
	}
	fmt.Fprintf(&out, "\n  %s by case (* bends least)\n", sentenceCase(countedPeople(shown.Size.People)))
	out.WriteString(s.caseTable(shown, width))
	if len(shown.Size.Splits) > 0 {
		out.WriteString("\n" + wrap(fmt.Sprintf("Each case against the scenario as it stands, %s (%s)", countedPeople(shown.Size.People), s.intervalWords()), width, "  ", "    "))
		out.WriteString(s.changesTable(shown, width))
	}
	out.WriteString(wrap("Which bends least: of the splits above, the one whose latest time over all cases is earliest. Splits were chosen for the scenario as it stands, and played in every case under the same luck; "+
		"whoever is absent there is missing from their group. One is never there when it is not in some run. The sizes, kinds and worth above, and the picture, are of the scenario as it stands.", width, "  ", "  "))
	return out.String()
}

// leftWords names the cases that are left out of the judgement.
func (s *splitting) leftWords(b *split.Bend, width int) string {
	var names []string
	for _, i := range b.Left {
		names = append(names, quoteWord(s.cases[i].Called()))
	}
	if names == nil {
		return ""
	}
	return wrap(fmt.Sprintf("%s: no split always gets there in %s: left out of the judgement.", sentenceCase(countedPeople(b.Size.People)), list(names)), width, "  ", "    ")
}

func (s *splitting) caseTable(b *split.Bend, width int) string {
	rows := [][]string{{"case"}}
	var right []int
	for k, one := range b.Size.Splits {
		kind := kindOf(one)
		if k == b.Least {
			kind += " *"
		}
		rows[0], right = append(rows[0], kind), append(right, k+1)
	}
	for i, c := range s.cases {
		row := []string{c.Called()}
		for _, t := range b.Times[i] {
			row = append(row, short(t))
		}
		rows = append(rows, row)
	}
	return tableWithin(width, 1, "  ", rows, right...)
}

// changesTable writes what each case changes under the order worth is told of,
// and under the split that is soonest and the one that bends least, if they are
// others.
func (s *splitting) changesTable(b *split.Bend, width int) string {
	var of []int
	for k, one := range b.Size.Splits {
		if k == b.Size.Best || k == b.Least || one.Order != "" && one.Order == cmp.Or(s.flags.order, s.d.Order) {
			of = append(of, k)
		}
	}
	rows := [][]string{{"case"}}
	for _, k := range of {
		rows[0] = append(rows[0], kindOf(b.Size.Splits[k]))
	}
	for i, c := range s.cases[1:] {
		row := []string{c.Called()}
		for _, k := range of {
			cell := "not always there"
			if diff := b.Against(i+1, k); diff.Mean.OK() {
				cell = changeCell(diff)
			}
			row = append(row, cell)
		}
		rows = append(rows, row)
	}
	return tableWithin(width, 1, "  ", rows)
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
		j := bendJSON{People: b.Size.People, Latest: seconds(sim.Never), LeftOut: []string{}, Times: []bendTimesJSON{}}
		if b.Least >= 0 {
			kind := kindOf(b.Size.Splits[b.Least])
			j.Least, j.Latest, j.Case = &kind, seconds(b.Latest(b.Least)), s.cases[b.Worst[b.Least]].WhatIf
		}
		for _, i := range b.Left {
			j.LeftOut = append(j.LeftOut, s.cases[i].WhatIf)
		}
		for i, c := range s.cases {
			for k, one := range b.Size.Splits {
				t := bendTimesJSON{Case: c.WhatIf, Split: kindOf(one), Groups: len(one.Drill.Groups), Mean: seconds(b.Times[i][k])}
				t.Later, t.CI = meanDocument(b.Against(i, k).Mean)
				j.Times = append(j.Times, t)
			}
		}
		out = append(out, j)
	}
	return out
}
