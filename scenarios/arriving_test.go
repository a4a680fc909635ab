package scenarios

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"warmby/sim"
)

// dusk arrives at 14:00; civil twilight ends there at 15:59:56 or so by the
// rule of daylight, whose own tests hold it against published tables.
const dusk = `warmby: 1
title: An arrival that is moved
site: {latitude: 66.4, longitude: 25.3, arrival: 2027-01-16T14:00:00+02:00}
weather:
  calm: {weight: 60 %, rows: [{at: 0 min, air: -10 C, wind: 1 m/s}, {at: 30 min, air: -12 C, wind: 2 m/s}, {at: 90 min, air: -14 C, wind: 3 m/s}]}
  storm: {weight: 40 %, rows: {at: 0 min, air: -20 C, wind: 9 m/s}}
people: [{name: Aila}]
tasks: {pitch: {takes: 10 min}}
milestones:
  shelter up: {when: [pitch], by: dark}
  hot drink: {when: [pitch], by: 15:00}
  soon: {when: [pitch], by: 100 min}
  some day: {when: [pitch]}
  finish: {by: 16:30}
`

func readDusk(t *testing.T, changes ...string) *Scenario {
	t.Helper()
	s, err := Read("dusk", []byte(strings.NewReplacer(changes...).Replace(dusk)))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// arriving is the drill of a scenario with its arrival moved by some minutes.
func arriving(t *testing.T, s *Scenario, minutes int) *sim.Drill {
	t.Helper()
	d, err := s.Arriving("", s.drill.Site.Arrival.Add(time.Duration(minutes)*time.Minute))
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestWeatherStaysOnTheClock(t *testing.T) {
	row := func(at sim.Time, air float64) sim.WeatherRow {
		return sim.WeatherRow{At: at * sim.Minute, Air: air, Wind: map[float64]float64{-10: 1, -12: 2, -14: 3}[air], Humidity: usualHumidity}
	}
	for _, c := range []struct {
		later int
		want  []sim.WeatherRow
	}{
		{0, []sim.WeatherRow{row(0, -10), row(30, -12), row(90, -14)}},
		{20, []sim.WeatherRow{row(0, -10), row(10, -12), row(70, -14)}},
		{30, []sim.WeatherRow{row(0, -12), row(60, -14)}}, // at the very moment of a row
		{60, []sim.WeatherRow{row(0, -12), row(30, -14)}},
		{500, []sim.WeatherRow{row(0, -14)}},
		// Before the first row the first holds.
		{-45, []sim.WeatherRow{row(0, -10), row(75, -12), row(135, -14)}},
	} {
		d := arriving(t, readDusk(t), c.later)
		if diff := cmp.Diff(c.want, d.Weather[0].Rows); diff != "" {
			t.Errorf("%d min later:\n%s", c.later, diff)
		}
		if len(d.Weather) != 2 || d.Weather[1].Weight != 0.4 || len(d.Weather[1].Rows) != 1 || d.Weather[1].Rows[0].At != 0 {
			t.Errorf("%d min later: the other case is %+v", c.later, d.Weather[1])
		}
	}
}

func TestLightStaysOnTheClock(t *testing.T) {
	s := readDusk(t)
	want := s.drill.Light
	for _, later := range []int{-60, 60, 119} {
		got := arriving(t, s, later).Light
		for i := 1; i < min(len(want), len(got)); i++ { // the last of a week may fall off
			if got[i].At+sim.Time(later)*sim.Minute != want[i].At || got[i].Dark != want[i].Dark {
				t.Errorf("%d min later: change %d at %s, want %s less that", later, i, sim.Clock(got[i].At), sim.Clock(want[i].At))
			}
		}
		if got[0].At != 0 || got[0].Dark {
			t.Errorf("%d min later: %+v at arrival, want light", later, got[0])
		}
	}
	if got := arriving(t, s, 150).Light[0]; got.At != 0 || !got.Dark {
		t.Errorf("half an hour after nightfall: %+v at arrival, want dark", got)
	}
}

func TestTargetsOnTheClockStayThere(t *testing.T) {
	s := readDusk(t)
	was := s.drill.Milestones
	for _, later := range []int{-300, -45, 0, 50, 61, 180} {
		for i, m := range arriving(t, s, later).Milestones {
			want := was[i].By
			switch m.Name {
			case "shelter up", "hot drink", "finish":
				want -= sim.Time(later) * sim.Minute // below 0 once it has passed
			}
			if m.By != want {
				t.Errorf("%d min later: %s by %d ms, want %d", later, m.Name, m.By, want)
			}
		}
	}
}

// Arriving before dawn, "by: dark" still means the evening.
func TestDarkIsTheNightfallThatTheFileMeans(t *testing.T) {
	s := readDusk(t)
	d := arriving(t, s, -10*60)
	if !d.Light[0].Dark {
		t.Fatal("it is light at four in the morning of January")
	}
	if want := s.drill.Milestones[0].By + 10*sim.Hour; d.Milestones[0].By != want {
		t.Errorf("dark at %s, want %s", sim.Clock(d.Milestones[0].By), sim.Clock(want))
	}
	// A file that arrives in the dark means the first darkness of its arrival.
	night := readDusk(t, "T14:00:00", "T20:00:00")
	if night.drill.Milestones[0].By != 0 {
		t.Fatal("it is light at eight in the evening")
	}
	nightfall := s.drill.Milestones[0].By - 6*sim.Hour
	if got := arriving(t, night, -5*60).Milestones[0].By; got != nightfall+5*sim.Hour {
		t.Errorf("five hours before: dark at %s, want %s", sim.Clock(got), sim.Clock(nightfall+5*sim.Hour))
	}
	if got := arriving(t, night, 60).Milestones[0].By; got != 0 {
		t.Errorf("an hour later: dark at %s, want at once", sim.Clock(got))
	}
	// Dark stays on the clock: who comes after dawn comes after it, and does not
	// get the next evening; who comes a night earlier waits for the same one.
	if got, want := arriving(t, night, 15*60).Milestones[0].By, nightfall-15*sim.Hour; got != want {
		t.Errorf("at eleven the next morning: dark %d ms from arrival, want %d", got, want)
	}
	if got, want := arriving(t, night, -18*60).Milestones[0].By, nightfall+18*sim.Hour; got != want {
		t.Errorf("at two in the night before: dark %d ms from arrival, want %d", got, want)
	}
}

func TestArrivingLeavesTheScenarioAlone(t *testing.T) {
	s := readDusk(t)
	before, _ := s.Drill("")
	at := before.Site.Arrival.Add(90 * time.Minute).UTC()
	d, err := s.Arriving("", at)
	if err != nil {
		t.Fatal(err)
	}
	if got := d.Site.Arrival.Format(time.RFC3339); got != "2027-01-16T15:30:00+02:00" {
		t.Errorf("arrival %s, want it on the clock of the file", got)
	}
	after := readDusk(t)
	if diff := cmp.Diff(after.drill.Milestones, s.drill.Milestones); diff != "" {
		t.Errorf("targets of the scenario itself:\n%s", diff)
	}
	if diff := cmp.Diff(after.drill.Weather, s.drill.Weather); diff != "" {
		t.Errorf("weather of the scenario itself:\n%s", diff)
	}
}

func TestArrivingNeedsAnArrivalAndAnOrder(t *testing.T) {
	bare, err := Read("bare", []byte("warmby: 1\ntitle: x\npeople: [{name: A}]\ntasks: {dig: {takes: 1 min}}\n"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := bare.Arriving("", time.Unix(0, 0)); err == nil || !strings.HasPrefix(err.Error(), "site: arrival is missing") {
		t.Errorf("no arrival: %v", err)
	}
	if _, err := readDusk(t).Arriving("no such", time.Unix(0, 0)); err == nil {
		t.Error("an order that is not there is taken")
	}
}
