package plots

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/cold"
)

// account adds up a ledger from minutes and the heat stored over them, W/m2.
func account(name string, parts ...[2]float64) cold.Person {
	p := cold.Person{Name: name}
	from, debt := sim.Time(0), 0.0
	for _, part := range parts {
		to := from + at(part[0])
		debt = max(0, debt-part[1]*part[0]/60)
		p.Ledger = append(p.Ledger, cold.Entry{From: from, To: to, S: part[1], Debt: debt})
		if debt > p.Peak {
			p.Peak, p.PeakAt = debt, to
		}
		from = to
	}
	return p
}

// winterCold are accounts for the people of the winter course.
func winterCold() []cold.Person {
	return []cold.Person{
		account("Leader", [2]float64{40, 5}, [2]float64{30, -40}, [2]float64{51, 10}),
		account("Aila", [2]float64{25, -60}, [2]float64{20, 30}, [2]float64{25, -90}, [2]float64{51, 15}),
		account("Berend", [2]float64{26, 10}, [2]float64{12, -60}, [2]float64{83, 40}),
		account("Cécile", [2]float64{121, 20}),
		{Name: "Дмитрий", Why: `no account: the clothing of "Дмитрий" is not given`},
		account("Øyvind", [2]float64{60, -20}, [2]float64{61, -25}),
	}
}

func TestColdLinesHaveACornerWhereTheLossIsWonBack(t *testing.T) {
	// 30 min at -40 W/m2 lose 20 Wh/m2; at 60 W/m2 they are back after 20 min.
	p := account("a", [2]float64{30, -40}, [2]float64{50, 60}, [2]float64{10, -12})
	want := []sample{{0, 0}, {at(30), 20}, {at(50), 0}, {at(80), 0}, {at(90), 2}}
	if got := debts(p.Ledger); !slices.Equal(got, want) {
		t.Errorf("corners %v, want %v", got, want)
	}
}

func TestColdPanelShowsEachPersonAgainstTheLimit(t *testing.T) {
	p := Drill(winterCourse().timeline(), Options{Cold: winterCold()})
	text := shown(p)
	for _, want := range []string{
		"cold\nWh/m²\n", "limit 40 Wh/m²\n", "Leader 20\n", "Aila 52.5\n", "Berend 12\n", "Øyvind 45.4\n",
		`No cold account: Дмитрий (the clothing of "Дмитрий" is not given).`,
		"Without a line, for their loss stays under 2 Wh/m²: Cécile.", "our extension of a standard for steady exposure",
	} {
		if !strings.Contains(strings.ReplaceAll(text, "\n", " "), strings.ReplaceAll(want, "\n", " ")) {
			t.Errorf("%q is not in the picture", want)
		}
	}
	for _, f := range faults(p) {
		t.Error(f)
	}
}

func TestColdPanelIsLeftOutWhenNobodyHasALine(t *testing.T) {
	for _, c := range []struct {
		people []cold.Person
		want   string
	}{
		{nil, ""},
		{[]cold.Person{{Name: "a", Why: "no account: the scenario has no weather"}}, "No cold account: a (the scenario has no weather)."},
		{[]cold.Person{account("a", [2]float64{20, 5})}, "Cold: nobody loses 2 Wh/m² or more that is not won back."},
	} {
		text := shown(Drill(winterCourse().timeline(), Options{Cold: c.people}))
		if strings.Contains(text, "limit 40") {
			t.Errorf("%v: there is a panel", c.people)
		}
		if !strings.Contains(text, c.want) {
			t.Errorf("%q is not in the picture", c.want)
		}
	}
}

// Bands: Environment Canada, wind chill hazards; the index by the joint
// formula of 2001: -15 C and 40 km/h give -27 in its chart, -40 C and 60 km/h -64.
func TestWeatherSaysWhatItDoesToBareSkin(t *testing.T) {
	for _, c := range []struct {
		air, kmh float64
		want     string
	}{
		{-15, 40, "wind chill −27: low risk of frostbite, hypothermia if out long"},
		{-40, 60, "wind chill −64: bare skin can freeze in less than 2 min"},
		{12, 10, "no wind chill index in this weather"},
	} {
		if got := skinTexts(sim.Step{Weather: true, Air: c.air, Wind: c.kmh / 3.6})[0]; got != c.want {
			t.Errorf("%v C, %v km/h: %q, want %q", c.air, c.kmh, got, c.want)
		}
	}
}

