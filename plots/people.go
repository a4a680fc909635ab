package plots

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// row is what one person did, or what went on by itself, with its name.
type row struct {
	name, group string
	bars        []bar
}

// personRows returns a row for each person, in roster order.
func personRows(tl *sim.Timeline, critical []bool) []row {
	groups := groupNames(tl.Drill)
	rows := make([]row, len(tl.Drill.People))
	for p := range rows {
		rows[p] = row{name: clean(tl.Drill.People[p].Name), group: groups[p]}
		if p < len(tl.People) {
			for _, st := range tl.People[p] {
				rows[p].bars = append(rows[p].bars, stretchBars(tl, st, critical)...)
			}
			onlyLastNever(rows[p].bars)
		}
	}
	return rows
}

// onlyLastNever keeps never on the last bar of a row that has it: two tasks of
// no length may stand at the very end.
func onlyLastNever(bars []bar) {
	seen := false
	for i := len(bars) - 1; i >= 0; i-- {
		bars[i].never = bars[i].never && !seen
		seen = seen || bars[i].never
	}
}

// groupNames returns the name of each person's group when there is more
// than one.
func groupNames(d *sim.Drill) []string {
	names := make([]string, len(d.People))
	if len(d.Groups) < 2 {
		return names
	}
	for _, det := range d.Groups {
		for _, p := range det.People {
			names[p] = clean(det.Name)
		}
	}
	return names
}

// stretchBars returns the bars of a stretch: one, or two when a mishap falls
// into it.
func stretchBars(tl *sim.Timeline, st sim.Stretch, critical []bool) []bar {
	b := bar{from: st.From, to: st.To}
	switch st.What {
	case sim.Free:
		b.look = lookFree
	case sim.Walking:
		b.look = lookWalk
	case sim.Watching:
		b.look, b.name = lookWatch, clean(tl.Drill.Lookouts[st.Lookout].Name)
	case sim.Ready:
		b.look = lookReady
	case sim.Working:
		b.look = lookWork
		taskBar(tl, &b, st.Task, critical)
		return splitMishap(b, tl.Tasks[st.Task].Worked)
	}
	return []bar{b}
}

// taskBar fills in what a bar says of its task.
func taskBar(tl *sim.Timeline, b *bar, task int, critical []bool) {
	b.name = clean(tl.Drill.Tasks[task].Name)
	b.critical = task < len(critical) && critical[task]
	b.never = tl.Tasks[task].End == sim.Never && b.to >= tl.End
}

// splitMishap cuts a bar where the work was done and a mishap began. The
// longer part keeps the name.
func splitMishap(b bar, worked sim.Time) []bar {
	if worked == sim.Never || worked >= b.to {
		return []bar{b}
	}
	late := b
	late.look = lookLate
	if worked <= b.from {
		return []bar{late}
	}
	b.to, late.from = worked, worked
	if b.to-b.from >= late.to-late.from {
		late.name = ""
	} else {
		b.name = ""
	}
	b.never = false
	return []bar{b, late}
}

// aloneRows returns rows for what goes on with nobody there, as few as can
// be without one thing on another.
func aloneRows(tl *sim.Timeline, critical []bool) []row {
	var alone []int
	for i := range tl.Drill.Tasks {
		t := &tl.Drill.Tasks[i]
		if t.Crew.Max == 0 && t.RoleCount() == 0 && tl.Tasks[i].Start != sim.Never {
			alone = append(alone, i)
		}
	}
	slices.SortStableFunc(alone, func(p, q int) int { return cmp.Compare(tl.Tasks[p].Start, tl.Tasks[q].Start) })
	var rows []row
	for _, i := range alone {
		b := bar{look: lookAlone, from: tl.Tasks[i].Start, to: min(tl.Tasks[i].End, tl.End)}
		b.to = max(b.to, b.from)
		taskBar(tl, &b, i, critical)
		to := 0
		for to < len(rows) && !free(rows[to], b.from) {
			to++
		}
		if to == len(rows) {
			rows = append(rows, row{})
		}
		rows[to].bars = append(rows[to].bars, splitMishap(b, tl.Tasks[i].Worked)...)
	}
	if len(rows) > 0 {
		rows[0].name = "by itself"
	}
	return rows
}

func free(r row, at sim.Time) bool {
	last := r.bars[len(r.bars)-1]
	return last.to <= at && !last.never
}

var (
	nameStyles  = []style{{size: 8.6, bold: true, ink: black}, {size: 7.4, bold: true, ink: black}}
	groupStyles = []style{{size: 6.6, ink: soft}}
)

// gutterWidth returns how much room the names of the rows want on the left.
func gutterWidth(s *sheet, rows []row) float64 {
	wide := 62.0
	for _, r := range rows {
		wide = max(wide, s.width(r.name, nameStyles[0])+10, s.width(r.group, groupStyles[0])+10)
	}
	return min(wide, 118)
}

// panelRows is the panel of people and of what goes on by itself.
type panelRows struct {
	rows []row
	size rowSize
}

func (p *panelRows) draw(s *sheet, a axis, top float64) float64 {
	y := top
	for i := range p.rows {
		r := &p.rows[i]
		tags := a.layRow(s, r.bars, p.size, y)
		a.drawRow(s, r.bars, tags, p.size)
		p.drawName(s, a, r, y)
		y += p.size.height()
		from := margin
		if i+1 < len(p.rows) && p.rows[i+1].name == "" {
			from = a.x0
		}
		s.line(behind, point{from, y - 0.4}, point{a.right(), y - 0.4}, 0.4, pale)
	}
	return y - top
}

// drawName writes a row's name and, when there are several, its group.
func (p *panelRows) drawName(s *sheet, a axis, r *row, top float64) {
	space := rect{margin, top + p.size.tag - 4, a.x0 - 6, top + p.size.tag + p.size.bar + 3}
	group := rect{space.x0, space.y1 - 8, space.x1, space.y1}
	if r.group != "" && p.size.bar > 14 {
		if l, ok := s.fit(r.group, group.width(), group.height(), groupStyles...); ok {
			s.text(group.x0, group.y1-1.8, l.lines[0], l.set)
		} else {
			n := s.notes.number("group " + r.group)
			s.tag(n, group.x0+s.tagWidth(n)/2, group.y0)
		}
		space.y1 = group.y0
	}
	s.nameIn(space, r.name, nameStyles...)
}
