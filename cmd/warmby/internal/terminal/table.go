package terminal

import (
	"strings"
	"unicode/utf8"

	"warmby/cmd/warmby/internal/report"
)

// gap is what stands between two columns.
const gap = "  "

// leastLast is how narrow the last column of a table may get before the others
// go into further tables below.
const leastLast = 24

// lowHeads is how many lines headings may have before spare columns are left out
// for their sake.
const lowHeads = 2

// grid is a table as text: rows of cells, the first of them the headings.
type grid struct {
	rows  [][]string
	heads int    // how many rows are headings
	right []bool // by column
	spare []int  // columns that may be left out, the last of the list first
}

func (p *printer) table(t report.Table, indent string) {
	g := p.grid(t)
	for i, part := range g.within(p.Width - len(indent)) {
		if i > 0 {
			p.text.WriteString("\n")
		}
		part.write(&p.text, indent)
	}
}

// grid writes the cells of a table. Headings are there when one of them says
// something.
func (p *printer) grid(t report.Table) grid {
	g := grid{spare: t.Spare}
	var heads []string
	said := false
	for _, c := range t.Columns {
		heads = append(heads, c.Head)
		g.right = append(g.right, c.Right)
		said = said || c.Head != ""
	}
	if said {
		g.rows, g.heads = append(g.rows, heads), 1
	}
	for _, r := range t.Rows {
		row := make([]string, len(t.Columns))
		for i, cell := range r {
			row[i] = cell.Write(p.precision)
		}
		g.rows = append(g.rows, row)
	}
	return g
}

func (g grid) width(column int) (width int) {
	for _, r := range g.rows {
		width = max(width, utf8.RuneCountInString(r[column]))
	}
	return width
}

// total returns how wide the whole table is.
func (g grid) total() (width int) {
	for i := range g.right {
		width += g.width(i) + len(gap)
	}
	return width - len(gap)
}

// breakHeads breaks headings that are wider than what stands under them into
// lines, at most so many; the last of them stands just above the rows.
func (g grid) breakHeads(most int) grid {
	if g.heads != 1 {
		return g
	}
	body := grid{rows: g.rows[1:], right: g.right}
	broken := make([][]string, len(g.right))
	height := 1
	for i, head := range g.rows[0] {
		broken[i] = breakInto(head, body.width(i), most)
		height = max(height, len(broken[i]))
	}
	out := grid{right: g.right, spare: g.spare, heads: height}
	for k := range height {
		row := make([]string, len(g.right))
		for i, lines := range broken {
			if above := height - len(lines); k >= above {
				row[i] = lines[k-above]
			}
		}
		out.rows = append(out.rows, row)
	}
	out.rows = append(out.rows, body.rows...)
	return out
}

// breakInto breaks a heading into at most so many lines, as narrow as that
// allows but no narrower than room or its longest word.
func breakInto(head string, room, most int) []string {
	for _, word := range strings.Fields(head) {
		room = max(room, utf8.RuneCountInString(word))
	}
	for ; ; room++ {
		if lines := strings.Split(strings.TrimSuffix(Wrap(head, room, "", ""), "\n"), "\n"); len(lines) <= most {
			return lines
		}
	}
}

// fit breaks headings into as few lines as it takes, and leaves out spare
// columns before headings get high for their sake.
func (g grid) fit(width int) grid {
	if g.total() <= width {
		return g
	}
	for {
		if low := g.breakHeads(lowHeads); low.total() <= width {
			return low
		}
		n := len(g.spare) - 1
		if n < 0 {
			return g.breakHeads(high)
		}
		g = g.without(g.spare[n])
	}
}

// high is more lines than any heading has words.
const high = 100

// without returns the table without one column, the last of the spare ones.
func (g grid) without(column int) grid {
	var taken []int
	for i := range g.right {
		if i != column {
			taken = append(taken, i)
		}
	}
	out := g.columns(taken)
	for _, i := range g.spare[:len(g.spare)-1] {
		if i > column {
			i--
		}
		out.spare = append(out.spare, i)
	}
	return out
}

// within returns the table in lines of at most width characters: with its last
// column broken where that leaves it enough room, else in several tables, each
// with the first column again.
func (g grid) within(width int) []grid {
	if len(g.right) == 0 {
		return nil
	}
	g = g.fit(width)
	last, others := len(g.right)-1, 0
	for i := range last {
		others += g.width(i) + len(gap)
	}
	room := width - others
	if g.width(last) <= room || !g.right[last] && room >= leastLast {
		return []grid{g.breakLast(room)}
	}
	return g.columnwise(width)
}

// breakLast breaks the cells of the last column into lines of at most room
// characters.
func (g grid) breakLast(room int) grid {
	last := len(g.right) - 1
	out := grid{right: g.right, heads: g.heads}
	for _, r := range g.rows {
		cell := strings.TrimSuffix(Wrap(r[last], max(room, leastLast), "", ""), "\n")
		for k, line := range strings.Split(cell, "\n") {
			row := make([]string, len(r))
			if k == 0 {
				copy(row, r)
			}
			row[last] = line
			out.rows = append(out.rows, row)
		}
	}
	return out
}

// columnwise puts as many columns into each of several tables as fit, and one
// beside the first in any case.
func (g grid) columnwise(width int) []grid {
	var parts []grid
	for next := 1; next < len(g.right); {
		taken, w := []int{0}, g.width(0)
		for ; next < len(g.right); next++ {
			w += len(gap) + g.width(next)
			if w > width && len(taken) > 1 {
				break
			}
			taken = append(taken, next)
		}
		part := g.columns(taken)
		if w > width && !part.right[len(taken)-1] {
			part = part.breakLast(width - g.width(0) - len(gap))
		}
		parts = append(parts, part)
	}
	if parts == nil { // one column alone
		return []grid{g.breakLast(width)}
	}
	return parts
}

// columns returns some columns of a table.
func (g grid) columns(taken []int) grid {
	out := grid{rows: make([][]string, len(g.rows)), heads: g.heads}
	for _, i := range taken {
		out.right = append(out.right, g.right[i])
		for j, r := range g.rows {
			out.rows[j] = append(out.rows[j], r[i])
		}
	}
	for out.heads > 0 && strings.Join(out.rows[0], "") == "" { // higher ones stood over other columns
		out.rows, out.heads = out.rows[1:], out.heads-1
	}
	return out
}

// write lays the table out in columns as wide as their longest cell.
func (g grid) write(b *strings.Builder, indent string) {
	width := make([]int, len(g.right))
	for i := range width {
		width[i] = g.width(i)
	}
	for _, r := range g.rows {
		line := indent
		for i, cell := range r {
			if i > 0 && width[i-1] > 0 {
				line += gap
			}
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if g.right[i] {
				line += pad + cell
			} else {
				line += cell + pad
			}
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}
