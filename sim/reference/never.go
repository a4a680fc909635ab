package reference

import (
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
)

// stops says why a drill comes to a stop. It tells one that only waits for a
// warm-up which never gets there, for which it returns nil, by letting such
// warm-ups end all the same and playing on.
func (c *camp) stops() []sim.Cause {
	if c.clash != nil {
		return []sim.Cause{*c.clash}
	}
	causes := c.causes(true)
	for {
		forced := false
		for _, j := range c.jobs {
			if j.phase == working && j.task.Kind == sim.Warm {
				j.due = c.now()
				c.moved(j)
				forced = true
			}
		}
		if !forced {
			break
		}
		c.happen()
		c.RunUntil(c.Now() + float64(sim.Horizon))
		if c.clash != nil {
			return nil
		}
		causes = c.causes(false)
		if len(causes) == 0 {
			return nil
		}
	}
	return causes
}

// causes says of every task that has not ended why, first what holds whatever
// happens; of those that only wait for such a one nothing, unless there is
// nothing else to say. Tasks under way count only when they should have ended
// by now.
func (c *camp) causes(underWay bool) []sim.Cause {
	first, rest := sim.Impossible(c.d), []sim.Cause(nil)
	said := map[string]bool{}
	for _, cause := range first {
		said[cause.Task] = true
	}
	for _, j := range c.jobs {
		if said[j.task.Name] {
			continue
		}
		switch j.phase {
		case working, mishap:
			if j.task.Kind == sim.Warm || !underWay {
				continue
			}
			why := "has not ended 7 days after arrival"
			if (j.task.Worked() || j.task.Kind == sim.Melt) && j.rate == 0 {
				why = "gets nothing done: what slows it leaves a rate of 0"
			}
			first = append(first, sim.Cause{Task: j.task.Name, Why: why,
				Hint: "a drill not finished 7 days after arrival never finishes"})
		case waiting, called:
			cause, waits := c.whyNot(j)
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
func (c *camp) whyNot(j *job) (cause sim.Cause, waits bool) {
	t := j.task
	cause = sim.Cause{Task: t.Name}
	for _, a := range t.After {
		if o := c.jobs[a.Task]; o.times.End == sim.Never && (!a.FromStart || o.times.Start == sim.Never) {
			cause.Why = fmt.Sprintf("can never start: it comes after %q", o.task.Name)
			return cause, true
		}
	}
	for _, item := range t.Needs {
		if !c.offLoad[item] {
			cause.Why = fmt.Sprintf("can never start: %q never comes off its load", c.d.Items[item].Name)
			return cause, true
		}
	}
	if !c.itemsThere(t) {
		load := c.d.Items[t.Item].Load
		cause.Why = fmt.Sprintf("can never start: what lies above it on %q never comes off", c.d.Loads[load].Name)
		if !c.loadThere[load] {
			cause.Why = fmt.Sprintf("can never start: load %q does not arrive within 7 days", c.d.Loads[load].Name)
		}
		return cause, c.loadThere[load]
	}
	if s := stoveOf(t); s >= 0 && c.unitFor(t) < 0 {
		cause.Why = fmt.Sprintf("can never start: no %q is ever free (%d there)", c.d.Stoves[s].Name, len(c.stoves[s]))
		for _, u := range c.stoves[s] {
			if u.warm != nil && u.warm.phase == ended && (t.Kind == sim.Warm || u.melt == nil) {
				cause.Why += fmt.Sprintf("; the one that %q lit burns on", u.warm.task.Name)
				cause.Hint = fmt.Sprintf("a task that says \"puts out: %s\" gives it back", c.d.Stoves[s].Name)
				break
			}
			if u.warm != nil && t.Kind == sim.Melt && u.melt == nil {
				cause.Why += fmt.Sprintf("; %q holds one and never ends", u.warm.task.Name)
				cause.Hint = "\"holds pots: true\" on the stove lets a pot stand on it meanwhile"
				break
			}
		}
		return cause, false
	}
	for _, n := range t.Tools {
		if need := max(n.Count, 1); c.toolsFree[n.Tool] < need {
			cause.Why = fmt.Sprintf("can never start: %d %q needed, %d free at the end", need, c.d.Tools[n.Tool].Name, c.toolsFree[n.Tool])
			return cause, false
		}
	}
	cause.Why, cause.Hint = c.whyNoCrew(j)
	if cause.Hint == "" {
		cause.Hint = "see who can do it in which group, what comes before it in the sequence, and who is bound to a lookout"
	}
	return cause, false
}

// whyNoCrew says for which groups a crew cannot be found, and who is bound
// elsewhere, or which task ahead of it stops a scan in turn.
func (c *camp) whyNoCrew(j *job) (why, hint string) {
	var out []string
	for di := range c.d.Groups {
		det := &c.d.Groups[di]
		where := ""
		if len(c.d.Groups) > 1 {
			where = fmt.Sprintf(" of group %q", det.Name)
		}
		for k, i := range det.Sequence {
			o := c.jobs[i]
			if i == j.i {
				pool := c.pool(di)
				text := c.tooFew(j.task, where, c.freeOf(pool))
				if bound := c.bound(pool); bound != "" {
					text += " (" + bound + ")"
				}
				out = append(out, text)
				break
			}
			if det.InTurn && k >= det.Lead && o.phase == waiting {
				out = append(out, fmt.Sprintf("in group %q it waits its turn behind %q", det.Name, o.task.Name))
				if c.comesAfter(i, j.i, make([]bool, len(c.jobs))) {
					hint = fmt.Sprintf("name %q before %q, which comes after it, or let the group overtake (rule: overtake)", j.task.Name, o.task.Name)
				}
				break
			}
		}
	}
	return "can never start: " + strings.Join(out, "; "), hint
}

// tooFew says which people a task lacks, and how many of those are free.
func (c *camp) tooFew(t *sim.Task, where string, free []int) string {
	low, _ := t.CrewBounds()
	able := slices.Clone(c.picker.Rank(c.d, t, free, c.at))
	if len(able) >= low {
		for _, r := range t.Roles {
			n := 0
			for _, i := range able {
				if c.d.People[i].Skills.Has(r.Skill) {
					n++
				}
			}
			if n < r.Count {
				return lacks(r.Count, fmt.Sprintf(" with the skill %q", c.d.Skills[r.Skill]), where, n)
			}
		}
		if c.picker.FillsRoles(c.d, t, able) {
			return lacks(low, "", where, len(able))
		}
		return fmt.Sprintf("it needs different people%s for each of its skills, and no such crew is free at the end", where)
	}
	switch {
	case t.All != 0:
		return lacks(low, " who all have "+c.d.SkillNames(t.All), where, len(able))
	case t.Who != nil:
		return lacks(low, " of those who may do it", where, len(able))
	}
	return lacks(low, "", where, len(able))
}

// lacks says how many of some kind of people are needed, and how many are free.
func lacks(need int, who, where string, free int) string {
	what := fmt.Sprintf("%d people", need)
	if need == 1 {
		what = "1 person"
	}
	there := fmt.Sprintf("%d of those are", free)
	switch free {
	case 0:
		there = "none of those is"
	case 1:
		there = "1 of those is"
	}
	return fmt.Sprintf("it needs %s%s%s, and %s free at the end", what, who, where, there)
}

// bound says who of some people stands at which lookout, "" for nobody.
func (c *camp) bound(people []int) string {
	var out []string
	for _, i := range people {
		if doing := c.people[i].doing; doing.What == sim.Watching {
			out = append(out, fmt.Sprintf("%s stands at %q", c.d.People[i].Name, c.d.Lookouts[doing.Lookout].Name))
		}
	}
	return strings.Join(out, ", ")
}

// comesAfter reports whether a task comes after another, by way of others if
// need be that have not been seen.
func (c *camp) comesAfter(task, other int, seen []bool) bool {
	seen[task] = true
	for _, a := range c.d.Tasks[task].After {
		if a.Task == other || !seen[a.Task] && c.comesAfter(a.Task, other, seen) {
			return true
		}
	}
	return false
}
