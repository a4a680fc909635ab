package results

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/mistake"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/cold"
)

// Job is all that the result of a batch depends on. It stands at the head
// of every journal, so that shards and interrupted batches carry what is needed
// to put them together or to go on.
type Job struct {
	Version   string     `json:"version"`
	Engine    int        `json:"engine"` // [sim.Engine] of what plays it
	Name      string     `json:"name"`   // of the scenario, as the folder is called
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
	Points    [][]string `json:"points"` // values by key; "" as in the file
	Precision string     `json:"precision,omitempty"`
	Skip      bool       `json:"skip_impossible,omitempty"`
	Tasks     bool       `json:"tasks"`
	Cold      bool       `json:"cold,omitempty"`
	Format    string     `json:"format"`
	CSV       string     `json:"csv"`

	LeftOut []LeftOut `json:"left_out,omitempty"` // with Skip: none of Points

	designPath string // as it was given here
}

// Here returns the job for command lines that are to work on this machine, as
// against those in results, which are the same everywhere.
func (j *Job) Here() *Job {
	c := *j
	if c.designPath != "" {
		c.Design = c.designPath
	}
	return &c
}

// NewJob returns the job that a question asks for.
func NewJob(src *ask.Source, q Question) (*Job, error) {
	sum := sha256.Sum256(src.Data)
	j := &Job{
		Version: q.Version, Engine: sim.Engine, Name: baseName(src), SHA256: hex.EncodeToString(sum[:]), Scenario: string(src.Data),
		Seed: q.Seed, Runs: q.Runs, Asked: len(q.Orders) > 0, Vary: q.Vary, Precision: q.Precision, Skip: q.Skip,
		Tasks: q.Tasks, Cold: q.Cold, Format: q.Format, CSV: q.CSV,
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
	return j, nil
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
	if len(list) == 0 && !slices.EqualFunc(j.Points, o.Points, slices.Equal) {
		list = append(list, "points")
	}
	add("precision", j.Precision, o.Precision)
	add("skip-impossible", j.Skip, o.Skip)
	add("tasks", j.Tasks, o.Tasks)
	add("cold", j.Cold, o.Cold)
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
	if j.Precision != "" {
		add("precision", j.Precision)
	}
	if j.Skip {
		words = append(words, "--skip-impossible")
	}
	if j.Format != CSV {
		add("format", j.Format)
	}
	if j.CSV != Plain {
		add("csv", j.CSV)
	}
	if j.Tasks {
		words = append(words, "--tasks")
	}
	if j.Cold {
		words = append(words, "--cold")
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

// Plan is a job made ready to be played.
type Plan struct {
	batch.Plan
	Job      *Job
	scenario *scenarios.Scenario
	First    *sim.Drill     // the first drill: milestones have the same names in all
	rosters  rosters        // who is there at each point, and the tasks there
	cautions []cold.Caution // of all points; nil until they have been looked at
}

func (j *Job) plan() (*Plan, error) {
	s, err := scenarios.Read(j.Name, []byte(j.Scenario))
	if err != nil {
		return nil, err
	}
	p := &Plan{Job: j, scenario: s}
	p.Plan = batch.Plan{Seed: j.Seed, Runs: j.Runs, Points: len(j.Points), Tasks: j.Tasks, Cold: j.Cold, Drills: p.drills}
	p.rosters.drills = p.drills
	drills, err := p.drills(0)
	if err != nil {
		return nil, err
	}
	p.First = drills[0]
	if j.Precision != "" {
		if p.Until, err = j.until(p.First); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// drills returns the drills of a point, one for each order.
func (p *Plan) drills(point int) ([]*sim.Drill, error) {
	s, err := p.scenario.VaryAll(p.Job.Keys, p.Job.Points[point])
	if err != nil {
		return nil, varyError(p.Job.varyFlag(), err)
	}
	var list []*sim.Drill
	for _, order := range p.Job.Orders {
		d, err := s.Drill(order)
		if err != nil {
			return nil, err
		}
		list = append(list, d)
	}
	return list, nil
}

// Cautions returns what all points together call for. Points that cannot be
// made again, which merging has refused before, call for nothing.
func (p *Plan) Cautions() []cold.Caution {
	if p.cautions != nil {
		return p.cautions
	}
	for point := range p.Points {
		if drills, err := p.drills(point); err == nil {
			p.cautions = cold.Joint(p.cautions, cold.Cautions(drills[0], nil))
		}
	}
	return p.cautions
}

// varyError puts what scenarios says of a key in the form of a mistake on the
// command line.
func varyError(flag string, err error) error {
	what, hint, _ := strings.Cut(err.Error(), "\n  hint: ")
	if hint == "" && flag == "--vary" {
		hint = "such as people=4..10, or \"weather.air=-40 C..-10 C step 5 C\""
	}
	return &mistake.Usage{What: flag + " " + what, Cure: strings.ReplaceAll(hint, "\n", " ")}
}

// varyFlag names what the keys come from.
func (j *Job) varyFlag() string {
	if j.Design != "" {
		return "--design " + j.Design + ":"
	}
	return "--vary"
}

// pointName says what a point is, for people: "point 3 (people=6)".
func (p *Plan) pointName(point int) string {
	return pointText(p.Job.Keys, p.Job.Points[point], point+1)
}

// pointText is the name of a point with its values by key and its number.
func pointText(keys, point []string, number int) string {
	var values []string
	for i, key := range keys {
		if v := point[i]; v != "" {
			values = append(values, key+"="+v)
		}
	}
	name := fmt.Sprintf("point %d", number)
	if len(values) > 0 {
		name += " (" + strings.Join(values, ", ") + ")"
	}
	return name
}

// check refuses, before anything is played, points that can never finish, all
// of them together, and one that has other milestones than the first.
func (p *Plan) check(ctx context.Context) error {
	kept := false // whether there is an account of cold
	bad := &Impossible{scenario: p.Job.Name, keys: p.Job.Keys, points: p.Points}
	for point := range p.Points {
		if err := ctx.Err(); err != nil {
			return err
		}
		drills, err := p.drills(point)
		if err != nil {
			return err
		}
		p.cautions = cold.Joint(p.cautions, cold.Cautions(drills[0], nil))
		if len(p.Job.Keys) > 0 {
			if l := p.impossible(point, drills); l != nil {
				bad.list = append(bad.list, *l)
			}
		}
		for _, d := range drills {
			kept = kept || cold.Kept(d)
			if len(p.Job.Keys) == 0 {
				if err := p.hopeless(d); err != nil {
					return fmt.Errorf("%s%s: %w", p.Job.Name, ofOrder(d), err)
				}
			}
			if !sameMilestones(d, p.First) {
				return &mistake.Usage{What: fmt.Sprintf("%s has other milestones than the first point", p.pointName(point)), Cure: "play it as a batch of its own"}
			}
		}
	}
	if len(bad.list) > 0 {
		return bad
	}
	if p.Job.Cold && !kept {
		return &mistake.Usage{What: fmt.Sprintf("--cold: %s has no account of cold: it needs weather, and what somebody wears on the march and at the halt", p.Job.Name), Cure: "such as clothing: {march: 1.6 clo, halt: 3.5 clo}"}

	}
	return nil
}

func sameMilestones(a, b *sim.Drill) bool {
	return slices.EqualFunc(a.Milestones, b.Milestones, func(x, y sim.Milestone) bool { return x.Name == y.Name })
}

// until reads "hot drink p90 1 min".
func (j *Job) until(d *sim.Drill) (*batch.Until, error) {
	const hint = "such as \"hot drink p90 1 min\", \"heated mean 30 s\" or \"heated on time 1 %\": how far apart the ends of the interval may be"
	words := strings.Fields(j.Precision)
	for i := len(words) - 1; i > 0; i-- {
		name, what, p, err := batch.ParseMeasure(strings.Join(words[:i], " "))
		if err != nil {
			continue
		}
		return j.untilOf(d, name, what, p, strings.Join(words[i:], " "), hint)
	}
	return nil, &mistake.Usage{What: fmt.Sprintf("--precision expects a milestone, what is asked of it and how narrow, got %q", j.Precision), Cure: hint}
}

func (j *Job) untilOf(d *sim.Drill, name string, what batch.Measure, p float64, wide, hint string) (*batch.Until, error) {
	var there []string
	for _, m := range d.Milestones {
		there = append(there, m.Name)
	}
	if _, err := ask.Asked([]string{name}, there, "milestone", j.Name); err != nil {
		return nil, err
	}
	u := &batch.Until{Milestone: slices.Index(there, name), What: what, P: p}
	number, unit, ok := scenarios.Quantity(wide)
	var v float64
	if ok {
		_, err := fmt.Sscan(number, &v)
		ok = err == nil && v > 0
	}
	switch {
	case !ok, what == batch.OnTime && unit != "share", what != batch.OnTime && unit != "s":
		need := "a length of time, such as \"1 min\""
		if what == batch.OnTime {
			need = "a share, such as \"1 %\""
		}
		return nil, &mistake.Usage{What: fmt.Sprintf("--precision: how narrow must be %s, got %q", need, wide), Cure: hint}
	case what == batch.OnTime && d.Milestones[u.Milestone].By == sim.Never:
		return nil, &mistake.Usage{What: fmt.Sprintf("--precision: the milestone %q has no target to be on time for", name), Cure: "give it one with by: in the scenario"}
	case what == batch.OnTime && v >= 1:
		return nil, &mistake.Usage{What: fmt.Sprintf("--precision: a share is never less narrow than 100 %%, got %q", wide), Cure: hint}
	case what == batch.Quantile && v < 2:
		return nil, &mistake.Usage{What: fmt.Sprintf("--precision: quantiles are kept to the whole second; how narrow must be 2 s or more, got %q", wide), Cure: hint}
	}
	u.Wide, u.Share = sim.Milliseconds(1000*v), v
	return u, nil
}
