package plots

import "testing"

// TestReviewHasTwoRowsAPerson draws a drill beside itself.
func TestReviewHasTwoRowsAPerson(t *testing.T) {
	tl := winterCourse().timeline()
	p := Review(ReviewInput{Title: "as foretold and as timed", Plan: tl, AsTimed: tl})
	if len(p.rows) != 2*len(tl.Drill.People) {
		t.Fatalf("%d rows for %d people", len(p.rows), len(tl.Drill.People))
	}
	for i, r := range p.rows {
		if want := []string{"foretold", "as timed"}[i%2]; r.group != want || r.name != tl.Drill.People[i/2].Name {
			t.Errorf("row %d is of %s, %s", i, r.name, r.group)
		}
		if i%2 == 1 && len(r.bars) != len(p.rows[i-1].bars) {
			t.Errorf("%s has %d bars as timed and %d as foretold of the same drill", r.name, len(r.bars), len(p.rows[i-1].bars))
		}
	}
	for _, f := range Formats {
		if b, err := p.Bytes(f); err != nil || len(b) == 0 {
			t.Errorf("%s: %v", f, err)
		}
	}
}
