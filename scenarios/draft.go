package scenarios

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"math"
	"math/big"
	"strings"
	"text/template"
	"time"
	"unicode/utf8"

	"warmby/sim"
	"warmby/sim/heat"
)

// Answers are what `warmby new` asks. A zero value stands for its default,
// but for Heater.
type Answers struct {
	Title       string // default "An evening in the snow"
	People      int    // 1 to 40; default 5
	StovePeople int    // 1 to People: how many may light stoves; default 2, or all of a smaller team
	Air         string // air temperature at arrival, -60 to 0 C, with a unit; default "-18 C"
	Wind        string // at 10 m, up to 40 m/s, with a unit; default "4 m/s"
	Arrival     string // RFC 3339; default 2027-01-16T14:00:00+01:00
	Snow        string // depth, up to 10 m, with a unit; default "70 cm"
	Heater      bool   // whether the tent has a heater
	Schema      string // file name of the JSON Schema, for the editor's first line; default "warmby.schema.json"
}

// DefaultAnswers returns the answers of somebody who answers nothing.
func DefaultAnswers() Answers {
	a := Answers{Heater: true}
	a.fill()
	return a
}

func (a *Answers) fill() {
	text := func(s *string, otherwise string) {
		if *s = strings.TrimSpace(*s); *s == "" {
			*s = otherwise
		}
	}
	text(&a.Title, "An evening in the snow")
	text(&a.Air, "-18 C")
	text(&a.Wind, "4 m/s")
	text(&a.Arrival, "2027-01-16T14:00:00+01:00")
	text(&a.Snow, "70 cm")
	text(&a.Schema, "warmby.schema.json")
	if a.People == 0 {
		a.People = 5
	}
	if a.StovePeople == 0 {
		a.StovePeople = min(2, a.People)
	}
}

// Draft writes a commented scenario of a small evening from eight answers.
// What it writes reads without a mistake and finishes when played. The error
// names the answer that cannot be used.
func Draft(a Answers) ([]byte, error) {
	a.fill()
	e, err := a.evening()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := draftTemplate.Execute(&b, e); err != nil {
		return nil, fmt.Errorf("scenarios: draft: %w", err)
	}
	if _, err := Read("draft", b.Bytes()); err != nil {
		return nil, fmt.Errorf("the answers do not make a scenario: %w", err)
	}
	return b.Bytes(), nil
}

//go:embed draft.yaml.tmpl
var draftText string

var draftTemplate = template.Must(template.New("draft").Parse(draftText))

// evening is what the template needs.
type evening struct {
	Answers
	Quoted        string // the title as YAML
	Longitude     float64
	Air, AirLater string
	SnowTemp      string
	Team          []member
	First, Second []string // the two groups, when there are two
	Watchers      []string // who looks after the heater: those who light nothing, if any
	Shovels       int
	PitchMin      int
	PitchMax      int
	FloorMax      int
	Drink, Supper string
	Tent          string
	Power         string // of the heater
	WarmPeople    int
	TwoGroups     bool
	Burners       int
}

type member struct {
	Name   string
	Skills string
}

func (a Answers) evening() (*evening, error) {
	e := &evening{Answers: a}
	air, err := answer("air temperature", a.Air, inTemperature, "-60 C", "0 C")
	if err != nil {
		return nil, err
	}
	if _, err := answer("wind", a.Wind, inSpeed, "0 m/s", "40 m/s"); err != nil {
		return nil, err
	}
	if _, err := answer("snow depth", a.Snow, inLength, "0 m", "10 m"); err != nil {
		return nil, err
	}
	arrival, err := time.Parse(time.RFC3339, a.Arrival)
	switch {
	case err != nil:
		return nil, fmt.Errorf("arrival: must be a date and time with an offset such as 2027-01-16T14:00:00+01:00, got %q", a.Arrival)
	case a.People < 1 || a.People > 40:
		return nil, fmt.Errorf("people: must be from 1 to 40, got %d", a.People)
	case a.StovePeople < 1 || a.StovePeople > a.People:
		return nil, fmt.Errorf("stove people: must be from 1 to the %d people, got %d", a.People, a.StovePeople)
	case len(a.Title) > maxName || strings.ContainsFunc(a.Title, steers):
		return nil, fmt.Errorf("title: must be one line of at most %d bytes, got %q", maxName, clip(a.Title, 60))
	case !utf8.ValidString(a.Title):
		return nil, fmt.Errorf("title: must be UTF-8, got %q", a.Title)
	case strings.ContainsFunc(a.Schema, steers):
		return nil, fmt.Errorf("schema: not a file name, got %q", clip(a.Schema, 60))
	}
	title, err := json.Marshal(a.Title)
	if err != nil {
		return nil, fmt.Errorf("title: %w", err)
	}
	e.Quoted = string(title)
	_, offset := arrival.Zone()
	e.Longitude = math.Max(-180, math.Min(180, float64(offset)/240))
	e.temperatures(float(air))
	e.team()
	e.kit(float(air))
	return e, nil
}

