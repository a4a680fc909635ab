package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/parquet-go/parquet-go"

	"warmby/cmd/warmby/internal/document"
	"warmby/internal/thorough"
	"warmby/sim/batch"
)

// folder returns the files of a folder.
func folder(t *testing.T, path string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(path)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(path, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files[e.Name()] = string(data)
	}
	return files
}

// same compares two folders without printing megabytes.
func same(t *testing.T, want, got map[string]string, what string) {
	t.Helper()
	for name := range want {
		if got[name] != want[name] {
			t.Errorf("%s: %s has other bytes (%d, want %d)", what, name, len(got[name]), len(want[name]))
		}
	}
	if len(got) != len(want) {
		t.Errorf("%s: %d files, want %d", what, len(got), len(want))
	}
}

func TestBatchIsTheSameOnAnyNumberOfWorkersAndShards(t *testing.T) {
	for _, format := range []string{"csv", "parquet"} {
		t.Run(format, func(t *testing.T) {
			t.Chdir(t.TempDir())
			runs := strconv.Itoa(thorough.Cases(260, 700)) // of each point more than one chunk
			line := []string{"warmby", "batch", "--runs", runs, "--vary", "people=5,6", "--tasks", "--format", format,
				"--order", "shelter first", "--order", "two groups"}
			play := func(more ...string) { answer(t, append(line[:len(line):len(line)], more...)...) }
			play("--workers", "1", "--out", "one")
			want := folder(t, "one")
			for _, workers := range []string{"2", "7"} {
				play("--workers", workers, "--out", "w"+workers)
				same(t, want, folder(t, "w"+workers), workers+" workers")
			}
			shards := []int{1, 3, 8} // 4 or 6 chunks: of 8 shards some are empty
			if format == "parquet" && !thorough.Asked() {
				shards = []int{3} // what is in them does not hang on the format
			}
			for _, n := range shards {
				parts := fmt.Sprintf("parts%d", n)
				for i := n; i >= 1; i-- {
					play("--shard", fmt.Sprintf("%d/%d", i, n), "--out", filepath.Join(parts, strconv.Itoa(i)))
				}
				answer(t, "warmby", "merge", parts, "--out", parts+"-whole")
				same(t, want, folder(t, parts+"-whole"), fmt.Sprintf("%d shards", n))
			}
		})
	}
}

// The batch is interrupted while it plays, and its journal cut off within a
// chunk, as a killed program may leave it.
func TestAnInterruptedBatchGoesOnToTheSameFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	runs, written := thorough.Cases(6000, 20_000), int64(thorough.Cases(30_000, 100_000))
	line := []string{"batch", "--runs", strconv.Itoa(runs), "--seed", "5"}
	answer(t, append([]string{"warmby"}, append(line, "--out", "whole")...)...)
	journal := filepath.Join("out.part", "journal")
	ctx, cancel := context.WithCancel(context.Background())
	go func() { // not a test of time: it only has to be somewhere on the way
		for ctx.Err() == nil {
			if info, err := os.Stat(journal); err == nil && info.Size() > written {
				cancel()
			}
			time.Sleep(time.Millisecond)
		}
	}()
	var stdout, stderr bytes.Buffer
	e := &environment{stdin: strings.NewReader(""), stdout: &stdout, stderr: &stderr}
	if code := e.execute(ctx, append(line, "--out", "out")); code != exitInterrupted {
		t.Fatalf("exit code %d, want %d: %s", code, exitInterrupted, &stderr)
	}
	if !strings.Contains(stderr.String(), "go on with: warmby "+strings.Join(line, " ")+" --out out --resume") {
		t.Errorf("standard error does not say how to go on: %s", &stderr)
	}
	info, err := os.Stat(journal)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(journal, info.Size()-11); err != nil {
		t.Fatal(err)
	}
	answer(t, append([]string{"warmby"}, append(line, "--out", "out", "--resume")...)...)
	same(t, folder(t, "whole"), folder(t, "out"), "gone on with")
	if _, err := os.Stat("out.part"); !os.IsNotExist(err) {
		t.Error("out.part is still there")
	}
	answer(t, append([]string{"warmby"}, append(line, "--out", "out", "--resume")...)...) // finished: nothing to do
}

