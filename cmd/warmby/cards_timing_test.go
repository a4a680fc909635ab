package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"warmby/cmd/warmby/internal/document"
	"warmby/scenarios/library"
	"warmby/scenarios/stopwatch"
	"warmby/sim"
)

// typed is the timing sheet of some drills as somebody types it: the call-outs of
// the sheet with clock times, what it was like, and how cold people felt.
func typed(doc document.Cards, arrival time.Time, drills int, stove sim.Stove) string {
	unit := "L"
	if stove.FuelByMass {
		unit = "kg"
	}
	var b strings.Builder
	b.WriteString("drill,date,team,task,end\n")
	for n := range drills {
		for _, c := range doc.CallOuts {
			late := time.Duration(n) * time.Minute
			fmt.Fprintf(&b, "%d,%s,red,%q,%s\n", n+1, arrival.Format("2006-01-02"), c.Task, arrival.Add(time.Duration(c.End)*time.Millisecond+late).Format("15:04"))
		}
	}
	b.WriteString("\ndrill,arrival,air,wind,dark,learning,stove,fuel before,fuel after,water melted\n")
	for n := range drills {
		fmt.Fprintf(&b, "%d,%s,-20 C,4 m/s,no,no,%s,1.8 %s,1.3 %s,6 L\n", n+1, arrival.Format("15:04"), stove.Name, unit, unit)
	}
	b.WriteString("\ndrill,person,at,felt\n")
	for i, felt := range []string{"0", "-1", "-2"} {
		fmt.Fprintf(&b, "1,%s,%d min,%s\n", doc.People[0].Name, 20*(i+1), felt)
	}
	return b.String()
}

// cardsOf is what warmby cards --json says of the timing sheet.
func cardsOf(t *testing.T, name string) (doc document.Cards) {
	t.Helper()
	if err := json.Unmarshal([]byte(answer(t, "warmby", "cards", name, "--only", "timing", "--json")), &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

// What stands on a timing sheet is read back as a log, row by row.
func TestTheTimingSheetIsReadBackAsALog(t *testing.T) {
	for _, name := range library.Names() {
		doc := cardsOf(t, name)
		if len(doc.CallOuts) < 5 || len(doc.CallOuts) > 12 {
			t.Errorf("%s: %d call-outs, want 5 to 12", name, len(doc.CallOuts))
		}
		src, err := quietly().load(name)
		if err != nil {
			t.Fatal(err)
		}
		d, _ := src.Scenario.Drill("")
		log, err := stopwatch.Read(src.Scenario, stopwatch.Source{Name: "sheet.csv", Text: []byte(typed(doc, d.Site.Arrival, 1, d.Stoves[0]))})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if len(log.Evenings) != 1 || len(log.Evenings[0].Timed.Jobs) != len(doc.CallOuts) {
			t.Errorf("%s: of %d call-outs %d are read", name, len(doc.CallOuts), len(log.Evenings[0].Timed.Jobs))
		}
		for _, r := range log.Remarks {
			t.Errorf("%s: the reader remarks: %s", name, r.Text)
		}
	}
}

// Three evenings timed with the sheet teach warmby fit something.
func TestFitLearnsFromTimingSheets(t *testing.T) {
	onlyLong(t)
	doc := cardsOf(t, library.Default)
	src, err := quietly().load(library.Default)
	if err != nil {
		t.Fatal(err)
	}
	d, _ := src.Scenario.Drill("")
	file := filepath.Join(t.TempDir(), "sheets.csv")
	if err := os.WriteFile(file, []byte(typed(doc, d.Site.Arrival, 3, d.Stoves[len(d.Stoves)-1])), 0o600); err != nil {
		t.Fatal(err)
	}
	if out := answer(t, "warmby", "fit", file, library.Default); !strings.Contains(out, "3 drills") {
		t.Errorf("fit says nothing of three drills:\n%.800s", out)
	}
}
