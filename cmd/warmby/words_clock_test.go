package main

import (
	"testing"
	"time"

	"warmby/sim"
)

// Days are those of the calendar where the team is.
func TestTheClockCountsDaysByTheCalendar(t *testing.T) {
	zone := time.FixedZone("+02:00", 2*60*60)
	for _, c := range []struct {
		arrives string
		after   sim.Time
		want    string
	}{
		{"09:00", 14 * sim.Hour, "23:00"}, {"09:00", 24 * sim.Hour, "09:00 +1 d"}, {"09:00", 40 * sim.Hour, "01:00 +2 d"},
		{"23:00", 2 * sim.Hour, "01:00 +1 d"}, {"23:00", 24 * sim.Hour, "23:00 +1 d"}, {"00:30", 48 * sim.Hour, "00:30 +2 d"},
	} {
		at, err := time.ParseInLocation("2006-01-02 15:04", "2026-12-31 "+c.arrives, zone)
		if err != nil {
			t.Fatal(err)
		}
		if got := clockOf(&sim.Drill{Site: sim.Site{Arrival: at}}, c.after); got != c.want {
			t.Errorf("%s and %v later: %q, want %q", c.arrives, sim.Clock(c.after), got, c.want)
		}
	}
}
