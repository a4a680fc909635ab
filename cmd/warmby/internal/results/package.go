package results

import (
	"bytes"
	"fmt"
	"strings"

	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/terminal"
	"warmby/sim/batch"
	"warmby/sim/cold"
)

// datapackage.json follows the Data Package form (a JSON file that names the
// files of a folder, their columns and units), so that other programs can read
// the tables without being told more.

type packageJSON struct {
	Profile     string         `json:"profile"`
	Name        string         `json:"name"`
	Title       string         `json:"title"`
	Description string         `json:"description"`
	Warmby      *Job           `json:"warmby"` // all that the result depends on; the scenario stands in scenario.yaml
	Command     string         `json:"command"`
	Resources   []resourceJSON `json:"resources"`
}

type resourceJSON struct {
	Name        string       `json:"name"`
	Path        string       `json:"path"`
	Format      string       `json:"format"`
	MediaType   string       `json:"mediatype"`
	Encoding    string       `json:"encoding,omitempty"`
	Bytes       int64        `json:"bytes"`
	Rows        int64        `json:"rows,omitempty"`
	Description string       `json:"description"`
	Dialect     *dialectJSON `json:"dialect,omitempty"`
	Schema      *tableJSON   `json:"schema,omitempty"`
}

type dialectJSON struct {
	Delimiter      string `json:"delimiter"`
	LineTerminator string `json:"lineTerminator"`
	QuoteChar      string `json:"quoteChar"`
	DoubleQuote    bool   `json:"doubleQuote"`
	Header         bool   `json:"header"`
}

type tableJSON struct {
	Fields        []fieldJSON      `json:"fields"`
	MissingValues []string         `json:"missingValues"`
	PrimaryKey    []string         `json:"primaryKey"`
	ForeignKeys   []foreignKeyJSON `json:"foreignKeys,omitempty"`
}

type fieldJSON struct {
	Name        string `json:"name"`
	Type        string `json:"type"`
	Unit        string `json:"unit,omitempty"`
	DecimalChar string `json:"decimalChar,omitempty"`
	Description string `json:"description"`
}

type foreignKeyJSON struct {
	Fields    string `json:"fields"`
	Reference struct {
		Resource string `json:"resource"`
		Fields   string `json:"fields"`
	} `json:"reference"`
}

func (r *Results) dataPackage() ([]byte, error) {
	j := *r.Plan.Job
	doc := packageJSON{
		Profile: "data-package", Name: slug(j.Name), Title: r.Plan.First.Title, Description: r.methods(),
		Warmby: &j, Command: j.Command(j.FileArg()),
	}
	j.Scenario = ""
	if len(j.Points) > mostSummed {
		j.PointsSHA256, j.Points = j.pointsSum(), nil
	}
	for _, f := range r.Files {
		doc.Resources = append(doc.Resources, r.resource(f))
	}
	var b bytes.Buffer
	err := document.Write(&b, doc)
	return b.Bytes(), err
}

// slug makes a name of lower-case letters, digits and hyphens.
func slug(s string) string {
	return strings.Trim(strings.Map(func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
			return c
		case c >= 'A' && c <= 'Z':
			return c + 'a' - 'A'
		}
		return '-'
	}, s), "-")
}

func (r *Results) resource(f File) resourceJSON {
	name, format, _ := strings.Cut(f.Name, ".")
	out := resourceJSON{Name: name, Path: f.Name, Format: format, Bytes: f.Bytes, Rows: f.Rows, Description: resourceSays[name]}
	switch format {
	case "csv":
		d := dialects[r.Plan.Job.CSV]
		out.MediaType, out.Encoding = "text/csv", "utf-8"
		out.Dialect = &dialectJSON{d.comma, d.end, `"`, true, true}
	case "parquet":
		out.MediaType = "application/vnd.apache.parquet"
	case "json":
		out.MediaType, out.Encoding = "application/json", "utf-8"
	case "yaml":
		out.MediaType, out.Encoding = "application/yaml", "utf-8"
	default:
		out.MediaType, out.Encoding = "text/plain", "utf-8"
	}
	out.Schema = r.schema(name, format)
	return out
}

var resourceSays = map[string]string{
	"runs":     "when each milestone was reached in each run",
	"tasks":    "what became of each task in each run: called, begun, ended, by whom, with what mishaps, and what it decided",
	"people":   "what each person was about in each run, and how cold it got",
	"fuel":     "how long stoves burned in each run, and how much",
	"draws":    "what was drawn in each run, as uniform numbers and as what became of them",
	"cold":     "how cold each person gets in each run: our extension of ISO 11079",
	"points":   "what is varied at each point",
	"summary":  "means, quantiles and shares with their intervals, by point, order and milestone",
	"methods":  "a paragraph for the methods section of a paper",
	"scenario": "the scenario that was played",
}

func (r *Results) schema(name, format string) *tableJSON {
	t := &tableJSON{MissingValues: []string{""}}
	switch name {
	case "runs":
		t.Fields, t.PrimaryKey = fieldsOf(runRow{}), []string{"point", "run", "order", "milestone"}
	case "tasks":
		t.Fields, t.PrimaryKey = fieldsOf(taskRow{}), []string{"point", "run", "order", "task"}
	case "people":
		t.Fields, t.PrimaryKey = fieldsOf(personRow{}), []string{"point", "run", "order", "person"}
	case "cold":
		t.Fields, t.PrimaryKey = fieldsOf(coldRow{}), []string{"point", "run", "order", "person"}
	case "fuel":
		t.Fields, t.PrimaryKey = fieldsOf(fuelRow{}), []string{"point", "run", "order", "stove"}
	case "draws":
		t.Fields, t.PrimaryKey = fieldsOf(drawRow{}), []string{"point", "run", "name", "purpose", "draw"}
	case "points":
		point := fieldJSON{Name: "point", Type: "integer", Description: "the point, from 1 on"}
		t.Fields, t.PrimaryKey = r.pointFields(point), []string{"point"}
	default:
		return nil
	}
	if name != "points" {
		key := foreignKeyJSON{Fields: "point"}
		key.Reference.Resource, key.Reference.Fields = "points", "point"
		t.ForeignKeys = []foreignKeyJSON{key}
	}
	if format == "csv" && r.Plan.Job.CSV == ExcelEU {
		for i := range t.Fields {
			if t.Fields[i].Type == "number" {
				t.Fields[i].DecimalChar = ","
			}
		}
	}
	return t
}

