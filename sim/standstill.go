package sim

import (
	"fmt"
	"slices"
	"strings"
)

// Standstill is a drill that goes no further, as an engine leaves it: what one
// has to know to say why.
type Standstill struct {
	Drill *Drill
	Tasks []Stuck // by task
	// LoadThere says of each load whether it has come.
	LoadThere []bool
	// Burners are the stoves that are there, by kind.
	Burners [][]Burner
	// FreeTools is how many of each kind of tool nobody holds.
	FreeTools []int
	// Pools are those whom each group can use, in roster order: its own people, and
	// those lent to it.
	Pools  [][]int
	People []Bystander // by person

	picker Picker
	spots  []int // of people, for the picker
}

// Stuck is how far a task has come.
type Stuck struct {
	Called, Started, Ended bool
	NothingDone            bool // under way, at a rate of 0
	HasStove               bool // whether a stove is free for it; true of tasks that need none
}

// Burner is one stove of its kind: the melt and the warm-up on it, -1 for none, the
// latter also when it has ended.
type Burner struct{ Melt, Warm int }

// Bystander is what somebody is about at a standstill.
type Bystander struct {
	Free    bool
	Spot    int
	Lookout int // that at which he stands, -1 for none
}

// Causes says of every task that has not ended why, first what holds whatever
// happens; of those that only wait for such a one nothing, unless there is
// nothing else to say. Tasks under way count only when they should have ended
// by now.
func (s *Standstill) Causes(underWay bool) []Cause {
	s.spots = make([]int, len(s.People))
	for i, p := range s.People {
		s.spots[i] = p.Spot
	}
	first, rest := Impossible(s.Drill), []Cause(nil)
	said := map[string]bool{}
	for _, cause := range first {
		said[cause.Task] = true
	}
	for i := range s.Tasks {
		t, at := &s.Drill.Tasks[i], &s.Tasks[i]
		switch {
		case said[t.Name] || at.Ended:
		case at.Started:
			if t.Kind == Warm || !underWay {
				continue
			}
			why := "has not ended 7 days after arrival"
			if at.NothingDone {
				why = "gets nothing done: what slows it leaves a rate of 0"
			}
			first = append(first, Cause{Task: t.Name, Why: why,
				Hint: "a drill not finished 7 days after arrival never finishes"})
		default:
			cause, waits := s.whyNot(i)
			if waits {
				rest = append(rest, cause)
			} else {
				first = append(first, cause)
			}
		}
	}
	if len(first) > 0 {
		return first
	}
	return rest
}

// whyNot says what keeps a task from starting; waits is whether it only waits
// for other tasks.
func (s *Standstill) whyNot(i int) (cause Cause, waits bool) {
	t := &s.Drill.Tasks[i]
	cause = Cause{Task: t.Name}
	for _, a := range t.After {
		if o := &s.Tasks[a.Task]; !o.Ended && !(a.FromStart && o.Started) {
			cause.Why = fmt.Sprintf("can never start: it comes after %q", s.Drill.Tasks[a.Task].Name)
			return cause, true
		}
	}
	for _, item := range t.Needs {
		if !s.Tasks[item].Ended { // the unloading of item i is task i
			cause.Why = fmt.Sprintf("can never start: %q never comes off its load", s.Drill.Items[item].Name)
			return cause, true
		}
	}
	if t.Unloads() && !s.onTop(t.Item) {
		load := s.Drill.Items[t.Item].Load
		cause.Why = fmt.Sprintf("can never start: what lies above it on %q never comes off", s.Drill.Loads[load].Name)
		if !s.LoadThere[load] {
			cause.Why = fmt.Sprintf("can never start: load %q does not arrive within 7 days", s.Drill.Loads[load].Name)
		}
		return cause, s.LoadThere[load]
	}
	if !s.Tasks[i].HasStove {
		cause.Why, cause.Hint = s.whyNoStove(t)
		return cause, false
	}
	for _, n := range t.Tools {
		if need := max(n.Count, 1); s.FreeTools[n.Tool] < need {
			cause.Why = fmt.Sprintf("can never start: %d %q needed, %d free at the end", need, s.Drill.Tools[n.Tool].Name, s.FreeTools[n.Tool])
			return cause, false
		}
	}
	cause.Why, cause.Hint = s.whyNoCrew(i)
	if cause.Hint == "" {
		cause.Hint = "see who can do it in which group, what comes before it in the sequence, and who is bound to a lookout"
	}
	return cause, false
}

// onTop reports whether an item lies on top of a load that has come.
func (s *Standstill) onTop(item int) bool {
	items, above := s.Drill.Items, item-1
	load := items[item].Load
	return s.LoadThere[load] && (above < 0 || items[above].Load != load || s.Tasks[above].Ended)
}

