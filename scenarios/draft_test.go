package scenarios

import (
	"fmt"
	"strings"
	"testing"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/reference"
)

// play plays a scenario under an order with its usual values.
func play(t *testing.T, s *Scenario, order string) *sim.Timeline {
	t.Helper()
	d, err := s.Drill(order)
	if err != nil {
		t.Fatal(err)
	}
	tl, err := reference.Play(d, draw.Usual(d))
	if err != nil {
		t.Fatalf("order %q: %v", order, err)
	}
	return tl
}

func TestDraftReadsAndFinishes(t *testing.T) {
	for _, people := range []int{1, 2, 3, 4, 5, 9, 40} {
		for _, stove := range []int{1, 2, people} {
			for _, heater := range []bool{true, false} {
				a := Answers{People: people, StovePeople: min(stove, people), Heater: heater, Air: "-40 F", Title: `It's "cold": #1, {x}`}
				t.Run(fmt.Sprint(people, stove, heater), func(t *testing.T) {
					src, err := Draft(a)
					if err != nil {
						t.Fatal(err)
					}
					s, err := Read("draft.yaml", src)
					if err != nil {
						t.Fatal(err)
					}
					if s.Title() != a.Title {
						t.Errorf("title %q, want %q", s.Title(), a.Title)
					}
					if got := len(s.Orders()); got != 2 {
						t.Errorf("%d orders, want 2", got)
					}
					all := []*Scenario{s}
					for _, w := range s.WhatIfs() {
						changed, err := s.WhatIf(w)
						if err != nil {
							t.Fatal(err)
						}
						all = append(all, changed)
					}
					for _, one := range all {
						for _, o := range one.Orders() {
							if play(t, one, o).Finish() == sim.Never {
								t.Errorf("order %q never finishes", o)
							}
						}
					}
					d, _ := s.Drill("")
					own := 0
					for _, task := range d.Tasks {
						if !task.Unloads() && (task.Each == "" || task.Who[0] == 0) { // what each does counts once
							own++
						}
					}
					if own < 12 || own > 20 {
						t.Errorf("%d tasks, want 12 to 20", own)
					}
				})
			}
		}
	}
}

func TestDraftBeginsWithTheEditorsModeline(t *testing.T) {
	src, err := Draft(Answers{Schema: "some.json"})
	if err != nil {
		t.Fatal(err)
	}
	if want := "# yaml-language-server: $schema=some.json\n"; !strings.HasPrefix(string(src), want) {
		t.Errorf("begins %q, want %q", clip(string(src), 60), want)
	}
}

func TestDraftRefusesAnswersItCannotUse(t *testing.T) {
	for _, c := range []struct {
		a    Answers
		want string
	}{
		{Answers{People: 41}, "people: must be from 1 to 40, got 41"},
		{Answers{People: 2, StovePeople: 3}, "stove people: must be from 1 to the 2 people, got 3"},
		{Answers{Air: "-18"}, `air temperature: the unit is missing, got "-18" (write C, F or K, such as "-18 C")`},
		{Answers{Air: "3 C"}, `air temperature: must be from -60 C to 0 C, got "3 C"`},
		{Answers{Wind: "fast"}, `wind: must be a speed, got "fast" (such as "8 m/s")`},
		{Answers{Arrival: "noon"}, `arrival: must be a date and time with an offset such as 2027-01-16T14:00:00+01:00, got "noon"`},
		{Answers{Title: "a\nb"}, `title: must be one line of at most 200 bytes, got "a\nb"`},
	} {
		_, err := Draft(c.a)
		if err == nil || err.Error() != c.want {
			t.Errorf("Draft(%+v) = %v, want %s", c.a, err, c.want)
		}
	}
}
