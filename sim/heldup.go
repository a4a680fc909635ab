package sim

import "slices"

// Link is one piece of a critical sequence: something that had to be over
// before the next could begin.
type Link struct {
	Task int // the task it is about
	// Called, Start and End are the moments that count for the sequence: the
	// next link follows from Until.
	Called, Start Time
	Until         Point
	Why           Reason // why the task was called when it was, and no sooner
}

// Point is a moment in the life of a task.
type Point int

// The moments from which another task may follow.
const (
	AtEnd Point = iota
	AtStart
	AtCall
)

// Reason is what kept a task from being called any sooner.
type Reason struct {
	Kind ReasonKind
	// At is when it gave way: the moment of the call.
	At Time
	// Ready is when the task could have been called, had it not been for
	// people, tools, stoves or its turn.
	Ready Time
	// Task is the task that had to end, start or be called first; -1 if none.
	Task int
	From Point // which moment of that task
	Lag  Time
	// The other fields name what was short, by kind; -1 otherwise.
	Item, Load, Tool, Stove, Skill, Person, Lookout, Group int
}

// ReasonKind is a kind of reason.
type ReasonKind int

// The kinds of reason.
const (
	FromTheStart  ReasonKind = iota // called when the team arrived
	AfterTask                       // it comes after another task
	UnderItem                       // something it needs, or that lies above it, was still on the load
	LoadAway                        // the load was not there yet
	ToolShort                       // too few of a tool were free
	StoveShort                      // no stove of the kind was free
	PeopleShort                     // too few people, or nobody with a skill, were free
	BehindInTurn                    // a task before it in a sequence in turn
	NotLent                         // another group had not yet lent its people
	NothingToTell                   // its turn in the sequence came
)

// HeldUp returns the critical sequence of a milestone, the first thing first:
// the tasks, waits and shortages that decided when it was reached. Nil when it
// never was.
func (tl *Timeline) HeldUp(milestone int) []Link {
	last := -1
	for _, t := range tl.Drill.Milestones[milestone].When {
		if last < 0 || tl.Tasks[t].End > tl.Tasks[last].End {
			last = t
		}
	}
	if last < 0 || tl.Tasks[last].End == Never {
		return nil
	}
	var links []Link
	seen := make([]bool, len(tl.Tasks))
	task, until := last, AtEnd
	for task >= 0 && !seen[task] {
		seen[task] = true
		t := tl.Tasks[task]
		why := tl.whyThen(task)
		links = append(links, Link{Task: task, Called: t.Called, Start: t.Start, Until: until, Why: why})
		task, until = why.Task, why.From
	}
	for i, j := 0, len(links)-1; i < j; i, j = i+1, j-1 {
		links[i], links[j] = links[j], links[i]
	}
	return links
}

// Critical reports for each task whether it is on the critical sequence of a
// milestone.
func (tl *Timeline) Critical(milestone int) []bool {
	critical := make([]bool, len(tl.Tasks))
	for _, l := range tl.HeldUp(milestone) {
		critical[l.Task] = true
	}
	return critical
}

// whyThen says why a task was called at the moment it was. It reads only the
// timeline, so that it holds for every engine.
func (tl *Timeline) whyThen(task int) Reason {
	c := tl.Tasks[task].Called
	why := Reason{At: c, Task: -1, Item: -1, Load: -1, Tool: -1, Stove: -1, Skill: -1, Person: -1, Lookout: -1, Group: -1}
	for _, find := range []func(int, *Reason) bool{
		tl.cameAfter, tl.wasUnder, tl.loadWasAway, tl.atTheStart, tl.toolWasShort,
		tl.stoveWasShort, tl.peopleWereShort, tl.wasBehind, tl.wasNotLent,
	} {
		w := why
		if find(task, &w) {
			return w
		}
		why.Ready = w.Ready
	}
	why.Kind = NothingToTell
	return why
}

