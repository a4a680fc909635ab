package main

import (
	"fmt"
	"math"

	"warmby/sim"
	"warmby/sim/stats"
)

// mornings is what runs of a drill are called that begins in the morning.
const mornings = "mornings"

// occasions is what to call many runs of a drill: by the hour of arrival, as
// people say it.
func occasions(d *sim.Drill) string {
	if d.Site.Arrival.IsZero() {
		return "runs"
	}
	switch hour := d.Site.Arrival.Hour(); {
	case hour >= 3 && hour < 10:
		return mornings
	case hour >= 12 && hour < 20:
		return "evenings"
	case hour >= 10 && hour < 12:
		return "days"
	}
	return "nights"
}

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

// momentRange writes the interval of a quantile, on the clock when the site has
// one.
func momentRange(d *sim.Drill, q stats.Quantile) string {
	write := func(t sim.Time) string { return sim.Clock(t) }
	if !d.Site.Arrival.IsZero() {
		write = func(t sim.Time) string { return clockUp(d, t) }
	}
	switch {
	case q.LowOpen && q.HighOpen:
		return "too few runs to bound it"
	case q.LowOpen:
		return write(q.High) + " at the latest"
	case q.HighOpen:
		return write(q.Low) + " at the soonest"
	}
	return write(q.Low) + " to " + write(q.High)
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

// lengthRange writes an interval of a difference that is over 0 in words.
func lengthRange(m stats.Mean) string {
	low, high := wholeMillis(m.Low), wholeMillis(m.High)
	switch {
	case math.IsInf(m.Low, 0):
		return "its interval cannot be told"
	case low < 0 && high < 0:
		return sim.Clock(-high) + " to " + sim.Clock(-low) + " later"
	case low < 0:
		return sim.Clock(-low) + " later to " + sim.Clock(high) + " sooner"
	}
	return sim.Clock(low) + " to " + sim.Clock(high)
}
