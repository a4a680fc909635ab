package cold

import (
	"testing"

	"warmby/sim"
)

// ISO 8996 classes, from memory: a check that the table says what its comment
// says, not that the standard does.
func TestRatesAreTheClassesOfTheComment(t *testing.T) {
	for _, c := range []struct {
		effort sim.Effort
		want   float64
	}{
		{sim.Resting, 65}, {sim.Low, 100}, {sim.Moderate, 165}, {sim.High, 230}, {sim.VeryHigh, 290}, {sim.EffortUnset, 165},
	} {
		near(t, "Rate", Rate(c.effort), c.want, 0)
	}
}

// Compendium of Physical Activities 2011: the values that defaults rest on,
// and those of the heaviest and lightest camp work.
func TestCompendiumHasThePublishedMets(t *testing.T) {
	want := map[string]float64{
		"08195": 5.3, "19252": 5.3, "08200": 6.0, "08202": 7.5, "19254": 7.5, "08045": 3.5, "08050": 5.0, "08052": 7.8,
		"08019": 4.5, "08020": 6.3, "08009": 3.3, "08010": 5.5, "08057": 8.3, "08058": 5.3, "11250": 17.5, "09110": 2.5,
		"07040": 1.3, "07041": 1.8, "11525": 2.5, "11115": 2.5, "11600": 3.0, "11620": 3.5, "11475": 2.8, "11476": 4.5, "11477": 6.5,
		"11540": 7.8, "11550": 8.8, "11560": 5.0, "11570": 6.5, "11790": 8.0, "11191": 4.3, "11490": 7.5, "11050": 8.0, "11766": 6.5,
		"11797": 3.8, "11820": 5.0, "11830": 6.5, "11840": 7.5, "11850": 8.5, "19190": 5.3, "19192": 10.0, "19080": 6.8, "19090": 9.0,
		"19010": 6.0, "19005": 7.5, "19200": 3.5, "07021": 1.3,
	}
	for _, a := range Compendium2011() {
		if w, ok := want[a.Code]; !ok || w != a.Met {
			t.Errorf("%s %s: %v met, want %v", a.Code, a.What, a.Met, w)
		}
		delete(want, a.Code)
	}
	if len(want) != 0 {
		t.Errorf("rows missing: %v", want)
	}
	a, ok := ActivityOf("09110")
	if !ok {
		t.Fatal("no row 09110")
	}
	near(t, "camp chores in W/m2", a.Rate(), 145.5, 1e-9)
	if _, ok := ActivityOf("99999"); ok {
		t.Error("row 99999 found")
	}
}

func TestDefaultsLieInTheirPublishedClasses(t *testing.T) {
	// Camp chores, 2.5 met, are of the class moderate (130 to 200).
	camp, _ := ActivityOf("09110")
	if r := camp.Rate(); r < 130 || r > 200 {
		t.Errorf("camp chores at %v W/m2 are not moderate", r)
	}
	// Standing at rest is no more than standing quietly, 1.3 met.
	if quiet, _ := ActivityOf("07040"); Standing > quiet.Rate() {
		t.Errorf("standing at %v W/m2 is over standing quietly", Standing)
	}
}

func TestRatesFollowWhatSomebodyIsAbout(t *testing.T) {
	d := &sim.Drill{
		Spots: []sim.Spot{{In: -1}},
		Tasks: []sim.Task{
			{Kind: sim.Work, Item: -1}, {Kind: sim.Timed, Item: -1}, {Kind: sim.Takes, Item: -1}, {Kind: sim.Takes, Item: 0},
			{Kind: sim.Melt, Item: -1, Melt: &sim.Melting{}}, {Kind: sim.Takes, Item: -1, Effort: sim.VeryHigh},
		},
		Lookouts: []sim.Lookout{{}, {Effort: sim.Low}},
	}
	want := []float64{70, 165, 100, 65, 165, 165, 100, 165, 100, 290, 70, 100}
	for i, does := range newFrame(d, 1).doings {
		near(t, "rate", does.rate, want[i], 0)
	}
	d.Idle.Effort = sim.Moderate
	near(t, "free", newFrame(d, 1).doings[idle].rate, 165, 0)
	near(t, "20 % more", newFrame(d, 1.2).doings[idle].rate, 198, 1e-12)
}
