package scenarios

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"github.com/google/jsonschema-go/jsonschema"
	"go.yaml.in/yaml/v4"

	"warmby/scenarios/library"
)

func resolvedSchema(t testing.TB) *jsonschema.Resolved {
	t.Helper()
	var s jsonschema.Schema
	if err := json.Unmarshal(Schema(), &s); err != nil {
		t.Fatal(err)
	}
	r, err := s.Resolve(nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// asJSON turns a tree into what an editor hands to a schema: text, numbers,
// true and false, lists and mappings.
func asJSON(n *yaml.Node) any {
	switch n.Kind {
	case yaml.DocumentNode:
		return asJSON(n.Content[0])
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			m[n.Content[i].Value] = asJSON(n.Content[i+1])
		}
		return m
	case yaml.SequenceNode:
		list := []any{}
		for _, c := range n.Content {
			list = append(list, asJSON(c))
		}
		return list
	}
	switch n.Tag {
	case "!!int", "!!float":
		var f float64
		if json.Unmarshal([]byte(n.Value), &f) == nil {
			return f
		}
	case "!!bool":
		return n.Value == "true"
	case "!!null":
		return nil
	}
	return n.Value
}

func validate(r *jsonschema.Resolved, src []byte) error {
	var n yaml.Node
	if err := yaml.Load(src, &n); err != nil {
		return err
	}
	return r.Validate(asJSON(&n))
}

func TestSchemaAcceptsWhatTheReaderReads(t *testing.T) {
	r := resolvedSchema(t)
	check := func(name string, src []byte) {
		if _, err := Read(name, src); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := validate(r, src); err != nil {
			t.Errorf("schema refuses %s: %v", name, err)
		}
	}
	for _, name := range []string{"evening.yaml", "small.yaml"} {
		src, err := os.ReadFile("testdata/" + name)
		if err != nil {
			t.Fatal(err)
		}
		check(name, src)
	}
	for _, name := range library.Names() {
		src, _ := library.Read(name)
		check(name, src)
	}
}

// onlyTheReaderKnows names the broken files whose shape is right: what is
// wrong with them takes names, sums, order or arithmetic with units.
var onlyTheReaderKnows = map[string]bool{
	// What YAML allows and the parser hands on.
	"version not first": true, "anchor": true, "tag": true, "doubled key": true, "escape in a value": true,
	// Bounds of quantities.
	"colder than possible": true, "more than a hundred percent": true, "warm snow": true, "too many digits": true,
	"covers nothing": true, "slowed to nothing": true, "hotter than boiling": true, "hotter than boiling up there": true, "no relief": true,
	"crew of too many": true, "crew falls": true, "four decimals of pace": true, "arrival is no date": true,
	// What keys mean together.
	"latitude without longitude": true, "clock without arrival": true, "no snow temperature": true, "weather not from 0": true,
	"weather falls back": true, "conditions without weather": true, "dark without a place": true, "snow without depth": true, "chance by snow of no depth": true,
	"stove without power": true, "no share for pots": true, "share for pots it does not hold": true,
	"shelter without skin": true, "no kind of task": true, "two kinds of task": true, "three values fall": true, "uniform backwards": true,
	"work by nobody": true, "unloading by nobody": true, "more roles than crew": true, "slowed clock time": true, "again without end": true,
	"start with more than water": true, "overloaded": true, "milestone of nothing": true, "finish with tasks": true,
	"sequence and groups": true, "crew wider than the task": true,
	// Names.
	"spot in no shelter": true, "two people of one name": true, "tool and stove": true, "item named twice": true, "item named like its load": true,
	"tool that nothing brings": true, "stove as a tool": true, "item on no load": true, "spot that is not there": true,
	"after a task that is not there": true, "after a whole load": true, "task named like an unloading": true, "task named finish": true,
	"stove that is not there": true, "makes a shelter that is not there": true, "lookout by a stranger": true, "lookout by one twice": true,
	"milestone of a stranger": true, "sequence names a task twice": true, "sequence names no task": true, "load and its item": true,
	"two groups for one": true, "then nowhere": true, "then itself": true, "group named all": true,
	// What-ifs are checked once they are merged.
	"what if about a stranger": true, "what if without a name that is there": true, "what if with an unknown key": true,
	"what if with a bare number": true, "too many helpers": true, "helpers of nobody hurt": true, "spot of nobody hurt": true, "hurt nowhere": true,
}

func TestSchemaRefusesWhatHasTheWrongShape(t *testing.T) {
	r := resolvedSchema(t)
	_, list := brokenFiles(t)
	for _, b := range list {
		err := validate(r, []byte(b.src))
		if (err == nil) != onlyTheReaderKnows[b.name] {
			t.Errorf("%s: schema says %v, want a refusal: %t", b.name, err, !onlyTheReaderKnows[b.name])
		}
	}
}

func TestSchemaIsTheSameBytesEachTime(t *testing.T) {
	a := Schema()
	for range 5 {
		if !bytes.Equal(a, Schema()) {
			t.Fatal("two calls differ")
		}
	}
	if !bytes.Contains(a, []byte(`"$schema": "https://json-schema.org/draft/2020-12/schema"`)) {
		t.Error("no draft named")
	}
}

func TestEveryObjectHasANameOfItsOwnInTheSchema(t *testing.T) {
	seen := map[string]bool{}
	for _, o := range objectsOf(fileKeys()) {
		if seen[defName(o.name)] {
			t.Errorf("two objects are called %q", o.name)
		}
		seen[defName(o.name)] = true
	}
}