func TestParquetHoldsWhatCSVHolds(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, format := range []string{"csv", "parquet"} {
		answer(t, "warmby", "batch", "--runs", "300", "--tasks", "--format", format, "--out", format)
	}
	runs, err := parquet.ReadFile[runRow]("parquet/runs.parquet")
	if err != nil {
		t.Fatal(err)
	}
	table := readCSV(t, "csv/runs.csv", ',')
	if len(table) != len(runs)+1 {
		t.Fatalf("%d rows in Parquet, %d in CSV", len(runs), len(table)-1)
	}
	for i, r := range runs {
		row := []string{fmt.Sprint(r.Point), fmt.Sprint(r.Run), r.Order, r.Milestone, threeDecimals(r.Time)}
		if diff := cmp.Diff(table[i+1], row); diff != "" {
			t.Fatalf("row %d:\n%s", i, diff)
		}
	}
	tasks, err := parquet.ReadFile[taskRow]("parquet/tasks.parquet")
	if err != nil {
		t.Fatal(err)
	}
	table = readCSV(t, "csv/tasks.csv", ',')
	if len(table) != len(tasks)+1 {
		t.Fatalf("%d rows of tasks in Parquet, %d in CSV", len(tasks), len(table)-1)
	}
	for i, r := range tasks {
		row := []string{fmt.Sprint(r.Point), fmt.Sprint(r.Run), r.Order, r.Task, threeDecimals(r.Start), threeDecimals(r.End), threeDecimals(r.Called), fmt.Sprint(r.Mishaps), threeDecimals(r.Mishap), r.People, r.Critical}
		if diff := cmp.Diff(table[i+1], row); diff != "" {
			t.Fatalf("tasks, row %d:\n%s", i, diff)
		}
	}
	f, err := os.Open("parquet/runs.parquet")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	info, _ := f.Stat()
	p, err := parquet.OpenFile(f, info.Size())
	if err != nil {
		t.Fatal(err)
	}
	if seed, ok := p.Lookup("warmby.seed"); !ok || seed != "1" {
		t.Errorf("metadata: seed %q, want 1", seed)
	}
}

func threeDecimals(t *float64) string {
	if t == nil {
		return ""
	}
	return strconv.FormatFloat(*t, 'f', 3, 64)
}

func readCSV(t *testing.T, path string, comma rune) [][]string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(data), "\uFEFF")))
	r.Comma = comma
	table, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// Names with everything that a CSV file or a spreadsheet may trip over.
const oddNames = `warmby: 1
title: Odd names
people: [{name: A}]
tasks:
  "=1+2; \"so\", he said": {takes: [1 min, 2 min, 3 min]}
milestones:
  "@here, there; \"up\"": {when: ["=1+2; \"so\", he said"]}
`

