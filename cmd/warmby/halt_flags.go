package main

import (
	"fmt"
	"strconv"
	"time"

	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
)

// The arrivals that are tried unless flags say otherwise, and how many at most.
const (
	haltReach   = 3 * time.Hour // before and after the file's arrival
	mostHalts   = 500
	clockLayout = "15:04"
)

// settleArrivals settles which arrivals are tried.
func (h *halting) settleArrivals() error {
	arrival := h.d.Site.Arrival
	number, unit, ok := scenarios.Quantity(h.flags.step)
	seconds, err := strconv.ParseFloat(number, 64)
	if !ok || err != nil || unit != "s" || seconds < 60 || seconds > 24*3600 || seconds != float64(int64(seconds)) {
		return &mistake.Usage{What: fmt.Sprintf("--step expects a length of time in whole seconds, from 1 min to 24 h, got %q", h.flags.step), Cure: "such as --step \"10 min\""}
	}
	h.step = time.Duration(seconds) * time.Second
	from, err := momentOfFlag("--from", h.flags.from, arrival, -haltReach)
	if err != nil {
		return err
	}
	to, err := momentOfFlag("--to", h.flags.to, arrival, haltReach)
	if err != nil {
		return err
	}
	if from.After(to) {
		return &mistake.Usage{What: fmt.Sprintf("--from %s lies after --to %s", from.Format(clockLayout), to.Format(clockLayout)), Cure: "clock times are those nearest to the file's arrival, " + arrival.Format("Mon 2 Jan 15:04")}
	}
	if n := int(to.Sub(from)/h.step) + 1; n > mostHalts {
		return &mistake.Usage{What: fmt.Sprintf("%d arrivals from %s to %s are too many, at most %d are tried", n, from.Format(clockLayout), to.Format(clockLayout), mostHalts), Cure: "make --step longer"}
	}
	for at := from; !at.After(to); at = at.Add(h.step) {
		h.arrivals = append(h.arrivals, at)
	}
	return nil
}

// momentOfFlag reads a clock time as the moment nearest to the file's arrival
// at which the clock shows it; left out, it is the arrival plus otherwise.
func momentOfFlag(flag, text string, arrival time.Time, otherwise time.Duration) (time.Time, error) {
	if text == "" {
		return arrival.Add(otherwise), nil
	}
	clock, err := time.Parse(clockLayout, text)
	if err != nil {
		return arrival, &mistake.Usage{What: fmt.Sprintf("%s expects a time on the clock, got %q", flag, text), Cure: "such as 13:30 (00:00 to 23:59)"}
	}
	year, month, day := arrival.Date()
	at := time.Date(year, month, day, clock.Hour(), clock.Minute(), 0, 0, arrival.Location())
	switch {
	case at.Sub(arrival) > 12*time.Hour:
		at = at.AddDate(0, 0, -1)
	case at.Sub(arrival) <= -12*time.Hour:
		at = at.AddDate(0, 0, 1)
	}
	return at, nil
}
