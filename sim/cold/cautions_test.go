package cold

import (
	"regexp"
	"strings"
	"testing"

	"warmby/sim"
)

func topics(cautions []Caution) string {
	var out []string
	for _, c := range cautions {
		out = append(out, c.Topic)
	}
	return strings.Join(out, ", ")
}

// everything is a drill that calls for all cautions there are.
func everything() *sim.Drill {
	d := camp(sim.WeatherRow{Air: -31, Wind: 15, Humidity: 0.8})
	d.Site.SnowDepth = 0.9
	d.Stoves[0].Fuel = "white gas"
	d.Spots[0].In = -1
	d.Tasks = append(d.Tasks,
		sim.Task{Name: "wood", What: "A dead spruce, bucked", Item: -1, Hands: sim.Thin, Felling: true},
		sim.Task{Name: "water", Kind: sim.Melt, Item: -1, Melt: &sim.Melting{IceHole: true, Boil: true}})
	d.Stoves = append(d.Stoves, sim.Stove{Name: "gas stove", Fuel: "isobutane", FuelByMass: true})
	d.Shelters = append(d.Shelters, sim.Shelter{Name: "hut"})
	d.People = append(d.People, sim.Person{Name: "Berend", March: 1.6, Halt: 3.5, Casualty: true})
	d.Loads = []sim.Load{{Name: "pulk", Limit: 90}, {Name: "pack", Limit: 30}}
	d.Items = []sim.Item{{Name: "tent", Load: 0, Weight: 50}, {Name: "food", Load: 0, Weight: 35}, {Name: "rope", Load: 1, Weight: 26}}
	return d
}

func TestCautionsAreChosenByTheScenario(t *testing.T) {
	const end = "what this is"
	bare := camp(sim.WeatherRow{Air: -26, Wind: 4, Humidity: 0.8})
	bare.Tasks, bare.Stoves, bare.Shelters = bare.Tasks[:2], nil, nil
	mild := camp(sim.WeatherRow{Air: 12, Wind: 4})
	mild.Tasks, mild.Stoves, mild.Shelters = mild.Tasks[:2], nil, nil
	hill := camp(sim.WeatherRow{Air: -2, Wind: 0})
	hill.Tasks = hill.Tasks[:2]
	hill.Stoves, hill.Shelters = nil, nil
	hill.Tasks[0].What = "Carry everything over the fell, climbing slowly"
	wood := camp(sim.WeatherRow{Air: -2, Wind: 0})
	wood.Tasks = wood.Tasks[:3]
	wood.Stoves[0] = sim.Stove{Name: "wood stove", Fuel: "wood", FuelByMass: true}
	unclothed := camp(sim.WeatherRow{Air: 12, Wind: 4})
	unclothed.Tasks, unclothed.Stoves, unclothed.Shelters = unclothed.Tasks[:2], nil, nil
	unclothed.People[0].March = 0
	for _, c := range []struct {
		name string
		d    *sim.Drill
		want string
	}{
		{"all", everything(), "carbon monoxide, flame in a tent, cold casualty, scalds, liquid fuel, fuel gas, alarm, pitching in wind, hand line, melting in the open wind, " +
			"cold injury, wind chill, bare hands, felling, ice, site and snow, overload, " + end},
		{"bare", bare, "cold injury, wind chill, " + end},
		{"mild", mild, end},
		{"somebody's clothing is not given", unclothed, "no account of cold, " + end},
		{"a hill is not felling", hill, "cold injury, " + end},
		{"wood stove", wood, "carbon monoxide, flame in a tent, alarm, cold injury, bare hands, " + end},
	} {
		if got := topics(Cautions(c.d, nil)); got != c.want {
			t.Errorf("%s: %s\nwant %s", c.name, got, c.want)
		}
	}
}

