package scenarios

import (
	"strings"
	"testing"
)

const small = `warmby: 1
title: small   # the pit stays in the title
site: {arrival: 2027-01-16T15:00:00+02:00}
people:
  - {name: Ada, skills: [stove]}   # Ada leads
  - name: "Bo"
spots: {pit: {walk: 1 min}}
tools: {saw: 1}
loads:
  sled:
    pack: [{item: mats, brings: {saw: 1}}, {item: pot}]
tasks:
  # the pit comes first
  pit:   {takes: 5 min, spot: pit, what: Dig the pit}
  'eat': {takes: 5 min, each: true, after: [pit, {task: 'unpack mats', lag: 1 min}], needs: [mats]}
  saw blocks:
    takes: 5 min
    tools: {saw: 1}
    after: ["eat: Bo"]
lookouts:
  watch: {from: pit, who: [Bo], spot: pit, relief: 10 min, until: eat}
milestones: {fed: {when: eat, by: 60 min}}
orders:
  one:
    groups:
      all of us: {people: [Ada, Bo], sequence: [unpack sled, "eat: Ada", pit], then: all}
    crews: {pit: 1}
what if:
  alone: {people: {Bo: absent}, tasks: {pit: {takes: 8 min}}}
  hurt: {people: {Bo: {hurt: 5 min, helpers: [Ada], spot: pit}}}
`

func TestRenameFindsEveryPlace(t *testing.T) {
	for _, c := range []struct {
		kind, from, to string
		places         int
		lines          []string // that must be there after it
		kept           []string // that must be there still
	}{
		{"task", "pit", "dig: deep", 6, []string{
			`  "dig: deep":   {takes: 5 min, spot: pit, what: Dig the pit}`, `after: ["dig: deep", {task`, `{from: "dig: deep", who`,
			`"eat: Ada", "dig: deep"]`, `crews: {"dig: deep": 1}`, `tasks: {"dig: deep": {takes: 8 min}}`,
		}, []string{"# the pit comes first", "spots: {pit:", "# the pit stays"}},
		{"spot", "pit", "hole", 4, []string{"spots: {hole:", "spot: hole, what", "spot: hole, relief", "spot: hole}}}"}, []string{"  pit:   {takes"}},
		{"", "Bo", "Cleo", 6, []string{`name: "Cleo"`, `"eat: Cleo"`, "who: [Cleo]", "[Ada, Cleo]", "{Cleo: absent}", "{Cleo: {hurt"}, nil},
		{"", "Ada", "Dag", 4, []string{"{name: Dag, skills", "[Dag, Bo]", `"eat: Dag"`, "helpers: [Dag]"}, []string{"# Ada leads"}},
		{"", "eat", "have supper", 5, []string{"'have supper': {takes", `["have supper: Bo"]`, `"have supper: Ada"`, "until: have supper", "when: have supper"}, nil},
		{"", "mats", "floor mats", 3, []string{"item: floor mats", "'unpack floor mats'", "needs: [floor mats]"}, nil},
		{"", "sled", "pulk", 2, []string{"  pulk:", "[unpack pulk,"}, nil},
		{"", "saw", "snow saw", 3, []string{"tools: {snow saw: 1}\nloads", "brings: {snow saw: 1}", "    tools: {snow saw: 1}"}, []string{"saw blocks:"}},
		{"", "watch", "post", 1, []string{"  post: {from"}, nil},
		{"", "fed", "full", 1, []string{"{full: {when"}, nil},
		{"", "one", "two", 1, []string{"  two:\n    groups"}, nil},
		{"group", "all of us", "we", 1, []string{"      we: {people"}, nil},
	} {
		s, err := Read("small", []byte(small))
		if err != nil {
			t.Fatal(err)
		}
		out, got, err := s.Rename([]byte(small), c.kind, c.from, c.to)
		if err != nil {
			t.Errorf("%s to %s: %v", c.from, c.to, err)
			continue
		}
		if got.Places != c.places {
			t.Errorf("%s to %s: %d places, want %d", c.from, c.to, got.Places, c.places)
		}
		for _, want := range append(c.lines, c.kept...) {
			if !strings.Contains(string(out), want) {
				t.Errorf("%s to %s: no %q in\n%s", c.from, c.to, want, out)
			}
		}
		again, err := Read("small", out)
		if err != nil {
			t.Fatal(err)
		}
		back, _, err := again.Rename(out, got.Kind, c.to, c.from)
		if err != nil {
			t.Fatal(err)
		}
		if c.to != "dig: deep" && string(back) != small { // that one keeps its quotes
			t.Errorf("%s to %s and back gives\n%s", c.from, c.to, back)
		}
	}
}

func TestRenameRefuses(t *testing.T) {
	s, err := Read("small", []byte(small))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ kind, from, to, want string }{
		{"", "pit", "hole", "\"pit\" is the name of several things: spot, task\n  hint: say which: --kind spot"},
		{"", "Bo", "Ada", "a person is called \"Ada\" already, in line 5\n  hint: choose another name"},
		{"", "Boo", "Cleo", "nothing is called \"Boo\"\n  hint: did you mean \"Bo\"?"},
		{"stove", "Bo", "Cleo", "no stove is called \"Bo\""},
		{"dog", "Bo", "Cleo", "there are no names of the kind \"dog\"\n  hint: one of task, person"},
		{"", "unpack mats", "x", "\"unpack mats\" is the unloading of the item\n  hint: rename the item: \"mats\""},
		{"", "fed", "", "the name of a milestone must not be empty, got \"\""},
		{"", "fed", "a\u202eb", "the name of a milestone "},
		{"", "mats", "sled", "with that name the file would be wrong: line 11: an item and a load are both called \"sled\""},
		{"", "eat", "unpack pot", "with that name the file would be wrong: line 15: \"unpack pot\" is the name of an unloading"},
	} {
		_, _, err := s.Rename([]byte(small), c.kind, c.from, c.to)
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s to %s: %v, want %s", c.from, c.to, err, c.want)
		}
	}
}

// A name that a shipped scenario uses can be changed there and back, and the file
// is what it was.
func TestRenameThereAndBack(t *testing.T) {
	src := []byte(shipped(t, "harl-plateau-morning"))
	s, err := Read("harl", src)
	if err != nil {
		t.Fatal(err)
	}
	done := map[string]bool{}
	for _, m := range s.b.mentions() {
		name := m.node.Value
		if done[m.kind+name] || strings.HasPrefix(name, "unpack ") || strings.Contains(name, ": ") {
			continue
		}
		if done[m.kind+name] = true; len(done)%4 > 0 {
			continue // a quarter of them takes two seconds
		}
		if _, err := kindOf(s.b.mentions(), m.kind, name); err != nil {
			continue // skills, what-ifs
		}
		out, there, err := s.Rename(src, m.kind, name, "something new")
		if err != nil {
			t.Errorf("%s %s: %v", m.kind, name, err)
			continue
		}
		again, err := Read("harl", out)
		if err != nil {
			t.Fatal(err)
		}
		back, here, err := again.Rename(out, m.kind, "something new", name)
		if err != nil || string(back) != string(src) || here != there {
			t.Errorf("%s %s there and back: %v; %v and %v", m.kind, name, err, there, here)
		}
	}
	if len(done) < 40 {
		t.Errorf("%d names tried, want 40 or more", len(done))
	}
}
