package batch_test

import (
	"bytes"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/reference"
)

// freezing is the plan in hard cold, the only person thinly dressed, and beside
// her one whose clothing is not given.
func freezing() *batch.Plan {
	p := plan()
	p.Runs, p.Cold = 300, true
	mild := p.Drills
	p.Drills = func(point int) ([]*sim.Drill, error) {
		list, err := mild(point)
		for _, d := range list {
			d.Weather = []sim.WeatherCase{{Rows: []sim.WeatherRow{{Air: -20, Wind: 3, Humidity: 0.8}}}}
			d.People = append(d.People, sim.Person{Name: "Berend", Pace: 1000})
			d.People[0].March, d.People[0].Halt = 2, 2
		}
		return list, err
	}
	return p
}

// The account is that of each run, as the other engine plays it.
func TestColdIsTheAccountOfEachRun(t *testing.T) {
	p := freezing()
	over, seen := 0, 0
	for _, c := range read(t, journal(t, p, 2)) {
		ds, _ := p.Drills(c.Point)
		for run := c.From; run < c.To; run += 7 {
			for i, d := range ds {
				tl := reference.Play(d, draw.Run(d, p.Seed, run))
				var want []batch.Chill
				for _, a := range cold.Account(tl) {
					w := batch.Chill{Peak: -1, PeakAt: sim.Never, PassedAt: sim.Never}
					if a.Why == "" {
						w = batch.Chill{Peak: int64(math.Round(1000 * a.Peak)), PeakAt: a.PeakAt, PassedAt: a.PassedAt}
					}
					if w.PassedAt != sim.Never {
						over++
					}
					want = append(want, w)
				}
				k := run - c.From
				if diff := cmp.Diff(want, c.Orders[i].Cold[2*k:2*k+2]); diff != "" {
					t.Fatalf("point %d order %d run %d:\n%s", c.Point, i, run, diff)
				}
				seen++
			}
		}
	}
	if over == 0 || over == seen {
		t.Errorf("somebody passes the limit in %d of %d runs: the test tells little", over, seen)
	}
}

func TestColdIsTheSameOnAnyNumberOfWorkers(t *testing.T) {
	one := journal(t, freezing(), 1)
	for _, workers := range []int{2, 7} {
		if !bytes.Equal(journal(t, freezing(), workers), one) {
			t.Errorf("%d workers give other bytes than one", workers)
		}
	}
}
