package scenarios

import (
	"math/big"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
)

// eveningDrill returns the drill of testdata/evening.yaml under an order.
func eveningDrill(t *testing.T, order string) *sim.Drill {
	t.Helper()
	d, err := readGood(t, "evening.yaml").Drill(order)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestUnloadingStandsFirstAndIsNamedAfterItsItem(t *testing.T) {
	d := eveningDrill(t, "")
	for i, want := range []string{"unpack shovels", "unpack kitchen box", "unpack heater box", "unpack tent bag"} {
		task := d.Tasks[i]
		if task.Name != want || task.Item != i || task.Kind != sim.Takes || task.Spot != 0 || task.Crew != (sim.Crew{Min: 1, Max: 2}) {
			t.Errorf("task %d = %q, item %d, crew %v, want %q, item %d, crew 1-2", i, task.Name, task.Item, task.Crew, want, i)
		}
	}
	if got := d.Tasks[2].Amount.Usual(); got != 120_000 {
		t.Errorf("unpack heater box takes %v ms, want 120000", got)
	}
}

func TestQuantitiesAreConvertedExactly(t *testing.T) {
	d := eveningDrill(t, "")
	check := func(what string, got, want any) {
		t.Helper()
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", what, diff)
		}
	}
	check("28.8 km/h in m/s", d.Weather[0].Rows[1].Wind, 8.0)
	check("85 cm in m", d.Site.SnowDepth, 0.85)
	check("7.5 kW in W", d.Stoves[0].Power, 7500.0)
	check("0.2 L", d.Tasks[d.TaskNamed("melt for tea")].Melt.Start.String(), "1/5")
	check("pace 0.875 in thousandths", d.People[3].Pace, int64(875))
	check("125 % as a fraction", d.Tasks[d.TaskNamed("tramp the floor")].Slowed[0].To.Cmp(big.NewRat(5, 4)), 0)
	check("60 kJ/K in J/K", d.Shelters[0].Contents, 60_000.0)
	check("90 min", d.Weather[0].Rows[1].At, 90*sim.Minute)
	changed, err := readGood(t, "evening.yaml").WhatIf("a storm")
	if err != nil {
		t.Fatal(err)
	}
	// -10 F is -210/9 C; 30 kt is 30 * 1852 / 3600 m/s.
	check("-10 F in C", changed.drill.Weather[0].Rows[0].Air, float(big.NewRat(-210, 9)))
	check("30 kt in m/s", changed.drill.Weather[0].Rows[0].Wind, float(big.NewRat(30*1852, 3600)))
}

func TestTasksAreReadWhole(t *testing.T) {
	d := eveningDrill(t, "")
	floor := d.Tasks[d.TaskNamed("tramp the floor")]
	if floor.Crew != (sim.Crew{Min: 1, Max: 4}) || !floor.Joinable || floor.Teamwork != 0.9 || floor.Effort != sim.High || d.Spots[floor.Spot].Name != "tent" {
		t.Errorf("tramp the floor = %+v", floor)
	}
	if got := []string{floor.Slowed[0].When.String(), floor.Slowed[1].When.String(), floor.Slowed[2].When.String()}; !cmp.Equal(got, []string{"dark", "air below -25 C", "wind over 8 m/s"}) {
		t.Errorf("slowed when %q", got)
	}
	light := d.Tasks[d.TaskNamed("light the heater")]
	wantAfter := []sim.After{{Task: d.TaskNamed("pitch the tent")}, {Task: d.TaskNamed("set the flue"), Lag: 2 * sim.Minute}}
	if !cmp.Equal(light.After, wantAfter) || light.Mishap == nil || light.Mishap.AtMost != 3 || !light.Mishap.Again || light.Mishap.Chance != 0.12 {
		t.Errorf("light the heater comes after %+v with the mishap %+v", light.After, light.Mishap)
	}
	bank := d.Tasks[d.TaskNamed("bank the skirt")]
	if !bank.CanWait || len(bank.Makes) != 1 || *bank.Makes[0].AirChanges != 0.8 || bank.Makes[0].U != nil || !bank.Tools[0].Each {
		t.Errorf("bank the skirt = %+v", bank)
	}
	if set := d.Tasks[d.TaskNamed("let it set")]; set.Crew != (sim.Crew{}) || set.Joinable {
		t.Errorf("let it set has the crew %+v, joinable %t", set.Crew, set.Joinable)
	}
	if pitch := d.Tasks[d.TaskNamed("pitch the tent")]; pitch.Kind != sim.Timed || pitch.TimedPeople != 3 || !pitch.LayersOn {
		t.Errorf("pitch the tent = %+v", pitch)
	}
}

