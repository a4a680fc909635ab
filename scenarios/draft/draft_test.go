package draft_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/jsonschema-go/jsonschema"
	"go.yaml.in/yaml/v4"

	"warmby/internal/thorough"
	"warmby/scenarios"
	"warmby/scenarios/draft"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/compare"
)

// evening is when the tests ask for tomorrow.
var evening = time.Date(2026, time.November, 28, 21, 0, 0, 0, time.FixedZone("", 3600))

// anyAnswers draws answers such as people have. Size and tents are told apart,
// so that each pair of them comes.
func anyAnswers(t *testing.T, r *rand.Rand, people, tents int) draft.Answers {
	t.Helper()
	pick := func(list ...string) string { return list[r.IntN(len(list))] }
	a := draft.Standard(evening)
	a.People, a.Tents, a.StovePeople, a.Heater = people, tents, 1+r.IntN(people), r.IntN(4) > 0
	var errs [5]error
	a.Place, errs[0] = draft.ReadPlace(pick("61.5 N 9.8 E", "46", "fells", "southern ice", "70 N 150 W", "-45.1 169", "78 N", "82 N", "0 0", "90 N"))
	a.Arrival, errs[1] = draft.ReadArrival(pick("15:00", "tomorrow 9:30", "2027-01-16T14:00:00+01:00", "2027-02-20 16:45", "2027-06-20 23:00", "20:00"), evening)
	a.Air, errs[2] = draft.ReadAir(pick("-3", "-8 C", "-15", "5 F", "-22.5", "-28 C", "-35"))
	a.Wind, errs[3] = draft.ReadWind(pick("calm", "3", "6 m/s", "15 kt", "strong", "30 km/h"))
	a.Snow, errs[4] = draft.ReadSnow(pick("ankle deep", "knee deep", "80 cm", "waist-deep", "3 ft", "2 m"))
	if err := errors.Join(errs[:]...); err != nil {
		t.Fatal(err)
	}
	return a
}

// eachDraft writes drafts of random answers: 200, or a dozen in a hurry.
func eachDraft(t *testing.T, do func(t *testing.T, a draft.Answers, d *draft.Draft)) {
	r := rand.New(rand.NewPCG(13, 3))
	for i := range thorough.Cases(12, 200) {
		a := anyAnswers(t, r, 2+(i*5+i/19)%19, 1+i%draft.MostTents)
		name := fmt.Sprintf("%d people %d tents %d stove %v %s %s %s %s %s", a.People, a.Tents, a.StovePeople, a.Heater, a.Place, a.Arrival, a.Air.Text, a.Wind.Text, a.Snow.Text)
		t.Run(name, func(t *testing.T) {
			d, err := draft.Write(a)
			if err != nil {
				t.Fatal(err)
			}
			if folder := os.Getenv("WARMBY_LOOK"); folder != "" {
				os.WriteFile(fmt.Sprintf("%s/%03d.yaml", folder, i), d.Text, 0o666)
			}
			do(t, a, d)
		})
	}
}

// Other luck than that by which clothing and targets were chosen.
var otherLuck = compare.Batch{Seed: 7, Runs: 60, Workers: 1}

