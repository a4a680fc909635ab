package scenarios

import "testing"

func TestWithReplacesOneValue(t *testing.T) {
	s := readGood(t, "evening.yaml")
	for _, c := range []struct {
		key, value string
		got        func(*Scenario) any
		want       any
	}{
		{"people[2].pace", "0.5", func(s *Scenario) any { return s.drill.People[1].Pace }, int64(500)},
		{"people.Ciro.pace", "2", func(s *Scenario) any { return s.drill.People[3].Pace }, int64(2000)},
		{"weather[1].wind", "36 km/h", func(s *Scenario) any { return s.drill.Weather[0].Rows[0].Wind }, 10.0},
		{"site.snow.depth", "1 m", func(s *Scenario) any { return s.drill.Site.SnowDepth }, 1.0},
		{"site.arrival", "2027-01-16T12:00:00+02:00", func(s *Scenario) any { return s.drill.Site.Arrival.Hour() }, 12},
		{"stoves.heater.count", "0", func(s *Scenario) any { return s.drill.Stoves[0].Count }, 0},
		{"tasks.tramp the floor.work", "[10 min, 11 min, 12 min]", func(s *Scenario) any { return s.drill.Tasks[4].Amount.Usual() }, 660_000.0},
		{"tasks.tramp the floor.work[2]", "25 min", func(s *Scenario) any { return s.drill.Tasks[4].Amount.Usual() }, 1_500_000.0},
		{"teamwork", "1", func(s *Scenario) any { return s.drill.Tasks[4].Teamwork }, 1.0},
		{"tools.axe", "7", func(s *Scenario) any { return s.drill.Tools[0].Count }, 7},
	} {
		changed, err := s.With(c.key, c.value)
		if err != nil {
			t.Errorf("With(%q, %q): %v", c.key, c.value, err)
			continue
		}
		if got := c.got(changed); got != c.want {
			t.Errorf("With(%q, %q) gives %v, want %v", c.key, c.value, got, c.want)
		}
		if c.got(s) == c.want {
			t.Errorf("With(%q, %q) changed the scenario itself", c.key, c.value)
		}
	}
}

func TestWithRefuses(t *testing.T) {
	s := readGood(t, "evening.yaml")
	for _, c := range []struct{ key, value, want string }{
		{"people[2].pace", "fast", `people[2].pace: does not begin with a number, got "fast"` + "\n  hint: expected a number over 0 and up to 100"},
		{"people[9].pace", "1", `people[9].pace: "people" has no entry "[9].pace"; entries count from [1] to [4]`},
		{"tools.axee", "1", `tools.axee: there is no "tools.axee"` + "\n  hint: did you mean \"axe\"?"},
		{"tasks.tramp teh floor.crew", "1", `tasks.tramp teh floor.crew: there is no "tasks.tramp teh floor"` + "\n  hint: did you mean \"tramp the floor\"?"},
		{"site.latitud", "1", `site.latitud: unknown key "latitud"` + "\n  hint: did you mean \"latitude\"?"},
		{"title.x", "1", `title.x: "title" has no keys`},
		{"teamwork", "[", `teamwork: cannot read the value "["`},
		{"teamwork", "", `teamwork: cannot read the value ""`},
	} {
		if _, err := s.With(c.key, c.value); err == nil || err.Error() != c.want {
			t.Errorf("With(%q, %q) = %v, want %s", c.key, c.value, err, c.want)
		}
	}
}