func TestMilestoneTargets(t *testing.T) {
	d := eveningDrill(t, "")
	by := map[string]sim.Time{}
	for _, m := range d.Milestones {
		by[m.Name] = m.By
	}
	// Arrival 13:40: 15:00 is 80 min later.
	if by["hot drink"] != 80*sim.Minute || by["heated"] != 100*sim.Minute || by["finish"] != sim.Never {
		t.Errorf("targets %v", by)
	}
	if by["shelter up"] != firstDark(d.Light) || by["shelter up"] <= 0 || by["shelter up"] > 6*sim.Hour {
		t.Errorf("dark comes at %v", sim.Clock(by["shelter up"]))
	}
	last := d.Milestones[len(d.Milestones)-1]
	if last.Name != sim.FinishName || len(last.When) != len(d.Tasks) {
		t.Errorf("the last milestone is %q of %d tasks, want finish of %d", last.Name, len(last.When), len(d.Tasks))
	}
}

func TestClockTimeIsTheNextAtOrAfterArrival(t *testing.T) {
	arrival := time.Date(2027, 1, 16, 13, 40, 0, 0, time.FixedZone("", 7200))
	for _, c := range []struct {
		clock string
		want  sim.Time
	}{
		{"13:40", 0}, {"13:41", sim.Minute}, {"13:39", 24*sim.Hour - sim.Minute}, {"0:00", 10*sim.Hour + 20*sim.Minute}, {"13:40:30", 30 * sim.Second},
	} {
		clock, ok := parseClock(c.clock)
		if got := nextClock(arrival, clock); !ok || got != c.want {
			t.Errorf("next %s = %v, want %v", c.clock, sim.Clock(got), sim.Clock(c.want))
		}
	}
}

func TestOrdersBecomeGroups(t *testing.T) {
	d := eveningDrill(t, "two groups")
	names := func(det sim.Group) (people, tasks string) {
		for _, p := range det.People {
			people += d.People[p].Name + " "
		}
		for _, i := range det.Sequence {
			tasks += d.Tasks[i].Name + ", "
		}
		return people, tasks
	}
	people, tasks := names(d.Groups[0])
	// Ciro, whom no group names, belongs to the first; the tasks that none names follow there.
	if want := "Leader Berend Ciro "; people != want {
		t.Errorf("first group has %q, want %q", people, want)
	}
	if want := "unpack shovels, unpack kitchen box, unpack heater box, unpack tent bag, tramp the floor, pitch the tent, light the heater, let it set, set the flue, warm the tent, bank the skirt, "; tasks != want {
		t.Errorf("first group does %q, want %q", tasks, want)
	}
	people, tasks = names(d.Groups[1])
	if people != "Aila " || tasks != "melt for tea, serve tea, " || d.Groups[1].Lead != 0 {
		t.Errorf("second group has %q and does %q after %d unloadings", people, tasks, d.Groups[1].Lead)
	}
	if !d.Groups[0].InTurn || d.Groups[1].InTurn || !cmp.Equal(d.Groups[1].Then, []int{0}) {
		t.Errorf("rules %t %t, then %v", d.Groups[0].InTurn, d.Groups[1].InTurn, d.Groups[1].Then)
	}
	if crew := d.Tasks[d.TaskNamed("pitch the tent")].Crew; crew != (sim.Crew{Min: 3, Max: 4}) {
		t.Errorf("the order narrows the crew to %v, want 3-4", crew)
	}
	if d := eveningDrill(t, ""); d.Order != "shelter first" || d.Groups[0].Lead != 4 || d.Groups[0].Name != sim.Everyone {
		t.Errorf("played without a name: %q with %d unloadings first", d.Order, d.Groups[0].Lead)
	}
}

func TestUnknownNamesOfOrdersAndWhatIfs(t *testing.T) {
	s := readGood(t, "evening.yaml")
	if _, err := s.Drill("two group"); err == nil || err.Error() != "evening.yaml: no order is called \"two group\"\n  hint: did you mean \"two groups\"?" {
		t.Errorf("Drill: %v", err)
	}
	if _, err := s.WhatIf("storm"); err == nil || !strings.Contains(err.Error(), `no what if is called "storm"`) {
		t.Errorf("WhatIf: %v", err)
	}
}

func TestTwoReadingsAreTheSame(t *testing.T) {
	a, b := eveningDrill(t, ""), eveningDrill(t, "")
	same := cmp.Options{cmp.Comparer(func(a, b *big.Rat) bool { return a.Cmp(b) == 0 }),
		cmp.Comparer(func(a, b sim.Distribution) bool {
			return (a == nil) == (b == nil) && (a == nil || a.Usual() == b.Usual() && a.Quantile(0.9) == b.Quantile(0.9))
		})}
	if diff := cmp.Diff(a, b, same); diff != "" {
		t.Error(diff)
	}
}
