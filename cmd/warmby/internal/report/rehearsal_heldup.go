package report

import (
	"slices"

	"warmby/sim"
)

// heldUpShort tells, for each milestone, the tasks that decided it with what
// each took; what it shares with one told before is named only.
func (r Rehearsal) heldUpShort() []Block {
	var list []Block
	r.eachHeldUp(func(h heldUp) {
		if h.never != nil {
			list = append(list, Text{Head: h.name, Says: Say("never; {}.", h.never), Item: true})
			return
		}
		if h.same {
			return
		}
		var parts []Sentence
		if h.shared != "" {
			parts = append(parts, Say("as for {}, then", h.shared))
		}
		for _, step := range h.steps {
			if step.short != "" && step.length >= sim.Minute {
				parts = append(parts, Say("{} {}", step.short, Length(step.length)))
			}
		}
		text := Join(parts, ", ")
		if h.shared != "" {
			text = Say("{} {}", parts[0], Join(parts[1:], ", "))
		}
		list = append(list, Text{Head: h.name, Says: Briefly(sentenceEnd(text)), Item: true})
	})
	return list
}

// heldUp tells, for every milestone, what decided when it was reached: lengths
// that add up, and the reason why each task began when it did.
func (r Rehearsal) heldUp() []Block {
	var list []Block
	r.eachHeldUp(func(h heldUp) {
		switch {
		case h.never != nil:
			list = append(list, Text{Says: Say("{}: never. {}", h.name, sentence(h.never))})
			return
		case h.same:
			list = append(list, Text{Says: Say("{}: with {}", h.name, h.shared)})
			return
		}
		t := Table{Caption: "What held up " + h.name, Columns: []Column{{Right: true}, {}}}
		for _, step := range h.steps {
			t.Rows = append(t.Rows, Cells(Stopwatch(step.length), step.what))
		}
		list = append(list, Text{Says: Say("{}, {} after arrival", h.name, Length(h.at))}, t)
	})
	return list
}

// heldUp is what decided one milestone.
type heldUp struct {
	name   string
	at     sim.Time
	never  Sentence // why it never comes; nil when it does
	same   bool     // all of it is shared with the milestone named
	shared string   // the milestone that it shares its beginning with; ""
	steps  []step
}

// step is one length in it.
type step struct {
	length sim.Time
	short  string // in a word or two; "" where the short account leaves it out
	what   Sentence
}

// eachHeldUp hands on what decided each milestone, soonest first. What a
// milestone shares with one before it is not told twice.
func (r Rehearsal) eachHeldUp(tell func(heldUp)) {
	told := map[string][]sim.Link{}
	var names []string
	for _, m := range r.inTime() {
		h := heldUp{name: r.Drill.Milestones[m].Name, at: r.Milestones[m]}
		links := r.HeldUp(m)
		if links == nil {
			h.never = WhyMilestone(r.Timeline, m)
			tell(h)
			continue
		}
		shared := 0
		for _, n := range names {
			if k := sameStart(links, told[n]); k > shared {
				shared, h.shared = k, n
			}
		}
		if shared == len(links) {
			h.same = true
			tell(h)
			continue
		}
		told[h.name], names = links, append(names, h.name)
		if shared > 1 {
			from := links[shared]
			h.steps = append(h.steps, step{length: from.Called - from.Why.Lag,
				what: Say("as for {}, up to {}", h.shared, quote(r.Drill.Tasks[links[shared-1].Task].Name))})
			links = links[shared:]
		} else {
			h.shared = ""
			if first := links[0]; first.Called > 0 {
				until := r.until(first.Why)
				h.steps = append(h.steps, step{first.Called, until.Write(People), until})
			}
		}
		for _, l := range links {
			h.steps = append(h.steps, r.steps(l)...)
		}
		tell(h)
	}
}

// inTime returns the milestones, soonest first.
func (r Rehearsal) inTime() []int {
	var ms []int
	for i := range r.Milestones {
		ms = append(ms, i)
	}
	slices.SortStableFunc(ms, func(a, b int) int {
		return int(max(-1, min(1, r.Milestones[a]/2-r.Milestones[b]/2)))
	})
	return ms
}

// sameStart returns how many links two sequences have in common.
func sameStart(a, b []sim.Link) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

