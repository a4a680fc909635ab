package results

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/batch"
)

// Job is all that the result of a batch depends on. It stands at the head
// of every journal, so that shards and interrupted batches carry what is needed
// to put them together or to go on.
type Job struct {
	Version   string     `json:"version"`
	Engine    int        `json:"engine"` // [sim.Engine] of what plays it
	Source    string     `json:"engine_source_sha256"`
	Name      string     `json:"name"` // of the scenario, as the folder is called
	SHA256    string     `json:"scenario_sha256"`
	Scenario  string     `json:"scenario"` // the file itself
	Seed      uint64     `json:"seed"`
	Runs      int        `json:"runs"`
	Orders    []string   `json:"orders"` // one "" when the file has none
	Asked     bool       `json:"orders_asked"`
	Vary      []string   `json:"vary,omitempty"`
	How       string     `json:"vary_how,omitempty"`
	Design    string     `json:"design,omitempty"` // name of the file
	Keys      []string   `json:"keys,omitempty"`
	Points    [][]string `json:"points"`            // values by key; "" as in the file
	WhatIf    string     `json:"what_if,omitempty"` // its key is among Keys as well
	Precision string     `json:"precision,omitempty"`
	Skip      bool       `json:"skip_impossible,omitempty"`
	Tasks     bool       `json:"tasks"`
	People    bool       `json:"people,omitempty"`
	Cold      bool       `json:"cold,omitempty"`
	Fuel      bool       `json:"fuel,omitempty"`
	Draws     bool       `json:"draws,omitempty"`
	Format    string     `json:"format"`
	CSV       string     `json:"csv"`

	Given       string `json:"given_draws,omitempty"` // name of the file
	GivenSHA256 string `json:"given_draws_sha256,omitempty"`

	LeftOut []LeftOut `json:"left_out,omitempty"` // with Skip: none of Points

	// PointsSHA256 stands for Points in the data package of a large design.
	PointsSHA256 string `json:"points_sha256,omitempty"`

	designPath, givenPath string // as they were given here
	given                 *given // nil without
}

// Here returns the job for command lines that are to work on this machine, as
// against those in results, which are the same everywhere.
func (j *Job) Here() *Job {
	c := *j
	c.Design, c.Given = cmp.Or(c.designPath, c.Design), cmp.Or(c.givenPath, c.Given)
	return &c
}

// NewJob returns the job that a question asks for.
func NewJob(src *ask.Source, q Question) (*Job, error) {
	sum := sha256.Sum256(src.Data)
	j := &Job{
		Version: q.Version, Engine: sim.Engine, Source: sim.Source(), Name: baseName(src), SHA256: hex.EncodeToString(sum[:]), Scenario: string(src.Data),
		Seed: q.Seed, Runs: q.Runs, Asked: len(q.Orders) > 0, Vary: q.Vary, Precision: q.Precision, Skip: q.Skip,
		WhatIf: q.WhatIf, Tasks: q.Tasks, People: q.People, Cold: q.Cold, Fuel: q.Fuel, Draws: q.Draws, Format: q.Format, CSV: q.CSV,
	}
	var err error
	if j.Orders, err = ask.Asked(q.Orders, src.Scenario.Orders(), "order", src.Name); err != nil {
		return nil, err
	}
	if len(j.Orders) == 0 {
		j.Orders = src.Scenario.Orders()
	}
	if len(j.Orders) == 0 {
		j.Orders = []string{""}
	}
	if len(q.Vary) > 1 {
		j.How = q.How
	}
	if q.Design != "" {
		j.Design, j.designPath = filepath.Base(q.Design), q.Design
	}
	if j.Keys, j.Points, err = q.points(); err != nil {
		return nil, err
	}
	if q.WhatIf != "" {
		if _, err := ask.Asked([]string{q.WhatIf}, src.Scenario.WhatIfs(), "what-if", src.Name); err != nil {
			return nil, err
		}
	}
	return j, j.take(q.Given)
}

// baseName names a scenario without its folder and ending.
func baseName(src *ask.Source) string {
	if src.Arg == "-" {
		return "scenario"
	}
	name := filepath.Base(src.Arg)
	if name = strings.TrimSuffix(strings.TrimSuffix(name, ".yaml"), ".yml"); name == "" {
		return "scenario"
	}
	return name
}

// Header returns the first line of a journal of the job; arg is FILE.
func (j *Job) Header(shard batch.Shard, arg string) ([]byte, error) {
	job, err := json.Marshal(j)
	if err != nil {
		return nil, err
	}
	return batch.Header{Job: job, Shard: shard, Note: arg}.Line()
}

