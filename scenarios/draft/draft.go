// Package draft writes a first scenario of one's own from a few answers.
//
// [Standard] has the answers of somebody who answers nothing; the functions
// that begin with Read take answers as people type them ("9 people", "tomorrow
// 15:00", "-15", "knee deep"); [Write] makes a commented scenario file of them.
//
// What is written is a whole evening for 2 to 20 people in one to four tents:
// everybody drinks and puts a jacket on first, eats and changes socks, a lit
// heater is never alone. Clothing and targets are worked out by playing it:
// the thinnest clothing in which nobody gets too cold in most evenings, and
// targets that are met in most. The same answers give the same bytes. Nothing
// here reads a clock: what day it is, the caller says.
package draft

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"text/template"
	"time"
	"unicode"
	"unicode/utf8"

	"warmby/scenarios"
)

// Answers are what is asked.
type Answers struct {
	Title       string
	People      int      // 2 to [MostPeople]
	Names       []string // of the people, the leader first; invented ones where there are none
	Tents       int      // 1 to [MostTents]
	StovePeople int      // how many of the people may light stoves, 1 to People
	Place       Place
	Arrival     Arrival
	Air         Quantity // in C, -60 to 0
	Wind        Quantity // in m/s at 10 m, 0 to 30
	Snow        Quantity // depth in m, 0 to 10
	Heater      bool     // whether there are heaters for the tents

	Here   *time.Location // whose clock holds where an arrival names no offset; nil for that of the longitude
	Schema string         // file name of the JSON Schema, for the editor's first line
}

// The bounds of answers.
const (
	MostPeople = 20
	MostTents  = 4
	mostTitle  = 200 // bytes
)

// Standard returns the answers of somebody who answers nothing, now being the
// moment at which tomorrow is asked for.
func Standard(now time.Time) Answers {
	a := Answers{Title: "An evening in the snow", People: 5, Tents: 1, StovePeople: 2, Place: regions[standardRegion].Place,
		Heater: true, Here: now.Location(), Schema: "warmby.schema.json"}
	a.Arrival = arrivalAt(tomorrow(now), 14, 0)
	a.Air, a.Wind, a.Snow = Quantity{"-18 C", -18}, Quantity{"4 m/s", 4}, Quantity{"70 cm", 0.7}
	return a
}

// Draft is a scenario that was written.
type Draft struct {
	Text      []byte
	Arrival   time.Time // what was made of the arrival
	Longitude float64
	// TooCold says that in half of the evenings or more somebody gets too cold
	// under every order, with the warmest clothing that there is.
	TooCold bool
}

// Write writes a commented scenario. What it writes reads without a mistake
// and finishes when played. The error is an [*OddAnswers].
func Write(a Answers) (*Draft, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	e := newEvening(a)
	d := &Draft{Arrival: e.arrival, Longitude: e.longitude}
	var err error
	if d.TooCold, err = e.settle(); err != nil {
		return nil, err
	}
	d.Text, err = e.text()
	return d, err
}

// OddAnswers are answers that cannot be used, in the order of the questions.
type OddAnswers struct{ List []Odd }

// Odd is an answer that cannot be used.
type Odd struct{ Question, Why string }

// Error returns a line for each.
func (o *OddAnswers) Error() string {
	var lines []string
	for _, one := range o.List {
		lines = append(lines, one.Question+": "+one.Why)
	}
	return strings.Join(lines, "\n")
}

func (a Answers) check() error {
	odd := &OddAnswers{}
	for _, one := range []struct {
		question string
		err      error
	}{
		{"title", CheckTitle(a.Title)},
		{"people", a.checkPeople()},
		{"tents", within(a.Tents, 1, MostTents)},
		{"stove-people", a.enoughPeople()},
		{"place", a.Place.check()},
		{"arrival", a.Arrival.check()},
		{"air", a.Air.within("C", -60, 0)},
		{"wind", a.Wind.within("m/s", 0, 30)},
		{"snow", a.Snow.within("m", 0, 10)},
		{"schema", CheckTitle(a.Schema)},
	} {
		if one.err != nil {
			odd.List = append(odd.List, Odd{one.question, one.err.Error()})
		}
	}
	if odd.List != nil {
		return odd
	}
	return nil
}

func (a Answers) checkPeople() error {
	if a.Names != nil && len(a.Names) != a.People {
		return fmt.Errorf("%d names for %d people", len(a.Names), a.People)
	}
	return errors.Join(within(a.People, 2, MostPeople), checkNames(a.Names))
}

func (a Answers) enoughPeople() error {
	if a.StovePeople > a.People {
		return fmt.Errorf("there are %d people, %d of them cannot light a stove", a.People, a.StovePeople)
	}
	return within(a.StovePeople, 1, MostPeople)
}

// CheckTitle says what is wrong with a title.
func CheckTitle(title string) error {
	switch {
	case !utf8.ValidString(title):
		return errors.New("that is not UTF-8")
	case title == "":
		return errors.New("that is empty")
	case len(title) > mostTitle:
		return fmt.Errorf("that is longer than %d bytes", mostTitle)
	case strings.ContainsFunc(title, func(r rune) bool { return !unicode.IsPrint(r) }):
		return errors.New("that is more than one line of text")
	}
	return nil
}

//go:embed draft.yaml.tmpl
var draftText string

var draftTemplate = template.Must(template.New("draft").Parse(draftText))

// text writes the evening as it is by now.
func (e *evening) text() ([]byte, error) {
	var b bytes.Buffer
	if err := draftTemplate.Execute(&b, e); err != nil {
		return nil, fmt.Errorf("draft: %w", err)
	}
	return b.Bytes(), nil
}

// read writes the evening and reads it back.
func (e *evening) read() (*scenarios.Scenario, error) {
	text, err := e.text()
	if err != nil {
		return nil, err
	}
	s, err := scenarios.Read("draft", text)
	if err != nil {
		return nil, fmt.Errorf("the answers do not make a scenario: %w", err)
	}
	return s, nil
}

// quoted is a title as YAML.
func quoted(title string) string {
	text, err := json.Marshal(title)
	if err != nil {
		panic("draft: " + err.Error()) // a string always has a JSON form
	}
	return string(text)
}
