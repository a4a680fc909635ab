package batch_test

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/draw"
	"warmby/sim/heat"
	"warmby/sim/reference"
)

// cooking is the plan with a stove, and a helper, so that there is something to
// tell of each run.
func cooking() *batch.Plan {
	p := freezing()
	p.Tasks, p.People, p.Fuel = true, true, true
	cold := p.Drills
	p.Drills = func(point int) ([]*sim.Drill, error) {
		list, err := cold(point)
		for _, d := range list {
			d.Stoves = []sim.Stove{{Name: "burner", Count: 1, Power: 1500, Efficiency: 0.5, FuelHeat: 31e6}}
			d.Tasks[0].Crew.Max = 2
		}
		return list, err
	}
	return p
}

// What is kept is what the other engine's timeline says of each run.
func TestWhatIsToldIsTheTimelineOfEachRun(t *testing.T) {
	p := cooking()
	critical, crews := 0, map[int]bool{}
	for _, c := range read(t, journal(t, p, 2)) {
		ds, _ := p.Drills(c.Point)
		for run := c.From; run < c.To; run += 17 {
			for i, d := range ds {
				tl := reference.Play(d, draw.Run(d, p.Seed, run))
				o, at := &c.Orders[i], run-c.From
				for k, task := range tl.Tasks {
					row := at*len(d.Tasks) + k
					var crew uint64
					for _, who := range task.People {
						crew |= 1 << who
					}
					crews[len(task.People)] = true
					if o.Called[row] != task.Called || o.Crew[row] != crew {
						t.Fatalf("run %d, %s: called at %v by %b, want %v and %b", run, d.Tasks[k].Name, o.Called[row], o.Crew[row], task.Called, crew)
					}
					for m := range d.Milestones {
						is := tl.Critical(m)[k]
						if is {
							critical++
						}
						if o.Critical[row]>>m&1 == 1 != is {
							t.Fatalf("run %d, %s: critical for milestones %b", run, d.Tasks[k].Name, o.Critical[row])
						}
					}
				}
				for who, stretches := range tl.People {
					want := make([]sim.Time, batch.Activities)
					for _, s := range stretches {
						want[s.What] += s.To - s.From
					}
					got := o.Spent[(at*len(d.People)+who)*batch.Activities:][:batch.Activities]
					if diff := cmp.Diff(want, slices.Clone(got)); diff != "" {
						t.Fatalf("run %d, %s:\n%s", run, d.People[who].Name, diff)
					}
				}
				for k, u := range heat.Used(tl) {
					want := batch.Burnt{Lit: sim.Milliseconds(u.Hours * 3600_000), Fuel: int64(math.Round(1e6 * u.Amount))}
					if got := o.Fuel[at*len(d.Stoves)+k]; got != want {
						t.Fatalf("run %d: burnt %+v, want %+v", run, got, want)
					}
				}
			}
		}
	}
	if critical == 0 || !crews[1] {
		t.Errorf("%d tasks critical, crews of %v: the test tells little", critical, crews)
	}
}

// A plan with a luck of its own plays it, with and without timelines.
func TestAPlanMayHaveItsOwnLuck(t *testing.T) {
	for _, told := range []bool{false, true} {
		p := plan()
		p.People, p.Tasks = told, told
		p.Runs = 300
		same := journal(t, p, 2)
		p.Luck = func(_, run int, s *draw.Sampler, l *sim.Luck) { s.Run(p.Seed, run, l) }
		if string(journal(t, p, 3)) != string(same) {
			t.Errorf("timelines %v: the luck of the seed, given, gives other bytes", told)
		}
		p.Luck = func(point, run int, s *draw.Sampler, l *sim.Luck) { s.Run(99, 1000*point+run, l) }
		for _, c := range read(t, journal(t, p, 2)) {
			ds, _ := p.Drills(c.Point)
			tl := reference.Play(ds[0], draw.Run(ds[0], 99, 1000*c.Point+c.From))
			if diff := cmp.Diff(tl.Milestones, c.Orders[0].Milestones[:len(tl.Milestones)]); diff != "" {
				t.Errorf("point %d, run %d (-want +got):\n%s", c.Point, c.From, diff)
			}
			if told && c.Orders[0].Called[0] != tl.Tasks[0].Called {
				t.Errorf("point %d, run %d: the timeline is another's", c.Point, c.From)
			}
		}
	}
}
