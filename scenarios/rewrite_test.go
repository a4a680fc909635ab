package scenarios_test

import (
	"strings"
	"testing"

	"warmby/scenarios"
)

// TestRewriteKeepsAllButTheValues replaces values of several kinds.
func TestRewriteKeepsAllButTheValues(t *testing.T) {
	const src = `warmby: 1
title: small   # a comment
people: [{name: Åsa}]
tasks:
  # before
  dig: {work: [5 min, 8 min, 15 min], crew: 1}   # [practice]
  pitch:
    timed: {people: 1, minutes: 12 min}
  Åsa waits: {takes: "4 min"}
  long:
    work:
      lognormal: {median: 3 min, spread: 1.2}
`
	edits := []scenarios.Edit{
		{[]string{"tasks", "dig", "work"}, "9 min", "4 drills"},
		{[]string{"tasks", "pitch", "timed", "minutes"}, "{lognormal: {median: 14 min, spread: 1.3}}", "4 drills"},
		{[]string{"tasks", "Åsa waits", "takes"}, "5 min", "4 drills"},
		{[]string{"tasks", "long", "work"}, "5 min", "4 drills"},
		{[]string{"tasks", "gone", "work"}, "5 min", "4 drills"},
		{[]string{"day"}, "12 %", "4 drills"},
	}
	out, left, err := scenarios.Rewrite("small.yaml", []byte(src), edits)
	if err != nil {
		t.Fatal(err)
	}
	want := strings.NewReplacer(
		"work: [5 min, 8 min, 15 min], crew: 1}   # [practice]", "work: 9 min, crew: 1}   # [practice]; 4 drills, was [5 min, 8 min, 15 min]",
		"minutes: 12 min}", "minutes: {lognormal: {median: 14 min, spread: 1.3}}}   # 4 drills, was 12 min",
		"takes: \"4 min\"}", "takes: 5 min}   # 4 drills, was \"4 min\"",
	).Replace(src) + "day: 12 %   # 4 drills\n"
	if string(out) != want {
		t.Errorf("got\n%s\nwant\n%s", out, want)
	}
	if len(left) != 2 || left[0].Path[1] != "long" || left[1].Path[1] != "gone" {
		t.Errorf("left %v, want long and gone", left)
	}
}
