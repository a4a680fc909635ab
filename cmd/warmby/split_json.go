package main

import (
	"cmp"

	"warmby/sim"
	"warmby/sim/split"
)

type splitJSON struct {
	SchemaVersion int              `json:"schema_version"`
	Scenario      string           `json:"scenario"`
	WhatIf        string           `json:"what_if,omitempty"`
	Evaluations   int              `json:"evaluations"` // drills played in search
	Seed          uint64           `json:"seed"`
	Runs          int              `json:"runs"`
	Milestone     string           `json:"milestone"`
	Rows          []splitRowJSON   `json:"rows"`
	Best          []splitBestJSON  `json:"best"`
	Cold          []splitColdJSON  `json:"cold"` // empty without an account, and with usual values
	Worth         []worthJSON      `json:"worth"`
	Later         []splitLaterJSON `json:"later"`
	Bends         []bendJSON       `json:"bends_least,omitempty"` // by size, with several cases
	Warnings      []string         `json:"warnings"`
	Cautions      []cautionJSON    `json:"cautions"`
	Repeat        string           `json:"repeat"`
}

type splitRowJSON struct {
	People    int                `json:"people"`
	Groups    int                `json:"groups"`
	Order     *string            `json:"order"` // null for a split made here
	Best      bool               `json:"best"`  // of its size
	Milestone string             `json:"milestone"`
	Mean      seconds            `json:"mean_s"`
	CI        *interval[seconds] `json:"ci95_s"`
	Why       string             `json:"why,omitempty"`
	P80       seconds            `json:"p80_s"`
	P80CI     *interval[seconds] `json:"p80_ci95_s"`
}

// splitBestJSON is the best split of a size.
type splitBestJSON struct {
	People int              `json:"people"`
	Order  *string          `json:"order"`
	Tried  int              `json:"tried"`
	Groups []splitGroupJSON `json:"groups"`
}

type splitGroupJSON struct {
	Name     string   `json:"name"`
	People   []string `json:"people"`
	Sequence []string `json:"sequence"`
	Then     []string `json:"then,omitempty"`
}

type worthJSON struct {
	Under  string             `json:"under"` // the order of the file, or "2 groups" for the best split
	Kind   string             `json:"kind"`  // person, skilled, skill, tool, stove, packing
	What   string             `json:"what"`
	Where  string             `json:"where,omitempty"`
	Won    seconds            `json:"won_s"` // over 0: sooner with it
	CI     *interval[seconds] `json:"ci95_s"`
	Why    string             `json:"why,omitempty"`
	Sooner shareJSON          `json:"sooner_in"`
	Later  shareJSON          `json:"later_in"`
}

// splitLaterJSON is where more people are later, beyond what luck explains.
type splitLaterJSON struct {
	Split  string             `json:"split"` // "best", "2 groups" or an order
	People int                `json:"people"`
	Than   int                `json:"than_people"`
	Mean   seconds            `json:"mean_s"`
	CI     *interval[seconds] `json:"ci95_s"`
}

// document writes the splits for other programs.
func (s *splitting) document() *splitJSON {
	doc := &splitJSON{
		SchemaVersion: 1, Scenario: s.name, WhatIf: s.cases[0].WhatIf, Evaluations: s.game.Played(), Bends: s.bendsDocument(), Seed: s.flags.seed, Runs: s.flags.runs, Milestone: s.milestone().Name,
		Rows: []splitRowJSON{}, Best: []splitBestJSON{}, Cold: s.coldDocument(), Worth: []worthJSON{}, Later: []splitLaterJSON{},
		Warnings: append([]string{}, s.warnings()...), Repeat: s.repeat(),
	}
	for i, size := range s.sizes {
		for k, one := range size.Splits {
			for m, milestone := range one.Drill.Milestones {
				row := splitRowJSON{People: size.People, Groups: len(one.Drill.Groups), Order: orderName(one), Best: k == size.Best, Milestone: milestone.Name}
				mean := one.Mean(m)
				row.Mean, row.CI = meanDocument(mean)
				row.Why = mean.Why
				row.P80 = seconds(sim.Never)
				if s.flags.usual() {
					row.Why = cmp.Or(row.Why, onlyUsual)
				} else {
					var ends interval[seconds]
					row.P80, ends = quantileDocument(one.Quantile(m, 0.8))
					row.P80CI = &ends
				}
				doc.Rows = append(doc.Rows, row)
			}
		}
		if best := size.BestSplit(); best != nil {
			doc.Best = append(doc.Best, splitBestJSON{size.People, orderName(best), size.Tried, groupsDocument(best.Drill)})
		}
		for _, form := range s.forms() {
			if c := s.changeAt(i, form); c.Later() {
				j := splitLaterJSON{Split: formWords(form), People: c.Now.People, Than: c.Fewer.People}
				if form == (split.Form{}) {
					j.Split = "best"
				}
				j.Mean, j.CI = meanDocument(c.Diff.Mean)
				doc.Later = append(doc.Later, j)
			}
		}
	}
	for _, under := range s.worth {
		for _, w := range under.list {
			j := worthJSON{Under: kindOf(under.base), Kind: string(w.Kind), What: w.What, Where: w.Where, Why: w.Change.Mean.Why,
				Sooner: shareDocument(w.Change.ASooner), Later: shareDocument(w.Change.BSooner)}
			j.Won, j.CI = meanDocument(w.Change.Mean.Negated())
			if s.flags.usual() {
				j.Why = cmp.Or(j.Why, onlyUsual)
			}
			doc.Worth = append(doc.Worth, j)
		}
	}
	doc.Cautions = cautionsDocument(cautionsOfCases(s.cases))
	return doc
}

func orderName(one *split.Split) *string {
	if one.Order == "" {
		return nil
	}
	return &one.Order
}

func groupsDocument(d *sim.Drill) []splitGroupJSON {
	var list []splitGroupJSON
	for _, group := range d.Groups {
		j := splitGroupJSON{Name: group.Name, People: []string{}, Sequence: []string{}}
		for _, p := range group.People {
			j.People = append(j.People, d.People[p].Name)
		}
		for _, t := range group.Sequence[group.Lead:] {
			j.Sequence = append(j.Sequence, d.Tasks[t].Name)
		}
		for _, to := range group.Then {
			j.Then = append(j.Then, d.Groups[to].Name)
		}
		list = append(list, j)
	}
	return list
}
