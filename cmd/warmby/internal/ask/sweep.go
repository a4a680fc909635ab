package ask

import "github.com/spf13/pflag"

// Sweep is the picture of what varied keys do, as a command is asked for it.
type Sweep struct {
	Pictures []string // files
	Of       string   // "hot drink p90"; "" for the milestone that is shown without
}

// Declare adds the flags.
func (s *Sweep) Declare(flags *pflag.FlagSet) {
	flags.StringArrayVar(&s.Pictures, "picture", nil, "draw what varied keys do, as .svg, .png or .pdf: `FILE`")
	flags.StringVar(&s.Of, "picture-of", "", "milestone to draw, its mean or as in \"heated p90\": `WHAT`")
}

// Words writes the flags for a command line, each with a space in front.
func (s *Sweep) Words() string {
	text := ""
	for _, path := range s.Pictures {
		text += " --picture " + ShellWord(path)
	}
	if s.Of != "" {
		text += " --picture-of " + ShellWord(s.Of)
	}
	return text
}
