package scenarios

import (
	"errors"
	"os"
	"runtime"
	"strings"
	"testing"

	"warmby/scenarios/library"
	"warmby/sim"
)

// FuzzRead hands anything to the reader: it never panics, and what it returns
// is either a scenario whose orders can all be played or problems that stand
// within the file.
func FuzzRead(f *testing.F) {
	_, list := brokenFiles(f)
	for _, b := range list {
		f.Add([]byte(b.src))
	}
	for _, name := range []string{"evening.yaml", "small.yaml"} {
		src, err := os.ReadFile("testdata/" + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(src)
	}
	for _, name := range library.Names() {
		src, _ := library.Read(name)
		f.Add(src)
	}
	for _, h := range hostileFiles() {
		if len(h.src) < 10_000 {
			f.Add([]byte(h.src))
		}
	}
	f.Fuzz(func(t *testing.T, src []byte) { checkRead(t, src) })
}

// checkRead reads a file and checks what holds for every file.
func checkRead(t *testing.T, src []byte) {
	s, err := Read("f.yaml", src)
	if err != nil {
		var p *Problems
		if !errors.As(err, &p) || s != nil || len(p.List) == 0 {
			t.Fatalf("error is a %T with a scenario %v", err, s != nil)
		}
		last := Problem{}
		for _, one := range p.List {
			if one.Line < 1 || one.Col < 1 || one.Message == "" || one.Line < last.Line || one.Line == last.Line && one.Col < last.Col {
				t.Fatalf("problem without a place, a message or order: %+v", one)
			}
			last = one
		}
		if strings.ContainsFunc(strings.ReplaceAll(err.Error(), "\n", ""), steers) {
			t.Fatalf("message with a control character: %q", err.Error())
		}
		return
	}
	if s.Title() == "" {
		t.Fatal("a scenario without a title")
	}
	for _, o := range append(s.Orders(), "") {
		d, err := s.Drill(o)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, d)
	}
	for _, w := range s.WhatIfs() {
		if _, err := s.WhatIf(w); err != nil {
			t.Fatalf("what if %q was sound when read: %v", w, err)
		}
	}
}

// sound checks what every engine counts on in a drill.
func sound(t *testing.T, d *sim.Drill) {
	t.Helper()
	if len(d.Groups) == 0 || len(d.Spots) == 0 || len(d.Milestones) == 0 || d.Milestones[len(d.Milestones)-1].Name != sim.FinishName {
		t.Fatalf("a drill without groups, spots or finish: %+v", d)
	}
	for i, task := range d.Tasks {
		switch {
		case task.Name == "" || task.Spot < 0 || task.Spot >= len(d.Spots):
			t.Fatalf("task %d: %+v", i, task)
		case task.Unloads() != (i < len(d.Items)) || task.Unloads() && task.Item != i:
			t.Fatalf("task %d of %d unloads item %d", i, len(d.Items), task.Item)
		case (task.Amount == nil) != (task.Kind == sim.Melt || task.Kind == sim.Warm):
			t.Fatalf("task %q has the amount %v", task.Name, task.Amount)
		case task.Kind == sim.Melt && (task.Melt == nil || task.Melt.Water.Sign() <= 0 || task.Melt.Pot != nil && task.Melt.Pot.Sign() <= 0):
			t.Fatalf("task %q melts %+v", task.Name, task.Melt)
		case task.Crew.Min > task.Crew.Max || task.Worked() && task.Crew.Min < 1:
			t.Fatalf("task %q has the crew %+v", task.Name, task.Crew)
		}
		if task.Amount != nil {
			for _, p := range []float64{1e-9, 0.5, 1 - 1e-9} {
				if ms := sim.Milliseconds(task.Amount.Quantile(p)); ms < 0 {
					t.Fatalf("task %q takes %d ms with the chance %v", task.Name, ms, p)
				}
			}
		}
	}
	seen := map[int]bool{}
	for _, det := range d.Groups {
		for _, p := range det.People {
			if seen[p] {
				t.Fatalf("person %d belongs to two groups", p)
			}
			seen[p] = true
		}
	}
	if len(seen) != len(d.People) {
		t.Fatalf("%d of %d people belong to a group", len(seen), len(d.People))
	}
}

type hostileFile struct{ name, src string }

