package main

import (
	"fmt"
	"slices"
	"strings"

	"warmby/sim/compare"
	"warmby/sim/stats"
)

// change is what a what-if does to one milestone of one order, run by run: over
// 0 when it comes later than as it is.
func (c *comparison) change(w *bout, order, m int) stats.Difference {
	return compare.Pair(w.played[order].Times[m], c.asIs.played[order].Times[m]).Difference()
}

// changeText writes what a what-if costs: milestones by orders.
func (c *comparison) changeText(w *bout, width int) string {
	return c.grid(width, w.orders, func(order, m int) *stats.Mean {
		mean := c.change(w, order, m).Mean
		return &mean
	})
}

// grid writes a mean for each milestone and order, its interval under it; rows
// in which nothing changes are left out. Nil is nothing to say.
func (c *comparison) grid(width int, orders []string, mean func(order, m int) *stats.Mean) string {
	heading := []string{""}
	for i := range orders {
		heading = append(heading, c.asIs.called(i))
	}
	rows := [][]string{heading}
	for m, milestone := range c.d.Milestones {
		figures, ranges := []string{milestone.Name}, []string{""}
		changes := false
		for i := range orders {
			v := mean(i, m)
			switch {
			case v == nil:
				figures, ranges = append(figures, ""), append(ranges, "")
			case !v.OK():
				figures, ranges, changes = append(figures, "no mean"), append(ranges, "(not always reached)"), true
			case v.Value == 0 && v.SD == 0:
				figures, ranges = append(figures, "no change"), append(ranges, "")
			default:
				figures, ranges = append(figures, signed(wholeMillis(v.Value))), append(ranges, "("+shortRange(*v)+")")
				changes = true
			}
		}
		if changes {
			rows = append(rows, figures, ranges)
		}
	}
	if len(rows) == 1 {
		return "  No milestone changes in any run.\n"
	}
	return tableWithin(width, 1, "    ", rows)
}

// canWaitText writes for each task that can wait what leaving it out wins.
func (c *comparison) canWaitText(width int) string {
	var tasks []string // in the order of the file; orders have the same ones
	for _, left := range c.leftOut {
		for _, l := range left {
			if !slices.Contains(tasks, l.Task) {
				tasks = append(tasks, l.Task)
			}
		}
	}
	if tasks == nil {
		return ""
	}
	var b strings.Builder
	runs := 0
	for _, task := range tasks {
		fmt.Fprintf(&b, "  %s\n", sentenceCase(task))
		b.WriteString(c.grid(width, c.asIs.orders, func(order, m int) *stats.Mean {
			for _, l := range c.leftOut[order] {
				if l.Task == task && l.Wins != nil && l.Wins[m] != nil {
					runs = l.Runs
					won := l.Wins[m].Mean.Negated()
					return &won
				}
			}
			return nil
		}))
	}
	b.WriteString(wrap(fmt.Sprintf("Each played without the task in %s of the same luck, as if it took no time and nobody; what comes after it then waits for what it came after. "+
		"A figure under 0 is lost. Milestones that do not move are left out. What the task itself is good for is yours to weigh.",
		counted(runs, "run")), width, "  ", "  "))
	return b.String()
}