// until says what the first task of a sequence had to wait for.
func (r Rehearsal) until(why sim.Reason) Sentence {
	d := r.Drill
	switch {
	case why.Kind == sim.LoadAway:
		return Say("until {} is there", d.Loads[why.Load].Name)
	case why.Kind == sim.PeopleShort && why.Lookout >= 0:
		return Say("until {} comes off {}", d.People[why.Person].Name, d.Lookouts[why.Lookout].Name)
	case why.Kind == sim.PeopleShort:
		return Say("until {} is there", d.People[why.Person].Name)
	}
	return Say("until its turn comes")
}

// steps returns what one link takes: a wait for a lag, a walk, and the task.
func (r Rehearsal) steps(l sim.Link) (list []step) {
	d := r.Drill
	name := d.Tasks[l.Task].Name
	if lag := l.Why.Lag; lag > 0 {
		list = append(list, step{lag, "wait", Say("wait {} after {} of {}", Length(lag), pointWord(l.Why.From), quote(d.Tasks[l.Why.Task].Name))})
	}
	if l.Until == sim.AtCall {
		return list
	}
	if walk := l.Start - l.Called; walk > 0 {
		list = append(list, step{walk, "walk", Say("walk to {}", quote(name))})
	}
	if l.Until == sim.AtEnd {
		text := Say("{}", name)
		if who := r.Tasks[l.Task].People; len(who) > 0 {
			var names []string
			for _, p := range who {
				names = append(names, d.People[p].Name)
			}
			text = Say("{} ({})", text, Named(names))
		}
		if why := reason(r.Timeline, l.Task, l.Why); why != nil {
			text = Say("{}: {}", text, why)
		}
		list = append(list, step{r.Tasks[l.Task].End - l.Start, name, text})
	}
	return list
}

func pointWord(p sim.Point) string {
	switch p {
	case sim.AtStart:
		return "the start"
	case sim.AtCall:
		return "the call"
	}
	return "the end"
}

// reason says in plain words why a task was called no sooner.
func reason(tl *sim.Timeline, task int, why sim.Reason) Sentence {
	text := reasonAlone(tl, task, why)
	switch why.Kind {
	case sim.ToolShort, sim.StoveShort, sim.PeopleShort, sim.BehindInTurn, sim.NotLent, sim.NothingToTell:
		if waited := why.At - why.Ready; waited > 0 && text != nil {
			return Say("{}; it could have begun {} sooner", text, Length(waited))
		}
	}
	return text
}

func reasonAlone(tl *sim.Timeline, task int, why sim.Reason) Sentence {
	d := tl.Drill
	switch why.Kind {
	case sim.AfterTask:
		return Say("comes after {}", quote(d.Tasks[why.Task].Name))
	case sim.UnderItem:
		item := d.Items[why.Item]
		if d.Tasks[task].Unloads() {
			return Say("lay under {} on {} until then", item.Name, d.Loads[item.Load].Name)
		}
		return Say("{} lay on {} until then", item.Name, d.Loads[item.Load].Name)
	case sim.LoadAway:
		return Say("{} was not there before", d.Loads[why.Load].Name)
	case sim.ToolShort:
		if why.Task >= 0 {
			return Say("too few {} free before (on {})", quote(d.Tools[why.Tool].Name), quote(d.Tasks[why.Task].Name))
		}
		return Say("too few {} free before ({} was pulled to {})", quote(d.Tools[why.Tool].Name), d.People[why.Person].Name, d.Lookouts[why.Lookout].Name)
	case sim.StoveShort:
		return Say("no {} free before (on {})", d.Stoves[why.Stove].Name, quote(d.Tasks[why.Task].Name))
	case sim.PeopleShort:
		return peopleShort(tl, why)
	case sim.BehindInTurn:
		return Say("stood in turn behind {}", quote(d.Tasks[why.Task].Name))
	case sim.NotLent:
		return Say("group {} lent nobody before {} was called", d.Groups[why.Group].Name, quote(d.Tasks[why.Task].Name))
	case sim.NothingToTell:
		return Say("its turn came")
	}
	return nil
}

func peopleShort(tl *sim.Timeline, why sim.Reason) Sentence {
	d := tl.Drill
	text := "too few people free before"
	if why.Skill >= 0 {
		text = "nobody free with the skill " + quote(d.Skills[why.Skill]) + " before"
	}
	who := d.People[why.Person].Name
	switch {
	case why.Task >= 0:
		return Say("{} ({} was on {})", text, who, quote(d.Tasks[why.Task].Name))
	case why.Lookout >= 0:
		return Say("{} ({} came off {})", text, who, d.Lookouts[why.Lookout].Name)
	}
	return Say("{} ({} arrived)", text, who)
}
