package main

import (
	"fmt"
	"strings"
	"testing"

	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/compare"
	"warmby/sim/split"
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

// A thin search may choose what its own fresh runs tell to be later; of several
// that are sooner the soonest is named, and luck alone names none.
func TestSplitNamesWhatIsSoonerThanItsChoice(t *testing.T) {
	times := func(minutes sim.Time) *split.Split {
		one := &split.Split{Played: &compare.Played{}}
		one.Times = [][]sim.Time{nil}
		for run := range sim.Time(200) {
			one.Times[0] = append(one.Times[0], minutes*sim.Minute+run*minutes%7*sim.Second)
		}
		return one
	}
	s := &splitting{game: &split.Game{}}
	size := &split.Size{Splits: []*split.Split{times(50), times(45), times(40), times(60)}}
	if got := s.soonerThanBest(size); got != size.Splits[2] {
		t.Errorf("split %p is named, want the soonest, %p", got, size.Splits[2])
	}
	size.Best = 2
	if got := s.soonerThanBest(size); got != nil {
		t.Errorf("split %p is named beside the soonest", got)
	}
}
