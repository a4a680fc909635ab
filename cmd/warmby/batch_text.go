package main

import (
	"fmt"
	"strings"

	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/results"
	"warmby/sim"
	"warmby/sim/stats"
)

// text writes the report for people.
func resultsText(r *results.Results, folder, command string, width int) string {
	p := r.Plan
	var b strings.Builder
	b.WriteString(wrap(p.First.Title, width, "", ""))
	fmt.Fprintf(&b, "%s of each of %s", r.RunsText(), counted(len(p.Job.Orders), "order"))
	if p.Points > 1 {
		fmt.Fprintf(&b, " at each of %d points", p.Points)
	}
	fmt.Fprintf(&b, ", seed %d\n\n", p.Job.Seed)
	b.WriteString(resultsTable(r, width))
	for _, w := range r.Warnings() {
		b.WriteString(wrap("Warning: "+w+".", width, "", "  "))
	}
	fmt.Fprintf(&b, "\nWritten to %s:\n", folder)
	var rows [][]string
	for _, f := range r.Files {
		row := []string{f.Name, "", grouped(f.Bytes) + " bytes"}
		if f.Rows > 0 {
			row[1] = grouped(f.Rows) + " rows"
		}
		rows = append(rows, row)
	}
	rows = append(rows, []string{results.PackageFile, "", ""})
	b.WriteString(table("  ", rows, 1, 2))
	if text := cautionsText(p.Cautions(), width); text != "" {
		b.WriteString("\nCautions\n" + text)
	}
	fmt.Fprintf(&b, "\nPlayed by: %s\n", command)
	return b.String()
}

func resultsTable(r *results.Results, width int) string {
	several, nevers := r.Plan.Points > 1, false
	kept := 2 // columns: order and milestone
	for _, t := range r.Rows {
		nevers = nevers || t.Never.Count > 0
	}
	head := []string{"order", "milestone", "mean", "95 % interval", "9 in 10 by", "95 % interval", "in time"}
	if several {
		kept += 1 + len(r.Plan.Job.Keys)
		head = append([]string{"point"}, append(r.Plan.Job.Keys[:len(r.Plan.Job.Keys):len(r.Plan.Job.Keys)], head...)...)
	}
	if nevers {
		head = append(head, "never")
	}
	rows := [][]string{head}
	for _, t := range r.Rows {
		row := append([]string{t.Order, t.Milestone}, meanCells(t.Mean)...)
		row = append(row, quantileCells(t.Nine)...)
		row = append(row, shareCell(t.OnTime, "no target"))
		if nevers {
			row = append(row, shareCell(&t.Never, ""))
		}
		if several {
			lead := []string{fmt.Sprint(t.Point + 1)}
			for _, v := range r.Plan.Job.Points[t.Point] {
				if v == "" {
					v = "as in the file"
				}
				lead = append(lead, v)
			}
			row = append(lead, row...)
		}
		rows = append(rows, row)
	}
	text := "Hours, minutes and seconds since arrival:\n" + tableWithin(width, kept, "  ", rows)
	if several {
		text += fmt.Sprintf("  All milestones of all %d points are in summary.json.\n", r.Plan.Points)
	}
	return text
}

// meanCells writes a mean and its interval.
func meanCells(m stats.Mean) []string {
	switch {
	case !m.OK():
		return []string{"none", m.Why}
	case m.Runs < 2:
		return []string{hms(document.WholeMillis(m.Value)), "one run"}
	}
	return []string{hms(document.WholeMillis(m.Value)), hms(document.WholeMillis(m.Low)) + " to " + hms(document.WholeMillis(m.High))}
}

// quantileCells writes a quantile and its interval.
func quantileCells(q stats.Quantile) []string {
	low, high := hms(q.Low), hms(q.High)
	if q.LowOpen {
		low = "unknown"
	}
	if q.HighOpen {
		high = "unknown"
	}
	return []string{hms(q.Value), low + " to " + high}
}

// shareCell writes a share and its interval, or else what stands for none.
func shareCell(s *stats.Share, none string) string {
	if s == nil {
		return none
	}
	return fmt.Sprintf("%s (%s to %s)", percentOf(s.Value), strings.TrimSuffix(percentOf(s.Low), " %"), percentOf(s.High))
}

// hms writes a moment as 1:08:47.
func hms(t sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	s := (int64(t) + 500) / 1000
	return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
}

// percentOf writes a share, with a decimal where the whole number would say too
// little.
func percentOf(share float64) string {
	s := fmt.Sprintf("%.1f", 100*share)
	return strings.TrimSuffix(s, ".0") + " %"
}
