package document

import (
	"cmp"
	"fmt"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/split"
	"warmby/sim/stats"
)

// OnlyUsual says why there is no interval where usual values alone are played.
const OnlyUsual = "usual values only, without luck: no interval"

// Splits is what team sizes and splits of a team do.
type Splits struct {
	Head
	WhatIf      string      `json:"what_if,omitempty"`
	Evaluations int         `json:"evaluations"` // drills played in search
	Seed        uint64      `json:"seed"`
	Runs        int         `json:"runs"`
	Milestone   string      `json:"milestone"`
	Rows        []SplitRow  `json:"rows"`
	Best        []BestSplit `json:"best"`
	Cold        []SplitCold `json:"cold"` // empty without an account, and with usual values
	Worth       []Worth     `json:"worth"`
	Later       []Later     `json:"later"`
	Bends       []Bend      `json:"bends_least,omitempty"` // by size, with several cases
	Warnings    []string    `json:"warnings"`
	Cautions    []Caution   `json:"cautions"`
	Repeat      string      `json:"repeat"`
}

// SplitRow is one milestone of one split of one size.
type SplitRow struct {
	People    int       `json:"people"`
	Groups    int       `json:"groups"`
	Order     *string   `json:"order"` // null for a split made here
	Best      bool      `json:"best"`  // of its size
	Milestone string    `json:"milestone"`
	Mean      Seconds   `json:"mean_s"`
	MeanCI    *Interval `json:"mean_ci95_s"`
	Why       string    `json:"why,omitempty"`
	P80       Seconds   `json:"p80_s"`
	P80CI     *Interval `json:"p80_ci95_s"`
}

// BestSplit is the best split of a size.
type BestSplit struct {
	People int          `json:"people"`
	Order  *string      `json:"order"`
	Tried  int          `json:"tried"`
	Groups []SplitGroup `json:"groups"`
}

// SplitGroup is a part of a team with a sequence of its own.
type SplitGroup struct {
	Name     string   `json:"name"`
	People   []string `json:"people"`
	Sequence []string `json:"sequence"`
	Then     []string `json:"then,omitempty"`
}

// SplitCold is the account of cold under one split.
type SplitCold struct {
	People  int        `json:"people"`
	Groups  int        `json:"groups"`
	Order   *string    `json:"order"`
	Best    bool       `json:"best"`
	Account *OrderCold `json:"account"`
}

// Worth is what one thing more wins.
type Worth struct {
	Under      string     `json:"under"` // the order of the file, or "2 groups" for the best split
	Kind       string     `json:"kind"`
	What       string     `json:"what"`
	Where      string     `json:"where,omitempty"`
	Difference Difference `json:"difference"` // with it against without
	Sooner     Share      `json:"sooner_in"`
	Later      Share      `json:"later_in"`
}

// Later is where more people are later, beyond what luck explains.
type Later struct {
	Split      string     `json:"split"` // "best", "2 groups" or an order
	People     int        `json:"people"`
	Than       int        `json:"than_people"`
	Difference Difference `json:"difference"` // of more people against fewer
}

// Bend is which split of a size bends least, and what each does in each case.
type Bend struct {
	People  int         `json:"people"`
	Least   *string     `json:"least"` // "2 groups" or an order; null when none gets there
	Latest  Seconds     `json:"latest_s"`
	Case    string      `json:"latest_in"`
	LeftOut []string    `json:"left_out"` // cases in which no split gets there
	Times   []BendTimes `json:"times"`
}

// BendTimes is one split in one case.
type BendTimes struct {
	Case       string     `json:"case"` // "" as it stands
	Split      string     `json:"split"`
	Groups     int        `json:"groups"`
	Mean       Seconds    `json:"mean_s"`     // null when some run never gets there
	Difference Difference `json:"difference"` // against the scenario as it stands
}

// SplitsIn is what a document of splits is made of; Cases are what-ifs by name, ""
// as it stands.
type SplitsIn struct {
	*split.Answer
	Game             *split.Game
	Drill            *sim.Drill
	Cases, Warnings  []string
	Scenario, Repeat string
	Cautions         []cold.Caution
}

