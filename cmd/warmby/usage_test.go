package main

import (
	"bytes"
	"strings"
	"testing"

	"warmby/internal/thorough"
	"warmby/scenarios"
)

// examples returns the command lines of a usage text that begin with warmby.
func examples(usage string) []string {
	_, text, _ := strings.Cut(usage, "\nExamples:\n")
	var lines []string
	for _, line := range strings.Split(text, "\n") {
		if !strings.HasPrefix(line, "  ") {
			break
		}
		line, _, _ = strings.Cut(strings.TrimSpace(line), "   ") // what follows explains
		if strings.HasPrefix(line, "warmby ") {
			lines = append(lines, line)
		}
	}
	return lines
}

// words splits a command line as a shell does: at spaces outside quotes.
func words(line string) []string {
	var words []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			words = append(words, part)
		} else {
			words = append(words, strings.Fields(part)...)
		}
	}
	return words
}

func TestExamplesOfEveryCommandWork(t *testing.T) {
	onlyLong(t)
	root := rootCommand(&environment{})
	texts := map[string]string{"warmby": root.Long}
	for _, c := range root.Commands() {
		texts[c.Name()] = c.Long
	}
	for name, text := range texts {
		t.Run(name, func(t *testing.T) {
			lines := examples(text)
			if len(lines) == 0 {
				t.Fatal("the usage text has no example")
			}
			t.Chdir(t.TempDir())
			if name != "new" {
				answer(t, "warmby", "new", "mine.yaml", "--yes")
			}
			for _, line := range lines {
				answer(t, words(line)...)
			}
		})
	}
}

// answer runs a command line, which must succeed, and returns what it prints.
func answer(t *testing.T, line ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := run(line[1:], strings.NewReader(""), &stdout, &stderr); code != exitDone {
		t.Fatalf("%q exits with %d, want 0:\n%s", line, code, &stderr)
	}
	return stdout.String()
}

func TestEveryCommandSaysWhatItIs(t *testing.T) {
	for _, c := range rootCommand(&environment{}).Commands() {
		if c.Short == "" || !strings.Contains(c.Long, "\nUsage:\n  warmby "+c.Name()) {
			t.Errorf("%s: short text %q, long text %q: want both, with a usage line", c.Name(), c.Short, c.Long)
		}
		for _, line := range strings.Split(helpText(c), "\n") {
			if len([]rune(line)) > 100 {
				t.Errorf("%s: help has a line of %d characters: %q", c.Name(), len([]rune(line)), line)
			}
		}
	}
}

// Every unit that the page names must be one that the reader takes.
func TestUnitsPageNamesUnitsThatAreRead(t *testing.T) {
	_, table, _ := strings.Cut(unitsPage, "left out.\n\n")
	table, _, _ = strings.Cut(table, "\n\n")
	with := map[string]string{ // a place in a scenario for a quantity of each kind
		"time":            "tasks: {dig: {work: %}}",
		"temperature":     "site: {snow: {temperature: -%}}\ntasks: {dig: {work: 1 min}}",
		"speed":           "weather: [{at: 0 min, air: -5 C, wind: %}]\ntasks: {dig: {work: 1 min}}",
		"length":          "site: {snow: {depth: %}}\ntasks: {dig: {work: 1 min}}",
		"weight":          "loads: {pulk: {pack: [{item: box, weight: %, takes: 1 min}]}}\ntasks: {dig: {work: 1 min}}",
		"volume of water": "stoves: {burner: {power: 2 kW, efficiency: 50 %%, fuel: white gas}}\nsite: {snow: {temperature: -5 C}}\ntasks: {tea: {melt: {water: %, to: boil, stove: burner, pot: 2 L}}}",
		"volume of air":   "shelters: {tent: {like: wall tent, volume: %}}\ntasks: {dig: {work: 1 min}}",
		"area":            "shelters: {tent: {like: wall tent, skin: %}}\ntasks: {dig: {work: 1 min}}",
		"power":           "stoves: {burner: {like: wood stove, power: %}}\ntasks: {dig: {work: 1 min}}",
		"density":         "site: {snow: {density: 1%}}\ntasks: {dig: {work: 1 min}}",
		"loss of a skin":  "shelters: {tent: {like: wall tent, u: %}}\ntasks: {dig: {work: 1 min}}",
		"heat to warm it": "shelters: {tent: {like: wall tent, contents: %}}\ntasks: {dig: {work: 1 min}}",
		"air changes":     "shelters: {tent: {like: wall tent, air changes: %}}\ntasks: {dig: {work: 1 min}}",
		"clothing":        "tasks: {dig: {work: 1 min}}\nwhat if: {cold: {people: {Aila: {clothing: {march: %, halt: 2 clo}}}}}",
		"share":           "site: {}\nspots: {post: {walk: 1 min, sheltered: %}}\ntasks: {dig: {work: 1 min}}",
	}
	rows := strings.Split(table, "\n")
	if len(rows) != len(with) {
		t.Errorf("the page has %d kinds of quantity, the test %d", len(rows), len(with))
	}
	for _, row := range rows {
		kind, units := strings.TrimSpace(row[:18]), row[18:]
		units, _, _ = strings.Cut(units, ", and together")
		for _, unit := range strings.Split(units, ", ") {
			quantity := "8 " + strings.TrimSpace(unit)
			if strings.TrimSpace(unit) == "K" {
				quantity = "268 K"
			}
			text := strings.ReplaceAll(with[kind], "%%", "\x00")
			text = strings.ReplaceAll(strings.ReplaceAll(text, "%", quantity), "\x00", "%")
			if strings.Contains(text, "-268 K") {
				text = strings.ReplaceAll(text, "-268 K", "268 K")
			}
			text = "warmby: 1\ntitle: Units\npeople: [{name: Aila}]\n" + text + "\n"
			if _, err := scenarios.Read("units.yaml", []byte(text)); err != nil {
				t.Errorf("%s in %s:\n%v\n%s", kind, unit, err, text)
			}
		}
	}
}

// onlyLong leaves out a test that plays for long, but with -update: .ci/run plays
// them all.
func onlyLong(t *testing.T) {
	t.Helper()
	if !thorough.Asked() && !*update {
		t.Skip("plays for long: with WARMBY_LONG=1")
	}
}