// hostileFiles are files made to take long or much memory.
func hostileFiles() []hostileFile {
	rep := strings.Repeat
	head := "warmby: 1\ntitle: a\n"
	sound := func(name string, tasks int) string {
		var b strings.Builder
		b.WriteString(head + "people: [{name: A}, {name: B}, {name: C}]\ntasks:\n")
		for i := range tasks {
			b.WriteString("  " + name + string(rune('a'+i%26)) + string(rune('a'+i/26)) + ": {work: [1 min, 2 min, 3 min], crew: 1-3, slowed: {when: snow deeper than 1 m, to: 120 %}}\n")
		}
		b.WriteString("site: {snow: {depth: 2 m}}\nwhat if:\n")
		for i := range 30 {
			b.WriteString("  w" + string(rune('a'+i%26)) + string(rune('a'+i/26)) + ": {day: 3 %}\n")
		}
		return b.String()
	}
	full := func(s string) string { return rep(s, maxBytes/len(s)) }
	var bomb strings.Builder
	bomb.WriteString(head + "a0: &a0 [x,x,x,x,x,x,x,x,x]\n")
	for i := 1; i < 30; i++ {
		bomb.WriteString("a" + rep("b", i) + ": &a" + rep("b", i) + " [" + rep("*a"+rep("b", i-1)+map[bool]string{true: "0", false: ""}[i == 1]+",", 9) + "x]\n")
	}
	var whatIfs strings.Builder
	whatIfs.WriteString(head + "people:\n" + rep("- {name: A}\n", 99) + "tasks:\n")
	for i := range 490 {
		whatIfs.WriteString("  t" + rep("x", i%90) + string(rune('a'+i%26)) + string(rune('a'+i/26)) + ": {work: [1 min, 2 min, 3 min], crew: 1-3, after: nobody, needs: [a, b, c, d, e, f, g, h]}\n")
	}
	whatIfs.WriteString("what if:\n")
	for i := range 30 {
		whatIfs.WriteString("  w" + string(rune('a'+i%26)) + string(rune('a'+i/26)) + ": {day: 3 %}\n")
	}
	var unknownNames strings.Builder
	unknownNames.WriteString(head + "people: [{name: A}]\ntasks:\n")
	for i := range 480 {
		unknownNames.WriteString("  task number " + rep("y", i%60) + string(rune('a'+i%26)) + string(rune('a'+i/26)) + ": {takes: 1 min}\n")
	}
	unknownNames.WriteString("milestones:\n")
	for i := range 45 {
		unknownNames.WriteString("  m" + string(rune('a'+i%26)) + string(rune('a'+i/26)) + ": {when: [" + rep("task numbar yyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyyy,", 900) + "x]}\n")
	}
	return []hostileFile{
		{"brackets", rep("[", 100_000)},
		{"a file of brackets", full("[")},
		{"braces", rep("{a: ", 100_000)},
		{"dashes", full("- ")},
		{"question marks", full("? ")},
		{"closed brackets", rep("[", 9000) + rep("]", 9000)},
		{"flow list", "[" + rep("x,", 500_000) + "]"},
		{"quoted list", "[" + rep(`"",`, 300_000) + "]"},
		{"block list", full("- x\n")},
		{"doubled keys", head + rep("a:\n", 340_000)},
		{"many keys", head + full("a: 1\n")[:maxBytes-100]},
		{"alias bomb", bomb.String()},
		{"anchors", full("&a ")},
		{"long number", head + "day: " + rep("9", 100_000) + " %\n"},
		{"long plain number", head + "teamwork: 0." + rep("9", 900_000) + "\n"},
		{"large exponent", head + "teamwork: 1e999999999\n"},
		{"large exponent with a unit", head + "day: 1e999999999 %\n"},
		{"hex", head + "teamwork: 0x" + rep("f", 900_000) + "\n"},
		{"one long text", head + "x: '" + rep("a", 1_000_000) + "'\n"},
		{"folded text", head + "x: >\n" + rep(" x\n", 340_000)},
		{"newlines", full("\n")},
		{"carriage returns", full("\r")},
		{"comments", full("#\n")},
		{"documents", full("--- a\n")},
		{"too large", rep("a", maxBytes+1)},
		{"what-ifs over many tasks", sound("task ", 490)},
		{"what-ifs over a broken file", whatIfs.String()},
		{"unknown names", unknownNames.String()},
		{"people by the thousand", head + "people:\n" + rep("- {name: A, pace: -1, skills: [a, a]}\n", 25_000)},
	}
}

// mostMemory is what reading any file of up to 1 MiB may allocate. Time is not
// bounded, for machines differ: what takes long allocates much as well.
const mostMemory = 256 << 20

func TestReadsHostileFilesInLittleMemory(t *testing.T) {
	for _, h := range hostileFiles() {
		t.Run(h.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&before)
			Read("h.yaml", []byte(h.src))
			runtime.ReadMemStats(&after)
			checkRead(t, []byte(h.src))
			if used := after.TotalAlloc - before.TotalAlloc; used > mostMemory {
				t.Errorf("allocated %d MiB in all", used>>20)
			}
			t.Logf("%d MiB", (after.TotalAlloc-before.TotalAlloc)>>20)
		})
	}
}
