package stopwatch

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/timed"
)

// Source is the text of a log file with the name that messages call it.
type Source struct {
	Name string
	Text []byte
}

// Log is what log files say.
type Log struct {
	Evenings []timed.Evening // in the sequence in which the drills first stand
	Remarks  []Remark
}

// Read reads logs of a scenario. The error is a *[Mistakes] when a file is wrong;
// it names all mistakes. Rows of one drill may stand in several files.
func Read(s *scenarios.Scenario, files ...Source) (*Log, error) {
	r := newReader(s)
	var read []*file
	for _, one := range files {
		f := newFile(one.Name, one.Text)
		read = append(read, f)
		if why := coded(f.text); why != "" {
			f.failAt(1, 1, "", why, "save it as \"CSV UTF-8\"")
			continue
		}
		for f.next() {
			r.row(f)
		}
	}
	r.finish(read)
	log := &Log{}
	wrong := &Mistakes{}
	for _, f := range read {
		log.Remarks = append(log.Remarks, f.remarks...)
		if len(f.wrong) > 0 {
			wrong.Files = append(wrong.Files, scenarios.NewProblems(f.name, f.wrong))
			wrong.More += f.more
		}
	}
	if len(wrong.Files) > 0 {
		return nil, wrong
	}
	for _, d := range r.drills {
		e, err := r.evening(d)
		if err != nil {
			return nil, err
		}
		log.Evenings = append(log.Evenings, e)
	}
	return log, nil
}

// Mistakes are the mistakes of several files; More were found and not kept.
type Mistakes struct {
	Files []*scenarios.Problems
	More  int
}

// Error returns the mistakes of each file, one after the other.
func (m *Mistakes) Error() string {
	var texts []string
	for _, p := range m.Files {
		texts = append(texts, p.Error())
	}
	if m.More > 0 {
		texts = append(texts, fmt.Sprintf("and %d more after these", m.More))
	}
	return strings.Join(texts, "\n")
}

// reader gathers drills from rows.
type reader struct {
	s          *scenarios.Scenario
	d          *sim.Drill
	tasks      map[string]int
	milestones map[string]int
	people     map[string]who
	drills     []*drill
	byName     map[string]*drill
	unknown    map[string]bool
	known      map[int]bool
	names      []string // of tasks and milestones, for hints
	played     map[asPlayed]*sim.Drill
	tooMany    bool // drills, which has been said
}

// who is what a cell of people says.
type who struct {
	people []int
	remark string
	wrong  string
	hint   string
}

// drill is one drill under way.
type drill struct {
	timed.Drill
	arrival moment
	rows    []row
	stoves  map[int]bool
	dateAt  string
	felt    []feltRow
}

// row is a row of times, as it is written.
type row struct {
	task, milestone int
	people          []int
	start, end      moment
	note            noted
	f               *file
	line, col       int32
}

type feltRow struct {
	person int
	at     moment
	sense  float64
	f      *file
	line   int
	col    int
}

func newReader(s *scenarios.Scenario) *reader {
	d, _ := s.Parts()
	r := &reader{
		s: s, d: d, tasks: map[string]int{}, milestones: map[string]int{}, people: map[string]who{},
		byName: map[string]*drill{}, unknown: map[string]bool{}, known: map[int]bool{}, played: map[asPlayed]*sim.Drill{},
	}
	for i := range d.Milestones {
		r.milestones[fold(d.Milestones[i].Name)] = i
		r.names = append(r.names, d.Milestones[i].Name)
	}
	for i := range d.Tasks {
		r.tasks[fold(d.Tasks[i].Name)] = i
		r.names = append(r.names, d.Tasks[i].Name)
	}
	return r
}

// mostDrills is how many drills are read together.
const mostDrills = 1000

// row reads one row of any of the tables.
func (r *reader) row(f *file) {
	name := f.cell("drill")
	if name == "" {
		f.wrongCell("drill", "is missing", "any name; rows of one drill share it")
		return
	}
	d := r.drill(name)
	if len(r.drills) > mostDrills {
		if !r.tooMany {
			r.tooMany = true
			f.wrongCell("drill", fmt.Sprintf("there are more than %d drills", mostDrills), "give fit a season or two at a time")
		}
		return
	}
	if !r.heading(f, d) {
		return
	}
	switch f.kind {
	case ofRows:
		r.times(f, d)
	case ofConditions:
		r.conditions(f, d)
	case ofFelt:
		r.felt(f, d)
	}
}

func (r *reader) drill(name string) *drill {
	key := fold(name)
	d, ok := r.byName[key]
	if !ok && len(r.drills) > mostDrills {
		return r.drills[mostDrills]
	}
	if !ok {
		d = &drill{Drill: timed.Drill{Name: name, Arrival: sim.Never}, stoves: map[int]bool{}}
		r.byName[key] = d
		r.drills = append(r.drills, d)
	}
	return d
}