// whyNoStove says what is on the stoves that a task could burn.
func (s *Standstill) whyNoStove(t *Task) (why, hint string) {
	kind := 0
	if t.Kind == Melt {
		kind = t.Melt.Stove
	} else {
		kind = t.Warm.Stove
	}
	name := s.Drill.Stoves[kind].Name
	why = fmt.Sprintf("can never start: no %q is ever free (%d there)", name, len(s.Burners[kind]))
	for _, u := range s.Burners[kind] {
		if u.Warm < 0 {
			continue
		}
		lit := s.Drill.Tasks[u.Warm].Name
		if s.Tasks[u.Warm].Ended && (t.Kind == Warm || u.Melt < 0) {
			return why + fmt.Sprintf("; the one that %q lit burns on", lit),
				fmt.Sprintf("a task that says \"puts out: %s\" gives it back", name)
		}
		if t.Kind == Melt && u.Melt < 0 {
			return why + fmt.Sprintf("; %q holds one and never ends", lit),
				"\"holds pots: true\" on the stove lets a pot stand on it meanwhile"
		}
	}
	return why, ""
}

// whyNoCrew says for which groups a crew cannot be found, and who is bound
// elsewhere, or which task ahead of it stops a scan in turn.
func (s *Standstill) whyNoCrew(task int) (why, hint string) {
	t := &s.Drill.Tasks[task]
	var out []string
	for di := range s.Drill.Groups {
		det := &s.Drill.Groups[di]
		where := ""
		if len(s.Drill.Groups) > 1 {
			where = fmt.Sprintf(" of group %q", det.Name)
		}
		for k, i := range det.Sequence {
			if i == task {
				text := s.tooFew(t, where, s.freeOf(s.Pools[di]))
				if bound := s.bound(s.Pools[di]); bound != "" {
					text += " (" + bound + ")"
				}
				out = append(out, text)
				break
			}
			if det.InTurn && k >= det.Lead && !s.Tasks[i].Called {
				out = append(out, fmt.Sprintf("in group %q it waits its turn behind %q", det.Name, s.Drill.Tasks[i].Name))
				if s.comesAfter(i, task, make([]bool, len(s.Tasks))) {
					hint = fmt.Sprintf("name %q before %q, which comes after it, or let the group overtake (rule: overtake)", t.Name, s.Drill.Tasks[i].Name)
				}
				break
			}
		}
	}
	return "can never start: " + strings.Join(out, "; "), hint
}

// freeOf returns those of some people who are free.
func (s *Standstill) freeOf(people []int) (free []int) {
	for _, i := range people {
		if s.People[i].Free {
			free = append(free, i)
		}
	}
	return free
}

// tooFew says which people a task lacks, and how many of those are free.
func (s *Standstill) tooFew(t *Task, where string, free []int) string {
	low, _ := t.CrewBounds()
	able := slices.Clone(s.picker.Rank(s.Drill, t, free, s.spots))
	if len(able) >= low {
		for _, r := range t.Roles {
			n := 0
			for _, i := range able {
				if s.Drill.People[i].Skills.Has(r.Skill) {
					n++
				}
			}
			if n < r.Count {
				return lacks(r.Count, fmt.Sprintf(" with the skill %q", s.Drill.Skills[r.Skill]), where, n)
			}
		}
		if s.picker.FillsRoles(s.Drill, t, able) {
			return lacks(low, "", where, len(able))
		}
		return fmt.Sprintf("it needs different people%s for each of its skills, and no such crew is free at the end", where)
	}
	switch {
	case t.All != 0:
		return lacks(low, " who all have "+s.Drill.SkillNames(t.All), where, len(able))
	case t.Who != nil:
		return lacks(low, " of those who may do it", where, len(able))
	}
	return lacks(low, "", where, len(able))
}

// lacks says how many of some kind of people are needed, and how many are free.
func lacks(need int, who, where string, free int) string {
	there := fmt.Sprintf("%d of those are", free)
	switch free {
	case 0:
		there = "none of those is"
	case 1:
		there = "1 of those is"
	}
	return fmt.Sprintf("it needs %s%s%s, and %s free at the end", people(need), who, where, there)
}

// bound says who of some people stands at which lookout, "" for nobody.
func (s *Standstill) bound(people []int) string {
	var out []string
	for _, i := range people {
		if l := s.People[i].Lookout; l >= 0 {
			out = append(out, fmt.Sprintf("%s stands at %q", s.Drill.People[i].Name, s.Drill.Lookouts[l].Name))
		}
	}
	return strings.Join(out, ", ")
}

// comesAfter reports whether a task comes after another, by way of others if
// need be that have not been seen.
func (s *Standstill) comesAfter(task, other int, seen []bool) bool {
	seen[task] = true
	for _, a := range s.Drill.Tasks[task].After {
		if a.Task == other || !seen[a.Task] && s.comesAfter(a.Task, other, seen) {
			return true
		}
	}
	return false
}

// TwoFires says that a warm-up begins while another stove burns in its shelter.
func (d *Drill) TwoFires(burning, begins int) *Cause {
	return &Cause{Task: d.Tasks[begins].Name,
		Why:  fmt.Sprintf("begins while %q still warms the same shelter %q", d.Tasks[burning].Name, d.Shelters[d.Tasks[begins].Warm.Shelter].Name),
		Hint: "let one come after the other, and put the first stove out between them",
	}
}
