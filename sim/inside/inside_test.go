package inside

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
)

const minute = sim.Minute

// site is a drill for timelines made by hand: spot 0 is the centre, 1 lies in the
// tent, a minute off, 2 in the hut, three minutes off, 3 is a wood two minutes off.
// Task 0 warms the tent, 1 the hut.
func site(people int) *sim.Drill {
	d := &sim.Drill{
		Spots:    []sim.Spot{{Name: "centre", In: -1}, {Name: "tent", In: 0, Walk: minute}, {Name: "hut", In: 1, Walk: 3 * minute}, {Name: "wood", In: -1, Walk: 2 * minute}},
		Shelters: []sim.Shelter{{Name: "tent", Skin: 30, U: 3, Contents: 1e5}, {Name: "hut", Skin: 30, U: 3, Contents: 1e5}},
		Stoves:   []sim.Stove{{Name: "heater", Power: 5000}},
		Tasks: []sim.Task{
			{Name: "warm the tent", Kind: sim.Warm, Item: -1, Spot: 1, Warm: &sim.Warming{Shelter: 0, To: 10, People: 2}},
			{Name: "warm the hut", Kind: sim.Warm, Item: -1, Spot: 2, Warm: &sim.Warming{Shelter: 1, To: 10}},
		},
	}
	for i := range people {
		d.People = append(d.People, sim.Person{Name: fmt.Sprintf("P%d", i)})
	}
	return d
}

// times is when something begins and ends, in minutes; 0, 0 for never.
type times struct{ start, end sim.Time }

// played puts each person's stretches one after the other, from 0 to the end.
func played(d *sim.Drill, tent, hut times, people ...[]sim.Stretch) *sim.Timeline {
	tl := &sim.Timeline{Drill: d, Luck: &sim.Luck{}, People: people}
	for unit, w := range []times{tent, hut} {
		task := sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Unit: -1}
		if w.end > 0 {
			task = sim.TaskTimes{Called: w.start * minute, Start: w.start * minute, Worked: w.end * minute, End: w.end * minute, Unit: unit}
		}
		tl.Tasks = append(tl.Tasks, task)
	}
	for _, stretches := range people {
		at := sim.Time(0)
		for i := range stretches {
			stretches[i].From, stretches[i].To = at, at+stretches[i].To
			at = stretches[i].To
		}
		tl.End = max(tl.End, at)
	}
	return tl
}

func free(spot int, minutes sim.Time) sim.Stretch {
	return sim.Stretch{What: sim.Free, Task: -1, Lookout: -1, Spot: spot, To: minutes * minute}
}

func busy(spot int, minutes sim.Time) sim.Stretch {
	return sim.Stretch{What: sim.Working, Task: 0, Lookout: -1, Spot: spot, To: minutes * minute}
}

// told writes visits down in minutes: who, where, and the four moments.
func told(visits [][]Visit) string {
	var b strings.Builder
	for who, list := range visits {
		for _, v := range list {
			fmt.Fprintf(&b, "%d in %d: %v %v %v %v\n", who, v.Shelter, v.Leave.Minutes(), v.In.Minutes(), v.Out.Minutes(), v.Back.Minutes())
		}
	}
	return b.String()
}

func TestWhoIsFreeGoesIntoTheNearestWarmShelter(t *testing.T) {
	for _, c := range []struct {
		what   string
		tent   times
		hut    times
		person []sim.Stretch
		want   string
	}{
		{"warm before", times{0, 5}, times{}, []sim.Stretch{busy(0, 10), free(0, 20)}, "0 in 0: 10 11 29 30\n"},
		{"grows warm meanwhile", times{0, 15}, times{}, []sim.Stretch{free(0, 30)}, "0 in 0: 15 16 29 30\n"},
		{"never warm", times{}, times{}, []sim.Stretch{free(0, 30)}, ""},
		{"not worth it", times{0, 5}, times{}, []sim.Stretch{busy(0, 10), free(0, 4), busy(0, 1)}, ""},
		{"just worth it", times{0, 5}, times{}, []sim.Stretch{busy(0, 10), free(0, 5), busy(0, 1)}, "0 in 0: 10 11 14 15\n"},
		{"not worth it from the wood", times{0, 5}, times{}, []sim.Stretch{busy(3, 10), free(3, 8)}, ""},
		{"from the wood", times{0, 5}, times{}, []sim.Stretch{busy(3, 10), free(3, 9)}, "0 in 0: 10 13 16 19\n"},
		{"the hut is warm first", times{0, 20}, times{0, 5}, []sim.Stretch{free(0, 60)}, "0 in 1: 5 8 57 60\n"},
		{"both warm", times{0, 5}, times{0, 5}, []sim.Stretch{busy(0, 6), free(0, 60)}, "0 in 0: 6 7 65 66\n"},
		{"inside already", times{0, 5}, times{}, []sim.Stretch{busy(0, 6), free(1, 60)}, ""},
		{"in the tent before it is warm, the hut warm", times{20, 25}, times{0, 5}, []sim.Stretch{free(1, 60)}, "0 in 1: 5 9 16 20\n"},
		{"two free times that follow each other", times{0, 5}, times{}, []sim.Stretch{busy(0, 6), free(0, 3), free(0, 3), busy(0, 1)}, "0 in 0: 6 7 11 12\n"},
	} {
		if got := told(New(site(1)).Read(played(site(1), c.tent, c.hut, c.person))); got != c.want {
			t.Errorf("%s: %swant %s", c.what, got, c.want)
		}
	}
}

