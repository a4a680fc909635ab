package scenarios

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// kinds are the keys of which a task has exactly one.
var kinds = []string{"work", "timed", "takes", "melt", "warm"}

func (b *builder) readTasks(root *yaml.Node) {
	teamwork := b.float(root, "teamwork", sim.DefaultTeamwork)
	section := b.get(root, "tasks")
	if section != nil && len(section.Content) == 0 {
		b.fail(section, "must not be empty", "a scenario has one task at least")
	}
	b.pairs(section, func(k, v *yaml.Node) {
		t := sim.Task{Name: k.Value, What: k.Value, Item: -1, Crew: sim.Crew{Min: 1, Max: 1}, Teamwork: teamwork}
		if b.ok(v) {
			b.readTask(&t, k, v)
		}
		if i, one := b.tasks.index[k.Value]; one {
			b.d.Tasks[i] = t
			return
		}
		for n, i := range b.parts[k.Value] {
			part := t
			part.Name, part.Each, part.Who = b.tasks.list[i], k.Value, []int{b.eachOf(v)[n]}
			b.d.Tasks[i] = part
		}
	})
}

func (b *builder) readTask(t *sim.Task, k, v *yaml.Node) {
	if what := b.text(v, "what"); what != "" {
		t.What = strings.TrimSpace(what)
	}
	b.readKind(t, k, v)
	b.readByDay(t, v)
	b.readEach(t, v)
	b.readCrew(t, v)
	t.Who = b.whoOf(v, "who")
	b.readTaskTools(t, v)
	for _, n := range b.each(b.get(v, "needs")) {
		if i, ok := b.once(b.items, n, v, "needs"); ok {
			t.Needs = append(t.Needs, i)
		}
	}
	t.Spot = b.spotOf(v, "spot")
	b.readAfter(t, b.get(v, "after"))
	b.readSlowed(t, b.get(v, "slowed"))
	b.readMishap(t, b.get(v, "mishap"))
	b.readMakes(t, b.get(v, "makes"))
	for _, n := range b.each(b.get(v, "puts out")) {
		if i, ok := b.once(b.stoves, n, v, "puts out"); ok {
			t.PutsOut = append(t.PutsOut, i)
		}
	}
	t.CanWait, t.LayersOn = b.yes(v, "can wait", false), b.yes(v, "layers on", false)
	t.Effort = effortNamed(b.text(v, "effort"))
	t.Hands = map[string]sim.Hands{"mittens": sim.Mittens, "thin": sim.Thin, "bare": sim.Bare}[b.text(v, "hands")]
	t.Worn = map[string]sim.Worn{"march": sim.WornMarch, "halt": sim.WornHalt}[b.text(v, "worn")]
	t.DryClothes, t.Felling = b.yes(v, "dry clothes", false), b.yes(v, "felling", false)
}

// readByDay reads whether a good or bad day counts for what takes clock time.
func (b *builder) readByDay(t *sim.Task, v *yaml.Node) {
	key := keyOf(v, "day")
	if key == nil || !b.ok(key) || countKinds(v) != 1 {
		return
	}
	if t.Kind != sim.Takes {
		b.fail(key, "day belongs to takes only", "a good or bad day counts for all work as it is, and not for the heat that a melt or a warm-up needs")
		return
	}
	t.ByDay = b.yes(v, "day", false)
}

// readEach refuses what a task that each person does for himself cannot have.
func (b *builder) readEach(t *sim.Task, v *yaml.Node) {
	if !b.yes(v, "each", false) {
		return
	}
	if crew := keyOf(v, "crew"); crew != nil {
		b.fail(crew, "a task that each person does for himself has no crew", "leave out \"crew\" or \"each\"; \"crew: all\" is everybody together")
	}
	if countKinds(v) == 1 && t.Kind != sim.Work && t.Kind != sim.Takes {
		b.fail(keyOf(v, "each"), "each belongs to work and takes only", "write \"takes\" with the time that it takes one person")
	}
}

// effortNamed returns the class of effort of a word.
func effortNamed(word string) sim.Effort {
	for i, w := range effort {
		if w == word {
			return sim.Resting + sim.Effort(i)
		}
	}
	return sim.EffortUnset
}

// once looks up a name of a list in which none may stand twice.
func (b *builder) once(ns *names, n, owner *yaml.Node, key string) (int, bool) {
	for _, other := range b.each(b.get(owner, key)) {
		if other == n {
			break
		}
		if other.Value == n.Value {
			b.failGot(n, fmt.Sprintf("the %s stands twice in %q", ns.what, key), "name it once")
			return 0, false
		}
	}
	return b.find(ns, n)
}

// readKind reads the one of the five keys that says what kind of task it is.
func (b *builder) readKind(t *sim.Task, k, v *yaml.Node) {
	var there []*yaml.Node
	for _, kind := range kinds {
		if key := keyOf(v, kind); key != nil {
			there = append(there, key)
		}
	}
	switch len(there) {
	case 0:
		b.missing(k, "work", ": a task has exactly one of work, timed, takes, melt or warm", "such as \"work: 20 min\" (person-minutes) or \"takes: 20 min\" (clock time)")
		return
	case 1:
	default:
		last := there[0]
		for _, n := range there[1:] {
			if n.Line > last.Line || n.Line == last.Line && n.Column > last.Column {
				last = n
			}
		}
		b.fail(last, fmt.Sprintf("a task has exactly one of work, timed, takes, melt or warm, got %d of them", len(there)), "make two tasks of it, one after the other")
		return
	}
	n := b.get(v, there[0].Value)
	t.Kind = map[string]sim.Kind{"work": sim.Work, "timed": sim.Timed, "takes": sim.Takes, "melt": sim.Melt, "warm": sim.Warm}[there[0].Value]
	if n == nil {
		return
	}
	switch t.Kind {
	case sim.Work, sim.Takes:
		t.Amount = b.laws[n]
	case sim.Timed:
		t.TimedPeople = b.whole(n, "people", 1)
		t.Amount = b.law(n, "minutes")
	case sim.Melt:
		b.readMelt(t, n)
	case sim.Warm:
		b.readWarm(t, n)
	}
}

