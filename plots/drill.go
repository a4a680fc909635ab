package plots

import (
	"fmt"
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/heat"
)

// Options say how a drill is drawn. The zero value is ready.
type Options struct {
	Title    string       // the scenario's title and the order when empty
	Critical []bool       // for each task of the drill, whether it held it up; may be nil
	Curves   []heat.Curve // temperatures of shelters and pots; no panel when empty
	// Cold is the account of each person, as [cold.Account] gives it: the panel
	// of cold strain. No panel when empty; people without an account are named
	// under it.
	Cold []cold.Person
}

const margin = 22.0

// Drill draws one drill: what each person did, and what went on by itself,
// over a ruler of minutes since arrival and clock time, with light and
// weather behind, milestones and targets as lines, and cold strain and
// temperatures below.
//
// Rows are made lower to fit one sheet of A4 across; when that does not do,
// the picture grows, and from 16 rows on a bar has one line of text.
func Drill(tl *sim.Timeline, opt Options) *Picture {
	const dense = 3 // the size with one line a bar
	for _, size := range rowSizes[:dense] {
		p := drill(tl, opt, size)
		if p.Height <= sheetHeight || size == rowSizes[dense-1] && len(p.rows) <= 16 {
			return p
		}
	}
	return drill(tl, opt, rowSizes[dense])
}

// drill draws a drill with rows of a given size.
func drill(tl *sim.Timeline, opt Options, size rowSize) *Picture {
	s := &sheet{measure: newMeasure()}
	steps := tl.Drill.Steps(weatherOf(tl))
	rows := append(personRows(tl, opt.Critical), aloneRows(tl, opt.Critical)...)
	a := axisFor(s, tl, rows)
	y := heading(s, tl, opt, margin)

	y += a.draw(s, y) + 3
	y += a.outside(s, steps, len(tl.Drill.Light) > 0, len(tl.Drill.Weather) > 0, y) + 2
	labels := a.labels(tl)
	foot := y + float64(float64(a.arrange(s, labels))*laneHeight) + 1

	rowsBottom := foot + (&panelRows{rows: rows, size: size}).draw(s, a, foot)
	lines, said := linePanels(opt, steps, labels, a.length)
	bottom := rowsBottom
	for _, p := range lines {
		bottom += 5
		bottom += p.draw(s, a, bottom)
	}
	a.backdrop(s, steps, foot, rowsBottom, bottom)
	a.gridlines(s, foot, bottom)
	a.drawLabels(s, labels, foot, bottom)

	y = bottom + 4
	if len(lines) > 0 || len(rows) > 12 {
		y += a.draw(s, y) + 2
	}
	y += 4
	y += drawNotes(s, a.right(), y) + 3
	y += unbegun(s, tl, a.right(), y)
	if text := safetySteps(tl, a); text != "" {
		said = append([]string{text}, said...)
	}
	for _, text := range said {
		y += s.paragraph(margin, y, text, noteStyle, a.right()-margin) + 2
	}
	items := keyFor(s, tl, opt, rows, labels, steps)
	for _, p := range lines {
		for _, n := range p.nameless {
			items = append(items, n.key(n.name))
		}
	}
	y += drawKey(s, items, a.right(), y+2) + 2
	return &Picture{Title: title(tl, opt), Width: sheetWidth, Height: y + margin - 8,
		marks: s.ordered(), rows: rows, labels: labels, notes: s.notes.texts}
}

// linePanels returns the panels below the rows, cold strain and temperatures, with
// the lines of milestones that go through all of them, and what is to be said
// below.
func linePanels(opt Options, steps []sim.Step, labels []label, length sim.Time) (panels []*panelLines, said []string) {
	strain, said := coldStrain(opt.Cold)
	if strain != nil {
		panels = append(panels, strain)
	}
	if len(opt.Curves) > 0 {
		panels = append(panels, temperatures(opt.Curves, steps, length))
	}
	for _, p := range panels {
		for _, l := range labels {
			if l.line {
				p.lines = append(p.lines, l.x)
			}
		}
	}
	return panels, said
}

func weatherOf(tl *sim.Timeline) int {
	if tl.Luck == nil {
		return 0
	}
	return tl.Luck.Weather
}

