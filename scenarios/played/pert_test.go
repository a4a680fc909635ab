package played

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"warmby/sim"
)

// activity is one line of a network: three values and what comes before.
type activity struct {
	name            string
	o, m, p         float64
	before          string // letters
	sixths, varOf36 int    // filled in: 6 times the mean, 36 times the variance
}

// house is a network of Hillier and Lieberman, Introduction to Operations
// Research, project management: from memory, its sums worked again.
var house = []activity{
	{name: "A", o: 1, m: 2, p: 3}, {name: "B", o: 2, m: 3.5, p: 8, before: "A"},
	{name: "C", o: 6, m: 9, p: 18, before: "B"}, {name: "D", o: 4, m: 5.5, p: 10, before: "C"},
	{name: "E", o: 1, m: 4.5, p: 5, before: "C"}, {name: "F", o: 4, m: 4, p: 10, before: "E"},
	{name: "G", o: 5, m: 6.5, p: 11, before: "D"}, {name: "H", o: 5, m: 8, p: 17, before: "EG"},
	{name: "I", o: 3, m: 7.5, p: 9, before: "C"}, {name: "J", o: 3, m: 9, p: 9, before: "FI"},
	{name: "K", o: 4, m: 4, p: 4, before: "J"}, {name: "L", o: 1, m: 5.5, p: 7, before: "J"},
	{name: "M", o: 1, m: 2, p: 3, before: "H"}, {name: "N", o: 5, m: 5.5, p: 9, before: "KL"},
}

// Two networks of the textbooks, with the mean (o + 4m + p)/6 of each activity
// as its fixed length and everybody free. A sixth of a week is played as 10
// minutes, so that the arithmetic is exact.
func TestTextbookNetworksHaveTheirCriticalPath(t *testing.T) {
	for _, c := range []struct {
		name, source string
		list         []activity
		path         string
		sixths       int // of the whole
		variance36   int
	}{
		{"Reliable Construction", "Hillier and Lieberman, Introduction to Operations Research, project management: from memory, its sums worked again",
			house, "ABCEFJLN", 44 * 6, 9 * 36},
		{"posted exercise", "justaaa.com, exercise 460263: its three values; its sums worked again",
			[]activity{
				{name: "A", o: 8, m: 10, p: 15}, {name: "B", o: 7, m: 8, p: 9},
				{name: "C", o: 5, m: 6, p: 10, before: "A"}, {name: "D", o: 3, m: 3, p: 3, before: "A"},
				{name: "E", o: 1, m: 5, p: 9, before: "BD"}, {name: "F", o: 4, m: 7, p: 10, before: "BD"},
				{name: "G", o: 3, m: 8, p: 10, before: "C"}, {name: "H", o: 5, m: 7, p: 9, before: "E"},
				{name: "I", o: 4, m: 5, p: 8, before: "E"}, {name: "J", o: 2, m: 5, p: 8, before: "F"},
				{name: "K", o: 1, m: 3, p: 6, before: "HI"},
			}, "ADEHK", 172, 154}, // 28.6667 weeks, variance 4.2778
	} {
		t.Run(c.name, func(t *testing.T) {
			variance := 0
			for i := range c.list {
				a := &c.list[i]
				a.sixths = int(a.o + 4*a.m + a.p)
				a.varOf36 = int((a.p - a.o) * (a.p - a.o))
				if strings.Contains(c.path, a.name) {
					variance += a.varOf36
				}
			}
			if variance != c.variance36 {
				t.Errorf("variance along the path %d/36, want %d/36 (%s)", variance, c.variance36, c.source)
			}
			// With people enough for all at once, and with a crew of nobody.
			for _, crew := range []int{0, 1} {
				d := drill(t, c.name, network(c.name, c.list, crew), "")
				tl := usual(t, d)
				if want := sim.Time(c.sixths) * 10 * sim.Minute; tl.Finish() != want {
					t.Errorf("crew %d: finish %s, want %s (%s)", crew, sim.Clock(tl.Finish()), sim.Clock(want), c.source)
				}
				var path strings.Builder
				for i, critical := range tl.Critical(len(d.Milestones) - 1) {
					if critical {
						path.WriteString(d.Tasks[i].Name)
					}
				}
				if path.String() != c.path {
					t.Errorf("crew %d: critical %s, want %s (%s)", crew, path.String(), c.path, c.source)
				}
			}
		})
	}
}

func network(title string, list []activity, crew int) string {
	var people, tasks strings.Builder
	for i := range list {
		fmt.Fprintf(&people, "%s{name: P%d}", comma(i), i+1)
	}
	for _, a := range list {
		before := slices.DeleteFunc(strings.Split(a.before, ""), func(s string) bool { return s == "" })
		fmt.Fprintf(&tasks, "  %s: {takes: %d min, crew: %d, after: [%s]}\n", a.name, 10*a.sixths, crew, strings.Join(before, ", "))
	}
	return text(title, "people: ["+people.String()+"]", "tasks:\n"+tasks.String())
}
