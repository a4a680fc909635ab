package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"

	"warmby/scenarios"
	"warmby/scenarios/library"
)

// maxScenario is how large a scenario file may be, in bytes.
const maxScenario = 1 << 20

// source is a scenario and where it came from.
type source struct {
	// name is what to call it in messages: the path of a file, the name of a
	// shipped scenario, or "standard input".
	name string
	// arg is what to give on a command line that reads it again.
	arg      string
	shipped  bool
	data     []byte // the file as it stands
	scenario *scenarios.Scenario
}

// load reads the scenario that FILE stands for: a shipped scenario for its
// name, standard input for "-", else the file of that path.
func (e *environment) load(arg string) (*source, error) {
	s, err := e.find(arg)
	if err != nil {
		return nil, err
	}
	s.scenario, err = scenarios.Read(s.name, s.data)
	if err != nil {
		return nil, err
	}
	return s, nil
}

// loadArgs is load for commands that take one FILE at most; left out, it is
// the shipped demo.
func (e *environment) loadArgs(args []string) (*source, error) {
	if len(args) == 0 {
		return e.load(library.Default)
	}
	return e.load(args[0])
}

// find returns the bytes that FILE stands for, not yet read as a scenario. A
// name with an ending is always that of a file.
func (e *environment) find(arg string) (*source, error) {
	switch {
	case arg == "":
		return nil, &usageError{"FILE is empty", "leave it out for the shipped demo"}
	case arg == "-":
		data, err := readScenario("standard input", e.stdin)
		return &source{name: "standard input", arg: "-", data: data}, err
	}
	if data, ok := library.Read(arg); ok && !strings.HasSuffix(arg, ".yaml") {
		return &source{name: arg, arg: arg, shipped: true, data: data}, nil
	}
	f, err := os.Open(arg)
	if err != nil {
		return nil, cannotFind(arg, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, withHint(fmt.Errorf("cannot read %s: it is a folder", arg), "give a scenario file in it")
	}
	data, err := readScenario(arg, f)
	return &source{name: arg, arg: arg, data: data}, err
}

// readScenario reads no more than it needs to know that a file is too large.
func readScenario(name string, r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxScenario+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, reason(err))
	}
	if len(data) > maxScenario {
		return nil, &inputError{
			what: fmt.Sprintf("%s: over 1 MiB (1,048,576 bytes), which is more than a scenario file may have", name),
			hint: "is it a scenario file? \"warmby help scenario\" says what one looks like",
		}
	}
	return data, nil
}

// cannotFind says what is wrong with a FILE that cannot be opened; one that
// does not exist may have been meant for a shipped scenario.
func cannotFind(arg string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("cannot read %s: %w", arg, reason(err))
	}
	names := library.Names()
	bare := strings.TrimSuffix(strings.TrimSuffix(arg, ".yaml"), ".yml")
	if _, ok := library.Read(bare); ok {
		return withHint(fmt.Errorf("no file %s", arg), "the shipped scenario of that name is called for without the ending: %s", bare)
	}
	if strings.ContainsAny(arg, `/\`) || bare != arg {
		return withHint(fmt.Errorf("no file %s", arg), "shipped scenarios are called for by name: %s", strings.Join(names, ", "))
	}
	err = fmt.Errorf("no file and no shipped scenario %q", arg)
	if near := nearest(arg, names); len(near) > 0 {
		return withHint(err, "did you mean %s?", strings.Join(near, " or "))
	}
	return withHint(err, "shipped scenarios: %s", strings.Join(names, ", "))
}

// allWhatIfs stands for every what-if of a file.
const allWhatIfs = "all"

// whatIfs returns the what-ifs that are asked for, each once: by name, or all
// that there are.
func (s *source) whatIfs(given []string) ([]string, error) {
	there := s.scenario.WhatIfs()
	switch {
	case !slices.Contains(given, allWhatIfs):
		return asked(given, there, "what-if", s.name)
	case len(there) == 0:
		return nil, &usageError{"--what-if all: " + s.name + " has no what-ifs", "they stand in the file under \"what if\""}
	}
	for _, name := range given {
		if name != allWhatIfs {
			return nil, &usageError{fmt.Sprintf("--what-if all and --what-if %q do not go together", name), "all is every what-if of the file"}
		}
	}
	return there, nil
}
