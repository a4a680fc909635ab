package ask

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/doubt"
)

// maxScenario is how large a scenario file may be, in bytes.
const maxScenario = 1 << 20

// Source is a scenario and where it came from.
type Source struct {
	// Name is what to call it in messages: the path of a file, the name of a
	// shipped scenario, or "standard input".
	Name string
	// Arg is what to give on a command line that reads it again, in the form
	// that [ShellWord] writes: FILE, and behind it the flags that changed it.
	Arg      string
	Shipped  bool
	Data     []byte // the file as it stands
	Scenario *scenarios.Scenario
	Set      []string // what was set in it, "KEY=VALUE" each

	numbers doubt.Numbers // of a log; the zero value without one
}

// Load reads the scenario that FILE stands for: a shipped scenario for its
// name, standard input for "-", else the file of that path.
func Load(arg string, stdin io.Reader) (*Source, error) {
	s, err := Find(arg, stdin)
	if err != nil {
		return nil, err
	}
	s.Scenario, err = scenarios.Read(s.Name, s.Data)
	if err != nil {
		return nil, err
	}
	return s, nil
}

// Find returns the bytes that FILE stands for, not yet read as a scenario. A
// name with an ending is always that of a file.
func Find(arg string, stdin io.Reader) (*Source, error) {
	switch {
	case arg == "":
		return nil, &mistake.Usage{What: "FILE is empty", Cure: "leave it out for the shipped demo"}
	case arg == "-":
		data, err := readScenario("standard input", stdin)
		return &Source{Name: "standard input", Arg: "-", Data: data}, err
	}
	if data, ok := library.Read(arg); ok && !strings.HasSuffix(arg, ".yaml") {
		return &Source{Name: arg, Arg: arg, Shipped: true, Data: data}, nil
	}
	f, err := os.Open(arg)
	if err != nil {
		return nil, cannotFind(arg, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, mistake.WithHint(fmt.Errorf("cannot read %s: it is a folder", arg), "give a scenario file in it")
	}
	data, err := readScenario(arg, f)
	return &Source{Name: arg, Arg: arg, Data: data}, err
}

// readScenario reads no more than it needs to know that a file is too large.
func readScenario(name string, r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxScenario+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, mistake.Reason(err))
	}
	if len(data) > maxScenario {
		return nil, &mistake.Input{
			What: fmt.Sprintf("%s: over 1 MiB (1,048,576 bytes), which is more than a scenario file may have", name),
			Cure: "is it a scenario file? \"warmby help scenario\" says what one looks like",
		}
	}
	return data, nil
}

// cannotFind says what is wrong with a FILE that cannot be opened; one that
// does not exist may have been meant for a shipped scenario.
func cannotFind(arg string, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("cannot read %s: %w", arg, mistake.Reason(err))
	}
	names := library.Names()
	bare := strings.TrimSuffix(strings.TrimSuffix(arg, ".yaml"), ".yml")
	if _, ok := library.Read(bare); ok {
		return mistake.WithHint(fmt.Errorf("no file %s", arg), "the shipped scenario of that name is called for without the ending: %s", bare)
	}
	if strings.ContainsAny(arg, `/\`) || bare != arg {
		return mistake.WithHint(fmt.Errorf("no file %s", arg), "shipped scenarios are called for by name: %s", strings.Join(names, ", "))
	}
	err = fmt.Errorf("no file and no shipped scenario %q", arg)
	if near := mistake.Nearest(arg, names); len(near) > 0 {
		return mistake.WithHint(err, "did you mean %s?", strings.Join(near, " or "))
	}
	return mistake.WithHint(err, "shipped scenarios: %s", strings.Join(names, ", "))
}

// AllWhatIfs stands for every what-if of a file.
const AllWhatIfs = "all"

// WhatIfs returns the what-ifs that are asked for, each once: by name, or all
// that there are.
func (s *Source) WhatIfs(given []string) ([]string, error) {
	there := s.Scenario.WhatIfs()
	switch {
	case !slices.Contains(given, AllWhatIfs):
		return Asked(given, there, "what-if", s.Name)
	case len(there) == 0:
		return nil, &mistake.Usage{What: "--what-if all: " + s.Name + " has no what-ifs", Cure: "they stand in the file under \"what if\""}
	}
	for _, name := range given {
		if name != AllWhatIfs {
			return nil, &mistake.Usage{What: fmt.Sprintf("--what-if all and --what-if %q do not go together", name), Cure: "all is every what-if of the file"}
		}
	}
	return there, nil
}

// AllOrders stands for every order of a file.
const AllOrders = "all"

// Orders returns the orders that are asked for, each once: by name, or all that
// there are.
func (s *Source) Orders(given []string) ([]string, error) {
	there := s.Scenario.Orders()
	if slices.Contains(given, AllOrders) && !slices.Contains(there, AllOrders) {
		return there, nil
	}
	return Asked(given, there, "order", s.Name)
}

// Drill returns the drill of an order, changed by a what-if when one is named.
func (s *Source) Drill(order, whatIf string) (*sim.Drill, error) {
	scenario := s.Scenario
	if whatIf != "" {
		changed, err := scenario.WhatIf(whatIf)
		if err != nil {
			return nil, unknownName(err, "what-ifs", scenario.WhatIfs())
		}
		scenario = changed
	}
	d, err := scenario.Drill(order)
	if err != nil {
		return nil, unknownName(err, "orders", scenario.Orders())
	}
	return d, nil
}

// unknownName makes a name that a scenario does not know a mistake of the
// command line: what is wrong on the first line, the likely cure as its hint.
func unknownName(err error, what string, known []string) error {
	text, _, _ := strings.Cut(err.Error(), "\n")
	return &mistake.Usage{What: text, Cure: fmt.Sprintf("its %s: %s", what, mistake.QuotedOrNone(known))}
}

// Asked returns the names asked for, each once, or says which is not there.
func Asked(names, there []string, what, where string) ([]string, error) {
	var list []string
	for _, name := range names {
		if !slices.Contains(there, name) {
			err := &mistake.Usage{What: fmt.Sprintf("%s has no %s %q", where, what, name), Cure: fmt.Sprintf("the %ss of %s: %s", what, where, mistake.QuotedOrNone(there))}
			if near := mistake.Nearest(name, there); len(near) > 0 {
				err.Cure = "did you mean " + mistake.Quoted(near) + "?"
			}
			return nil, err
		}
		if !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list, nil
}