func TestNobodyGoesInWhereTheScenarioSaysSo(t *testing.T) {
	d := site(1)
	d.Idle.StayOut = true
	if got := told(New(d).Read(played(d, times{0, 5}, times{}, []sim.Stretch{free(0, 60)}))); got != "" {
		t.Error(got)
	}
}

func TestWarmAtTheStartAndWithoutASpot(t *testing.T) {
	d := site(1)
	warm := 8.0
	d.Shelters[0].AtStart = &warm
	d.Spots[1].In = -1
	got := told(New(d).Read(played(d, times{}, times{}, []sim.Stretch{free(3, 60)})))
	if want := "0 in 0: 0 2 58 60\n"; got != want { // at the centre of camp
		t.Errorf("%swant %s", got, want)
	}
}

func TestNoMoreGoInThanTheShelterSleeps(t *testing.T) {
	for _, c := range []struct {
		what   string
		sleeps int
		hut    times
		people [][]sim.Stretch
		want   string
	}{
		{"the roster decides", 1, times{}, [][]sim.Stretch{{busy(0, 6), free(0, 30)}, {busy(0, 6), free(0, 30)}}, "0 in 0: 6 7 35 36\n"},
		{"who is there first", 1, times{}, [][]sim.Stretch{{busy(3, 6), free(3, 30)}, {busy(0, 7), free(0, 29)}}, "1 in 0: 7 8 35 36\n"},
		{"the next one when a place is free", 1, times{}, [][]sim.Stretch{{busy(0, 6), free(0, 10), busy(0, 40)}, {busy(0, 6), free(0, 50)}}, "0 in 0: 6 7 15 16\n1 in 0: 14 15 55 56\n"},
		{"the hut has room", 1, times{0, 5}, [][]sim.Stretch{{busy(0, 6), free(0, 30)}, {busy(0, 6), free(0, 30)}}, "0 in 0: 6 7 35 36\n1 in 1: 6 9 33 36\n"},
		{"who works inside counts", 1, times{}, [][]sim.Stretch{{busy(1, 20), busy(0, 16)}, {busy(0, 6), free(0, 30)}}, "1 in 0: 19 20 35 36\n"},
		{"and sends out whom there is no place for", 1, times{}, [][]sim.Stretch{{busy(0, 20), busy(1, 5), busy(0, 15)}, {busy(0, 6), free(0, 34)}},
			"1 in 0: 6 7 20 21\n1 in 0: 24 25 39 40\n"},
		{"no bound", 0, times{}, [][]sim.Stretch{{busy(0, 6), free(0, 30)}, {busy(0, 6), free(0, 30)}}, "0 in 0: 6 7 35 36\n1 in 0: 6 7 35 36\n"},
	} {
		d := site(2)
		d.Shelters[0].Sleeps = c.sleeps
		if got := told(New(d).Read(played(d, times{0, 5}, c.hut, c.people...))); got != c.want {
			t.Errorf("%s:\n%swant\n%s", c.what, got, c.want)
		}
	}
}

// Never more than it sleeps, unless those who work there are more; back in time;
// never for less than is worth the walks.
func TestVisitsKeepTheirRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := site(rapid.IntRange(1, 6).Draw(t, "people"))
		d.Shelters[0].Sleeps = rapid.IntRange(0, 4).Draw(t, "tent sleeps")
		d.Shelters[1].Sleeps = rapid.IntRange(0, 4).Draw(t, "hut sleeps")
		var people [][]sim.Stretch
		for range d.People {
			var list []sim.Stretch
			for range rapid.IntRange(1, 8).Draw(t, "stretches") {
				spot, minutes := rapid.IntRange(0, 3).Draw(t, "spot"), sim.Time(rapid.IntRange(1, 25).Draw(t, "minutes"))
				if rapid.Bool().Draw(t, "free") {
					list = append(list, free(spot, minutes))
				} else {
					list = append(list, busy(spot, minutes))
				}
			}
			people = append(people, list)
		}
		draw := func(what string) times {
			start := sim.Time(rapid.IntRange(0, 40).Draw(t, what))
			return times{start, start + 5}
		}
		tl := played(d, draw("tent"), draw("hut"), people...)
		r := New(d)
		first := told(r.Read(tl))
		if again := told(r.Read(tl)); again != first {
			t.Fatalf("read twice: %s and %s", first, again)
		}
		check(t, tl, r.Read(tl))
	})
}

