package scenarios_test

import (
	"strings"
	"testing"
	"time"

	"warmby/scenarios"
)

func TestMomentsAreReadAsPeopleWriteThem(t *testing.T) {
	file := func(arrival string) string {
		return "warmby: 1\ntitle: T\nsite: {arrival: " + arrival + "}\npeople: [{name: Aila}]\ntasks:\n  dig: {work: 1 min}\n"
	}
	want := time.Date(2027, 1, 16, 11, 40, 0, 0, time.UTC)
	for _, text := range []string{
		"2027-01-16T13:40:00+02:00", "2027-01-16T13:40+02:00", "2027-01-16 13:40:00+02:00", "2027-01-16 13:40+02:00",
		"2027-01-16 13:40 +02:00", "2027-01-16 13:40:00 +02:00", "2027-01-16T11:40Z", "2027-01-16 11:40Z", `"2027-01-16 10:10 -01:30"`,
	} {
		s, err := scenarios.Read("a.yaml", []byte(file(text)))
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		d, err := s.Drill("")
		if err != nil {
			t.Fatal(err)
		}
		if !d.Site.Arrival.Equal(want) {
			t.Errorf("%s is read as %v, want %v", text, d.Site.Arrival, want)
		}
	}
	for text, says := range map[string]string{
		"2027-01-16 13:40":        "offset from UTC is missing",
		"2027-01-16T13:40:00":     "offset from UTC is missing",
		"16.1.2027 13:40 +02:00":  "must be a date and time",
		"2027-02-30 13:40 +02:00": "must be a date and time",
		"2027-01-16 13.40 +02:00": "must be a date and time",
	} {
		if _, err := scenarios.Read("a.yaml", []byte(file(text))); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want %q", text, err, says)
		}
	}
}