// readJob reads a job out of a journal's header.
func readJob(header []byte) (*Job, error) {
	j := new(Job)
	if err := json.Unmarshal(header, j); err != nil {
		return nil, fmt.Errorf("the header cannot be read: %w", err)
	}
	if sum := sha256.Sum256([]byte(j.Scenario)); hex.EncodeToString(sum[:]) != j.SHA256 {
		return nil, errors.New("the scenario in its header is not the one that was played: its sha256 is another")
	}
	return j, nil
}

// Differs says how two jobs differ, in words; "" when they are the same.
func (j *Job) Differs(o *Job, here, there string) string {
	var list []string
	add := func(what string, a, b any) {
		x, y := fmt.Sprint(a), fmt.Sprint(b)
		if x == y {
			return
		}
		if len(x)+len(y) > 200 {
			list = append(list, what)
			return
		}
		list = append(list, fmt.Sprintf("%s: %s %s, %s %s", what, orEmpty(x), here, orEmpty(y), there))
	}
	add("version", j.Version, o.Version)
	add("engine", j.Engine, o.Engine)
	add("engine's source", j.Source, o.Source)
	add("scenario", j.Name, o.Name)
	if j.SHA256 != o.SHA256 || j.Scenario != o.Scenario {
		list = append(list, fmt.Sprintf("what the scenario file holds (sha256 %.12s.. %s, %.12s.. %s)", j.SHA256, here, o.SHA256, there))
	}
	add("seed", j.Seed, o.Seed)
	add("runs", j.Runs, o.Runs)
	add("orders", mistake.Quoted(j.Orders), mistake.Quoted(o.Orders))
	add("varied", mistake.Quoted(j.Vary), mistake.Quoted(o.Vary))
	add("vary-how", j.How, o.How)
	add("design", j.Design, o.Design)
	add("what-if", j.WhatIf, o.WhatIf)
	if len(list) == 0 && j.pointsSum() != o.pointsSum() {
		list = append(list, "points")
	}
	add("given draws", j.Given, o.Given)
	add("sha256 of the given draws", j.GivenSHA256, o.GivenSHA256)
	add("precision", j.Precision, o.Precision)
	add("skip-impossible", j.Skip, o.Skip)
	add("tasks", j.Tasks, o.Tasks)
	add("people", j.People, o.People)
	add("cold", j.Cold, o.Cold)
	add("fuel", j.Fuel, o.Fuel)
	add("draws", j.Draws, o.Draws)
	add("format", j.Format, o.Format)
	add("csv", j.CSV, o.CSV)
	return strings.Join(list, "; ")
}

func orEmpty(s string) string {
	if s == "" {
		return "none"
	}
	return s
}

// Command returns the command that plays the batch; FILE is arg.
func (j *Job) Command(arg string) string {
	words := []string{"warmby", "batch"}
	for _, w := range j.words(arg) {
		words = append(words, ask.ShellWord(w))
	}
	return strings.Join(words, " ")
}

// words returns the arguments of the command, not quoted.
func (j *Job) words(arg string) []string {
	var words []string
	if arg != library.Default {
		words = append(words, arg)
	}
	words = append(words, "--runs", fmt.Sprint(j.Runs), "--seed", fmt.Sprint(j.Seed))
	add := func(flag string, values ...string) {
		for _, v := range values {
			words = append(words, "--"+flag, v)
		}
	}
	if j.Asked {
		add("order", j.Orders...)
	}
	add("vary", j.Vary...)
	if j.How != "" && j.How != Grid {
		add("vary-how", j.How)
	}
	if j.Design != "" {
		add("design", j.Design)
	}
	if j.WhatIf != "" {
		add("what-if", j.WhatIf)
	}
	if j.Given != "" {
		add("play-draws", j.Given)
	}
	if j.Precision != "" {
		add("precision", j.Precision)
	}
	if j.Format != CSV {
		add("format", j.Format)
	}
	if j.CSV != Plain {
		add("csv", j.CSV)
	}
	for _, b := range []struct {
		flag  string
		given bool
	}{{"skip-impossible", j.Skip}, {"tasks", j.Tasks}, {"people", j.People}, {"cold", j.Cold}, {"fuel", j.Fuel}, {"draws", j.Draws}} {
		if b.given {
			words = append(words, "--"+b.flag)
		}
	}
	return words
}

// FileArg returns what FILE is called in results: the same on every machine.
func (j *Job) FileArg() string {
	if data, ok := library.Read(j.Name); ok && string(data) == j.Scenario {
		return j.Name
	}
	return j.Name + ".yaml"
}

// pointsSum is the SHA-256 of all points.
func (j *Job) pointsSum() string {
	if j.PointsSHA256 != "" {
		return j.PointsSHA256
	}
	b, _ := json.Marshal(j.Points) // texts can always be written
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}