func (tl *Timeline) atTheStart(task int, why *Reason) bool {
	why.Kind = FromTheStart
	return why.At == 0
}

// cameAfter finds the task whose end or start, plus the lag, is the moment of
// the call; with several, the one that comes first in the list.
func (tl *Timeline) cameAfter(task int, why *Reason) bool {
	for _, a := range tl.Drill.Tasks[task].After {
		from, p := tl.Tasks[a.Task].End, AtEnd
		if a.FromStart {
			from, p = tl.Tasks[a.Task].Start, AtStart
		}
		why.Ready = max(why.Ready, from+a.Lag)
		if from+a.Lag == why.At && why.Task < 0 {
			why.Kind, why.Task, why.From, why.Lag = AfterTask, a.Task, p, a.Lag
		}
	}
	return why.Task >= 0
}

// wasUnder finds the item whose unloading ended at the moment of the call.
func (tl *Timeline) wasUnder(task int, why *Reason) bool {
	t := &tl.Drill.Tasks[task]
	items := t.Needs
	if t.Unloads() && t.Item > 0 && tl.Drill.Items[t.Item-1].Load == tl.Drill.Items[t.Item].Load {
		items = []int{t.Item - 1}
	}
	for _, item := range items {
		end := tl.Tasks[item].End // the unloading of item i is task i
		why.Ready = max(why.Ready, end)
		if end == why.At && why.Task < 0 {
			why.Kind, why.Task, why.Item = UnderItem, item, item
		}
	}
	return why.Task >= 0
}

func (tl *Timeline) loadWasAway(task int, why *Reason) bool {
	t := &tl.Drill.Tasks[task]
	if !t.Unloads() {
		return false
	}
	load := tl.Drill.Items[t.Item].Load
	arrives := tl.Luck.Load[load]
	why.Ready = max(why.Ready, arrives)
	why.Kind, why.Load = LoadAway, load
	return arrives == why.At && why.At > 0
}

// toolWasShort finds a tool of which too few were free just before the call,
// and the task that gave one back, or brought one, at that moment.
func (tl *Timeline) toolWasShort(task int, why *Reason) bool {
	d, c := tl.Drill, why.At
	low, _ := d.Tasks[task].CrewBounds()
	for _, n := range d.Tasks[task].Tools {
		need := n.Count
		if n.Each {
			need = low
		}
		why.Ready = max(why.Ready, tl.there(d.Tools[n.Tool].Count, need, func(b Bring) bool { return b.Tool == n.Tool }))
		free, giver := d.Tools[n.Tool].Count, -1
		for i, item := range d.Items {
			for _, b := range item.Brings {
				switch {
				case b.Tool != n.Tool:
				case tl.Tasks[i].End < c:
					free += b.Count
				case tl.Tasks[i].End == c:
					giver = i
				}
			}
		}
		for i := range d.Tasks {
			held := tl.heldBefore(i, n.Tool, c)
			free -= held
			if held > 0 && tl.Tasks[i].End == c && giver < 0 {
				giver = i
			}
		}
		if free >= need {
			continue
		}
		if giver >= 0 {
			why.Kind, why.Tool, why.Task = ToolShort, n.Tool, giver
			return true
		}
		if person, lookout := tl.pulledWith(n.Tool, c); person >= 0 {
			why.Kind, why.Tool, why.Person, why.Lookout = ToolShort, n.Tool, person, lookout
			return true
		}
	}
	return false
}

// pulledWith returns who was pulled to which lookout at a moment from a task for
// which each has a tool, which came back with that; -1 for nobody.
func (tl *Timeline) pulledWith(tool int, at Time) (person, lookout int) {
	for person, stretches := range tl.People {
		for k := 1; k < len(stretches); k++ {
			before, now := &stretches[k-1], &stretches[k]
			if before.Task < 0 || before.To != at || now.Lookout < 0 || tl.Tasks[before.Task].End <= at {
				continue
			}
			if slices.Contains(tl.Drill.Tasks[before.Task].Tools, ToolNeed{Tool: tool, Each: true}) {
				return person, now.Lookout
			}
		}
	}
	return -1, -1
}

