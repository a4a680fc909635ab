package main

import (
	"strings"

	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/terminal"
)

const jsonUsage = `JSON

With --json a command prints its answer for programs. A name has one meaning
wherever it stands, and one shape:

  a moment       seconds since arrival, three document.Decimals; null for never
  a length       seconds, three document.Decimals
  a difference   {"sooner_s": 300.000, "ci95_s": [240.000, 360.000]}: how much sooner
                 the first is than the other, on average; below 0 it is later. Null
                 where one of them is not always reached; why says so
  a mean         mean_s with its interval mean_ci95_s; null likewise
  a share        {"share": 0.62, "ci95": [0.58, 0.66], "count": 620, "runs": 1000};
                 ci95 is null without luck, and why says so
  a quantile     p90_s with its interval p90_ci95_s: the moment by which it has
                 come in 9 of 10 runs
  an interval    [low, high] with 95 %; an end that so few runs cannot tell is null
  an order       by its name; where it is written out, as in a scenario file

Names end in their unit. Fields may be added at any time, so read past those that
you do not know. None is renamed, and none changes its meaning, while
schema_version stays as it is.

TO WORK OUT THE ACCOUNT OF COLD AGAIN

"warmby rehearse --json" has all it takes. Each line of a person's account is a
time from_s to to_s in which nothing changes: metabolic rate, clothing, air, air
movement at the body and humidity. In a shelter that was warmed, air_c and
air_movement_m_s are those indoors: whole degrees, 10 for all above, and the least
movement that the standard has. stored_w_m2 is the S of ISO 11079 at minimal
strain, with radiant temperature as the air's, no work done on the outside, the
walking speed that the standard gives for the rate, and an air permeability of
8 l/(m2 s). Over a line the debt changes by

  -stored_w_m2 * (to_s - from_s) / 3600

in Wh/m2, and never falls below 0. The limit is 40 Wh/m2.

FIELDS

`

// documents are what commands print with --json.
var documents = []struct {
	command  string
	document any
}{
	{"rehearse", document.Rehearsal{}},
	{"compare", document.Comparison{}},
	{"tonight", document.Tonight{}},
	{"improve", document.Improvement{}},
	{"split", document.Splits{}},
	{"halt", document.Halt{}},
	{"cards", document.Cards{}},
	{"check", document.Check{}},
	{"fit", document.Fitted{}},
	{"review", document.Review{}},
	{"season", document.Season{}},
}

// jsonPage tells every field with its unit and meaning, and who prints it.
func jsonPage() string {
	t := report.Table{Columns: []report.Column{{Head: "name"}, {Head: "unit"}, {Head: "meaning"}}}
	for _, f := range document.Fields {
		t.Rows = append(t.Rows, report.Cells(f.Name, f.Unit, f.Meaning))
	}
	r := &report.Report{Sections: []report.Section{{Heading: "-", Blocks: []report.Block{t}}}}
	text := terminal.Print(r, terminal.Options{Width: paper, All: true})
	_, table, _ := strings.Cut(text, "-\n")
	table, _, _ = strings.Cut(table, "\nPlayed by: ")
	return jsonUsage + table
}
