package main

import (
	"fmt"
	"math"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/rehearse"
	"warmby/sim/stats"
)

// What stands here goes when the last command that uses it makes a report: see
// internal/report.

type seconds = document.Seconds

// short writes a time as minutes and seconds, "72:30".
func short(t sim.Time) string {
	if t == sim.Never {
		return "never"
	}
	s := (int64(t) + 500) / 1000
	return itoa(s/60) + ":" + itoa2(s%60)
}

func milliseconds(t sim.Time) time.Duration { return time.Duration(t) * time.Millisecond }

func whyMilestone(tl *sim.Timeline, milestone int) string {
	return report.WhyMilestone(tl, milestone).Write(report.Full)
}

// sentenceCase makes a text begin with a capital.
func sentenceCase(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}

func isDrawn(d *sim.Drill) bool { return rehearse.IsDrawn(d) }

// occasions is what to call many runs of a drill.
func occasions(d *sim.Drill) string { return report.SiteOf(d).Many }

// inHundred writes a share as so many of a hundred: "in 83 of 100 evenings (81
// to 85)". What is rare, or all but certain, is counted out.
func inHundred(s stats.Share, of string) string {
	return "in " + outOf(s) + " " + of + " (" + percentRange(s) + ")"
}

// outOf writes a share as so many of a hundred, or counts it out where it is
// rare or all but certain.
func outOf(s stats.Share) string {
	rounded := math.Round(100 * s.Value)
	if s.Exact || rounded == 0 && s.Count > 0 || rounded == 100 && s.Count < s.Runs {
		return fmt.Sprintf("%d of %d", s.Count, s.Runs)
	}
	return fmt.Sprintf("%.0f of 100", rounded)
}

// hundredths writes a share in percent without the sign: whole, unless it would
// read as none or all and is not.
func hundredths(v float64) string {
	text := fmt.Sprintf("%.0f", 100*v)
	if v > 0 && text == "0" || v < 1 && text == "100" {
		text = fmt.Sprintf("%.1f", 100*v)
	}
	switch {
	case v > 0 && text == "0.0":
		return "<0.1"
	case v < 1 && text == "100.0":
		return ">99.9"
	}
	return text
}

// percentRange writes the interval of a share: "81 to 85 %".
func percentRange(s stats.Share) string {
	if s.High < 0.02 || s.Low > 0.98 {
		return fmt.Sprintf("%.1f to %.1f %%", 100*s.Low, 100*s.High)
	}
	return hundredths(s.Low) + " to " + hundredths(s.High) + " %"
}

// signed writes a length of time of either sign as minutes and seconds.
func signed(t sim.Time) string {
	if t < 0 && -t >= 500*sim.Millisecond {
		return "-" + short(-t)
	}
	return short(max(t, -t))
}

// shortRange writes an interval of lengths of time in minutes and seconds.
func shortRange(m stats.Mean) string {
	if math.IsInf(m.Low, 0) {
		return "cannot be told"
	}
	return signed(wholeMillis(m.Low)) + " to " + signed(wholeMillis(m.High))
}

// coldLine is the account of cold of one drill, to be written as a line.
type coldLine struct {
	name string
	d    *sim.Drill
	cold *compare.Cold // nil without an account
}

// coldTable writes accounts of cold one below the other; nothing when there are
// none.
func coldTable(lines []coldLine, occasions string, width int) string {
	rows := [][]string{{"", "over the limit", "5 of 10", "9 of 10", "coldest most often"}}
	runs := 0
	for _, l := range lines {
		k := l.cold
		if k == nil {
			continue
		}
		runs = max(runs, len(k.Peaks))
		over := k.OverShare()
		who := k.MostOften()
		rows = append(rows, []string{l.name, shareCell(&over, ""), peakCell(k, 0.5), peakCell(k, 0.9),
			fmt.Sprintf("%s, %d of %d", l.d.People[who].Name, k.Coldest[who], len(k.Peaks))})
	}
	if runs == 0 {
		return ""
	}
	out := tableWithin(width, 1, "  ", rows)
	return out + wrap(fmt.Sprintf("The most heat that anybody has lost at any moment of a run, in Wh/m2, reached at most in 5 and in 9 of 10 %s, and in how many somebody passes the limit of %d; beside each its 95 %% interval. The account is kept in the first %s. Coldest most often: who in most runs loses more than anybody else.",
		occasions, cold.HeatLimit, counted(runs, "run")), width, "  ", "  ")
}

func peakCell(k *compare.Cold, p float64) string {
	q := k.Quantile(p)
	return fmt.Sprintf("%.0f (%s to %s)", q.Value, whCell(q.Low), whCell(q.High))
}

func whCell(v *float64) string {
	if v == nil {
		return "?"
	}
	return fmt.Sprintf("%.0f", *v)
}

func quoteWord(name string) string { return fmt.Sprintf("%q", name) }

// shareCell writes a share and its interval, or else what stands for none.
func shareCell(s *stats.Share, none string) string {
	if s == nil {
		return none
	}
	percent := func(v float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", 100*v), ".0") }
	return fmt.Sprintf("%s %% (%s to %s %%)", percent(s.Value), percent(s.Low), percent(s.High))
}