// there returns from when on there were so many of a tool or stove on the site,
// in use or not: some from the start, the others as the items that bring them
// came off their loads.
func (tl *Timeline) there(have, need int, brings func(Bring) bool) Time {
	from := Time(-1)
	for have < need {
		next := Never
		for i, item := range tl.Drill.Items {
			if end := tl.Tasks[i].End; end > from && end < next && slices.ContainsFunc(item.Brings, brings) {
				next = end
			}
		}
		if next == Never {
			break
		}
		from = next
		for i, item := range tl.Drill.Items {
			for _, b := range item.Brings {
				if tl.Tasks[i].End == from && brings(b) {
					have += b.Count
				}
			}
		}
	}
	return max(0, from)
}

// heldBefore returns how many of a tool a task held just before c.
func (tl *Timeline) heldBefore(task, tool int, c Time) int {
	if t := tl.Tasks[task]; t.Called >= c || t.End < c {
		return 0
	}
	held := 0
	for _, n := range tl.Drill.Tasks[task].Tools {
		if n.Tool != tool {
			continue
		}
		held += n.Count
		if n.Each {
			for _, stretches := range tl.People {
				for _, s := range stretches {
					if s.Task == task && s.From < c && s.To >= c {
						held++
					}
				}
			}
		}
	}
	return held
}

// stoveWasShort finds the task that gave back, or brought, a stove at the
// moment of the call when none was free before.
func (tl *Timeline) stoveWasShort(task int, why *Reason) bool {
	d, c := tl.Drill, why.At
	kind, pot := d.Tasks[task].stove()
	if kind < 0 {
		return false
	}
	there, giver := 0, -1
	if !d.Stoves[kind].Brought {
		there = d.Stoves[kind].Count
	}
	why.Ready = max(why.Ready, tl.there(there, 1, func(b Bring) bool { return b.Stove == kind }))
	for i, item := range d.Items {
		for _, b := range item.Brings {
			if b.Stove == kind && tl.Tasks[i].End < c {
				there += b.Count
			} else if b.Stove == kind && tl.Tasks[i].End == c {
				giver = i
			}
		}
	}
	there = min(there, d.Stoves[kind].Count)
	for i := range d.Tasks {
		k, p := d.Tasks[i].stove()
		if k != kind || d.Stoves[kind].HoldsPots && p != pot {
			continue
		}
		end, by := tl.Tasks[i].End, i
		if d.Tasks[i].Kind == Warm && end != Never {
			end, by = tl.putOut(i)
		}
		if tl.Tasks[i].Called < c && end >= c {
			there--
			if end == c && giver < 0 {
				giver = by
			}
		}
	}
	if there > 0 || giver < 0 {
		return false
	}
	why.Kind, why.Stove, why.Task = StoveShort, kind, giver
	return true
}

// putOut returns when the stove of a warm-up that has ended goes out, and the
// task that puts it out, or the melt after which it goes out; Never and -1 when it
// burns on.
func (tl *Timeline) putOut(warm int) (at Time, by int) {
	d := tl.Drill
	w, end, unit := d.Tasks[warm].Warm, tl.Tasks[warm].End, tl.Tasks[warm].Unit
	at, by = Never, -1
	for i := range d.Tasks {
		in := d.PutsOutIn(&d.Tasks[i])
		if out := tl.Tasks[i].End; slices.Contains(d.Tasks[i].PutsOut, w.Stove) && (in < 0 || in == w.Shelter) && out >= end && out < at {
			at, by = out, i
		}
	}
	for i := range d.Tasks {
		t := tl.Tasks[i]
		if m := d.Tasks[i].Melt; m != nil && m.Stove == w.Stove && t.Unit == unit && t.Called < at && t.End > at && at != Never {
			return t.End, i
		}
	}
	return at, by
}

