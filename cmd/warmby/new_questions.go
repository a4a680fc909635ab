package main

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"warmby/scenarios/draft"
)

// given are the answers of `warmby new` so far, with the standard ones for what
// is not answered yet.
type given struct {
	now      time.Time
	standard draft.Answers
	a        draft.Answers // a number of 0 is not answered yet
}

func newAnswers(now time.Time) *given {
	g := &given{now: now, standard: draft.Standard(now)}
	g.a = g.standard
	g.a.People, g.a.StovePeople = 0, 0
	return g
}

// answers returns the answers, all of which were taken.
func (g *given) answers() draft.Answers { return g.a }

// questions returns the ten questions.
func (g *given) questions() []question {
	return append(g.aboutTheTeam(), g.aboutTheEvening()...)
}

func (g *given) aboutTheTeam() []question {
	is := func(s string) func() string { return func() string { return s } }
	return []question{
		{flag: "title", value: "TEXT", about: "what the scenario is called", asks: "What is the scenario called?",
			expects: "one line of text", standard: is(g.standard.Title), take: g.takeTitle},
		{flag: "people", value: "WHO", about: "how many people halt, or their names", asks: "How many people halt, or who? The leader first.",
			expects: "a whole number from 2 to " + strconv.Itoa(draft.MostPeople) + ", or names such as \"Tove, Ole, Ida\"", standard: is(strconv.Itoa(g.standard.People)), take: g.takePeople},
		{flag: "tents", value: "N", about: "in how many tents", asks: "In how many tents?",
			expects: "a whole number from 1 to " + strconv.Itoa(draft.MostTents), standard: is("1"), take: g.takeTents},
		{flag: "stove-people", value: "N", about: "how many of them may light a stove", asks: "How many of them may light a stove?",
			expects: "a whole number from 1 to the number of people", standard: g.standardStovePeople, take: g.takeStovePeople},
		{flag: "heater", value: "YES|NO", about: "whether there are heaters for the tents", asks: "Are there heaters for the tents?",
			expects: "yes or no", standard: is("yes"), take: into(&g.a.Heater, draft.ReadYes)},
	}
}

func (g *given) aboutTheEvening() []question {
	is := func(s string) func() string { return func() string { return s } }
	return []question{
		{flag: "place", value: "PLACE", about: "where, degrees or a kind of country", asks: "Where? Degrees, or " + regionWords() + ".",
			expects: "a place such as \"61.5 N 9.8 E\", \"60 N\" or forest", standard: is(g.standard.Place.String()), take: into(&g.a.Place, draft.ReadPlace)},
		{flag: "arrive", value: "TIME", about: "when they arrive", asks: "When do they arrive? A time alone is tomorrow's.", unless: "tomorrow 14:00",
			expects: "a time such as 15:00, \"tomorrow 15:00\" or 2027-01-16T15:00", standard: is(g.standard.Arrival.String()), take: g.takeArrival},
		{flag: "air", value: "DEGREES", about: "the temperature of the air then", asks: "How cold is the air then?",
			expects: "a temperature such as -25, \"-25 C\" or \"5 F\"", standard: is(g.standard.Air.Text), take: into(&g.a.Air, draft.ReadAir)},
		{flag: "wind", value: "SPEED", about: "the wind at 10 m", asks: "How strong is the wind, as the forecast has it?",
			expects: "a speed such as \"6 m/s\", \"15 kt\" or strong", standard: is(g.standard.Wind.Text), take: into(&g.a.Wind, draft.ReadWind)},
		{flag: "snow", value: "DEPTH", about: "how deep the snow is", asks: "How deep is the snow?",
			expects: "a depth such as \"80 cm\" or \"knee deep\"", standard: is(g.standard.Snow.Text), take: into(&g.a.Snow, draft.ReadSnow)},
	}
}

// into takes an answer where it can be read.
func into[T any](to *T, read func(string) (T, error)) func(string) error {
	return func(text string) error {
		v, err := read(text)
		if err == nil {
			*to = v
		}
		return err
	}
}

func regionWords() string {
	names := draft.RegionWords()
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

func (g *given) takeTitle(text string) error {
	if err := draft.CheckTitle(text); err != nil {
		return err
	}
	g.a.Title = text
	return nil
}

func (g *given) takePeople(text string) error {
	n, names, err := draft.ReadPeople(text)
	switch {
	case err != nil:
		return err
	case n < g.a.StovePeople:
		return fmt.Errorf("%d of them may light a stove, as you said", g.a.StovePeople)
	}
	g.a.People, g.a.Names = n, names
	return nil
}

func (g *given) takeTents(text string) error {
	n, err := draft.ReadNumber(text, 1, draft.MostTents)
	if err == nil {
		g.a.Tents = n
	}
	return err
}

func (g *given) standardStovePeople() string {
	people := g.a.People
	if people == 0 {
		people = g.standard.People
	}
	return strconv.Itoa(max(2, (people+2)/3))
}

func (g *given) takeStovePeople(text string) error {
	if strings.EqualFold(text, "all") && g.a.People > 0 {
		text = strconv.Itoa(g.a.People)
	}
	n, err := draft.ReadNumber(text, 1, draft.MostPeople)
	switch {
	case err != nil:
		return err
	case g.a.People > 0 && n > g.a.People:
		return fmt.Errorf("there are only %d people", g.a.People)
	}
	g.a.StovePeople = n
	return nil
}

func (g *given) takeArrival(text string) error {
	at, err := draft.ReadArrival(text, g.now)
	if err == nil {
		g.a.Arrival = at
	}
	return err
}
