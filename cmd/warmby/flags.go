package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"warmby/cmd/warmby/internal/mistake"
)

// flagError puts what is wrong with a flag in words: what was expected and
// what was given.
func flagError(cmd *cobra.Command, err error) error {
	var (
		unknown *pflag.NotExistError
		missing *pflag.ValueRequiredError
		invalid *pflag.InvalidValueError
		syntax  *pflag.InvalidSyntaxError
	)
	seeHelp := fmt.Sprintf("\"%s --help\" lists its flags", cmd.CommandPath())
	switch {
	case errors.As(err, &unknown):
		return unknownFlag(cmd, unknown, seeHelp)
	case errors.As(err, &missing):
		f := missing.GetFlag()
		return &mistake.Usage{What: fmt.Sprintf("--%s expects %s, but nothing follows it", f.Name, expects(f)), Cure: seeHelp}
	case errors.As(err, &invalid):
		f := invalid.GetFlag()
		if errors.Is(err, errNotPlain) {
			seeHelp = "digits alone, such as 10 or 1000"
		}
		return &mistake.Usage{What: fmt.Sprintf("--%s expects %s, got %q", f.Name, expects(f), invalid.GetValue()), Cure: seeHelp}
	case errors.As(err, &syntax):
		return &mistake.Usage{What: fmt.Sprintf("%q is not a flag: expected --name or --name=value", syntax.GetSpecifiedFlag()), Cure: seeHelp}
	}
	return &mistake.Usage{What: err.Error(), Cure: seeHelp}
}

func unknownFlag(cmd *cobra.Command, err *pflag.NotExistError, seeHelp string) error {
	if group := err.GetSpecifiedShortnames(); group != "" {
		return &mistake.Usage{What: fmt.Sprintf("unknown flag -%s", group), Cure: "flags have long names: --json, --force; " + seeHelp}
	}
	name, hint := err.GetSpecifiedName(), seeHelp
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if !f.Hidden {
			names = append(names, f.Name)
		}
	})
	if near := mistake.Nearest(name, names); len(near) > 0 {
		hint = "did you mean --" + strings.Join(near, " or --") + "?"
	}
	return &mistake.Usage{What: fmt.Sprintf("%s knows no flag --%s", cmd.CommandPath(), name), Cure: hint}
}

// noEmptyValue refuses a flag that was given with an empty value, as a script
// does when a variable is not set: it would pass for one that was left out.
func noEmptyValue(cmd *cobra.Command) (err error) {
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if err == nil && f.Value.Type() == "string" && strings.TrimSpace(f.Value.String()) == "" {
			err = &mistake.Usage{What: fmt.Sprintf("--%s expects %s, got an empty one", f.Name, expects(f)), Cure: "leave the flag out for what holds without it"}
		}
	})
	return err
}

// plainNumber is the value of a flag that takes a number as scenario files write
// it: 10, and not 010, 0x10 or 1_000, which pflag would read as 8, 16 and 1000.
type plainNumber struct{ pflag.Value }

var errNotPlain = errors.New("not a plain number")

// Set refuses numbers in other forms.
func (n plainNumber) Set(text string) error {
	digits := strings.TrimPrefix(text, "-")
	if strings.Trim(digits, "0123456789") != "" || len(digits) > 1 && digits[0] == '0' {
		return errNotPlain
	}
	return n.Value.Set(text)
}

// plainNumbers has all flags of a command that are whole numbers take them in
// plain form only.
func plainNumbers(flags *pflag.FlagSet) {
	flags.VisitAll(func(f *pflag.Flag) {
		switch f.Value.Type() {
		case "int", "int64", "uint", "uint64":
			f.Value = plainNumber{f.Value}
		}
	})
}

// expectation is the annotation of a flag that says in words what its value
// must be.
const expectation = "expects"

// expectFlag says in words what the value of a flag must be, for messages.
func expectFlag(flags *pflag.FlagSet, name, expects string) {
	if err := flags.SetAnnotation(name, expectation, []string{expects}); err != nil {
		panic("warmby: " + err.Error()) // no such flag
	}
}

// expects says in words what value a flag takes.
func expects(f *pflag.Flag) string {
	if said := f.Annotations[expectation]; len(said) > 0 {
		return said[0]
	}
	switch f.Value.Type() {
	case "bool":
		return "true or false"
	case "int", "int64":
		return "a whole number"
	case "uint", "uint64":
		return "a whole number, 0 or more"
	case "float64":
		return "a number"
	}
	name, _ := pflag.UnquoteUsage(f)
	return "a value (" + name + ")"
}

// oneFile is the argument check of commands that take [FILE].
func oneFile(cmd *cobra.Command, args []string) error {
	if len(args) <= 1 {
		return nil
	}
	return &mistake.Usage{What: fmt.Sprintf("%s expects one FILE at most, got %d: %s", cmd.CommandPath(), len(args), mistake.Quoted(args)), Cure: "put quotes around a name with spaces in it"}
}
