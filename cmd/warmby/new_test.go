package main

import (
	"context"
	"fmt"
	"io"
	"testing"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/report"
	"warmby/internal/thorough"
	"warmby/scenarios"
	"warmby/scenarios/draft"
)

// What new writes passes check without a remark, for all sizes and numbers of
// tents.
func TestDraftsPassCheck(t *testing.T) {
	sizes := [][2]int{{2, 1}, {3, 4}, {7, 2}, {13, 3}, {20, 4}}
	if thorough.Asked() {
		sizes = nil
		for people := 2; people <= draft.MostPeople; people++ {
			for tents := 1; tents <= draft.MostTents; tents++ {
				sizes = append(sizes, [2]int{people, tents})
			}
		}
	}
	e := &environment{stdout: io.Discard, stderr: io.Discard}
	for i, size := range sizes {
		a := draft.Standard(wallClock())
		a.People, a.Tents, a.StovePeople, a.Heater = size[0], size[1], 1+(i*7)%size[0], i%4 != 1
		t.Run(fmt.Sprint(a.People, a.Tents, a.StovePeople, a.Heater), func(t *testing.T) {
			d, err := draft.Write(a)
			if err != nil {
				t.Fatal(err)
			}
			s, err := scenarios.Read("draft.yaml", d.Text)
			if err != nil {
				t.Fatal(err)
			}
			found, _, err := e.tryOut(context.Background(), &ask.Source{Name: "draft.yaml", Arg: "draft.yaml", Data: d.Text, Scenario: s})
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range found {
				t.Errorf("%s: %s", f.Kind, f.Says.Write(report.Full))
			}
		})
	}
}
