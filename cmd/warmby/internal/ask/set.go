package ask

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"warmby/cmd/warmby/internal/mistake"
)

// Set declares --set for a command that plays.
func Set(flags *pflag.FlagSet, set *[]string) {
	flags.StringArrayVar(set, "set", nil, "play with another value, as weather.air=-28 C; several: `KEY=VALUE`")
}

// With returns the source with values set in it, each "KEY=VALUE" with a key as
// for --vary. Its Data stays the file as it stands.
func (s *Source) With(set []string) (*Source, error) {
	if len(set) == 0 {
		return s, nil
	}
	var keys, values []string
	for _, one := range set {
		key, value, ok := strings.Cut(one, "=")
		key, value = strings.TrimSpace(key), strings.TrimSpace(value)
		if !ok || key == "" || value == "" {
			return nil, &mistake.Usage{What: fmt.Sprintf("--set expects KEY=VALUE, got %q", one), Cure: "such as --set \"weather.air=-28 C\" or --set people=5"}
		}
		keys, values = append(keys, key), append(values, value)
	}
	scenario, err := s.Scenario.VaryAll(keys, values)
	if err != nil {
		what, cure, _ := strings.Cut(err.Error(), "\n  hint: ")
		return nil, &mistake.Usage{What: "--set " + what, Cure: cure}
	}
	changed := *s
	changed.Scenario, changed.Set = scenario, set
	for _, one := range set {
		changed.Arg += flagMark + "set " + one
	}
	return &changed, nil
}

// flagMark stands in [Source.Arg] before each flag that made the scenario another:
// its name, a space and its value. No name of a file can hold it.
const flagMark = "\x00"

// FileOf returns the FILE of a [Source.Arg], without such flags.
func FileOf(arg string) string {
	file, _, _ := strings.Cut(arg, flagMark)
	return file
}
