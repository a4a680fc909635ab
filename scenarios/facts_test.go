package scenarios

import (
	"errors"
	"math/big"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
)

// drillsOf returns the drills of all orders.
func drillsOf(t *testing.T, s *Scenario) (list []*sim.Drill) {
	t.Helper()
	for _, order := range s.Orders() {
		d, err := s.Drill(order)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, d)
	}
	return list
}

// sameNumbers looks into laws as well, and compares numbers by their value.
var sameNumbers = cmp.Options{
	cmp.Comparer(func(a, b *big.Rat) bool { return a == nil && b == nil || a != nil && b != nil && a.Cmp(b) == 0 }),
	cmp.Exporter(func(t reflect.Type) bool { return t != reflect.TypeFor[big.Rat]() }),
}

func shipped(t *testing.T, name string) string {
	t.Helper()
	src, err := os.ReadFile("library/" + name + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(src)
}

func TestTonightIsTheFileWithItsFactsWrittenIn(t *testing.T) {
	src := shipped(t, "kestrel-fell")
	s, err := Read("kestrel", []byte(src))
	if err != nil {
		t.Fatal(err)
	}
	got, remarks, err := s.Tonight(Facts{
		Arrive: "15:30", Air: "-28 C", Wind: "8 m/s", Without: []string{"Edda"},
		Late: []Late{{"pulk", "20min"}, {"Caro", "9 min"}}, Dead: []Dead{{"burner", 1}},
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(remarks) > 0 {
		t.Errorf("remarks %q, want none", remarks)
	}
	var copied []string
	for _, line := range strings.Split(src, "\n") {
		switch {
		case strings.HasPrefix(line, "what if:"):
			line = "what if: {}"
		case strings.Contains(line, "name: Edda"), strings.HasPrefix(line, "  two down:"), strings.HasPrefix(line, "    people: {Berend: absent"),
			strings.HasPrefix(line, "    lookouts: {north post"), strings.HasPrefix(line, "  one burner dead"),
			strings.HasPrefix(line, "  a fourth shovel"), strings.HasPrefix(line, "  the pulk comes late"):
			continue
		case strings.Contains(line, "{at: "):
			from, to := strings.Index(line, "air:"), strings.Index(line, ", humidity")
			line = line[:from] + "air: -28 C, wind: 8 m/s" + line[to:]
		}
		line = strings.ReplaceAll(line, ", Edda]", "]")
		line = strings.ReplaceAll(line, "[Edda, ", "[")
		line = strings.ReplaceAll(line, " 14:55 +", " 15:30 +")
		line = strings.ReplaceAll(line, "    arrives: 6 min", "    arrives: 20 min")
		line = strings.ReplaceAll(line, "{name: Caro,", "{name: Caro, arrives: 9 min,")
		line = strings.ReplaceAll(line, "burner: {power", "burner: {count: 1, power")
		copied = append(copied, line)
	}
	want, err := Read("copy", []byte(strings.Join(copied, "\n")))
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(drillsOf(t, want), drillsOf(t, got), sameNumbers); diff != "" {
		t.Errorf("facts written into a copy (-) and laid over the file (+) differ:\n%s", diff)
	}
	if diff := cmp.Diff(drillsOf(t, s), drillsOf(t, got), sameNumbers); diff == "" {
		t.Error("the facts changed nothing")
	}
	if s.drill.Site.Arrival.Hour() != 14 || len(s.drill.People) != 6 {
		t.Error("the scenario itself was changed")
	}
}

func TestTonightRefusesOddFactsAllAtOnce(t *testing.T) {
	s, err := Read("kestrel", []byte(shipped(t, "kestrel-fell")))
	if err != nil {
		t.Fatal(err)
	}
	_, _, err = s.Tonight(Facts{
		Arrive: "25:00", Air: "-28", Wind: "fast", Without: []string{"Brend", "Leader", "Aila"},
		Late: []Late{{"sledge", "20min"}, {"pulk", "20"}}, Dead: []Dead{{"heater", 1}, {"burner", 3}, {"primus", 1}},
	})
	var odd *OddFacts
	if !errors.As(err, &odd) {
		t.Fatalf("error %v, want odd facts", err)
	}
	for _, want := range []OddFact{
		{"without", "Brend", `nobody is called "Brend"`, `did you mean "Berend"?`},
		{"without", "Leader, Aila", `nobody else has the skill "stove", which`, "give somebody else the skill"},
		{"without", "Leader", `nobody else may do "look over the site"`, `"who"`},
		{"stove-dead", "heater", `no other "heater" is there, and "warm the tent" burns one`, "--set \"tasks.warm the tent.warm.stove=burner\""},
		{"stove-dead", "burner=3", `there are 2 of "burner", not 3`, "burner=1"},
		{"stove-dead", "primus", `no stove is called "primus"`, `known here: "heater", "burner"`},
		{"late", "sledge=20min", `no load and nobody is called "sledge"`, `known here: "pulk"`},
		{"late", "pulk=20", "the unit is missing", `"20 min"`},
		{"arrive", "25:00", `not a clock time, got "25:00"`, "15:30"},
		{"air", "-28", `the unit is missing, got "-28"`, `"-28 C"`},
		{"wind", "fast", `must be`, "such as"},
	} {
		found := false
		for _, got := range odd.List {
			found = found || got.Fact == want.Fact && got.Value == want.Value && strings.HasPrefix(got.Reason, want.Reason) && strings.Contains(got.Hint, want.Hint)
		}
		if !found {
			t.Errorf("no odd fact like %+v in\n%+v", want, odd.List)
		}
	}
	if len(odd.List) != 11 {
		t.Errorf("%d odd facts, want 11:\n%v", len(odd.List), odd)
	}
}

func TestTonightMissesTargetsThatHavePassed(t *testing.T) {
	s, err := Read("kestrel", []byte(shipped(t, "kestrel-fell")))
	if err != nil {
		t.Fatal(err)
	}
	got, remarks, err := s.Tonight(Facts{Arrive: "16:30"})
	if err != nil {
		t.Fatal(err)
	}
	drink, ready := -1, -1
	for i, m := range s.drill.Milestones {
		switch m.Name {
		case "hot drink":
			drink = i
		case "ready for the night":
			ready = i
		}
	}
	want := "hot drink is wanted by " + s.drill.Milestones[drink].ByText + ", before you arrive at 16:30: it counts as missed."
	if len(remarks) != 1 || remarks[0] != want {
		t.Errorf("remarks %q, want %q", remarks, want)
	}
	if by := got.drill.Milestones[drink].By; by != 0 {
		t.Errorf("hot drink by %v, want at once", by)
	}
	later := sim.Time(got.drill.Site.Arrival.Sub(s.drill.Site.Arrival).Milliseconds())
	if by, clock := got.drill.Milestones[ready].By, s.drill.Milestones[ready].By-later; by != clock {
		t.Errorf("ready for the night by %v, want the same time on the clock, %v", by, clock)
	}
}