// Nine people: the three coldest have lines, the others stand under the picture.
func TestOfManyOnlyTheColdestHaveLines(t *testing.T) {
	var people []cold.Person
	for i := range 9 {
		people = append(people, account(fmt.Sprintf("P%d", i), [2]float64{60, -10 - float64(i)}))
	}
	p, said := coldStrain(people)
	if len(p.traces) != 3 || !strings.HasPrefix(p.traces[0].name, "P6 ") || !strings.HasPrefix(p.traces[2].name, "P8 ") {
		t.Errorf("%d lines", len(p.traces))
	}
	if !strings.Contains(strings.Join(said, "\n"), "P0 10, P1 11, P2 12, P3 13, P4 14, P5 15.") {
		t.Errorf("%q", said)
	}
	if p, _ = coldStrain(people[:8]); len(p.traces) != 8 {
		t.Errorf("%d lines of eight people", len(p.traces))
	}
}

// In bars of a few minutes names become numbers; these stand written out all the same.
func TestSafetyStepsAreAlwaysWrittenOut(t *testing.T) {
	d := &sim.Drill{
		Spots: []sim.Spot{{In: -1}}, People: []sim.Person{{Name: "Aila"}, {Name: "Berend"}},
		Tasks: []sim.Task{
			{Name: "hang the alarm", Kind: sim.Takes, Item: -1},
			{Name: "clear the vents", Kind: sim.Takes, Item: -1},
			{Name: "light the heater", Kind: sim.Takes, Item: -1, After: []sim.After{{Task: 0}, {Task: 1}}},
			{Name: "warm the tent", Kind: sim.Warm, Item: -1, Warm: &sim.Warming{}, After: []sim.After{{Task: 2}}},
			{Name: "jackets on", Kind: sim.Takes, Item: -1, LayersOn: true},
			{Name: "put out the heater", Kind: sim.Takes, Item: -1, PutsOut: []int{0}},
			{Name: "dig the latrine", Kind: sim.Work, Item: -1},
		},
	}
	tl := &sim.Timeline{Drill: d, End: sim.Hour}
	for i := range d.Tasks {
		tl.Tasks = append(tl.Tasks, sim.TaskTimes{Start: sim.Time(i) * sim.Minute, End: sim.Time(i+1) * sim.Minute, People: []int{i % 2}})
	}
	want := "Safety steps: hang the alarm 0 s (Aila); clear the vents 1 min (Berend); light the heater 2 min (Aila); warm the tent 3 min (Berend); " +
		"jackets on 4 min (Aila); put out the heater 5 min (Berend)."
	if got := safetySteps(tl, axis{}); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
}

func TestNoTwoLinesHaveTheSameDash(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range append(slices.Clone(lineLooks), levelLook) {
		dash := fmt.Sprint(k.dash)
		if seen[dash] {
			t.Errorf("dash %s twice", dash)
		}
		seen[dash] = true
	}
}

// anyCold draws accounts that may be far over the limit, end early or be none.
func anyCold(t *rapid.T, people int) []cold.Person {
	var out []cold.Person
	for range people {
		var parts [][2]float64
		for range rapid.IntRange(0, 6).Draw(t, "entries") {
			parts = append(parts, [2]float64{rapid.Float64Range(0, 100).Draw(t, "minutes"), rapid.Float64Range(-200, 200).Draw(t, "stored")})
		}
		p := account(names().Draw(t, "cold"), parts...)
		if rapid.IntRange(0, 9).Draw(t, "none") == 0 {
			p.Why = "no account: " + names().Draw(t, "why")
		}
		out = append(out, p)
	}
	return out
}

func TestEveryColdLineIsNamed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tl := anyTimeline(t)
		people := anyCold(t, rapid.IntRange(0, 20).Draw(t, "accounts"))
		p := Drill(tl, Options{Cold: people})
		if f := faults(p); len(f) > 0 {
			t.Fatal(strings.Join(f, "\n"))
		}
		text := shown(p)
		_, said := coldStrain(people)
		under := strings.Join(said, " ")
		for _, c := range people {
			name := clean(c.Name) + " " + number(c.Peak)
			noted := slices.ContainsFunc(p.notes, func(n string) bool { return n == name })
			named := strings.Contains(text, name+"\n")
			if len(name) > 100 { // so long that it stands in several lines of the key
				named = named || strings.Contains(strings.ReplaceAll(text, "\n", " "), name+" ")
			}
			others := len(people) > manyPeople && strings.Contains(under, name)
			if c.Why == "" && c.Peak >= leastLoss && !noted && !named && !others {
				t.Fatalf("the line of %q has no name", name)
			}
		}
	})
}