// stove returns the kind of stove that a task burns, -1 for none, and whether
// it is for a pot.
func (t *Task) stove() (kind int, pot bool) {
	switch t.Kind {
	case Melt:
		return t.Melt.Stove, true
	case Warm:
		return t.Warm.Stove, false
	}
	return -1, false
}

// peopleWereShort finds the one of the crew who came free at the moment of
// the call, somebody with a skill that is asked for first.
func (tl *Timeline) peopleWereShort(task int, why *Reason) bool {
	t := &tl.Drill.Tasks[task]
	best := -1
	for _, person := range tl.crewCalled(task) {
		if tl.cameFree(person, why.At) == nil {
			continue
		}
		if best < 0 || tl.askedSkill(t, person) >= 0 && tl.askedSkill(t, best) < 0 {
			best = person
		}
	}
	if best < 0 {
		return false
	}
	s := tl.cameFree(best, why.At)
	why.Kind, why.Person, why.Skill = PeopleShort, best, tl.askedSkill(t, best)
	why.Lookout = s.Lookout
	if s.Task >= 0 && tl.Tasks[s.Task].Called < why.At {
		why.Task = s.Task
	}
	return true
}

// askedSkill returns a skill of the person that the task asks for, -1 if none.
func (tl *Timeline) askedSkill(t *Task, person int) int {
	skills := tl.Drill.People[person].Skills
	for _, r := range t.Roles {
		if skills.Has(r.Skill) {
			return r.Skill
		}
	}
	for i := range tl.Drill.Skills {
		if t.All.Has(i) {
			return i
		}
	}
	return -1
}

// crewCalled returns the people whom the task called at its call, in roster
// order.
func (tl *Timeline) crewCalled(task int) []int {
	var crew []int
	for person, stretches := range tl.People {
		for _, s := range stretches {
			if s.Task == task && s.From == tl.Tasks[task].Called {
				crew = append(crew, person)
				break
			}
		}
	}
	return crew
}

// cameFree returns the stretch of work, lookout or arrival that ended for a
// person at a moment, nil if the person was free before.
func (tl *Timeline) cameFree(person int, at Time) *Stretch {
	var last *Stretch
	for i := range tl.People[person] {
		s := &tl.People[person][i]
		if s.To == at && s.From < at {
			last = s
		}
	}
	switch {
	case last == nil && tl.Luck.Person[person] == at:
		return &Stretch{What: Free, Task: -1, Lookout: -1}
	case last == nil || last.What == Free:
		return nil
	}
	return last
}

// wasBehind finds the task ahead of it in a sequence in turn that was called
// at the same moment.
func (tl *Timeline) wasBehind(task int, why *Reason) bool {
	det := &tl.Drill.Groups[tl.Tasks[task].Group]
	if !det.InTurn {
		return false
	}
	before := -1
	for _, i := range det.Sequence[det.Lead:] {
		if i == task {
			break
		}
		if tl.Tasks[i].Called == why.At {
			before = i
		}
	}
	why.Kind, why.Task, why.From = BehindInTurn, before, AtCall
	return before >= 0
}

// wasNotLent finds the last task of another group, called at the same
// moment, after which that group lent one of the crew.
func (tl *Timeline) wasNotLent(task int, why *Reason) bool {
	own := tl.Tasks[task].Group
	for di, det := range tl.Drill.Groups {
		if di == own || !containsAny(det.People, tl.crewCalled(task)) {
			continue
		}
		for _, i := range det.Sequence[det.Lead:] {
			if i != task && tl.Tasks[i].Called == why.At {
				why.Kind, why.Task, why.From, why.Group = NotLent, i, AtCall, di
				return true
			}
		}
	}
	return false
}

func containsAny(sorted, of []int) bool {
	for _, a := range of {
		for _, b := range sorted {
			if a == b {
				return true
			}
		}
	}
	return false
}
