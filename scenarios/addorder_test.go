package scenarios

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/scenarios/library"
	"warmby/sim"
)

// someOrder is an order of every task and person of a drill in two groups.
func someOrder(d *sim.Drill, name string) sim.Order {
	o := sim.Order{Name: name, Groups: []sim.Group{
		{Name: "first", InTurn: true, Then: []int{1}}, {Name: "second: the others", Then: []int{0}}}}
	for p := range d.People {
		o.Groups[p%2].People = append(o.Groups[p%2].People, p)
	}
	for i := range d.Tasks {
		if !d.Tasks[i].Unloads() {
			o.Groups[i%2].Sequence = append(o.Groups[i%2].Sequence, i)
		}
		if c := d.Tasks[i].Crew; c.Max > c.Min && len(o.Crews) == 0 {
			o.Crews = append(o.Crews, sim.CrewChoice{Task: i, Crew: sim.Crew{Min: c.Max, Max: c.Max}})
		}
	}
	return o
}

// An order added to a file is read again as it was, and nothing else changes.
func TestOrdersAddedAreReadAgain(t *testing.T) {
	texts := map[string]string{
		"no orders":        "warmby: 1\ntitle: x # the title\npeople: [{name: Ann}, {name: Bo}]\ntasks: {dig: {work: 9 min, crew: 1-2}, \"a: b\": {takes: 1 min}}\n# the end\n",
		"no last newline":  "warmby: 1\ntitle: x\npeople: [{name: Ann}, {name: Bo}]\ntasks: {dig: {takes: 9 min}, rest: {takes: 1 min}}",
		"orders in braces": "warmby: 1\ntitle: x\npeople: [{name: Ann}, {name: Bo}]\norders: {own: {sequence: [rest]}} # mine\ntasks: {dig: {takes: 9 min}, rest: {takes: 1 min}}\n",
		"empty braces":     "warmby: 1\ntitle: x\npeople: [{name: Ann}, {name: Bo}]\norders: {}\ntasks: {dig: {takes: 9 min}, rest: {takes: 1 min}}\n",
		"windows": "warmby: 1\r\ntitle: x\r\npeople: [{name: Ann}, {name: Bo}]\r\norders:\r\n    own:\r\n        sequence: [rest,\r\n          dig\r\n          ]\r\n    # a comment of the orders\r\n\r\n# of the tasks\r\n" +
			"tasks: {dig: {takes: 9 min}, rest: {takes: 1 min}}\r\n",
		"end of document": "warmby: 1\ntitle: x\npeople: [{name: Ann}, {name: Bo}]\ntasks: {dig: {takes: 9 min}, rest: {takes: 1 min}}\n...\n",
	}
	for _, name := range library.Names() {
		data, _ := library.Read(name)
		texts[name] = string(data)
	}
	for name, text := range texts {
		s, err := Read(name, []byte(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		d, before := s.Parts()
		added := []sim.Order{someOrder(d, "improved"), someOrder(d, "no")}
		out, err := s.WithOrders([]byte(text), added...)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		again, err := Read(name, out)
		if err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
			continue
		}
		_, after := again.Parts()
		want := append(append([]sim.Order(nil), before...), added...)
		if strings.Contains(name, "braces") { // there they stand first
			want = append(append([]sim.Order(nil), added...), before...)
		}
		if diff := cmp.Diff(want, after); diff != "" {
			t.Errorf("%s: orders (-want +read again):\n%s", name, diff)
		}
		for _, line := range strings.Split(text, "\n") {
			if !strings.Contains(line, "orders:") && !strings.Contains(string(out), line) {
				t.Errorf("%s: the line %q is gone", name, line)
			}
		}
		if strings.Contains(text, "\r\n") && strings.Count(string(out), "\n") != strings.Count(string(out), "\r\n") {
			t.Errorf("%s: line endings are mixed", name)
		}
	}
}

func TestNoOrderIsAddedToAFileInBraces(t *testing.T) {
	text := `{"warmby": 1, "title": "x", "people": [{"name": "Ann"}], "tasks": {"dig": {"takes": "9 min"}}}`
	s, err := Read("x", []byte(text))
	if err != nil {
		t.Skip("such a file is not read at all: ", err)
	}
	if _, err := s.WithOrders([]byte(text), sim.Order{Name: "a", Groups: []sim.Group{{}}}); err == nil {
		t.Error("an order was added")
	}
}

func TestOrdersAreWrittenAsJSON(t *testing.T) {
	s, err := Read("x", []byte("warmby: 1\ntitle: x\npeople: [{name: Ann}, {name: Bo}]\ntasks: {dig: {work: 9 min, crew: 1-2}, \"<b>\": {takes: 1 min}}\n"))
	if err != nil {
		t.Fatal(err)
	}
	d, _ := s.Parts()
	got := string(OrderJSON(d, someOrder(d, "a")))
	want := `{"crews": {"dig": 2}, "groups": {"first": {"people": ["Ann"], "rule": "in turn", "sequence": ["dig"], "then": "second: the others"}, ` +
		`"second: the others": {"people": ["Bo"], "sequence": ["<b>"], "then": "first"}}}`
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
