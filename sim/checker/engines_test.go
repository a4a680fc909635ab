package checker_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"warmby/internal/thorough"
	"warmby/sim"
	"warmby/sim/checker"
	"warmby/sim/reference"
)

// played makes random drills, has both engines play them, and hands on every
// timeline. When tests are thorough there are ten times as many; WARMBY_DRILLS sets
// how many.
func played(t *testing.T, drills int, use func(name string, tl *sim.Timeline)) {
	drills = thorough.Cases(drills, 10*drills)
	if n, err := strconv.Atoi(os.Getenv("WARMBY_DRILLS")); err == nil {
		drills = n
	}
	var finished, never, stopped int
	for seed := range drills {
		d, luck := randomDrill(rand.New(rand.NewPCG(uint64(seed), 7)))
		tl := reference.Play(d, luck)
		switch {
		case tl.Stops != nil:
			stopped++
		case tl.Finish() == sim.Never:
			never++
		default:
			finished++
		}
		use(fmt.Sprintf("reference, seed %d", seed), tl)
		use(fmt.Sprintf("fast, seed %d", seed), playFast(d, luck))
	}
	t.Logf("%d drills: %d finished, %d never did, %d came to a stop", drills, finished, never, stopped)
	if finished < drills/4 {
		t.Errorf("%d of %d drills finished, want at least a quarter, or this test tells little", finished, drills)
	}
}

// TestEnginesObey checks every timeline of many random drills.
func TestEnginesObey(t *testing.T) {
	played(t, 250, func(name string, tl *sim.Timeline) {
		for i, v := range checker.Check(tl) {
			if i == 3 {
				break
			}
			t.Errorf("%s: %v", name, v)
		}
	})
}

// TestNothingMovesUnseen moves one thing in a good timeline by a millisecond,
// or takes one away, and wants it caught.
func TestNothingMovesUnseen(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	moved := 0
	played(t, 60, func(name string, tl *sim.Timeline) {
		if len(checker.Check(tl)) > 0 {
			return // told by TestEnginesObey
		}
		for range 6 {
			bad, what := disturb(r, tl)
			if what == "" {
				continue
			}
			moved++
			if len(checker.Check(bad)) == 0 {
				t.Errorf("%s: %s: not caught", name, what)
			}
		}
	})
	if moved < 200 {
		t.Errorf("%d things moved, want at least 200", moved)
	}
}

// disturb returns a copy of a timeline with one thing wrong, and what.
func disturb(r *rand.Rand, good *sim.Timeline) (*sim.Timeline, string) {
	tl := *good
	tl.Tasks = slices.Clone(good.Tasks)
	tl.People = slices.Clone(good.People)
	tl.Milestones = slices.Clone(good.Milestones)
	p, k := r.IntN(len(tl.People)), r.IntN(len(tl.Tasks))
	list := slices.Clone(tl.People[p])
	tl.People[p] = list
	x := &tl.Tasks[k]
	by := sim.Time(1 - 2*r.IntN(2))
	switch r.IntN(6) {
	case 0:
		if len(list) < 2 {
			return nil, ""
		}
		i := r.IntN(len(list) - 1)
		if oneStretch(list[i], list[i+1]) {
			return nil, ""
		}
		list[i].To += by
		list[i+1].From += by
		return &tl, fmt.Sprintf("stretch %d of %s ends %+d ms", i, tl.Drill.People[p].Name, by)
	case 1:
		if x.End == sim.Never {
			return nil, ""
		}
		x.End += by
		x.Worked += by
		tl.SetMilestones()
		return &tl, fmt.Sprintf("%s ends %+d ms", tl.Drill.Tasks[k].Name, by)
	case 2:
		if x.Called == sim.Never {
			return nil, ""
		}
		x.Called += by
		return &tl, fmt.Sprintf("%s is called %+d ms", tl.Drill.Tasks[k].Name, by)
	case 3:
		if len(x.People) == 0 || x.End == sim.Never {
			return nil, ""
		}
		x.People = x.People[1:]
		return &tl, fmt.Sprintf("%s loses one of its people", tl.Drill.Tasks[k].Name)
	case 4:
		if len(list) < 2 {
			return nil, ""
		}
		i := r.IntN(len(list) - 1)
		if oneStretch(list[i], list[i+1]) {
			return nil, ""
		}
		list[i].To = list[i+1].To
		tl.People[p] = append(list[:i+1], list[i+2:]...)
		return &tl, fmt.Sprintf("stretch %d of %s swallows the next", i, tl.Drill.People[p].Name)
	default:
		if x.Start == sim.Never {
			return nil, ""
		}
		x.Start += by
		return &tl, fmt.Sprintf("work on %s begins %+d ms", tl.Drill.Tasks[k].Name, by)
	}
}

// oneStretch reports whether two stretches tell the same as one would: between them
// somebody did something that had no length and is not told.
func oneStretch(a, b sim.Stretch) bool {
	b.From, b.To = a.From, a.To
	return a == b
}

// show writes a timeline out, for a person to follow by hand.
func show(tl *sim.Timeline) string {
	s := ""
	for k, x := range tl.Tasks {
		task := &tl.Drill.Tasks[k]
		s += fmt.Sprintf("%2d %-12s kind %d crew %v join %v called %v start %v worked %v end %v people %v group %d unit %d\n", k, task.Name, task.Kind, task.Crew, task.Joinable,
			ms(x.Called), ms(x.Start), ms(x.Worked), ms(x.End), x.People, x.Group, x.Unit)
		s += fmt.Sprintf("     after %v tools %v needs %v roles %v all %v spot %d\n", task.After, task.Tools, task.Needs, task.Roles, task.All, task.Spot)
	}
	for _, det := range tl.Drill.Groups {
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
	tl := reference.Play(d, luck)
	t.Log("\n" + show(tl))
	t.Log(d.Weather, d.Light, d.Site.Lights)
	for k := range d.Tasks {
		t.Logf("%s %+v %v", d.Tasks[k].Name, d.Tasks[k].Slowed, luck.Amount[k])
	}
	for _, v := range checker.Check(tl) {
		t.Error(v)
	}
}