func TestDialectsAgreeAndGuardNames(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("odd.yaml", []byte(oddNames), 0o666); err != nil {
		t.Fatal(err)
	}
	design := "people,\"tasks.=1+2; \"\"so\"\", he said.takes\"\n1,90 s\n2,\"[1 min, 2 min, 3 min]\"\n"
	if err := os.WriteFile("design.csv", []byte(design), 0o666); err != nil {
		t.Fatal(err)
	}
	line := []string{"warmby", "batch", "odd.yaml", "--runs", "20", "--tasks", "--design", "design.csv"}
	answer(t, append(line, "--out", "plain")...)
	answer(t, append(line, "--csv", "excel-eu", "--out", "excel")...)
	for _, name := range []string{"runs.csv", "tasks.csv", "points.csv"} {
		data, err := os.ReadFile("excel/" + name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.HasPrefix(data, []byte("\uFEFF")) || bytes.Count(data, []byte("\r\n")) != bytes.Count(data, []byte("\n")) {
			t.Errorf("%s: no mark at the beginning, or lines that do not end in CR LF", name)
		}
		plain, excel := readCSV(t, "plain/"+name, ','), readCSV(t, "excel/"+name, ';')
		for i := range excel {
			for k, cell := range excel[i] {
				if cell != "" && strings.ContainsRune("=+-@", rune(cell[0])) {
					t.Errorf("%s: row %d: %q is not guarded", name, i, cell)
				}
				cell = strings.TrimPrefix(cell, "'")
				if strings.HasSuffix(plain[0][k], "_s") {
					cell = strings.Replace(cell, ",", ".", 1)
				}
				excel[i][k] = cell
			}
		}
		if diff := cmp.Diff(plain, excel); diff != "" {
			t.Errorf("%s:\n%s", name, diff)
		}
	}
}

// The same luck at every point: a point that varies nothing gives the same rows
// again, and a row is what rehearse plays.
func TestEveryPointMeetsTheSameLuck(t *testing.T) {
	t.Chdir(t.TempDir())
	if err := os.WriteFile("design.csv", []byte("people,tools.snow saw\n6,1\n5,\n,\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	answer(t, "warmby", "batch", "--design", "design.csv", "--runs", "300", "--seed", "9", "--out", "out")
	byPoint := map[string][]string{}
	at := map[string]string{}
	for _, row := range readCSV(t, "out/runs.csv", ',')[1:] {
		byPoint[row[0]] = append(byPoint[row[0]], strings.Join(row[1:], ","))
		at[strings.Join(row[:4], "/")] = row[4]
	}
	if strings.Join(byPoint["1"], "\n") != strings.Join(byPoint["3"], "\n") {
		t.Error("six people given and six people in the file give different runs")
	}
	if strings.Join(byPoint["1"], "\n") == strings.Join(byPoint["2"], "\n") {
		t.Error("five people give the same runs as six")
	}
	for _, run := range []string{"0", "17", "299"} {
		out := answer(t, "warmby", "rehearse", "--order", "two groups", "--seed", "9", "--run", run, "--json")
		var raw struct {
			Milestones []struct {
				Name string      `json:"name"`
				Time json.Number `json:"time_s"`
			} `json:"milestones"`
		}
		if err := json.Unmarshal([]byte(out), &raw); err != nil {
			t.Fatal(err)
		}
		for _, m := range raw.Milestones {
			if got := at["3/"+run+"/two groups/"+m.Name]; got != m.Time.String() {
				t.Errorf("run %s, %s: %s in runs.csv, %s by rehearse", run, m.Name, got, m.Time)
			}
		}
	}
}

// summary.json against compare, which keeps every moment.
func TestSummaryAgreesWithCompare(t *testing.T) {
	t.Chdir(t.TempDir())
	runs := strconv.Itoa(thorough.Cases(300, 1000))
	answer(t, "warmby", "batch", "--runs", runs, "--out", "out")
	type odds struct {
		Name   string          `json:"name"`
		Mean   *float64        `json:"mean_s"`
		CI     *[2]float64     `json:"mean_ci95_s"`
		P90    *float64        `json:"p90_s"`
		Never  int64           `json:"never"`
		OnTime *document.Share `json:"on_time"`
		First  document.Share  `json:"first"`
	}
	type order struct {
		Order      string `json:"order"`
		Milestones []odds `json:"milestones"`
	}
	var summary struct{ Points []struct{ Orders []order } }
	if err := json.Unmarshal([]byte(folder(t, "out")["summary.json"]), &summary); err != nil {
		t.Fatal(err)
	}
	var compared struct{ Orders []order }
	if err := json.Unmarshal([]byte(answer(t, "warmby", "compare", "--runs", runs, "--json")), &compared); err != nil {
		t.Fatal(err)
	}
	mine := summary.Points[0].Orders
	for i, o := range compared.Orders {
		for m, want := range o.Milestones {
			got := mine[i].Milestones[m]
			if math.Abs(*got.P90-*want.P90) > 0.5 {
				t.Errorf("%s, %s: p90 %g s, want %g within half a second", o.Order, want.Name, *got.P90, *want.P90)
			}
			got.P90, want.P90 = nil, nil
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%s, %s:\n%s", o.Order, want.Name, diff)
			}
		}
	}
}

// apart is what the tests read of how far one thing is from another.
type apart struct {
	Milestone   string
	A, B, Order string
	WhatIf      *string `json:"what_if"`
	Difference  struct {
		Sooner *float64    `json:"sooner_s"`
		CI     *[2]float64 `json:"ci95_s"`
		SD     *float64    `json:"sd_s"`
	}
	P50, P80, P90, P95 struct {
		Sooner *float64     `json:"sooner_s"`
		CI     *[2]*float64 `json:"ci95_s"`
	}
	OnTime *struct {
		Share float64
		CI    [2]float64 `json:"ci95"`
		Runs  int
	} `json:"on_time_more"`
}

// heldAgainst compares it with the one of a list that is about the same, and
// returns how many there were.
func (want apart) heldAgainst(t *testing.T, got []apart) (checked int) {
	t.Helper()
	for _, g := range got {
		if g.Milestone != want.Milestone || g.A != want.A || g.B != want.B || g.Order != want.Order {
			continue
		}
		checked++
		want.WhatIf = nil
		if want.A != "" { // compare widens those that hold together
			want.Difference.CI, g.Difference.CI = nil, nil
		}
		if diff := cmp.Diff(want, g); diff != "" {
			t.Errorf("%s:\n%s", want.Milestone, diff)
		}
	}
	return checked
}

// How far apart orders are, and a what-if from the scenario as it stands, by
// batch and by compare: one keeps chunks, the other all runs.
func TestSummaryIsAsFarApartAsCompare(t *testing.T) {
	t.Chdir(t.TempDir())
	const whatIf = "the pulk comes late"
	if err := os.WriteFile("design.csv", []byte("what if\n\"\"\n"+whatIf+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	answer(t, "warmby", "batch", "--runs", "600", "--design", "design.csv", "--out", "out")
	var summary struct {
		Points []struct {
			Differences []apart
			FromFirst   []apart `json:"from_first_point"`
		}
	}
	var compared struct {
		Primary     []string
		Differences []apart
		WhatIfs     []apart `json:"what_ifs"`
	}
	for text, into := range map[string]any{folder(t, "out")["summary.json"]: &summary,
		answer(t, "warmby", "compare", "--runs", "600", "--what-if", whatIf, "--json"): &compared} {
		if err := json.Unmarshal([]byte(text), into); err != nil {
			t.Fatal(err)
		}
	}
	checked := 0
	for _, d := range compared.Differences {
		point := 0
		if d.WhatIf != nil {
			point = 1
		}
		checked += d.heldAgainst(t, summary.Points[point].Differences)
	}
	for _, w := range compared.WhatIfs {
		if slices.Contains(compared.Primary, w.Milestone) {
			checked += w.heldAgainst(t, summary.Points[1].FromFirst)
		}
	}
	if len(summary.Points[0].FromFirst) > 0 || checked < 20 {
		t.Errorf("%d differences were held against each other", checked)
	}
}

// The lead is of all points, also of those for which the report has no row.
func TestTheBestOfVeryManyPointsComesFirst(t *testing.T) {
	t.Chdir(t.TempDir())
	scenario := "warmby: 1\ntitle: Waiting\npeople: [{name: Una}]\ntasks: {wait: {takes: 20 min}}\nmilestones: {over: {when: wait, by: 30 min}}\n"
	design := "tasks.wait.takes\n" + strings.Repeat("25 min\n", 1100) + "7 min\n"
	for name, text := range map[string]string{"wait.yaml": scenario, "points.csv": design} {
		if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	out := answer(t, "warmby", "batch", "wait.yaml", "--design", "points.csv", "--runs", "1", "--out", "many")
	lead, _, _ := strings.Cut(out, "Best first")
	if lines := strings.Split(lead, "\n"); !strings.Contains(lead, "7 min") || strings.Index(lead, "7 min") > strings.Index(lead, "25 min") {
		t.Errorf("the shortest wait does not come first:\n%s", strings.Join(lines, "\n"))
	}
}

func TestPrecisionGoesOnUntilTheIntervalIsNarrow(t *testing.T) {
	t.Chdir(t.TempDir())
	line := []string{"warmby", "batch", "--precision", "hot drink p90 40 s", "--order", "shelter first"}
	answer(t, append(line, "--out", "a", "--workers", "1")...)
	answer(t, append(line, "--out", "b", "--workers", "3")...)
	files := folder(t, "a")
	same(t, files, folder(t, "b"), "three workers")
	var s struct {
		Points []struct {
			Runs      int
			Precision struct{ Narrow bool }
			Orders    []struct {
				Milestones []struct {
					Name string
					CI   [2]float64 `json:"p90_ci95_s"`
				}
			}
		}
	}
	if err := json.Unmarshal([]byte(files["summary.json"]), &s); err != nil {
		t.Fatal(err)
	}
	p := s.Points[0]
	if p.Runs <= batch.FirstStage || !p.Precision.Narrow {
		t.Errorf("%d runs, %+v; want more than the first stage, and narrow", p.Runs, p.Precision)
	}
	for _, m := range p.Orders[0].Milestones {
		if m.Name == "hot drink" && m.CI[1]-m.CI[0] > 40 {
			t.Errorf("p90 between %g and %g s, want 40 s at most", m.CI[0], m.CI[1])
		}
	}
	if got := readCSV(t, "a/points.csv", ',')[1][1]; got != strconv.Itoa(p.Runs) {
		t.Errorf("points.csv says %s runs, summary.json %d", got, p.Runs)
	}
}

func TestGrouped(t *testing.T) {
	for n, want := range map[int64]string{0: "0", 999: "999", 1000: "1,000", 1234567: "1,234,567", 100000: "100,000"} {
		if got := grouped(n); got != want {
			t.Errorf("grouped(%d) = %q, want %q", n, got, want)
		}
	}
}

// What a crash of the machine may leave of a journal: a tail of zeros, where
// whole chunks are kept, and a header cut short, where there are none. A header
// that is damaged may stand before many runs, which are not thrown away.
func TestWhatACrashLeavesOfAJournal(t *testing.T) {
	t.Chdir(t.TempDir())
	line := []string{"batch", "--runs", "700", "--seed", "5", "--shard", "1/2"}
	answer(t, append([]string{"warmby"}, append(line, "--out", "whole")...)...)
	whole, err := os.ReadFile(filepath.Join("whole", "journal"))
	if err != nil {
		t.Fatal(err)
	}
	header := bytes.IndexByte(whole, '\n') + 1
	damaged := bytes.Clone(whole)
	damaged[0] = 0xff
	for name, c := range map[string]struct {
		journal []byte
		want    string // on standard error
		code    int
	}{
		"zeros":          {append(bytes.Clone(whole), make([]byte, 5000)...), "going on after", exitDone},
		"a header alone": {whole[:header], "", exitDone},
		"half a header":  {whole[:header/2], "", exitDone},
		"nothing":        {nil, "", exitDone},
		"a bad header":   {damaged, "its first line is damaged", exitInput},
	} {
		t.Run(name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			if err := os.Mkdir("out.part", 0o777); err != nil {
				t.Fatal(err)
			}
			journal := filepath.Join("out.part", "journal")
			if err := os.WriteFile(journal, c.journal, 0o666); err != nil {
				t.Fatal(err)
			}
			var stdout, stderr bytes.Buffer
			if code := run(append(line, "--out", "out", "--resume"), strings.NewReader(""), &stdout, &stderr); code != c.code {
				t.Fatalf("exit code %d, want %d: %s", code, c.code, &stderr)
			}
			if !strings.Contains(stderr.String(), c.want) {
				t.Errorf("standard error does not say %q: %s", c.want, &stderr)
			}
			if c.code == exitDone {
				journal = filepath.Join("out", "journal")
			}
			now, err := os.ReadFile(journal)
			if err != nil {
				t.Fatal(err)
			}
			if c.code == exitDone && !bytes.Equal(now, whole) || c.code != exitDone && !bytes.Equal(now, c.journal) {
				t.Errorf("a journal of %d bytes is left", len(now))
			}
		})
	}
}

// The program itself, killed the hard way while it plays.
func TestAKilledBatchGoesOnToTheSameFiles(t *testing.T) {
	t.Chdir(t.TempDir())
	line := []string{"batch", "--runs", strconv.Itoa(thorough.Cases(15_000, 30_000)), "--order", "two groups"}
	answer(t, append([]string{"warmby"}, append(line, "--out", "whole")...)...)
	cmd := exec.Command("warmby", append(line, "--out", "out")...)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	for range 60_000 {
		if info, err := os.Stat(filepath.Join("out.part", "journal")); err == nil && info.Size() > 100_000 {
			break
		}
		time.Sleep(time.Millisecond)
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	if err := cmd.Wait(); err == nil {
		t.Fatal("it was done before it was killed: give it more runs")
	}
	var stdout, stderr bytes.Buffer
	if code := run(append(line, "--out", "out", "--resume"), strings.NewReader(""), &stdout, &stderr); code != exitDone {
		t.Fatalf("exit code %d: %s", code, &stderr)
	}
	if !strings.Contains(stderr.String(), "going on after") {
		t.Errorf("it began anew: %s", &stderr)
	}
	same(t, folder(t, "whole"), folder(t, "out"), "killed and gone on with")
}

// The rows of Parquet files, as a program that reads them declares them.
type (
	runRow struct {
		Point     int32    `parquet:"point"`
		Run       int64    `parquet:"run"`
		Order     string   `parquet:"order"`
		Milestone string   `parquet:"milestone"`
		Time      *float64 `parquet:"time_s,optional"`
	}
	taskRow struct {
		Point    int32    `parquet:"point"`
		Run      int64    `parquet:"run"`
		Order    string   `parquet:"order"`
		Task     string   `parquet:"task"`
		Start    *float64 `parquet:"start_s,optional"`
		End      *float64 `parquet:"end_s,optional"`
		Called   *float64 `parquet:"called_s,optional"`
		Mishaps  int64    `parquet:"mishaps"`
		Mishap   *float64 `parquet:"mishap_s,optional"`
		People   string   `parquet:"people"`
		Critical string   `parquet:"critical_of"`
	}
	coldRow struct {
		Point  int32    `parquet:"point"`
		Run    int64    `parquet:"run"`
		Order  string   `parquet:"order"`
		Person string   `parquet:"person"`
		Peak   *float64 `parquet:"peak_wh_m2,optional"`
		PeakAt *float64 `parquet:"peak_at_s,optional"`
		Passed *float64 `parquet:"passed_at_s,optional"`
	}
)

// What is told of a batch leads with ten lines and fits a screen, and its page
// has the figures of the terminal.
func TestABatchIsToldInTenLines(t *testing.T) {
	for _, name := range scenariosRead() {
		for i, more := range [][]string{{"--cold"}, {"--vary", "people=12,13"}, {"--vary", "people=12,13", "--vary", "weather.air=-10 C,-20 C"}} {
			t.Chdir(t.TempDir())
			line := append([]string{"warmby", "batch", name, "--runs", "250", "--out", "out"}, more...)
			text := answer(t, line...)
			isALead(t, strings.Join(line, " "), text)
			if n := strings.Count(text, "\n"); n > 50 {
				t.Errorf("%q has %d lines, want 50 at most", line, n)
			}
			if i > 0 {
				continue
			}
			all := answer(t, append(line, "--all", "--force", "--report", "page.html")...)
			data, err := os.ReadFile("page.html")
			if err != nil {
				t.Fatal(err)
			}
			page := pageText(string(data))
			missing(t, "the page", figures(page), "the terminal", figures(all))
			missing(t, "the terminal", figures(all), "the page", figures(page))
		}
	}
}
