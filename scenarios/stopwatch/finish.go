package stopwatch

import (
	"fmt"
	"slices"
	"strings"

	"warmby/scenarios"
	"warmby/sim"
	"warmby/sim/timed"
)

// finish makes jobs of rows, once all files are read and arrivals are known.
func (r *reader) finish(files []*file) {
	if len(files) == 0 {
		return
	}
	rows := 0
	for _, d := range r.drills {
		rows += len(d.rows)
	}
	wrong := 0
	for _, f := range files {
		wrong += len(f.wrong)
	}
	if rows == 0 && wrong == 0 {
		files[0].failAt(1, 1, "", "the log is empty", "headings, and a row for each task: drill,task,end")
	}
	if len(r.unknown) > 3 && len(r.unknown) > 2*len(r.known) {
		r.anotherScenario(files)
		return
	}
	for _, d := range r.drills {
		r.drillDone(d, files[0])
	}
}

// anotherScenario replaces the mistakes of a log that is of another scenario by
// one.
func (r *reader) anotherScenario(files []*file) {
	for _, f := range files {
		if len(f.wrong) > 0 {
			f.wrong, f.more = f.wrong[:1], 0
			f.wrong[0].Message = fmt.Sprintf("this is a log of another scenario: of its tasks %d are not in %s", len(r.unknown), quote(r.d.Title))
			f.wrong[0].Hint = "name the scenario that was drilled after the logs"
		}
	}
}

func (r *reader) drillDone(d *drill, first *file) {
	if len(d.rows) == 0 {
		if len(first.remarks) < shown {
			first.remarks = append(first.remarks, Remark{first.name, 1, 1, "drill " + quote(d.Name) + " has no times"})
		}
	}
	if d.arrival.set {
		d.Arrival = d.arrival.at
	}
	jobs := map[int]*timed.Job{}
	var sequence []int
	for i := range d.rows {
		one := &d.rows[i]
		if !r.sinceArrival(d, one) {
			continue
		}
		if one.milestone >= 0 {
			d.Moments = append(d.Moments, timed.Moment{Milestone: one.milestone, At: one.end.at})
			continue
		}
		if j, ok := jobs[one.task]; ok {
			r.again(d, j, one)
			continue
		}
		jobs[one.task] = jobOf(one)
		sequence = append(sequence, one.task)
	}
	last := lastOf(jobs, d.Moments)
	slices.Sort(sequence)
	for _, task := range sequence {
		j := jobs[task]
		if j.End == sim.Never {
			j.End = last
			for k := range j.Stints {
				j.Stints[k].To = min(j.Stints[k].To, last)
			}
		}
		d.Jobs = append(d.Jobs, *j)
	}
	r.feltDone(d)
	d.rows = nil
}

func lastOf(jobs map[int]*timed.Job, moments []timed.Moment) sim.Time {
	var last sim.Time
	for _, j := range jobs {
		if j.End != sim.Never {
			last = max(last, j.End)
		}
		if j.Start != sim.Never {
			last = max(last, j.Start)
		}
	}
	for _, m := range moments {
		last = max(last, m.At)
	}
	return last
}

// sinceArrival turns the times of a row into times since arrival.
func (r *reader) sinceArrival(d *drill, one *row) bool {
	for _, m := range []*moment{&one.start, &one.end} {
		if why, hint := d.since(m); why != "" {
			one.fail(why, hint)
			return false
		}
	}
	if one.start.set && one.end.set && one.end.at < one.start.at {
		one.fail("it ends before it starts", "are start and end the right way round, and is the arrival right?")
		return false
	}
	return true
}

// longestDay is how long after the arrival a clock time may be: what is later is
// rather a time before the arrival.
const longestDay = 20 * sim.Hour

