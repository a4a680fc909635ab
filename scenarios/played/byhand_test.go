package played

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/draw"
)

// The expectations of testdata hold the working, see the package
// documentation. They are never rewritten from what an engine says.
func TestDrillsComeOutAsWorkedByHand(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("no files in testdata: %v", err)
	}
	for _, file := range files {
		a, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var name, body string
		wants := 1
		for _, f := range a.Files {
			if n, ok := strings.CutSuffix(f.Name, ".yaml"); ok {
				if wants == 0 {
					t.Errorf("%s: %s has no expectation", file, name)
				}
				name, body, wants = n, fmt.Sprintf("warmby: 1\ntitle: %q\n%s", n, f.Data), 0
				continue
			}
			wants++
			rule := strings.TrimSuffix(filepath.Base(file), ".txtar")
			t.Run(rule+"/"+strings.TrimSuffix(f.Name, ".want"), func(t *testing.T) {
				compare(t, name, body, string(f.Data))
			})
		}
		if wants == 0 {
			t.Errorf("%s: %s has no expectation", file, name)
		}
	}
}

// compare plays a scenario and compares what comes out with an expectation.
func compare(t *testing.T, name, body, expectation string) {
	want := readWant(t, expectation)
	s, err := scenarios.Read(name, []byte(body))
	if want.unread != "" {
		if err == nil || !strings.Contains(err.Error(), want.unread) {
			t.Errorf("Read: %v, want an error that says %q", err, want.unread)
		}
		return
	}
	if err == nil && want.whatIf != "" {
		s, err = s.WhatIf(want.whatIf)
	}
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill(want.order)
	if err != nil {
		t.Fatal(err)
	}
	tl, err := play(t, d, draw.Usual(d))
	switch {
	case want.stops == "" && err != nil:
		t.Fatal(err)
	case want.stops != "" && (err == nil || !strings.Contains(err.Error(), want.stops)):
		t.Errorf("played: %v, want it to stop with %q", err, want.stops)
	}
	if want.stops != "" && want.lines == nil {
		return
	}
	if diff := cmp.Diff(want.lines, told(t, tl, want)); diff != "" {
		t.Errorf("-worked by hand +played:\n%s", diff)
	}
}

// want is an expectation as it is read.
type want struct {
	order, whatIf, stops, unread string
	lines                        []string // in a standard form, sorted
	places, milestones           []string // named in it, to be told
}

func readWant(t *testing.T, text string) (w want) {
	t.Helper()
	for _, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		word, rest, _ := strings.Cut(line, " ")
		switch {
		case line == "" || line[0] == '#':
			continue
		case word == "order":
			w.order = rest
			continue
		case strings.HasPrefix(line, "what if "):
			w.whatIf = strings.TrimPrefix(line, "what if ")
			continue
		case word == "stops":
			w.stops = rest
			continue
		case word == "unread":
			w.unread = rest
			continue
		}
		colon := strings.LastIndex(line, ": ")
		if colon < 0 {
			t.Fatalf("expectation %q: no colon", line)
		}
		head, tail := line[:colon], line[colon+2:]
		switch word {
		case "place":
			w.places = append(w.places, head)
		case "reached", "late":
			_, m, _ := strings.Cut(head, " ")
			w.milestones = append(w.milestones, m)
		}
		w.lines = append(w.lines, head+": "+standard(t, tail))
	}
	slices.Sort(w.lines)
	return w
}

// standard brings the times of a line into the form of clock.
func standard(t *testing.T, line string) string {
	t.Helper()
	fields := strings.Fields(line)
	for i, f := range fields {
		bare := strings.TrimSuffix(f, ",")
		if dt, err := time.ParseDuration(bare); err == nil {
			if dt%time.Millisecond != 0 {
				t.Fatalf("expectation %q: %s is no whole number of milliseconds", line, bare)
			}
			fields[i] = clock(sim.Time(dt.Milliseconds())) + strings.TrimPrefix(f, bare)
		}
	}
	return strings.Join(fields, " ")
}

func clock(at sim.Time) string {
	if at == sim.Never {
		return "never"
	}
	return (time.Duration(at) * time.Millisecond).String()
}

// told is what a timeline says, in the form of an expectation.
func told(t *testing.T, tl *sim.Timeline, w want) []string {
	t.Helper()
	var lines []string
	for i, task := range tl.Tasks {
		lines = append(lines, fmt.Sprintf("%s: %s %s %s %s", tl.Drill.Tasks[i].Name,
			clock(task.Called), clock(task.Start), clock(task.End), names(tl.Drill, task.People)))
	}
	for _, p := range w.places {
		lines = append(lines, p+": "+spells(t, tl, p))
	}
	for _, m := range w.milestones {
		i := slices.IndexFunc(tl.Drill.Milestones, func(x sim.Milestone) bool { return x.Name == m })
		if i < 0 {
			t.Fatalf("no milestone %q", m)
		}
		word := "reached"
		if tl.Drill.Milestones[i].By != sim.Never && !tl.Met(i) {
			word = "late"
		}
		lines = append(lines, fmt.Sprintf("%s %s: %s", word, m, clock(tl.Milestones[i])))
	}
	slices.Sort(lines)
	return lines
}

func names(d *sim.Drill, people []int) string {
	if len(people) == 0 {
		return "-"
	}
	var out []string
	for _, p := range people {
		out = append(out, d.People[p].Name)
	}
	return strings.Join(out, ",")
}

// spells tells who stands at a place of a lookout from when to when; head is
// "place LOOKOUT N".
func spells(t *testing.T, tl *sim.Timeline, head string) string {
	t.Helper()
	fields := strings.Fields(head)
	place := int(fields[len(fields)-1][0] - '1')
	lookout := slices.IndexFunc(tl.Drill.Lookouts, func(l sim.Lookout) bool {
		return l.Name == strings.Join(fields[1:len(fields)-1], " ")
	})
	if lookout < 0 {
		t.Fatalf("no lookout for %q", head)
	}
	type spell struct {
		who      string
		from, to sim.Time
	}
	var all []spell
	for p, stretches := range tl.People {
		for _, s := range stretches {
			if s.What == sim.Watching && s.Lookout == lookout && s.Place == place {
				all = append(all, spell{tl.Drill.People[p].Name, s.From, s.To})
			}
		}
	}
	slices.SortFunc(all, func(a, b spell) int { return int(a.from - b.from) })
	var out []string
	for _, s := range all {
		to := clock(s.to)
		if s.to == tl.End {
			to = "end"
		}
		out = append(out, fmt.Sprintf("%s %s %s", s.who, clock(s.from), to))
	}
	if len(out) == 0 {
		return "nobody"
	}
	return strings.Join(out, ", ")
}
