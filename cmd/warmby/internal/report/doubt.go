package report

import (
	"warmby/sim"
	"warmby/sim/doubt"
)

// doubts tells, for each milestone, what is luck and what lies in the numbers of
// the file; nothing where there is nothing to doubt.
func doubts(d *sim.Drill, open []doubt.Doubt) []Block {
	if open == nil {
		return nil
	}
	t := Table{Caption: "What is luck, and what lies in your numbers", Columns: []Column{{}, {Head: "luck, 8 in 10"}, {Head: "and your numbers, 8 in 10"}}}
	for m, one := range open {
		t.Rows = append(t.Rows, Cells(d.Milestones[m].Name, ranged(SiteOf(d), one.Luck), ranged(SiteOf(d), one.Numbers)))
	}
	return []Block{t, Text{Says: Say("The second range takes quick and slow of each task for what holds in 8 of 10 cases, as they mostly do when people say them, and not for the extremes. Time your drills and \"warmby fit\" narrows it down.")}}
}

// ranged writes from when to when something comes.
func ranged(site Site, r doubt.Range) Sentence {
	return Say("{} to {}", site.Came(r.Low), site.Came(r.High))
}
