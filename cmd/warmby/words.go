package main

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"warmby/sim"
)

// clockUp writes a moment at which something has come, on the clock: in the
// minute after it unless it is a whole one to the second, so that "by" stays
// true.
func clockUp(d *sim.Drill, t sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	return clockOf(d, sim.ByMinute(t))
}

// clockOf writes a moment on the clock of the site: "15:04", with "+1 day"
// when it is past midnight; "" when the arrival is not known.
func clockOf(d *sim.Drill, t sim.Time) string {
	if d.Site.Arrival.IsZero() || t == sim.Never {
		return ""
	}
	arrival := d.Site.Arrival
	at := arrival.Add(time.Duration(t) * time.Millisecond)
	s := at.Format("15:04")
	y1, m1, d1 := arrival.Date()
	y2, m2, d2 := at.Date()
	if y1 != y2 || m1 != m2 || d1 != d2 {
		days := time.Date(y2, m2, d2, 0, 0, 0, 0, time.UTC).Sub(time.Date(y1, m1, d1, 0, 0, 0, 0, time.UTC)) / (24 * time.Hour)
		s += fmt.Sprintf(" +%d d", days)
	}
	return s
}

// list joins names as people say them: "Aila, Berend and Caro".
func list(names []string) string {
	switch len(names) {
	case 0:
		return "nobody"
	case 1:
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// table lays out rows in columns as wide as their longest cell, two spaces
// apart. Cells of columns named in right stand at the right edge.
func table(indent string, rows [][]string, right ...int) string {
	var width []int
	for _, r := range rows {
		for i, cell := range r {
			if i == len(width) {
				width = append(width, 0)
			}
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	atRight := make(map[int]bool, len(right))
	for _, i := range right {
		atRight[i] = true
	}
	var b strings.Builder
	for _, r := range rows {
		var line strings.Builder
		line.WriteString(indent)
		for i, cell := range r {
			if i > 0 && width[i-1] > 0 {
				line.WriteString("  ")
			}
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if atRight[i] {
				cell = pad + cell
			} else {
				cell += pad
			}
			line.WriteString(cell)
		}
		b.WriteString(strings.TrimRight(line.String(), " "))
		b.WriteByte('\n')
	}
	return b.String()
}
