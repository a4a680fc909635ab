package report

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
		arrival, err := time.ParseInLocation("2006-01-02 15:04", "2026-12-31 "+c.arrives, zone)
		if err != nil {
			t.Fatal(err)
		}
		if got := (Site{Arrival: arrival}).At(c.after).Write(People); got != c.want {
			t.Errorf("%s and %v later: %q, want %q", c.arrives, sim.Clock(c.after), got, c.want)
		}
	}
}

// A moment "by" which something has come is rounded up, to the second as it is
// shown.
func TestClockOfByIsRoundedUp(t *testing.T) {
	site := Site{Arrival: time.Date(2027, 1, 16, 14, 55, 0, 0, time.UTC)}
	for after, want := range map[sim.Time]string{sim.Hour: "15:55", sim.Hour + 499: "15:55", sim.Hour + 500: "15:56", sim.Never: "never"} {
		if got := site.Came(after).Write(People); got != want {
			t.Errorf("Came(%d) = %q, want %q", after, got, want)
		}
	}
}
