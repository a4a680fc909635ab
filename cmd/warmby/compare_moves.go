package main

import (
	"fmt"
	"strings"

	"warmby/sim/compare"
	"warmby/sim/stats"
)

// shownMovers is how many tasks are shown for a milestone.
const shownMovers = 5

// movesText writes, for each primary milestone under the order that is soonest
// there, the tasks that decide it.
func (c *comparison) movesText(width int) string {
	var b strings.Builder
	var last *compare.Moves
	for k, m := range c.primary {
		order := c.asIs.Ranking(m)[0]
		moves := c.moves[order]
		movers := compare.TopMovers(moves.Milestones[k], shownMovers)
		if len(movers) == 0 {
			continue
		}
		last = moves
		heading := sentenceCase(c.d.Milestones[m].Name)
		if c.asIs.orders[order] != "" {
			heading += ", under " + c.asIs.orders[order]
		}
		rows := [][]string{{"", "holds it up in", "a minute less wins", "rank correlation"}}
		for _, v := range movers {
			rows = append(rows, []string{
				c.d.Tasks[v.Task].Name,
				fmt.Sprintf("%s %% (%s-%s)", hundredths(v.Critical.Value), hundredths(v.Critical.Low), hundredths(v.Critical.High)),
				wonText(v.PerMinute), rankText(v.Rank),
			})
		}
		fmt.Fprintf(&b, "  %s\n%s", heading, table("    ", rows))
	}
	if last == nil {
		return ""
	}
	b.WriteString(wrap(fmt.Sprintf("Holds it up: in so many of %s the task is on the critical sequence. A minute less: played again in %s of the same luck with the task a minute shorter "+
		"(a person-minute, where it is work), in minutes; over 1 when much hangs on it, under 0 when being done sooner makes others choose worse. Rank correlation: of the task's length, mishaps apart, with the milestone, over %s; "+
		"a good or bad day moves all work together. In brackets 95 %% intervals. The other orders stand in --json.",
		counted(last.Told, "run"), counted(last.Again, "run"), counted(last.Ranked, "run")), width, "  ", "  "))
	return b.String()
}

func wonText(r stats.Ratio) string {
	switch {
	case !r.OK():
		return "- (" + r.Why + ")"
	case r.Runs < 2:
		return fmt.Sprintf("%.2f min (one run only)", r.Value)
	}
	return fmt.Sprintf("%.2f min (%.2f to %.2f)", r.Value, r.Low, r.High)
}

func rankText(c stats.Correlation) string {
	if !c.OK() {
		return "- (its length is not drawn)"
	}
	return fmt.Sprintf("%.2f (%.2f to %.2f)", c.Value, c.Low, c.High)
}