func TestDraftsArePlayableAndWarm(t *testing.T) {
	schema := resolvedSchema(t)
	eachDraft(t, func(t *testing.T, a draft.Answers, d *draft.Draft) {
		s, err := scenarios.Read("draft.yaml", d.Text)
		if err != nil {
			t.Fatal(err)
		}
		if err := validate(schema, d.Text); err != nil {
			t.Errorf("the schema refuses it: %v", err)
		}
		played := played(t, s)
		for _, p := range played {
			if p.Stopped > 0 {
				t.Errorf("%q came to a stop in %d of %d evenings: %v", p.Drill.Order, p.Stopped, otherLuck.Runs, p.Stop)
			}
		}
		for _, name := range s.WhatIfs() {
			changed, err := s.WhatIf(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range playedIn(t, changed, compare.Batch{Seed: 7, Runs: 3, Workers: 1}) {
				if p.Stopped > 0 {
					t.Errorf("what if %q: %q came to a stop: %v", name, p.Drill.Order, p.Stop)
				}
			}
		}
		hard := a.Air.Value-1.2*a.Wind.Value < -38
		if d.TooCold && !hard {
			t.Error("too cold under every order, in weather in which people are out")
		}
		accounts, err := compare.HowCold(context.Background(), played, otherLuck)
		if err != nil {
			t.Fatal(err)
		}
		warm, inTime := 0, 0.0
		for i, well := range compare.HowWell(played, accounts) {
			warm = max(warm, len(accounts[i].Peaks)-accounts[i].Over)
			inTime = max(inTime, well.Targets.Value)
		}
		if 2*warm <= otherLuck.Runs && !d.TooCold {
			t.Errorf("nobody too cold in only %d of %d evenings under the best order", warm, otherLuck.Runs)
		}
		if inTime < 0.5 {
			t.Errorf("all targets met in only %.0f %% of the evenings under the best order", 100*inTime)
		}
	})
}

func played(t *testing.T, s *scenarios.Scenario) []*compare.Played { return playedIn(t, s, otherLuck) }

func playedIn(t *testing.T, s *scenarios.Scenario, b compare.Batch) []*compare.Played {
	t.Helper()
	var drills []*sim.Drill
	for _, order := range s.Orders() {
		d, err := s.Drill(order)
		if err != nil {
			t.Fatal(err)
		}
		drills = append(drills, d)
	}
	played, err := compare.Play(context.Background(), drills, b)
	if err != nil {
		t.Fatal(err)
	}
	return played
}

func resolvedSchema(t *testing.T) *jsonschema.Resolved {
	t.Helper()
	var s jsonschema.Schema
	if err := json.Unmarshal(scenarios.Schema(), &s); err != nil {
		t.Fatal(err)
	}
	r, err := s.Resolve(nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func validate(r *jsonschema.Resolved, text []byte) error {
	var tree any
	if err := yaml.Load(text, &tree); err != nil {
		return err
	}
	data, err := json.Marshal(tree)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, &tree); err != nil {
		return err
	}
	return r.Validate(tree)
}

func TestStandardAnswersAreTomorrow(t *testing.T) {
	d, err := draft.Write(draft.Standard(evening))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := d.Arrival.Format(time.RFC3339), "2026-11-29T14:00:00+01:00"; got != want {
		t.Errorf("arrival %s, want %s", got, want)
	}
	if want := "# yaml-language-server: $schema=warmby.schema.json\n"; !strings.HasPrefix(string(d.Text), want) {
		t.Errorf("begins %.60q, want %q", d.Text, want)
	}
	again, err := draft.Write(draft.Standard(evening))
	if err != nil || !bytes.Equal(again.Text, d.Text) {
		t.Errorf("the same answers gave another file (%v)", err)
	}
}

func TestTitlesMayHoldAnything(t *testing.T) {
	a := draft.Standard(evening)
	a.Title = `It's "cold": #1, {x} ... Øst`
	d, err := draft.Write(a)
	if err != nil {
		t.Fatal(err)
	}
	s, err := scenarios.Read("draft.yaml", d.Text)
	if err != nil || s.Title() != a.Title {
		t.Errorf("title %q, want %q (%v)", s.Title(), a.Title, err)
	}
}

func TestHardWeatherIsCalledTooCold(t *testing.T) {
	a := draft.Standard(evening)
	a.Air, a.Wind, a.Heater = draft.Quantity{Text: "-55 C", Value: -55}, draft.Quantity{Text: "18 m/s", Value: 18}, false
	d, err := draft.Write(a)
	if err != nil {
		t.Fatal(err)
	}
	if !d.TooCold {
		t.Error("nobody is too cold at -55 C in a storm")
	}
	if !strings.Contains(string(d.Text), "halt: 5.2 clo") {
		t.Error("not the warmest clothing")
	}
}

func TestPolarNightAsksForNoDark(t *testing.T) {
	a := draft.Standard(evening)
	a.Place, _ = draft.ReadPlace("82 N 10 E")
	d, err := draft.Write(a)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(d.Text), "by: dark") {
		t.Error("the shelter is wanted by a dark that has been for weeks")
	}
}

func TestOddAnswersAreToldAllAtOnce(t *testing.T) {
	a := draft.Standard(evening)
	a.People, a.Tents, a.StovePeople, a.Title = 21, 5, 0, "a\nb"
	a.Place.Latitude, a.Wind.Value = 91, math.NaN()
	_, err := draft.Write(a)
	var odd *draft.OddAnswers
	if !errors.As(err, &odd) {
		t.Fatalf("%v, want odd answers", err)
	}
	want := `title: that is more than one line of text
people: 21 are too many: from 2 to 20
tents: 5 are too many: from 1 to 4
stove-people: 0 is too few: from 1 to 20
place: latitude must be from -90 to 90 degrees
wind: must be from 0 to 30 m/s`
	if err.Error() != want {
		t.Errorf("%s\nwant\n%s", err, want)
	}
}

func TestCopiesReadAsTheOriginal(t *testing.T) {
	for _, name := range library.Names() {
		text, _ := library.Read(name)
		copied, err := draft.Copy(text, name, "Ours: \"the\" copy", "s.json")
		if err != nil {
			t.Fatal(err)
		}
		s, err := scenarios.Read(name, copied)
		if err != nil {
			t.Fatal(err)
		}
		if s.Title() != "Ours: \"the\" copy" {
			t.Errorf("%s: title %q", name, s.Title())
		}
		if plain, err := draft.Copy(text, name, "", "s.json"); err != nil || !bytes.HasSuffix(plain, text) {
			t.Errorf("%s: a copy is not the file (%v)", name, err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	for _, size := range [][2]int{{5, 1}, {20, 4}} {
		a := draft.Standard(evening)
		a.People, a.Tents = size[0], size[1]
		b.Run(fmt.Sprintf("%d people", size[0]), func(b *testing.B) {
			for b.Loop() {
				if _, err := draft.Write(a); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