// Each caution has its line: one of the list, of some 80 characters.
func TestEveryCautionHasItsLine(t *testing.T) {
	people := []Person{{Name: "A", Why: "no account: x"}, {Name: "B", PassedAt: 5}}
	for _, c := range Cautions(everything(), people) {
		line := c.Line()
		if place(c) == len(briefs) || len(line) > 80 || !strings.HasSuffix(line, ".") {
			t.Errorf("%s: %q", c.Topic, line)
		}
	}
	if all := MostUrgent(Cautions(everything(), people), 5); topics(all) != "carbon monoxide, flame in a tent, cold casualty, cold strain, what this is" {
		t.Errorf("most urgent: %s", topics(all))
	}
}

// At the edge nothing is said: air just as cold as the gas boils, wind just as
// strong as it may be, half a per cent and less.
func TestCautionsBeginAtTheirEdges(t *testing.T) {
	d := camp(sim.WeatherRow{Air: -0.5, Wind: 4})
	d.Stoves[0].Fuel = "butane"
	d.Tasks = append(d.Tasks, sim.Task{Name: "melt", Kind: sim.Melt, Item: -1, Melt: &sim.Melting{To: 40}})
	said := func() string { return ", " + topics(Cautions(d, nil)) + "," }
	for _, c := range []struct {
		topic  string
		change func()
		back   func()
	}{
		{"fuel gas", func() { d.Weather[0].Rows[0].Air = -0.6 }, func() { d.Weather[0].Rows[0].Air = -0.5 }},
		{"melting in the open wind", func() { d.Weather[0].Rows[0].Wind = 4.1 }, func() { d.Weather[0].Rows[0].Wind = 4 }},
		{"pitching in wind", func() { d.Weather[0].Rows[0].Wind = 10.9 }, func() { d.Weather[0].Rows[0].Wind = 10.8; d.Tasks[3].Slowed = []sim.Slowdown{{}} }},
		{"scalds", func() { d.Tasks[3].Melt.To = 50 }, func() { d.Tasks[3].Melt.To = 49 }},
	} {
		if strings.Contains(said(), ", "+c.topic+",") {
			t.Errorf("%s is said too soon", c.topic)
		}
		if c.change(); !strings.Contains(said(), ", "+c.topic+",") {
			t.Errorf("%s is not said", c.topic)
		}
		if c.back(); strings.Contains(said(), ", "+c.topic+",") {
			t.Errorf("%s is said at the edge", c.topic)
		}
	}
}

// The burner of 2 kW that keeps a tent of 15 m3 with one air change at 10 C in -20
// C: H 30 K is over 2 kW, so it burns all; 2 kW of white gas in 4.2 L/s of air lead to
// 1.8 %.
func TestAStoveWithoutAFlueSaysItsCarbonDioxide(t *testing.T) {
	d := camp(sim.WeatherRow{Air: -20})
	d.Stoves[0] = sim.Stove{Name: "burner", Power: 2000, Efficiency: 0.5, Fuel: "white gas"}
	d.Shelters[0] = sim.Shelter{Name: "tent", Volume: 15, Skin: 30, U: 3, AirChanges: 1}
	co := Cautions(d, nil)[0]
	if co.Topic != "carbon monoxide" || !strings.Contains(co.Text, "to 1.8 % carbon dioxide in the air") || !strings.Contains(co.Text, `"burner" has no flue`) {
		t.Errorf("%+v", co)
	}
	d.Stoves[0].Flue = true
	if co := Cautions(d, nil)[0]; strings.Contains(co.Text, "dioxide") {
		t.Errorf("with a flue: %s", co.Text)
	}
	d.Stoves[0].Flue = false
	d.Shelters[0].AirChanges = 15
	if co := Cautions(d, nil)[0]; strings.Contains(co.Text, "dioxide") {
		t.Errorf("in a gale of fresh air: %s", co.Text)
	}
}

func TestOverloadWarnsNearTheLimit(t *testing.T) {
	d := everything()
	got := overload(d) // 85 of 90 kg is near, 26 of 30 is not
	if len(got) != 1 || got[0].Because != `"pulk" carries 85.0 of 90.0 kg` {
		t.Errorf("%+v", got)
	}
}