func (r *Results) pointFields(point fieldJSON) []fieldJSON {
	fields := []fieldJSON{point, {Name: "runs", Type: "integer", Description: "how many runs each order has there"}}
	for i, key := range r.Plan.Job.Keys {
		unit, same := r.Plan.columnUnit(i)
		kind := "string"
		if same && unit == "" {
			kind = "number"
		}
		fields = append(fields, fieldJSON{Name: columnOf(key), Type: kind, Description: "the value of this key of the scenario, as it was given; missing: as in the scenario"})
		if same && unit != "" {
			fields = append(fields, fieldJSON{Name: key + "_" + unit, Type: "number", Unit: unit, Description: "the same as a number in its base unit"})
		}
	}
	return fields
}

// provenance names where a table comes from, for formats that can hold it.
func (j *Job) provenance() [][2]string {
	return [][2]string{
		{"warmby.version", j.Version}, {"warmby.engine", fmt.Sprint(j.Engine)}, {"warmby.scenario", j.Name}, {"warmby.scenario_sha256", j.SHA256},
		{"warmby.seed", fmt.Sprint(j.Seed)}, {"warmby.runs", fmt.Sprint(j.Runs)}, {"warmby.command", j.Command(j.FileArg())},
		{"warmby.units", "times in seconds since arrival; null is never"},
	}
}

// methodsWidth is how many characters a line of methods.txt has at most.
const methodsWidth = 80

// methods is a paragraph for the methods section of a paper.
func (r *Results) methods() string {
	j, p := r.Plan.Job, r.Plan
	var b strings.Builder
	fmt.Fprintf(&b, "We played the scenario %q (file %s, SHA-256 %s) with %s (engine %d, source SHA-256 %.12s..), a discrete-event simulation of what a team does between its arrival in the snow and the moment everybody is settled. ",
		p.First.Title, j.FileArg(), j.SHA256, j.Version, j.Engine, j.Source)
	fmt.Fprintf(&b, "Each of %s (%s) was played in %s", report.Counted(len(j.Orders), "drill order"), report.OrderNames(j.Orders), r.RunsText())
	if p.Points > 1 {
		fmt.Fprintf(&b, " at each of %d points, at which %s varied%s", p.Points, report.Named(j.Keys), r.howText())
	}
	if n := len(j.LeftOut); n > 0 {
		fmt.Fprintf(&b, "; %s left out at which the drill can never finish", wereCounted(n, "point"))
	}
	fmt.Fprintf(&b, ". Lengths of tasks, mishaps, arrivals and weather were drawn from the distributions in the scenario by inverse transformation of counter-based uniform numbers (seed %d); each draw depends on the seed, the run and the task only, so that all orders%s met the same luck run by run (common random numbers). ",
		j.Seed, map[bool]string{true: " and points", false: ""}[p.Points > 1 && p.common()])
	b.WriteString(j.givenText())
	b.WriteString("Times are whole milliseconds since arrival. ")
	b.WriteString(j.stagesText())
	if j.Cold {
		fmt.Fprintf(&b, "How cold each person gets is a running sum of the heat that the balance of ISO 11079 (minimal criterion) says is stored, stretch by stretch, with a limit of %d Wh/m2; the sum is our extension of that standard, which is for steady exposure. ", cold.HeatLimit)
	}
	b.WriteString(report.HowEstimated + " " + report.OfSimulationOnly + " ")
	b.WriteString("The simulation plans and trains; it is not safety or medical advice.\n")
	return terminal.Wrap(b.String(), methodsWidth, "", "")
}

// givenText says where draws came from that were not drawn here; "" for none.
func (j *Job) givenText() string {
	if j.given == nil {
		return ""
	}
	return fmt.Sprintf("In place of those numbers, %d of them were given for each run (file %s, SHA-256 %s). ", len(j.given.columns), j.Given, j.GivenSHA256)
}

// stagesText says how runs were added until an interval was narrow; "" when none
// was asked for.
func (j *Job) stagesText() string {
	if j.Precision == "" {
		return ""
	}
	return fmt.Sprintf("At each point runs were added in stages, of %d runs or more at first and %d at most, until the 95 %% interval asked for (%s) was as narrow under every order (Chow and Robbins, Ann. Math. Statist. 36 (1965) 457-462). ", min(batch.FirstStage, j.Runs), j.Runs, j.Precision)
}

// common reports whether all points meet the same luck, run by run.
func (p *Plan) common() bool {
	return p.starts == nil && (p.Job.given == nil || p.Job.given.points == 1)
}

func (r *Results) howText() string {
	switch {
	case r.Plan.Job.Design != "":
		return " as a design file lists"
	case r.Plan.Job.How == OneAtATime:
		return " one at a time"
	case len(r.Plan.Job.Keys) > 1:
		return " in a full grid"
	}
	return ""
}