// axisFor returns a ruler for a timeline: up to its end, or up to a target
// that comes not much later.
func axisFor(s *sheet, tl *sim.Timeline, rows []row) axis {
	length := max(tl.End, sim.Minute)
	for _, m := range tl.Drill.Milestones {
		if m.By != sim.Never && m.By <= tl.End+tl.End/10 {
			length = max(length, m.By)
		}
	}
	a := axis{x0: margin + gutterWidth(s, rows), x1: sheetWidth - margin, length: length, arrival: tl.Drill.Site.Arrival}
	for _, r := range rows {
		for _, b := range r.bars {
			if b.never {
				a.open = neverRoom(s)
			}
		}
	}
	if a.open > 0 {
		a.length = max(tl.End, sim.Minute)
	}
	a.x1 -= a.open
	return a
}

func title(tl *sim.Timeline, opt Options) string {
	if opt.Title != "" {
		return clean(opt.Title)
	}
	if tl.Drill.Order == "" {
		return clean(tl.Drill.Title)
	}
	return clean(tl.Drill.Title + ": " + tl.Drill.Order)
}

// heading writes the title and a line of facts, and returns where what
// follows begins.
func heading(s *sheet, tl *sim.Timeline, opt Options, top float64) float64 {
	const wide = sheetWidth - 2*margin
	y := top - 6
	y += s.paragraph(margin, y, title(tl, opt), style{size: 14, bold: true, ink: black}, wide) + 1
	facts := []string{"finish: " + sim.Clock(finish(tl))}
	if at := tl.Drill.Site.Arrival; !at.IsZero() {
		facts = append([]string{"arrival " + at.Format("Mon 2 January 2006, 15:04 -07:00")}, facts...)
		if finish(tl) != sim.Never {
			facts[1] += " after arrival, by " + axis{arrival: at}.clock(sim.ByMinute(finish(tl)))
		}
	}
	y += s.paragraph(margin, y, strings.Join(facts, "; "), style{size: 8.2, ink: soft}, wide)
	return y + 3
}

func finish(tl *sim.Timeline) sim.Time {
	if len(tl.Milestones) > 0 {
		return tl.Finish()
	}
	end := sim.Time(0)
	for _, t := range tl.Tasks {
		end = max(end, t.End)
	}
	return end
}

// gridlines draws faint lines where the ruler has numbers.
func (a axis) gridlines(s *sheet, top, bottom float64) {
	ticks, _, _ := a.sinceArrival()
	for _, k := range ticks {
		if k.text != "" {
			s.line(behind, point{a.x(k.at), top}, point{a.x(k.at), bottom}, 0.3, pale)
		}
	}
}

// unbegun names the tasks that never began and returns the height taken.
func unbegun(s *sheet, tl *sim.Timeline, right, top float64) float64 {
	var names []string
	for i := range tl.Drill.Tasks {
		if i < len(tl.Tasks) && tl.Tasks[i].Start == sim.Never {
			names = append(names, clean(tl.Drill.Tasks[i].Name))
		}
	}
	if len(names) == 0 {
		return 0
	}
	text := "Never begun: " + strings.Join(names, ", ")
	for i, c := range tl.Stops {
		sep := "; "
		if i == 0 {
			sep = ". It comes to a stop: "
		}
		text += sep + clean(fmt.Sprintf("%q %s", c.Task, c.Why))
	}
	return s.paragraph(margin, top, text, noteStyle, right-margin) + 4
}

// keyFor returns the key: the five fills of people, and of the rest what is
// there.
func keyFor(s *sheet, tl *sim.Timeline, opt Options, rows []row, labels []label, steps []sim.Step) []keyItem {
	seen := map[*look]bool{lookWork: true, lookWalk: true, lookWatch: true, lookReady: true, lookFree: true}
	critical := false
	for _, r := range rows {
		for _, b := range r.bars {
			seen[b.look] = true
			critical = critical || b.critical
		}
	}
	var items []keyItem
	for _, k := range []*look{lookWork, lookLate, lookWalk, lookWatch, lookReady, lookFree, lookAlone} {
		if seen[k] {
			items = append(items, k.key())
		}
	}
	add := func(when bool, it keyItem) {
		if when {
			items = append(items, it)
		}
	}
	reachedAny, target, dark, wind := false, false, false, false
	for _, l := range labels {
		target = target || l.target && l.line
		reachedAny = reachedAny || !l.target && l.line
	}
	for _, st := range steps {
		dark = dark || st.Dark && st.At < tl.End
		_, shade := windClass(st.Wind)
		wind = wind || st.Weather && shade > 0 && st.At < tl.End
	}
	add(critical, keyCritical)
	add(reachedAny, keyMilestone)
	add(target, keyTarget)
	add(dark, keyDark)
	add(wind, keyWind)
	add(len(s.notes.texts) > 0, keyNumber)
	return items
}
