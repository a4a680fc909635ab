package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/scenarios/stopwatch"
	"warmby/sim"
	"warmby/sim/doubt"
	"warmby/sim/fit"
)

// maxLog is how large a log may be, in bytes.
const maxLog = 256 << 20

// logEndings are the endings by which an argument is known for a log.
var logEndings = []string{".csv", ".tsv", ".txt"}

// foretoldRuns is how many evenings what is foretold of a log is made of.
const foretoldRuns = 1000

// timedDrills are logs and the scenario that they are of.
type timedDrills struct {
	*ask.Source
	log      *stopwatch.Log
	invented bool     // the shipped log
	files    []string // as given
}

func isLog(arg string) bool {
	return slices.ContainsFunc(logEndings, func(end string) bool { return strings.HasSuffix(strings.ToLower(arg), end) })
}

// logsAndFile takes any number of logs and one scenario, in any sequence.
func logsAndFile(_ *cobra.Command, args []string) error {
	var others []string
	for _, a := range args {
		if !isLog(a) {
			others = append(others, a)
		}
	}
	if len(others) > 1 {
		return &mistake.Usage{What: fmt.Sprintf("expects one scenario beside the logs, got %q and %q", others[0], others[1]), Cure: "logs end in " + strings.Join(logEndings, ", ")}
	}
	return nil
}

// loadLogs reads the scenario and the logs among the arguments; without a log,
// the invented one of a shipped scenario.
func (e *environment) loadLogs(args []string) (*timedDrills, error) {
	t, file := &timedDrills{}, library.Default
	for _, a := range args {
		if isLog(a) {
			t.files = append(t.files, a)
		} else {
			file = a
		}
	}
	var err error
	if t.Source, err = e.load(file); err != nil {
		return nil, err
	}
	if len(t.files) == 0 {
		if _, ok := library.Log(file); !t.Shipped || !ok {
			return nil, &mistake.Usage{What: "no log is given", Cure: "such as: warmby fit log.csv " + ask.ShellWord(file) + "; \"warmby help log\" says what a log looks like"}
		}
		t.invented = true
		t.log, err = readLogs(t.Scenario, file)
		return t, err
	}
	t.log, err = readLogs(t.Scenario, t.files...)
	return t, err
}

// readLogs reads logs of a scenario; the name of a shipped one stands for its
// invented log.
func readLogs(s *scenarios.Scenario, files ...string) (*stopwatch.Log, error) {
	var sources []stopwatch.Source
	for _, path := range files {
		if text, ok := invented(path); ok {
			sources = append(sources, stopwatch.Source{Name: path + ".csv", Text: text})
			continue
		}
		text, err := readLog(path)
		if err != nil {
			return nil, err
		}
		sources = append(sources, stopwatch.Source{Name: path, Text: text})
	}
	log, err := stopwatch.Read(s, sources...)
	var wrong *stopwatch.Mistakes
	if errors.As(err, &wrong) {
		return nil, &mistake.Input{What: err.Error()}
	}
	return log, err
}

// invented returns the log of a shipped scenario whose name is given in the place
// of a log.
func invented(name string) (text []byte, ok bool) {
	if isLog(name) {
		return nil, false
	}
	return library.Log(name)
}

// learning returns a source with the numbers that the logs of --log give.
func (e *environment) learning(s *ask.Source) (*ask.Source, error) {
	if len(e.logs) == 0 {
		return s, nil
	}
	log, err := readLogs(s.Scenario, e.logs...)
	if err != nil {
		return nil, err
	}
	for _, one := range e.logs {
		if _, ok := invented(one); ok {
			e.note("the log of %s is invented and says nothing of any team", one)
		}
	}
	for _, r := range log.Remarks {
		e.note("%s:%d:%d: %s", r.File, r.Line, r.Col, r.Text)
	}
	d, err := s.Drill("", "")
	if err != nil {
		return nil, err
	}
	f := fit.Fit(d, log.Evenings, fit.Options{Seed: 1})
	return s.Learning(f.Learnt(doubt.Readings), len(log.Evenings), e.logs), nil
}

func readLog(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", path, mistake.Reason(err))
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, maxLog+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("cannot read %s: %w", path, mistake.Reason(err))
	case len(text) > maxLog:
		return nil, &mistake.Input{What: path + ": over 256 MiB, which is more than a log may have"}
	case bytes.HasPrefix(bytes.TrimSpace(text), []byte("warmby:")):
		return nil, &mistake.Input{What: path + ": this is a scenario, not a log", Cure: "\"warmby help log\" says what a log looks like"}
	}
	return text, nil
}

// remarks are those of the reader, in words.
func (t *timedDrills) remarks() []string {
	var out []string
	for _, r := range t.log.Remarks {
		out = append(out, fmt.Sprintf("%s:%d:%d: %s", r.File, r.Line, r.Col, r.Text))
	}
	return out
}

// words are the arguments that give the same logs and scenario again.
func (t *timedDrills) words(command string) *ask.Command {
	c := ask.CommandOf(command, "")
	for _, f := range t.files {
		c.Word(f)
	}
	if word := ask.FileWord(t.Arg); word != "" {
		c.Word(word)
	}
	return c
}

// orders returns the drills of all orders of the scenario.
func (t *timedDrills) orders() ([]*sim.Drill, error) {
	names := t.Scenario.Orders()
	if len(names) == 0 {
		names = []string{""}
	}
	var out []*sim.Drill
	for _, name := range names {
		d, err := t.Scenario.Drill(name)
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}

// drill finds a timed drill by its name; the last one without a name.
func (t *timedDrills) which(name string) (int, error) {
	var names []string
	for i, e := range t.log.Evenings {
		if strings.EqualFold(e.Timed.Name, name) {
			return i, nil
		}
		names = append(names, e.Timed.Name)
	}
	if name == "" {
		return len(names) - 1, nil
	}
	return 0, &mistake.Usage{What: fmt.Sprintf("the log has no drill %q", name), Cure: "its drills: " + mistake.Quoted(names)}
}
