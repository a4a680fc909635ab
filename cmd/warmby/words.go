package main

import (
	"fmt"
	"slices"
	"strconv"
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
	at := arrival.Add(milliseconds(t))
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

// columnWidth returns how many characters the widest cell of a column has.
func columnWidth(rows [][]string, column int) (width int) {
	for _, r := range rows {
		if column < len(r) {
			width = max(width, utf8.RuneCountInString(r[column]))
		}
	}
	return width
}

// tableWithin lays out rows as table does, in lines of at most width characters:
// what is too wide goes into further tables below, each with the first lead
// columns again.
func tableWithin(width, lead int, indent string, rows [][]string, right ...int) string {
	columns := 0
	for _, r := range rows {
		columns = max(columns, len(r))
	}
	wide := func(i int) int { return columnWidth(rows, i) }
	var b strings.Builder
	for next := lead; b.Len() == 0 || next < columns; {
		taken, w := []int{}, utf8.RuneCountInString(indent)-2
		for i := range lead {
			taken, w = append(taken, i), w+2+wide(i)
		}
		for ; next < columns; next++ {
			if w += 2 + wide(next); w > width && len(taken) > lead {
				break
			}
			taken = append(taken, next)
		}
		part, atRight := make([][]string, len(rows)), []int{}
		for k, i := range taken {
			if slices.Contains(right, i) {
				atRight = append(atRight, k)
			}
		}
		for j, r := range rows {
			for _, i := range taken {
				if i < len(r) {
					part[j] = append(part[j], r[i])
				}
			}
		}
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(table(indent, part, atRight...))
	}
	return b.String()
}

// section writes a heading with what stands under it, nothing without a body.
func section(b *strings.Builder, width int, heading, body string) {
	if body != "" {
		b.WriteString("\n" + wrap(heading, width, "", "  ") + body)
	}
}

// wrap breaks words into lines of at most width characters.
func wrap(text string, width int, first, rest string) string {
	var b strings.Builder
	line, indent := "", first
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(indent)+utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width:
			b.WriteString(indent + line + "\n")
			line, indent = word, rest
		default:
			line += " " + word
		}
	}
	if line != "" {
		b.WriteString(indent + line + "\n")
	}
	return b.String()
}

func itoa(n int64) string { return strconv.FormatInt(n, 10) }

// itoa2 writes a number with two digits at least.
func itoa2(n int64) string { return fmt.Sprintf("%02d", n) }
