package main

import (
	"fmt"
	"time"
	"unicode"
	"unicode/utf8"

	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/rehearse"
)

// What stands here goes when the last command that uses it makes a report: see
// internal/report.

type seconds = document.Seconds

func minutes(t sim.Time) string { return fmt.Sprintf("%.0f min", t.Minutes()) }

// short writes a time as minutes and seconds, "72:30".
func short(t sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	s := (int64(t) + 500) / 1000
	return itoa(s/60) + ":" + itoa2(s%60)
}

func milliseconds(t sim.Time) time.Duration { return time.Duration(t) * time.Millisecond }

// byText writes a target both as it was asked for and on the clock.
func byText(d *sim.Drill, m sim.Milestone) string {
	clock := clockOf(d, m.By)
	switch {
	case m.ByText == "dark" && clock != "":
		return "dark (" + clock + ")"
	case m.ByText == "dark":
		return "dark (" + sim.Clock(m.By) + ")"
	case clock != "":
		return clock + " (" + sim.Clock(m.By) + ")"
	}
	return sim.Clock(m.By)
}

func whyMilestone(tl *sim.Timeline, milestone int) string {
	return report.WhyMilestone(tl, milestone).Write(report.Full)
}

// sentence makes a text begin with a capital and end in a full stop.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	return sentenceCase(s) + "."
}

// sentenceCase makes a text begin with a capital.
func sentenceCase(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}

func isDrawn(d *sim.Drill) bool { return rehearse.IsDrawn(d) }
