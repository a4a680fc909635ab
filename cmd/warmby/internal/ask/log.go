package ask

import (
	"github.com/spf13/pflag"

	"warmby/sim/doubt"
	"warmby/sim/fit"
)

// Log declares --log for a command that tells luck from numbers.
func Log(flags *pflag.FlagSet, logs *[]string) {
	flags.StringArrayVar(logs, "log", nil, "take numbers from a stop-watch log, as fit does; several: `LOG`")
}

// Learning returns the source with the numbers that some logs of so many drills
// give. Its Data stays the file as it stands.
func (s *Source) Learning(l *fit.Learnt, drills int, logs []string) *Source {
	changed := *s
	changed.Scenario = s.Scenario.Learning(l.Settle)
	changed.numbers = doubt.OfLog(l, drills)
	for _, one := range logs {
		changed.Arg += flagMark + "log " + one
	}
	return &changed
}

// Numbers is how else the numbers of the scenario may be read: as the log leaves
// them open, or quick and slow as 8 in 10.
func (s *Source) Numbers() doubt.Numbers {
	if s.numbers.Drills > 0 {
		return s.numbers
	}
	return doubt.OfFile()
}
