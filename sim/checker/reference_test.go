package checker_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"warmby/sim"
	"warmby/sim/checker"
	"warmby/sim/reference"
)

// TestReferenceEngineObeys has the reference engine play many random drills
// and checks every timeline. WARMBY_DRILLS sets how many.
func TestReferenceEngineObeys(t *testing.T) {
	drills := 400
	if n, err := strconv.Atoi(os.Getenv("WARMBY_DRILLS")); err == nil {
		drills = n
	}
	var finished, never, refused int
	for seed := range drills {
		d, luck := randomDrill(rand.New(rand.NewPCG(uint64(seed), 7)))
		tl, err := reference.Play(d, luck)
		if n := (*sim.NeverError)(nil); errors.As(err, &n) {
			refused++
			continue
		}
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if tl.Finish() == sim.Never {
			never++
		} else {
			finished++
		}
		for i, v := range checker.Check(tl) {
			if i == 3 {
				break
			}
			t.Errorf("seed %d: %v", seed, v)
		}
	}
	t.Logf("%d drills: %d finished, %d never did, %d were refused", drills, finished, never, refused)
	if finished < drills/4 {
		t.Errorf("%d of %d drills finished, want at least a quarter, or this test tells little", finished, drills)
	}
}

// show writes a timeline out, for a person to follow by hand.
func show(tl *sim.Timeline) string {
	s := ""
	for k, x := range tl.Tasks {
		task := &tl.Drill.Tasks[k]
		s += fmt.Sprintf("%2d %-12s kind %d crew %v join %v called %v start %v worked %v end %v people %v detail %d unit %d\n", k, task.Name, task.Kind, task.Crew, task.Joinable,
			ms(x.Called), ms(x.Start), ms(x.Worked), ms(x.End), x.People, x.Detail, x.Unit)
		s += fmt.Sprintf("     after %v tools %v needs %v roles %v all %v spot %d\n", task.After, task.Tools, task.Needs, task.Roles, task.All, task.Spot)
	}
	for _, det := range tl.Drill.Details {
		s += fmt.Sprintf("%+v\n", det)
	}
	for _, l := range tl.Drill.Lookouts {
		s += fmt.Sprintf("%+v\n", l)
	}
	for p, list := range tl.People {
		s += fmt.Sprintf("%s skills %b arrives %v\n", tl.Drill.People[p].Name, tl.Drill.People[p].Skills, tl.Luck.Person[p])
		for _, x := range list {
			s += fmt.Sprintf("    %d %v-%v task %d lookout %d/%d spot %d from %d\n", x.What, ms(x.From), ms(x.To), x.Task, x.Lookout, x.Place, x.Spot, x.Origin)
		}
	}
	return s
}

func ms(t sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	return fmt.Sprint(int64(t))
}

// TestShow prints one random drill and what is wrong with it: WARMBY_SEED=n.
func TestShow(t *testing.T) {
	seed, err := strconv.Atoi(os.Getenv("WARMBY_SEED"))
	if err != nil {
		t.Skip("WARMBY_SEED names no seed")
	}
	d, luck := randomDrill(rand.New(rand.NewPCG(uint64(seed), 7)))
	tl, err := reference.Play(d, luck)
	if err != nil {
		t.Fatal(err)
	}
	t.Log("\n" + show(tl))
	t.Log(d.Weather, d.Light, d.Site.Lights)
	for k := range d.Tasks {
		t.Logf("%s %+v %v", d.Tasks[k].Name, d.Tasks[k].Slowed, luck.Amount[k])
	}
	for _, v := range checker.Check(tl) {
		t.Error(v)
	}
}
