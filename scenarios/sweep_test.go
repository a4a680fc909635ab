package scenarios

import (
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestVarySetsTheNumberOfPeople(t *testing.T) {
	s := readGood(t, "evening.yaml")
	all := s.drill.People
	for n := 1; n <= len(all)+3; n++ {
		v, err := s.Vary("people", strconv.Itoa(n))
		if err != nil {
			t.Fatalf("people=%d: %v", n, err)
		}
		if got := len(v.drill.People); got != n {
			t.Fatalf("people=%d: %d people", n, got)
		}
		for i, p := range v.drill.People {
			switch {
			case i < len(all) && (p.Name != all[i].Name || p.Skills != all[i].Skills):
				t.Errorf("people=%d: %+v, want %+v", n, p, all[i])
			case i >= len(all):
				want := all[len(all)-1]
				want.Name, want.Skills = "Person "+strconv.Itoa(i+1), 0
				if diff := cmp.Diff(want, p); diff != "" {
					t.Errorf("people=%d, a copy of the last without skills:\n%s", n, diff)
				}
			}
		}
		for _, name := range append(v.Orders(), "") {
			if _, err := v.Drill(name); err != nil {
				t.Errorf("people=%d, order %q: %v", n, name, err)
			}
		}
	}
	if len(s.drill.People) != len(all) {
		t.Error("the scenario itself was changed")
	}
}

func TestACopyTakesNoNameThatIsThere(t *testing.T) {
	s, err := Read("x", []byte("warmby: 1\ntitle: x\npeople: [{name: A}, {name: Person 3}]\ntasks: {dig: {takes: 1 min}}\n"))
	if err != nil {
		t.Fatal(err)
	}
	v, err := s.Vary("people", "4")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, p := range v.drill.People {
		names = append(names, p.Name)
	}
	if got := strings.Join(names, ","); got != "A,Person 3,Person 4,Person 5" {
		t.Error(got)
	}
}

func TestVarySetsTheWeatherOfAllRows(t *testing.T) {
	rows := "warmby: 1\ntitle: x\npeople: [{name: A}]\ntasks: {dig: {takes: 1 min}}\nweather: "
	for _, c := range []struct{ weather, key, want string }{
		{"[{at: 0 min, air: -1 C}, {at: 9 min, air: -2 C}]", "weather.air", "-30 -30"},
		{"{at: 0 min, air: -1 C}", "weather.air", "-30"},
		{"[{at: 0 min, air: -1 C}, {at: 9 min, air: -2 C}]", "weather[2].air", "-1 -30"},
		{"{calm: {weight: 70 %, rows: [{at: 0 min, air: -1 C}]}, storm: {weight: 30 %, rows: [{at: 0 min, air: -3 C}]}}", "weather.air", "-30 -30"},
		{"{calm: {weight: 70 %, rows: [{at: 0 min, air: -1 C}]}, storm: {weight: 30 %, rows: [{at: 0 min, air: -3 C}]}}", "weather.storm.air", "-1 -30"},
		{"{calm: {weight: 70 %, rows: [{at: 0 min, air: -1 C}]}, storm: {weight: 30 %, rows: [{at: 0 min, air: -3 C}]}}", "weather.calm.rows[1].air", "-30 -3"},
	} {
		s, err := Read("x", []byte(rows+c.weather+"\n"))
		if err != nil {
			t.Fatal(err)
		}
		v, err := s.Vary(c.key, "-30 C")
		if err != nil {
			t.Errorf("%s, %s: %v", c.weather, c.key, err)
			continue
		}
		var got []string
		for _, w := range v.drill.Weather {
			for _, r := range w.Rows {
				got = append(got, plain(rat(strconv.Itoa(int(r.Air)))))
			}
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s, %s: air %v, want %s", c.weather, c.key, got, c.want)
		}
	}
}

func TestVaryRefuses(t *testing.T) {
	s := readGood(t, "evening.yaml")
	for _, c := range []struct{ key, value, want string }{
		{"people", "0", "people: there may be 1 to 100, got 0"},
		{"peple", "3", `peple: unknown key "peple"` + "\n  hint: did you mean \"people\"?"},
		{"weather.wnd", "3 m/s", `weather.wnd: there is no "weather.wnd"` + "\n  hint: did you mean \"wind\"?"},
		{"weather.air", "3", `weather.air: weather[2].air: the unit is missing, got "3"` + "\n  hint: write C, F or K, such as \"3 C\""},
		{"tools.axee", "1", `tools.axee: there is no "tools.axee"` + "\n  hint: did you mean \"axe\"?"},
		{"wether.air", "1 C", `wether.air: there is no "wether"` + "\n  hint: did you mean \"weather\"?"},
	} {
		if _, err := s.Vary(c.key, c.value); err == nil || err.Error() != c.want {
			t.Errorf("Vary(%q, %q) = %v, want %s", c.key, c.value, err, c.want)
		}
	}
}

func TestValues(t *testing.T) {
	for text, want := range map[string]string{
		"4..7":                                  "4|5|6|7",
		"7..4":                                  "7|6|5|4",
		"4, 6,9":                                "4|6|9",
		"-40 C..-10 C step 5 C":                 "-40 C|-35 C|-30 C|-25 C|-20 C|-15 C|-10 C",
		"-10 C..-40 C step 20 C, 0 C":           "-10 C|-30 C|0 C",
		"0.1..0.3 step 0.1":                     "0.1|0.2|0.3",
		"1 kW..2 kW step 0.3 kW":                "1 kW|1.3 kW|1.6 kW|1.9 kW",
		"[1 min, 2 min, 3 min],[4 min], {a: b}": "[1 min, 2 min, 3 min]|[4 min]|{a: b}",
		"2..2":                                  "2",
		"headlamps,none":                        "headlamps|none",
		"2027-01-16T13:40:00+02:00":             "2027-01-16T13:40:00+02:00",
		"2027-01-16T13:40:00+02:00..2027-01-16T15:00:00+02:00 step 40 min": "2027-01-16T13:40:00+02:00|2027-01-16T14:20:00+02:00|2027-01-16T15:00:00+02:00",
	} {
		got, err := Values(text)
		if err != nil || strings.Join(got, "|") != want {
			t.Errorf("Values(%q) = %q, %v, want %q", text, strings.Join(got, "|"), err, want)
		}
	}
	for text, want := range map[string]string{
		"":                               `a value is missing in ""`,
		"4,,5":                           `a value is missing in "4,,5"`,
		"-40 C..-10 C":                   `the range "-40 C..-10 C" needs a step`,
		"0.5..2":                         `the range "0.5..2" needs a step`,
		"1 C..2 F step 1 C":              `both ends of a range and its step need the same unit, got "1 C..2 F step 1 C"`,
		"1 C..2 C step 1":                `both ends of a range and its step need the same unit, got "1 C..2 C step 1"`,
		"1..2 step 0":                    `the step of "1..2 step 0" must be over 0`,
		"1..2 step x":                    `the step of "1..2 step x" does not begin with a number`,
		"1..100000":                      `more than 10000 values in "1..100000"`,
		"0..1 step 0.00000000000000001":  `more than 10000 values in "0..1 step 0.00000000000000001"`,
		"a..b":                           `a range goes from one number to another, got "a..b"`,
		"2027-01-16T13:40:00+02:00..tea": `a range of moments ends with a moment, got "tea"`,
	} {
		_, err := Values(text)
		if err == nil || strings.SplitN(err.Error(), "\n", 2)[0] != want {
			t.Errorf("Values(%q): %v, want %s", text, err, want)
		}
	}
}

func TestQuantityInItsBaseUnit(t *testing.T) {
	for text, want := range map[string]string{
		"-40 C": "-40 C", "-40 F": "-40 C", "7 kW": "7000 W", "1h20min": "4800 s", "15 %": "0.15 share",
		"4": "4 ", "0.5": "0.5 ", "8 m/s": "8 m_per_s", "headlamps": " ", "[1 min, 2 min]": " ", "2-3": " ", "": " ",
	} {
		number, unit, ok := Quantity(text)
		if got := number + " " + unit; got != want || ok != (want != " ") {
			t.Errorf("Quantity(%q) = %q, %v, want %q", text, got, ok, want)
		}
	}
}

func TestVaryAllIsVaryOneAfterTheOther(t *testing.T) {
	s := readGood(t, "evening.yaml")
	keys, values := []string{"people", "weather.air", "tools.axe", "teamwork"}, []string{"6", "-31 C", "", "1"}
	all, err := s.VaryAll(keys, values)
	if err != nil {
		t.Fatal(err)
	}
	one := s
	for i, key := range keys {
		if values[i] != "" {
			if one, err = one.Vary(key, values[i]); err != nil {
				t.Fatal(err)
			}
		}
	}
	a, _ := all.Drill("")
	b, _ := one.Drill("")
	if len(a.People) != 6 || a.Weather[0].Rows[0].Air != -31 || a.Tasks[4].Teamwork != 1 || a.Tools[0].Count != s.drill.Tools[0].Count {
		t.Errorf("%d people, %g C, teamwork %g, %d axes", len(a.People), a.Weather[0].Rows[0].Air, a.Tasks[4].Teamwork, a.Tools[0].Count)
	}
	for i := range a.People {
		if a.People[i].Name != b.People[i].Name || a.People[i].Skills != b.People[i].Skills {
			t.Errorf("person %d: %+v, one after the other %+v", i, a.People[i], b.People[i])
		}
	}
	if _, err := s.VaryAll([]string{"tools.axe", "weather.air", "teamwork"}, []string{"x", "-31 C", "1"}); err == nil || !strings.HasPrefix(err.Error(), "tools.axe: ") {
		t.Errorf("a bad first value: %v, want it to name tools.axe", err)
	}
	for _, people := range []string{"x", "{pace: 1}", "[x]", "[]"} {
		if _, err := s.VaryAll([]string{"people[1]", "people", "weather", "weather.air"}, []string{people, "3", people, "-5 C"}); err == nil {
			t.Errorf("people[1]=%s: no error", people)
		}
	}
}