func (d *drill) since(m *moment) (why, hint string) {
	if !m.set || !m.clock {
		return "", ""
	}
	if !d.arrival.set {
		return "a clock time needs the arrival of drill " + quote(d.Name), "add a table of conditions: drill,arrival and a row such as 1,14:55"
	}
	at := (m.at - d.arrival.at + 24*sim.Hour) % (24 * sim.Hour)
	if at > longestDay {
		return "it is before the arrival of the drill", "a time more than 20 h after it is written since arrival, such as \"21 h\""
	}
	*m = moment{at: at, set: true}
	return "", ""
}

func (o *row) fail(why, hint string) {
	o.f.failAt(int(o.line), int(o.col), "", why, hint)
}

func jobOf(one *row) *timed.Job {
	j := &timed.Job{
		Task: one.task, Start: when(one.start), End: when(one.end), Unfinished: one.note.unfinished,
		Mishaps: one.note.mishaps, Line: int(one.line),
	}
	if j.Mishaps > 0 {
		j.MishapTime = one.note.adds
	}
	if len(one.people) > 0 {
		j.Stints = []timed.Stint{{People: one.people, From: j.Start, To: j.End}}
	}
	return j
}

func when(m moment) sim.Time {
	if !m.set {
		return sim.Never
	}
	return m.at
}

// mostStints is how many rows one task may have in one drill.
const mostStints = 300

// again adds a further row of a task: of other people, or of the same at
// another time.
func (r *reader) again(d *drill, j *timed.Job, one *row) {
	if len(one.people) == 0 || len(j.Stints) == 0 {
		one.fail(fmt.Sprintf("%s stands twice in drill %s", quote(r.d.Tasks[one.task].Name), quote(d.Name)), "one row for each task, or one for each person; another time of the same task is another drill")
		return
	}
	if len(j.Stints) == mostStints {
		one.fail(fmt.Sprintf("%s has more than %d rows in drill %s", quote(r.d.Tasks[one.task].Name), mostStints, quote(d.Name)), "give each drill a name of its own")
		j.Stints = append(j.Stints, timed.Stint{})
	}
	if len(j.Stints) > mostStints {
		return
	}
	next := timed.Stint{People: one.people, From: when(one.start), To: when(one.end)}
	for _, s := range j.Stints {
		if both := shared(s.People, next.People); both >= 0 && overlap(s, next) {
			one.fail(fmt.Sprintf("%s is on it twice at the same time", quote(r.d.People[both].Name)), "")
			return
		}
	}
	j.Stints = append(j.Stints, next)
	if next.From != sim.Never {
		j.Start = min(j.Start, next.From)
	}
	if next.To == sim.Never || j.End == sim.Never {
		j.End = sim.Never
	} else if next.To > j.End {
		j.End = next.To
	}
	j.Unfinished = j.Unfinished || one.note.unfinished
	if one.note.mishaps > 0 {
		j.Mishaps, j.MishapTime = max(j.Mishaps, one.note.mishaps), one.note.adds
	}
}

func shared(a, b []int) int {
	for _, x := range a {
		if x >= 0 && slices.Contains(b, x) {
			return x
		}
	}
	return -1
}

func overlap(a, b timed.Stint) bool {
	if a.From == sim.Never || b.From == sim.Never {
		return true
	}
	return a.From < b.To && b.From < a.To
}

func (r *reader) feltDone(d *drill) {
	count := map[int]int{}
	for _, x := range d.felt {
		if why, hint := d.since(&x.at); why != "" {
			x.f.failAt(x.line, x.col, "at", why, hint)
			continue
		}
		if count[x.person]++; count[x.person] > 20 {
			x.f.failAt(x.line, x.col, "at", "more than 20 moments of one person in a drill", "")
			continue
		}
		d.Felt = append(d.Felt, timed.Felt{Person: x.person, At: x.at.at, Sense: x.sense})
	}
}

// TaskNames returns what rows may be called, for timing sheets.
func TaskNames(s *scenarios.Scenario) []string {
	return slices.DeleteFunc(newReader(s).names, func(n string) bool { return strings.TrimSpace(n) == "" })
}
