package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/cmd/warmby/internal/report"
	"warmby/scenarios"
)

// factFlags are what is known of tonight, as flags say it.
type factFlags struct {
	facts      scenarios.Facts
	late, dead []string // as given
}

func (f *factFlags) declareFacts(flags *pflag.FlagSet) {
	flags.StringVar(&f.facts.Arrive, "arrive", "", "the team arrives at this `TIME` on the file's day, as 15:30")
	flags.StringVar(&f.facts.Air, "air", "", "the air has this `TEMPERATURE` all evening, as \"-28 C\"")
	flags.StringVar(&f.facts.Wind, "wind", "", "the wind has this `SPEED` all evening, as \"8 m/s\"")
	flags.StringArrayVar(&f.facts.Without, "without", nil, "this `PERSON` is not there; several")
	flags.StringArrayVar(&f.late, "late", nil, "a load or a person comes so long after the team, as pulk=20min; several: `NAME=TIME`")
	flags.StringArrayVar(&f.dead, "stove-dead", nil, "one `STOVE` of this kind does not work, as burner, or burner=2 for two; several")
}

// readFacts reads the facts that have two parts.
func (f *factFlags) readFacts() error {
	for _, text := range f.late {
		name, by, ok := strings.Cut(text, "=")
		if !ok || strings.TrimSpace(by) == "" {
			return &mistake.Usage{What: fmt.Sprintf("--late expects NAME=TIME, got %q", text), Cure: "such as --late \"pulk=20min\""}
		}
		f.facts.Late = append(f.facts.Late, scenarios.Late{Name: strings.TrimSpace(name), By: strings.TrimSpace(by)})
	}
	for _, text := range f.dead {
		name, number, several := strings.Cut(text, "=")
		count := 1
		if several {
			var err error
			if count, err = strconv.Atoi(strings.TrimSpace(number)); err != nil || count < 1 {
				return &mistake.Usage{What: fmt.Sprintf("--stove-dead expects STOVE or STOVE=NUMBER, got %q", text), Cure: "such as --stove-dead burner, or burner=2 for two"}
			}
		}
		f.facts.Dead = append(f.facts.Dead, scenarios.Dead{Stove: strings.TrimSpace(name), Count: count})
	}
	return nil
}

// over lays the facts over a scenario, with remarks on what they bring about.
func (f *factFlags) over(src *ask.Source) (*ask.Source, []string, error) {
	over := *src
	var remarks []string
	var err error
	if over.Scenario, remarks, err = src.Scenario.Tonight(f.facts); err != nil {
		return nil, nil, oddFacts(err)
	}
	return &over, remarks, nil
}

// oddFacts is every fact that cannot be, as mistakes of the command line.
func oddFacts(err error) error {
	var odd *scenarios.OddFacts
	if !errors.As(err, &odd) {
		return err
	}
	list := &mistake.Several{}
	for _, one := range odd.List {
		list.List = append(list.List, &mistake.Usage{What: fmt.Sprintf("--%s %s: %s", one.Fact, ask.ShellWord(one.Value), one.Reason), Cure: one.Hint})
	}
	return list
}

// said is what is said of tonight, as it was given.
func (f *factFlags) said() (list []string) {
	add := func(pattern, value string) {
		if value != "" {
			list = append(list, fmt.Sprintf(pattern, value))
		}
	}
	add("arrive %s", f.facts.Arrive)
	add("air %s", f.facts.Air)
	add("wind %s", f.facts.Wind)
	add("without %s", strings.Join(f.facts.Without, ", "))
	for _, l := range f.facts.Late {
		add("%s", l.Name+" "+l.By+" behind")
	}
	for _, d := range f.facts.Dead {
		add("%s dead", report.Counted(d.Count, d.Stove))
	}
	return list
}

// repeatFacts adds the facts to a command that gives the same answer again.
func (f *factFlags) repeatFacts(c *ask.Command) *ask.Command {
	c = c.With("arrive", f.facts.Arrive).With("air", f.facts.Air).With("wind", f.facts.Wind)
	for _, one := range f.facts.Without {
		c.With("without", one)
	}
	for _, one := range f.late {
		c.With("late", one)
	}
	for _, one := range f.dead {
		c.With("stove-dead", one)
	}
	return c
}
