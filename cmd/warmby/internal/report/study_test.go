package report_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/reference"
)

func studyOf(t *testing.T, name string) report.Study {
	t.Helper()
	src, _ := library.Read(name)
	s, err := scenarios.Read(name, src)
	if err != nil {
		t.Fatal(err)
	}
	var drills []*sim.Drill
	for _, order := range s.Orders() {
		d, err := s.Drill(order)
		if err != nil {
			t.Fatal(err)
		}
		drills = append(drills, d)
	}
	return report.Study{
		Batched: report.Batched{Drill: drills[0], Points: 1, Orders: s.Orders(), Runs: "50 runs", Seed: 7, Repeat: "warmby batch " + name},
		Drills:  drills, Usual: reference.Play(drills[0], draw.Usual(drills[0])), File: name, SHA256: "abc", Version: "warmby 1", Engine: 4, Source: "def",
	}
}

// The numbers and the 20 items are those of the checklist: T. Monks and others,
// Journal of Simulation 13 (2019), 55-67, table of STRESS-DES.
func TestStudyHasEveryItemOfTheChecklist(t *testing.T) {
	want := []string{"1.1", "1.2", "1.3", "2.1", "2.2", "2.3", "2.4", "2.5", "3.1", "3.2", "3.3", "3.4", "4.1", "4.2", "4.3", "5.1", "5.2", "5.3", "5.4", "6.1"}
	var got []string
	for _, s := range studyOf(t, "kestrel-fell").Sections()[1:] {
		number, _, _ := strings.Cut(s.Heading, " ")
		got = append(got, number)
		if len(s.Blocks) == 0 {
			t.Errorf("%s says nothing", s.Heading)
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("items %v, want %v", got, want)
	}
}

func TestStudyNamesWhatOnlyTheAuthorKnowsBeforeTheItems(t *testing.T) {
	sections := studyOf(t, "kestrel-fell").Sections()
	var listed, inItems []string
	for _, b := range sections[0].Blocks[1:] {
		listed = append(listed, b.(report.Text).Head)
	}
	for _, s := range sections[1:] {
		for _, b := range s.Blocks {
			if text, ok := b.(report.Text); ok && text.Head == "Gap" {
				number, _, _ := strings.Cut(s.Heading, " ")
				inItems = append(inItems, number)
			}
		}
	}
	if len(listed) == 0 || !slices.Equal(listed, inItems) {
		t.Errorf("gaps listed first %v, in the items %v", listed, inItems)
	}
}

// Every law that the drill draws from has its row, with the quantiles that the law
// itself gives.
func TestStudyListsEveryInput(t *testing.T) {
	for _, name := range library.Names() {
		study := studyOf(t, name)
		var inputs report.Table
		for _, s := range study.Sections() {
			if strings.HasPrefix(s.Heading, "3.3") {
				inputs = s.Blocks[1].(report.Table)
			}
		}
		rows := map[string]string{}
		for _, r := range inputs.Rows {
			var cells []string
			for _, c := range r {
				cells = append(cells, c.Write(report.Full))
			}
			rows[cells[0]+"/"+cells[1]] = strings.Join(cells[2:], " ")
		}
		for i := range study.Drill.Tasks {
			k := &study.Drill.Tasks[i]
			if k.Amount == nil {
				continue
			}
			want := fmt.Sprintf(" %.2f %.2f %.2f", k.Amount.Quantile(0.05)/60000, k.Amount.Usual()/60000, k.Amount.Quantile(0.95)/60000)
			found := false
			for key, row := range rows {
				found = found || strings.HasPrefix(key, k.OwnName()+"/") && strings.HasSuffix(row, want)
			}
			if !found {
				t.Errorf("%s: no row of %s ends in%s", name, k.OwnName(), want)
			}
		}
	}
}