// SplitsOf writes what came of a question.
func SplitsOf(in SplitsIn) Splits {
	doc := Splits{
		Head: Head{2, in.Scenario}, WhatIf: in.Cases[0], Evaluations: in.Game.Played(), Seed: in.Game.Seed, Runs: in.Game.Runs,
		Milestone: in.Drill.Milestones[in.Game.Milestone].Name, Rows: []SplitRow{}, Best: []BestSplit{}, Cold: []SplitCold{},
		Worth: in.worth(), Later: in.later(), Bends: in.bends(), Warnings: append([]string{}, in.Warnings...),
		Cautions: Cautions(in.Cautions), Repeat: in.Repeat,
	}
	for _, size := range in.Sizes {
		for k, one := range size.Splits {
			for m := range one.Drill.Milestones {
				doc.Rows = append(doc.Rows, in.row(size, k, m))
			}
			if account := OrderColdOf(one.Drill, in.Answer.Cold[one]); account != nil {
				doc.Cold = append(doc.Cold, SplitCold{size.People, len(one.Drill.Groups), orderName(one), k == size.Best, account})
			}
		}
		if best := size.BestSplit(); best != nil {
			doc.Best = append(doc.Best, BestSplit{size.People, orderName(best), size.Tried, groups(best.Drill)})
		}
	}
	return doc
}

func (in SplitsIn) row(size *split.Size, k, m int) SplitRow {
	one := size.Splits[k]
	mean := one.Mean(m)
	row := SplitRow{People: size.People, Groups: len(one.Drill.Groups), Order: orderName(one), Best: k == size.Best,
		Milestone: one.Drill.Milestones[m].Name, Why: mean.Why, P80: Seconds(sim.Never)}
	row.Mean, row.MeanCI = Mean(mean)
	if in.Game.Runs == 0 {
		row.Why = cmp.Or(row.Why, OnlyUsual)
		return row
	}
	var ends Interval
	row.P80, ends = Quantile(one.Quantile(m, 0.8))
	row.P80CI = &ends
	return row
}

// difference is how much sooner the first is; without luck it says so.
func (in SplitsIn) difference(m stats.Mean) Difference {
	d := DifferenceOf(m)
	if in.Game.Runs == 0 {
		d.Why = cmp.Or(d.Why, OnlyUsual)
	}
	return d
}

func (in SplitsIn) worth() []Worth {
	list := []Worth{}
	for _, w := range in.Answer.Worth.List {
		list = append(list, Worth{Under: form(in.Answer.Worth.Base.Form()), Kind: string(w.Kind), What: w.What, Where: w.Where,
			Difference: in.difference(w.Change.Mean), Sooner: ShareOf(w.Change.ASooner), Later: ShareOf(w.Change.BSooner)})
	}
	return list
}

func (in SplitsIn) later() []Later {
	list := []Later{}
	forms := append([]split.Form{{}}, split.Forms(in.Sizes)...)
	for i := range in.Sizes {
		for _, f := range forms {
			if c := split.ChangeAt(in.Sizes, i, f, in.Game.Milestone); c.Later() {
				list = append(list, Later{form(f), c.Now.People, c.Fewer.People, in.difference(c.Diff.Mean)})
			}
		}
	}
	return list
}

func (in SplitsIn) bends() (list []Bend) {
	for _, b := range in.Answer.Bends {
		j := Bend{People: b.Size.People, Latest: Seconds(sim.Never), LeftOut: []string{}, Times: []BendTimes{}}
		if b.Least >= 0 {
			name := form(b.Size.Splits[b.Least].Form())
			j.Least, j.Latest, j.Case = &name, Seconds(b.Latest(b.Least)), in.Cases[b.Worst[b.Least]]
		}
		for _, i := range b.Left {
			j.LeftOut = append(j.LeftOut, in.Cases[i])
		}
		for i, name := range in.Cases {
			for k, one := range b.Size.Splits {
				j.Times = append(j.Times, BendTimes{name, form(one.Form()), len(one.Drill.Groups), Seconds(b.Times[i][k]), in.difference(b.Against(i, k).Mean)})
			}
		}
		list = append(list, j)
	}
	return list
}

// form names a form of split: "2 groups", or the order it is.
func form(f split.Form) string {
	switch {
	case f == split.Form{}:
		return "best"
	case f.Order != "":
		return f.Order
	case f.Listed:
		return "file order"
	case f.Groups == 1:
		return "1 group"
	}
	return fmt.Sprintf("%d groups", f.Groups)
}

func orderName(one *split.Split) *string {
	if one.Order == "" {
		return nil
	}
	return &one.Order
}

func groups(d *sim.Drill) (list []SplitGroup) {
	for _, group := range d.Groups {
		j := SplitGroup{Name: group.Name, People: []string{}, Sequence: []string{}}
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