func answer(what, text string, d *dimension, low, high string) (*big.Rat, error) {
	v, why, hint := parseQuantity(text, d)
	if why != "" {
		return nil, fmt.Errorf("%s: %s, got %q (%s)", what, why, text, hint)
	}
	l, _, _ := parseQuantity(low, d)
	h, _, _ := parseQuantity(high, d)
	if v.Cmp(l) < 0 || v.Cmp(h) > 0 {
		return nil, fmt.Errorf("%s: must be from %s to %s, got %q", what, low, high, text)
	}
	return v, nil
}

// temperatures lets the evening grow three degrees colder; snow is some
// eight degrees warmer than the air, and never above -1 C (both from memory).
func (e *evening) temperatures(air float64) {
	e.Air = fmt.Sprintf("%.4g C", air)
	e.AirLater = fmt.Sprintf("%.4g C", air-3)
	e.SnowTemp = fmt.Sprintf("%.4g C", math.Min(air+8, -1))
}

// invented names, the leader first.
var invented = strings.Fields("Leader Aila Berend Ciro Dagny Eskil Fenna Goran Hedda Ivo Jorun Kasimir Linnea Mirko Nanna Osmo")

func (e *evening) team() {
	for i := range e.People {
		m := member{Name: fmt.Sprintf("Person %d", i+1)}
		if i < len(invented) {
			m.Name = invented[i]
		}
		if i < e.StovePeople {
			m.Skills = "stove"
		}
		e.Team = append(e.Team, m)
	}
	e.TwoGroups = e.StovePeople >= 2 && e.People >= 4
	for i, m := range e.Team {
		if i >= e.StovePeople {
			e.Watchers = append(e.Watchers, m.Name)
		}
		if i == 1 || i >= e.StovePeople && i%3 == 2 && i < e.People-1 {
			e.Second = append(e.Second, m.Name)
		} else {
			e.First = append(e.First, m.Name)
		}
	}
}

func (e *evening) kit(air float64) {
	e.Shovels = min(3, e.People)
	e.PitchMin, e.PitchMax, e.FloorMax = min(2, e.People), min(6, e.People), min(4, e.People)
	e.Burners = 1 + e.People/6
	e.Drink = litres(0.3 * float64(e.People))
	e.Supper = litres(0.6 * float64(e.People))
	e.WarmPeople = min(2, e.People)
	class, _ := classNamed(shelterClasses, func(c shelterClass) string { return c.name }, "ten-person double-wall tent")
	for _, c := range shelterClasses {
		if int(c.sleeps) >= e.People && strings.HasSuffix(c.name, "double-wall tent") {
			class = c
			break
		}
	}
	e.Tent = class.name
	// Half as much again as holds 10 C when it has grown colder.
	shelter := sim.Shelter{Volume: class.volume, Skin: class.skin, U: class.u, AirChanges: class.airChanges}
	loss := heat.Loss(shelter, air-3)
	e.Power = fmt.Sprintf("%.1f kW", math.Ceil(1.5*loss*(10-(air-3))/0.65/100)/10)
}

func litres(v float64) string { return fmt.Sprintf("%.4g L", v) }
