package stopwatch_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"warmby/scenarios"
	"warmby/scenarios/stopwatch"
	"warmby/sim"
	"warmby/sim/timed"
)

const hollow = `warmby: 1
title: Juniper Hollow
site: {latitude: 61.5, longitude: 9.8, arrival: 2027-02-06T15:10:00+01:00, snow: {depth: 70 cm, density: 220 kg/m3, temperature: -8 C}}
weather: [{at: 0 min, air: -15 C, wind: 3 m/s}]
people: [{name: Anna Berg}, {name: Anna Dahl}, {name: Cato, skills: [stove]}]
stoves: {burner: {power: 2.5 kW, efficiency: 50 %, fuel: white gas}}
tasks:
  tramp the floor: {work: [15 min, 24 min, 40 min], crew: 1-2}
  pitch the tent: {timed: {people: 2, minutes: [12 min, 18 min, 35 min]}, crew: 1-2, after: tramp the floor}
  light the burner: {takes: [2 min, 3 min, 8 min], skills: {stove: 1}}
  melt for tea: {melt: {water: 1 L, to: boil, stove: burner}, after: light the burner}
milestones:
  shelter up: {when: pitch the tent, by: dark}
orders:
  shelter first: {sequence: [tramp the floor, pitch the tent]}
  drink first: {sequence: [light the burner, melt for tea]}
`

func scenario(t testing.TB) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Read("hollow.yaml", []byte(hollow))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func read(t testing.TB, texts ...string) (*stopwatch.Log, error) {
	t.Helper()
	var files []stopwatch.Source
	for _, text := range texts {
		files = append(files, stopwatch.Source{Name: "log.csv", Text: []byte(text)})
	}
	return stopwatch.Read(scenario(t), files...)
}

const min = sim.Minute

