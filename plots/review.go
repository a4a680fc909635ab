package plots

import (
	"warmby/sim"
)

// ReviewInput is a drill as it was foretold and as it was timed.
type ReviewInput struct {
	Title         string
	Plan, AsTimed *sim.Timeline
}

// Review draws a drill twice: for each person a row as foretold and under it one
// as timed, over one ruler. The milestones are those as timed.
func Review(in ReviewInput) *Picture {
	longer := in.AsTimed
	if in.Plan.End > longer.End {
		longer = in.Plan
	}
	s := &sheet{measure: newMeasure()}
	rows := pairs(in)
	a := axisFor(s, longer, rows)
	opt := Options{Title: in.Title}
	y := heading(s, in.AsTimed, opt, margin)
	y += a.draw(s, y) + 3
	labels := a.labels(in.AsTimed)
	foot := y + float64(a.arrange(s, labels))*laneHeight + 1
	size := rowSizes[2]
	if len(rows) > 16 {
		size = rowSizes[len(rowSizes)-1]
	}
	bottom := foot + (&panelRows{rows: rows, size: size}).draw(s, a, foot)
	a.gridlines(s, foot, bottom)
	a.drawLabels(s, labels, foot, bottom)
	y = bottom + 4
	y += a.draw(s, y) + 6
	y += drawNotes(s, a.right(), y) + 3
	y += drawKey(s, keyFor(s, in.AsTimed, opt, rows, labels, nil), a.right(), y+2) + 2
	return &Picture{Title: title(in.AsTimed, opt), Width: sheetWidth, Height: y + margin - 8,
		marks: s.ordered(), rows: rows, labels: labels, notes: s.notes.texts}
}

// pairs returns two rows for each person: as foretold, and as timed.
func pairs(in ReviewInput) []row {
	plan, timed := personRows(in.Plan, nil), personRows(in.AsTimed, nil)
	var rows []row
	for i := range plan {
		plan[i].group, timed[i].group = "foretold", "as timed"
		rows = append(rows, plan[i], timed[i])
	}
	return rows
}