func check(t *rapid.T, tl *sim.Timeline, visits [][]Visit) {
	d := tl.Drill
	for who, list := range visits {
		for _, v := range list {
			walk := (v.In - v.Leave)
			if v.Back-v.Out != walk || v.Out-v.In <= Least || v.Leave < tl.Tasks[v.Shelter].End {
				t.Fatalf("person %d: %+v", who, v)
			}
			for _, s := range tl.People[who] {
				if s.What != sim.Free && s.From < v.Back && v.Leave < s.To {
					t.Fatalf("person %d is gone in at %+v while about %+v", who, v, s)
				}
			}
		}
	}
	stays := Stays(tl)
	for shelter := range d.Shelters {
		sleeps := d.Shelters[shelter].Sleeps
		for at := sim.Time(0); sleeps > 0 && at < tl.End; at += minute {
			working, gone := 0, 0
			for _, s := range stays {
				if s.Shelter == shelter && s.From <= at && at < s.To {
					if s.GoneIn {
						gone++
					} else {
						working++
					}
				}
			}
			if gone > 0 && working+gone > sleeps {
				t.Fatalf("%d inside by the timeline and %d gone in at %v where %d sleep", working, gone, at, sleeps)
			}
		}
	}
}

func TestALitStoveLeftAloneIsNamed(t *testing.T) {
	d := site(1)
	// Warms the tent from 2 to 8 and stays; then out for two minutes, for one, for good.
	tl := played(d, times{2, 8}, times{}, []sim.Stretch{busy(0, 4), busy(1, 10), busy(0, 2), busy(1, 3), busy(0, 1), busy(1, 5), busy(0, 10)})
	var got []string
	for _, a := range Alone(tl) {
		got = append(got, fmt.Sprintf("%v-%v", a.From.Minutes(), a.To.Minutes()))
	}
	if want := "[2-4 14-16 25-35]"; fmt.Sprint(got) != want {
		t.Errorf("alone %v, want %s", got, want)
	}
	// Put out when the last goes.
	d.Tasks = append(d.Tasks, sim.Task{Name: "put out", Item: -1, PutsOut: []int{0}})
	tl.Tasks = append(tl.Tasks, sim.TaskTimes{Start: 24 * minute, Worked: 25 * minute, End: 25 * minute, Unit: -1})
	if list := Alone(tl); len(list) != 2 {
		t.Errorf("put out at 25: %+v", list)
	}
	// A burner in the hut with nobody there.
	d.Tasks = append(d.Tasks, sim.Task{Name: "melt", Kind: sim.Melt, Item: -1, Spot: 2, Melt: &sim.Melting{}})
	tl.Tasks = append(tl.Tasks, sim.TaskTimes{Start: 5 * minute, Worked: 12 * minute, End: 12 * minute, Unit: 1})
	if list := Alone(tl); len(list) != 3 || list[1].Shelter != 1 || list[1].Task != 3 || list[1].To != 12*minute {
		t.Errorf("with a melt in the hut: %+v", list)
	}
}

// Two are counted on; one is inside from 4 to 14 and from 20 to 30 of 2 to 32.
func TestAssumedPeopleAgainstThoseInside(t *testing.T) {
	d := site(1)
	tl := played(d, times{2, 8}, times{}, []sim.Stretch{busy(0, 4), busy(1, 10), busy(0, 6), busy(1, 10), busy(0, 2)})
	a := Assumed(tl)
	if len(a) != 1 || a[0].From != 2*minute || a[0].To != 32*minute || a[0].People != 2 {
		t.Fatalf("%+v", a)
	}
	if a[0].Inside != 20.0/30 || a[0].Warming != 4.0/6 || !a[0].Off() || a[0].Needs != 100*(2-20.0/30) {
		t.Errorf("%+v", a[0])
	}
	// With fewer inside it is warm later than with those it counts on.
	d.Tasks[0].Warm.People = 0
	d.Weather = []sim.WeatherCase{{Rows: []sim.WeatherRow{{Air: -20}}}}
	d.Stoves[0].Efficiency = 0.9
	if a := Assumed(tl)[0]; a.End == sim.Never || a.End > tl.End {
		t.Errorf("warm by %v", a.End)
	}
}

func TestReadingAgainTakesNoMemory(t *testing.T) {
	d := site(3)
	d.Shelters[0].Sleeps = 1
	person := func() []sim.Stretch { return []sim.Stretch{busy(0, 6), free(0, 10), busy(0, 4), free(3, 50)} }
	tl := played(d, times{0, 5}, times{3, 30}, person(), person(), person())
	r := New(d)
	r.Read(tl)
	if n := testing.AllocsPerRun(100, func() { r.Read(tl) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
