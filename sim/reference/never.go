package reference

import (
	"fmt"
	"strings"

	"warmby/sim"
)

// couldFinish tells a drill that waits for a warm-up which never gets there
// from one that can never finish: it lets such warm-ups end all the same and
// plays on. It returns a *sim.NeverError unless every task can start.
func (c *camp) couldFinish() error {
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
		if c.refused != nil {
			return c.refused
		}
		causes = c.causes(false)
		if len(causes) == 0 {
			return nil
		}
	}
	return &sim.NeverError{Causes: causes}
}

// causes says of every task that has not ended why; of those that only wait
// for such a one nothing, unless there is nothing else to say. Tasks under way
// count only when they should have ended by now.
func (c *camp) causes(underWay bool) []sim.Cause {
	var first, rest []sim.Cause
	for _, j := range c.jobs {
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
			cause.Why = fmt.Sprintf("can never start: %d %q needed, %d free in the end", need, c.d.Tools[n.Tool].Name, c.toolsFree[n.Tool])
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
	low, _ := j.task.CrewBounds()
	what := "people"
	if len(j.task.Roles) > 0 || j.task.All != 0 {
		what = "people with the skills asked for"
	}
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
				able := c.picker.Rank(c.d, j.task, c.freeOf(pool), c.at)
				text := fmt.Sprintf("it needs %d %s%s, and %d are free in the end", low, what, where, len(able))
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
