package main

import (
	"fmt"
	"strings"
	"testing"

	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/stats"
)

func TestOddsPageNamesWhatHolds(t *testing.T) {
	for _, want := range []string{
		fmt.Sprintf("chunks of %d,", batch.ChunkRuns),
		fmt.Sprintf("first stage of %s runs", grouped(batch.FirstStage)),
		fmt.Sprintf("fewer than %d runs", stats.FewRuns),
	} {
		if !strings.Contains(oddsPage, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if sim.Horizon != 7*24*sim.Hour {
		t.Error("the page speaks of seven days")
	}
}