// TestReadsWhatSpreadsheetsWrite reads the same drill in several spellings.
func TestReadsWhatSpreadsheetsWrite(t *testing.T) {
	want := []timed.Job{
		{Task: 0, Start: 10 * min, End: 40 * min, Line: 2, Stints: []timed.Stint{{People: []int{0, 2}, From: 10 * min, To: 40 * min}}},
		{Task: 1, Start: sim.Never, End: 570 * min, Line: 3},
		{Task: 2, Start: 5 * min, End: 20*min + 30*sim.Second, Line: 4, Mishaps: 1, MishapTime: 6*min + 30*sim.Second},
	}
	for name, text := range map[string][]string{
		"commas":     {"drill,task,person,start,end,note\n1,tramp the floor,Anna B + Cato,15:20,15:50,\n1,Pitch  the TENT,,,00:40,windy\n1,light the burner,,15:15,15:30:30,mishap 6.5 min\n", "drill,arrival\n1,15:10\n"},
		"semicolons": {"\ufeffdrill;task;person;start;end;note\r\n1;tramp the floor;anna b & cato;10 min;40,0 min;\r\n1;pitch the tent;;;9h30min;\r\n1;light the burner;;5 min;20,5 min;mishap 6,5 min\r\n"},
		"tabs":       {"drill\ttask\tperson\tstart\tend\tnote\n1\ttramp the floor\tAnna Berg/Cato\t10 min\t40 min\t\n1\tpitch the tent\t\t\t9 h 30 min\t\n1\tlight the burner\t\t5 min\t20 min 30 s\tslow. mishap: 6 min 30 s\n"},
	} {
		log, err := read(t, text...)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if diff := cmp.Diff(want, log.Evenings[0].Timed.Jobs); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// TestRowsOfOneTaskAreOneJob puts rows of several people together.
func TestRowsOfOneTaskAreOneJob(t *testing.T) {
	log, err := read(t, "drill,task,person,start,end\n1,tramp the floor,Cato,0 min,30 min\n1,tramp the floor,Anna D,10 min,35 min\n1,tramp the floor,Cato,40 min,50 min\n")
	if err != nil {
		t.Fatal(err)
	}
	j := log.Evenings[0].Timed.Jobs[0]
	if j.Start != 0 || j.End != 50*min || len(j.Stints) != 3 {
		t.Errorf("start %d, end %d, %d stints", j.Start, j.End, len(j.Stints))
	}
}

// TestConditionsLieOverTheDrill reads arrival, weather, stove and cold.
func TestConditionsLieOverTheDrill(t *testing.T) {
	_, err := read(t, `drill,date,task,end
a,2027-02-10,shelter up,17:00
a,2027-02-10,build,
drill,arrival,order,air,wind,dark,indoor,learning,stove,fuel before,fuel after,water melted
a,14:00,Drink first,-21 C,10 km/h,no,no,yes,burner,1.8 L,1.3 L,6 L
drill,person,at,felt
a,Cato,14:30,-2
a,Cato,15:30,very cold
`)
	if err == nil {
		t.Fatal("a task that is unknown was read")
	}
	log, err := read(t, strings.ReplaceAll(`drill,date,task,end
a,2027-02-10,shelter up,17:00
drill,arrival,order,air,wind,dark,indoor,learning,stove,fuel before,fuel after,water melted
a,14:00,Drink first,-21 C,10 km/h,no,no,yes,burner,1.8 L,1.3 L,6 L
drill,person,at,felt
a,Cato,14:30,-2
a,Cato,15:30,very cold
`, "\n", "\r\n"))
	if err != nil {
		t.Fatal(err)
	}
	e := log.Evenings[0]
	got := e.Timed
	if got.Order != "drink first" || e.Drill.Order != "drink first" || got.Arrival != 14*sim.Hour || got.Conditions.Learning != timed.Yes {
		t.Errorf("order %q, arrival %d, learning %d", got.Order, got.Arrival, got.Conditions.Learning)
	}
	if at, known := got.Milestone(e.Drill, 0); !known || at != 180*min {
		t.Errorf("shelter up at %d, %v; want 180 min", at, known)
	}
	if day := e.Drill.Site.Arrival.Format("2006-01-02 15:04"); day != "2027-02-10 14:00" {
		t.Errorf("arrival %s", day)
	}
	row := e.Drill.Weather[0].Rows[0]
	if len(e.Drill.Weather) != 1 || row.Air != -21 || row.Wind < 2.777 || row.Wind > 2.778 {
		t.Errorf("weather %v", e.Drill.Weather)
	}
	if len(got.Stoves) != 1 || got.Stoves[0].Fuel < 0.499 || got.Stoves[0].Fuel > 0.501 || got.Stoves[0].Water != 6 {
		t.Errorf("stove %v", got.Stoves)
	}
	if want := []timed.Felt{{Person: 2, At: 30 * min, Sense: -2}, {Person: 2, At: 90 * min, Sense: -4}}; !cmp.Equal(got.Felt, want) {
		t.Errorf("felt %v", got.Felt)
	}
}

// TestUnfinishedWithoutEndLastsToTheEndOfTheDrill reads what had not ended.
func TestUnfinishedWithoutEndLastsToTheEndOfTheDrill(t *testing.T) {
	log, err := read(t, "drill,task,start,end,note\n1,tramp the floor,0 min,30 min,\n1,pitch the tent,31 min,,unfinished\n1,light the burner,,70 min,\"called off, too cold. 2 mishaps\"\n")
	if err != nil {
		t.Fatal(err)
	}
	d := log.Evenings[0].Timed
	if j := d.Jobs[1]; !j.Unfinished || j.End != 70*min {
		t.Errorf("%+v", j)
	}
	if j := d.Jobs[2]; j.Mishaps != 2 || j.MishapTime != sim.Never {
		t.Errorf("%+v", j)
	}
}

// TestSaysWhatIsWrongWithALog reads mistakes: each with its line, its column and
// what was found.
func TestSaysWhatIsWrongWithALog(t *testing.T) {
	for name, one := range map[string]struct{ text, want string }{
		"empty":            {"", "log.csv:1:1: the log is empty"},
		"headings only":    {"drill,task,end\n", "the log is empty"},
		"no headings":      {"1,tramp the floor,12 min\n", "1:1: the first row must be the headings"},
		"unknown column":   {"drill,task,ende\n1,tramp the floor,12 min\n", `1:12: unknown column "ende"`},
		"no end column":    {"drill,task,start\n1,tramp the floor,12 min\n", `the column "end" is missing`},
		"column twice":     {"drill,task,end,end\n", "stands twice"},
		"unknown task":     {"drill,task,end\n1,pich the tent,12 min\n", "2:3: task: the scenario has no task \"pich the tent\"\n  1,pich the tent,12 min\n    ^\n  hint: did you mean \"pitch the tent\"?"},
		"no task":          {"drill,task,end\n1,,12 min\n", "2:3: task: is missing"},
		"no drill":         {"drill,task,end\n,tramp the floor,12 min\n", "2:1: drill: is missing"},
		"bare number":      {"drill,task,end\n1,tramp the floor,12\n", `got "12"`},
		"no such time":     {"drill,task,end\n1,tramp the floor,25:10\n", `no such time on the clock, got "25:10"`},
		"negative":         {"drill,task,end\n1,tramp the floor,-3 min\n", "seven days"},
		"no arrival":       {"drill,task,end\n1,tramp the floor,15:40\n", "2:19: a clock time needs the arrival of drill \"1\""},
		"before arrival":   {"drill,task,end\n1,tramp the floor,15:05\ndrill,arrival\n1,15:10\n", "before the arrival"},
		"end before start": {"drill,task,start,end\n1,tramp the floor,30 min,20 min\n", "2:26: it ends before it starts"},
		"no end":           {"drill,task,start,end\n1,tramp the floor,30 min,\n", "end: is missing"},
		"two teams":        {"drill,team,task,end\n1,red,tramp the floor,30 min\n1,blue,pitch the tent,40 min\n", `drill "1" is of team "red", got "blue"`},
		"two dates":        {"drill,date,task,end\n1,2027-01-16,tramp the floor,30 min\n1,2027-01-19,pitch the tent,40 min\n", "is of 2027-01-16"},
		"which date":       {"drill,date,task,end\n1,01/02/2027,tramp the floor,30 min\n", "day and month could be taken for each other"},
		"no such day":      {"drill,date,task,end\n1,2027-02-30,tramp the floor,30 min\n", "must be a date"},
		"two of a name":    {"drill,task,person,end\n1,tramp the floor,Anna,30 min\n", `"Anna" may be "Anna Berg" or "Anna Dahl"`},
		"same person":      {"drill,task,person,end\n1,tramp the floor,Cato + cato,30 min\n", `"cato" stands twice`},
		"task twice":       {"drill,task,end\n1,tramp the floor,30 min\n1,tramp the floor,35 min\n", "3:19: \"tramp the floor\" stands twice in drill \"1\""},
		"at once":          {"drill,task,person,start,end\n1,tramp the floor,Cato,0 min,30 min\n1,tramp the floor,Cato,20 min,40 min\n", `"Cato" is on it twice`},
		"order":            {"drill,task,end\n1,tramp the floor,30 min\ndrill,order\n1,drink frist\n", `did you mean "drink first"?`},
		"fuel":             {"drill,task,end\n1,tramp the floor,30 min\ndrill,stove,fuel before,fuel after\n1,burner,1 L,2 L\n", "more fuel after than before"},
		"air":              {"drill,task,end\n1,tramp the floor,30 min\ndrill,air\n1,-400 C\n", "must lie from -90 to 50"},
		"quotation mark":   {"drill,task,end\n1,\"tramp the floor,30 min\n", "quotation mark"},
		"utf-16":           {"\xff\xfed\x00r\x00", "UTF-16"},
		"latin-1":          {"drill,task,end\n1,tramp the fl\xf6r,3 min\n", "not UTF-8"},
		"another scenario": {"drill,task,end\n1,a,3 min\n1,b,3 min\n1,c,3 min\n1,d,3 min\n1,tramp the floor,3 min\n", "this is a log of another scenario: of its tasks 4 are not in \"Juniper Hollow\""},
		"mishap":           {"drill,task,end,note\n1,tramp the floor,30 min,mishap 6\n", "such as \"mishap 9 min\""},
		"felt":             {"drill,task,end\n1,tramp the floor,30 min\ndrill,person,at,felt\n1,Cato,20 min,-9\n", "must be 0 (neutral) to -4"},
	} {
		_, err := read(t, one.text)
		if err == nil || !strings.Contains(err.Error(), one.want) {
			t.Errorf("%s: %v\nwant %q", name, err, one.want)
		}
	}
}

// TestManyMistakesAreCountedAndNotKept reads a log of mistakes only.
func TestManyMistakesAreCountedAndNotKept(t *testing.T) {
	_, err := read(t, "drill,task,end\n1,tramp the floor,30 min\n"+strings.Repeat("1,tramp the floor,x\n", 100_000))
	if err == nil || len(err.Error()) > 10_000 || !strings.Contains(err.Error(), "more") {
		t.Errorf("%.300v", err)
	}
}

// TestTooManyDrillsAreRefusedOnce reads more drills than are read together.
func TestTooManyDrillsAreRefusedOnce(t *testing.T) {
	var b strings.Builder
	b.WriteString("drill,task,end\n")
	for i := range 3000 {
		fmt.Fprintf(&b, "%d,tramp the floor,30 min\n", i)
	}
	_, err := read(t, b.String())
	if err == nil || strings.Count(err.Error(), "more than 1000 drills") != 1 {
		t.Errorf("%.300v", err)
	}
}

// TestManualSaysWhatIsRead keeps the headings in the manual those that are read.
func TestManualSaysWhatIsRead(t *testing.T) {
	for _, line := range []string{
		"drill,date,team,task,person,start,end,note",
		"drill,arrival,order,air,wind,dark,indoor,learning,stove,fuel before,fuel after,water melted",
		"drill,person,at,felt",
	} {
		if !strings.Contains(stopwatch.Manual(), "\n    "+line+"\n") {
			t.Errorf("the manual lacks %q", line)
		}
		if _, err := read(t, "drill,task,end\n1,tramp the floor,3 min\n"+line+"\n"); err != nil {
			t.Errorf("%s: %v", line, err)
		}
	}
}

// FuzzRead never panics, and what it reads keeps to its promises.
func FuzzRead(f *testing.F) {
	f.Add("drill,task,person,start,end,note\n1,tramp the floor,Anna B + Cato,15:20,15:50,\ndrill,arrival\n1,15:10\n")
	f.Add("\ufeffdrill;task;end\n1;pitch the tent;1,5 h\n")
	f.Add("drill,task,end\n1,\"x\n")
	f.Fuzz(func(t *testing.T, text string) {
		log, err := read(t, text)
		if err != nil {
			if !utf8.ValidString(text) {
				return
			}
			if err.Error() == "" {
				t.Error("a mistake without words")
			}
			return
		}
		for _, e := range log.Evenings {
			for _, j := range e.Timed.Jobs {
				if j.End < 0 || j.Start != sim.Never && j.Start > j.End {
					t.Errorf("%+v", j)
				}
			}
		}
	})
}