// heading reads the date and the team of a row, which all rows of a drill share;
// the date may be the day after, for what came after midnight.
func (r *reader) heading(f *file, d *drill) bool {
	if team := f.cell("team"); team != "" {
		if d.Team != "" && fold(d.Team) != fold(team) {
			f.wrongCell("team", fmt.Sprintf("drill %s is of team %s, got %s", quote(d.Name), quote(d.Team), quote(team)), "give each drill a name of its own")
			return false
		}
		d.Team = team
	}
	if f.cell("date") == "" || f.cell("date") == d.dateAt {
		return true
	}
	day, ok := f.date()
	if !ok {
		return false
	}
	if d.Date != "" && !nextDays(d.Date, day) {
		f.wrongCell("date", fmt.Sprintf("drill %s is of %s, got %s", quote(d.Name), d.Date, quote(day)), "give each drill a name of its own")
		return false
	}
	if d.dateAt = f.cell("date"); d.Date == "" || day < d.Date {
		d.Date = day
	}
	return true
}

func realDay(s string) bool {
	_, err := time.Parse(time.DateOnly, s)
	return err == nil
}

func nextDays(a, b string) bool {
	x, _ := time.Parse(time.DateOnly, a)
	y, _ := time.Parse(time.DateOnly, b)
	return x.Sub(y).Abs() <= 24*time.Hour
}

// times reads a row of times.
func (r *reader) times(f *file, d *drill) {
	one := row{task: -1, milestone: -1, f: f, line: int32(f.line)}
	if !r.what(f, &one) {
		return
	}
	var ok1, ok2, ok3 bool
	one.start, ok1 = f.moment("start")
	one.end, ok2 = f.moment("end")
	one.note, ok3 = f.note()
	if !ok1 || !ok2 || !ok3 {
		return
	}
	if !one.end.set && !one.note.unfinished {
		f.wrongCell("end", "is missing", "write \"unfinished\" in the note if the task had not ended")
		return
	}
	if one.milestone >= 0 && !one.end.set {
		f.wrongCell("end", "is missing", "a milestone that was not reached needs no row")
		return
	}
	one.people = r.crew(f)
	_, col := f.csv.FieldPos(min(f.columns["end"], len(f.row)-1))
	one.col = int32(col)
	d.CalledOff = d.CalledOff || one.note.calledOff
	d.rows = append(d.rows, one)
}

// what finds the task or the milestone of a row.
func (r *reader) what(f *file, one *row) bool {
	name := f.cell("task")
	if name == "" {
		f.wrongCell("task", "is missing", "")
		return false
	}
	key := fold(name)
	if i, ok := r.tasks[key]; ok {
		one.task = i
		r.known[i] = true
		return true
	}
	if m, ok := r.milestones[key]; ok {
		one.milestone = m
		return true
	}
	r.unknown[key] = true
	f.wrongCell("task", "the scenario has no task "+quote(name), scenarios.NameHint(name, r.names))
	return false
}

// crew reads who was on a task.
func (r *reader) crew(f *file) []int {
	text := f.cell("person")
	if text == "" {
		return nil
	}
	w, ok := r.people[text]
	if !ok {
		w = r.whoIs(text)
		r.people[text] = w
	}
	if w.wrong != "" {
		f.wrongCell("person", w.wrong, w.hint)
	} else if w.remark != "" {
		f.remark("person", w.remark)
	}
	return w.people
}

func (r *reader) whoIs(text string) who {
	if n, err := strconv.Atoi(text); err == nil {
		if n < 1 || n > 100 {
			return who{wrong: "must be 1 to 100 people, got " + quote(text)}
		}
		return who{people: slices.Repeat([]int{-1}, n)}
	}
	var w who
	names := []string{text}
	if r.exactly(text) < 0 {
		names = strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune("+&/,", c) })
	}
	for _, name := range names {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		at, also := r.person(name)
		switch {
		case len(also) > 1:
			return who{wrong: fmt.Sprintf("%s may be %s", quote(name), strings.Join(also, " or ")), hint: "write as much of the name as tells them apart"}
		case at < 0:
			w.remark = quote(name) + " is not in the scenario and counts with the usual pace"
		case slices.Contains(w.people, at):
			return who{wrong: quote(name) + " stands twice"}
		}
		w.people = append(w.people, at)
	}
	return w
}

func (r *reader) exactly(name string) int {
	return slices.IndexFunc(r.d.People, func(p sim.Person) bool { return fold(p.Name) == fold(name) })
}

// person finds somebody by the name or by its beginning; also lists those whom
// it may mean when they are several.
func (r *reader) person(name string) (at int, also []string) {
	if at = r.exactly(name); at >= 0 {
		return at, nil
	}
	for i, p := range r.d.People {
		if strings.HasPrefix(fold(p.Name), fold(name)) {
			at, also = i, append(also, quote(p.Name))
		}
	}
	if len(also) != 1 {
		return -1, also
	}
	return at, nil
}