func TestCautionsTellWhatTheAccountsSay(t *testing.T) {
	d := camp(cold26())
	d.People = append(d.People, sim.Person{Name: "Berend"})
	tl := played(d, nil, free(0, 2*sim.Hour))
	tl.People = append(tl.People, nil)
	d.Tasks[1].LayersOn = false
	d.Tasks, tl.Tasks = d.Tasks[:2], tl.Tasks[:2]
	d.Stoves, d.Shelters = nil, nil
	d.Spots[1].In = -1
	got := Cautions(d, Account(tl))
	if want := "cold injury, wind chill, cold strain, no account of cold, layers, what this is"; topics(got) != want {
		t.Errorf("%s\nwant %s", topics(got), want)
	}
	for _, c := range got {
		if c.Topic == "cold strain" && !strings.HasPrefix(c.Because, "Aila after ") || c.Topic == "no account of cold" && c.Because != "Berend" {
			t.Errorf("%+v", c)
		}
	}
}

// Nothing here may tell anybody that all is well.
func TestNoCautionCallsAnythingSafe(t *testing.T) {
	verdict := regexp.MustCompile(`(?i)\b(safe|safely|no (risk|danger)|harmless)\b`)
	for _, c := range Cautions(everything(), []Person{{Name: "A", Why: "no account: x"}, {Name: "B", PassedAt: 5}}) {
		for _, text := range []string{c.Topic, c.Because, c.Text, c.DeferTo} {
			if verdict.MatchString(text) {
				t.Errorf("%s: %q", c.Topic, text)
			}
		}
		if c.Text == "" || c.DeferTo == "" && c.Topic != "what this is" && c.Topic != "layers" && c.Topic != "no account of cold" {
			t.Errorf("%s defers to nobody or says nothing", c.Topic)
		}
	}
}

func TestEveryReportSaysWhatTheSumIs(t *testing.T) {
	all := Cautions(&sim.Drill{}, nil)
	last := all[len(all)-1].Text
	for _, part := range []string{"extension of a standard for steady exposure", "neither wet clothing nor fingers", "plans and trains", "not medical or safety advice"} {
		if !strings.Contains(last, part) {
			t.Errorf("%q is missing from %q", part, last)
		}
	}
}

// Of several drills the worst counts: the coldest air, the strongest wind, the
// heaviest load, and whatever only one of them has.
func TestJointCautionsAreTheGravestOfEach(t *testing.T) {
	mild, storm := camp(sim.WeatherRow{Air: -5, Wind: 2, Humidity: 0.8}), camp(sim.WeatherRow{Air: -31, Wind: 15, Humidity: 0.8})
	mild.Loads = []sim.Load{{Name: "pulk", Limit: 90}, {Name: "pack", Limit: 30}}
	mild.Items = []sim.Item{{Name: "tent", Load: 0, Weight: 89}, {Name: "rope", Load: 1, Weight: 5}}
	storm.Loads = mild.Loads
	storm.Items = []sim.Item{{Name: "tent", Load: 0, Weight: 85}, {Name: "rope", Load: 1, Weight: 29}}
	storm.Tasks = append(storm.Tasks, sim.Task{Name: "water", Kind: sim.Melt, Item: -1, Melt: &sim.Melting{IceHole: true}})
	for _, lists := range [][][]Caution{
		{Cautions(mild, nil), Cautions(storm, nil)},
		{Cautions(storm, nil), Cautions(mild, nil)},
	} {
		all := Joint(lists...)
		text := ""
		for _, c := range all {
			text += c.Topic + ": " + c.Because + "\n"
		}
		for _, want := range []string{"air down to -31 C\n", "wind 15.0 m/s)\n", "ice: ", "\"pulk\" carries 89.0 of 90.0 kg\n", "\"pack\" carries 29.0 of 30.0 kg\n"} {
			if strings.Count(text, want) != 1 {
				t.Errorf("%q stands %d times in\n%s", want, strings.Count(text, want), text)
			}
		}
		if all[len(all)-1].Text != Standard || strings.Count(text, "what this is") != 1 {
			t.Errorf("what the tool is does not come last, once:\n%s", text)
		}
	}
}