func (b *builder) readTaskTools(t *sim.Task, v *yaml.Node) {
	b.pairs(b.get(v, "tools"), func(k, n *yaml.Node) {
		if b.stoves.has(k.Value) {
			b.fail(k, fmt.Sprintf("%s is a stove, not a tool", quote(k.Value)), "the melt or warm that burns a stove names it itself")
			return
		}
		i, ok := b.find(b.tools, k)
		if !ok || !b.ok(n) {
			return
		}
		if n.Value == "each" {
			t.Tools = append(t.Tools, sim.ToolNeed{Tool: i, Each: true})
		} else if b.values[n] != nil {
			t.Tools = append(t.Tools, sim.ToolNeed{Tool: i, Count: b.number(n)})
		}
	})
}

func (b *builder) readAfter(t *sim.Task, n *yaml.Node) {
	seen := map[string]bool{}
	for _, one := range b.each(n) {
		name, a := one, sim.After{}
		if one.Kind == yaml.MappingNode {
			name = b.get(one, "task")
			a.FromStart = b.text(one, "from") == "start"
			a.Lag = b.ms(one, "lag")
		}
		for _, i := range b.findTasks(name) {
			key := fmt.Sprint(i, a.FromStart)
			if seen[key] {
				b.fail(name, fmt.Sprintf("comes after %s twice", quote(name.Value)), "name it once")
				break
			}
			seen[key] = true
			a.Task = i
			t.After = append(t.After, a)
		}
	}
}

// findTasks returns the tasks that a name stands for: one, or those of all
// people where each does it for himself. A part of somebody who is absent or
// hurt stands for nothing.
func (b *builder) findTasks(n *yaml.Node) []int {
	if b.ok(n) {
		if parts, ok := b.parts[n.Value]; ok {
			return parts
		}
		if b.partOfUnfit(n.Value) {
			return nil
		}
	}
	if i, ok := b.findTask(n); ok {
		return []int{i}
	}
	return nil
}

// partOfUnfit reports whether a name is that of the part of somebody who does
// none of a task that each does, being absent, hurt or with somebody hurt.
func (b *builder) partOfUnfit(name string) bool {
	if b.tasks.has(name) {
		return false
	}
	for _, who := range append(b.doc.unfitNames(), b.doc.gone...) {
		if task, ok := strings.CutSuffix(name, partName("", who)); ok && b.parts[task] != nil {
			return true
		}
	}
	return false
}

// findTask is find for tasks, with a word on unloading a whole load.
func (b *builder) findTask(n *yaml.Node) (int, bool) {
	if b.ok(n) && !b.tasks.has(n.Value) {
		if load, ok := strings.CutPrefix(n.Value, "unpack "); ok && b.loads.has(load) {
			b.fail(n, fmt.Sprintf("%s names a whole load, which only a sequence may", quote(n.Value)), "name the unloading of each item: \"unpack ITEM\"")
			return 0, false
		}
	}
	return b.find(b.tasks, n)
}

func (b *builder) readMishap(t *sim.Task, n *yaml.Node) {
	if n == nil {
		return
	}
	m := &sim.Mishap{Adds: b.law(n, "adds"), Again: b.yes(n, "again", false), AtMost: b.whole(n, "at most", 1)}
	b.readChance(m, n)
	switch {
	case m.Again && b.absent(n, "at most"):
		b.missing(n, "at most", " although the mishap may happen again", "how often in all, such as \"at most: 3\"")
	case !m.Again && b.get(n, "at most") != nil && m.AtMost > 1:
		b.fail(keyOf(n, "at most"), "at most belongs to a mishap that may happen again", "add \"again: true\"")
	}
	if m.Adds != nil {
		t.Mishap = m
	}
}

// readChance reads the chance of a mishap, which may hang on a condition.
func (b *builder) readChance(m *sim.Mishap, n *yaml.Node) {
	of := b.get(n, "chance")
	if of == nil || of.Kind != yaml.MappingNode {
		m.Chance = b.float(n, "chance", 0)
		return
	}
	m.Chance, m.Then = b.float(of, "usually", 0), b.float(of, "then", 0)
	if when := b.get(of, "when"); when != nil {
		if c, _, _ := parseCondition(when.Value); b.known(when, c) {
			m.When = &c
		}
	}
}

func (b *builder) readMakes(t *sim.Task, n *yaml.Node) {
	b.pairs(n, func(k, v *yaml.Node) {
		i, ok := b.find(b.shelters, k)
		if !ok || !b.ok(v) {
			return
		}
		if len(v.Content) == 0 {
			b.fail(v, "must not be empty", "such as {air changes: 0.8 /h}")
		}
		m := sim.Make{Shelter: i}
		for key, to := range map[string]**float64{"volume": &m.Volume, "skin": &m.Skin, "u": &m.U, "air changes": &m.AirChanges, "contents": &m.Contents} {
			if value := b.value(v, key); value != nil {
				f := float(value)
				if key == "contents" {
					f *= 1000
				}
				*to = &f
			}
		}
		t.Makes = append(t.Makes, m)
	})
}
