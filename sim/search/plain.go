package search

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// plain is a drill in which only fixed lengths, what comes after what, tools and
// people count: nobody walks, nothing is unloaded, nobody stands at a lookout.
// Elsewhere that is the resource-constrained project scheduling problem or, with
// skills, its multi-skill kind. Such drills are decoded in whole units of time,
// with four counts to a word.
type plain struct {
	task      []int // by job: the task of the drill
	length    []int32
	before    [][]link // by job: what it comes after
	behind    [][]link // by job: what comes after it
	tail      []int32  // by job: how long the drill lasts at least from its start on
	words     int
	need      []uint64 // by job: words of four counts
	there     []uint64 // what is there of each, with the top bit of each count set
	skilled   bool
	crews     []roles // by job, when skilled
	everyone  uint64  // when skilled: one bit for each person, in the sequence in which they are taken
	horizon   int32   // no schedule is longer
	unit      sim.Time
	mirror    *plain // the same turned round; nil for the mirror itself and when there are links from a start
	fromStart bool
}

// link says that a job starts at least gap after another.
type link struct {
	job int32
	gap int32
}

// roles is what a job asks of its people. Who may play which part is kept as
// counts, eight bits each, one for each of the sets of four skills: how many
// parts ask for a skill of the set.
type roles struct {
	size, parts int
	able        uint64 // those who have the skills asked of all
	left        counts
	takes       [16]counts // by the asked-for skills of a person: 1 in the count of each set that holds them all
	kind        []uint8    // by bit: the asked-for skills of a person
}

// counts is sixteen counts.
type counts [2]uint64

// less takes counts away, and reports whether there were as many.
func (c counts) less(o counts) (counts, bool) {
	c[0], c[1] = (c[0]|countTop)-o[0], (c[1]|countTop)-o[1]
	return counts{c[0] &^ countTop, c[1] &^ countTop}, c[0]&c[1]&countTop == countTop
}

const (
	laneBits  = 16
	laneTop   = 0x8000800080008000
	laneMost  = 1<<15 - 1
	countTop  = 0x8080808080808080
	countMost = 1<<7 - 1
	longest   = 4096 // units
)

// newPlain returns a drill as a plain one, with the lengths of a luck; nil when
// it is not plain. Only the tasks wanted are taken.
func newPlain(d *sim.Drill, luck *sim.Luck, wanted []bool) *plain {
	if !plainDrill(d, luck) {
		return nil
	}
	p := &plain{}
	job := make([]int32, len(d.Tasks))
	for i := range d.Tasks {
		job[i] = -1
		if wanted[i] {
			job[i] = int32(len(p.task))
			p.task = append(p.task, i)
		}
	}
	if !p.takeLengths(d, luck, job) || !p.takeNeeds(d) {
		return nil
	}
	p.tail = p.tails()
	if !p.fromStart {
		p.mirror = p.turned()
	}
	return p
}

// plainDrill reports whether nothing but tools, people and lengths counts.
func plainDrill(d *sim.Drill, luck *sim.Luck) bool {
	if len(d.Items) > 0 || len(d.Lookouts) > 0 || len(d.People) > 64 {
		return false
	}
	if luck.MishapThen != nil {
		return false
	}
	for _, at := range luck.Person {
		if at > 0 {
			return false
		}
	}
	for i := range d.People {
		if d.People[i].Begin != 0 || d.People[i].Casualty {
			return false
		}
	}
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Kind != sim.Takes || t.Who != nil || t.Everybody || d.Spots[t.Spot].Walk > 0 || len(t.Makes) > 0 {
			return false
		}
		if luck.Amount[i]+luck.Mishap[i] == 0 && (t.Crew.Max > 0 || len(t.Tools) > 0) {
			return false
		}
	}
	return d.Spots[0].Walk == 0
}

// takeLengths takes lengths and links in the largest unit that divides them.
func (p *plain) takeLengths(d *sim.Drill, luck *sim.Luck, job []int32) bool {
	unit := sim.Time(0)
	divide := func(t sim.Time) {
		for t > 0 {
			unit, t = t, unit%t
		}
	}
	length := make([]sim.Time, len(p.task))
	for j, i := range p.task {
		length[j] = luck.Amount[i] + luck.Mishap[i]
		divide(length[j])
		for _, a := range d.Tasks[i].After {
			divide(a.Lag)
		}
	}
	if unit == 0 {
		return false
	}
	total := sim.Time(0)
	p.before, p.behind = make([][]link, len(p.task)), make([][]link, len(p.task))
	for j, i := range p.task {
		p.length = append(p.length, int32(min(longest+1, length[j]/unit)))
		total += length[j] / unit
		for _, a := range d.Tasks[i].After {
			total += a.Lag / unit
			if total > longest {
				return false
			}
			from := job[a.Task]
			if from < 0 {
				return false // not closed under what comes before
			}
			gap := int32(a.Lag / unit)
			if p.fromStart = p.fromStart || a.FromStart; !a.FromStart {
				gap += int32(length[from] / unit)
			}
			p.before[j] = append(p.before[j], link{from, gap})
			p.behind[from] = append(p.behind[from], link{int32(j), gap})
		}
	}
	p.unit, p.horizon = unit, int32(total)+1
	return total <= longest
}

// takeNeeds takes tools and, unless skills are asked for, people as counts.
func (p *plain) takeNeeds(d *sim.Drill) bool {
	var there []int
	for _, tool := range d.Tools {
		there = append(there, tool.Count)
	}
	for _, i := range p.task {
		p.skilled = p.skilled || len(d.Tasks[i].Roles) > 0 || d.Tasks[i].All != 0
	}
	if !p.skilled {
		there = append(there, len(d.People))
	}
	p.words = max(1, (len(there)+3)/4)
	p.need = make([]uint64, len(p.task)*p.words)
	p.there = make([]uint64, p.words)
	for k := range p.there {
		p.there[k] = laneTop
	}
	for kind, n := range there {
		p.there[kind/4] += uint64(min(n, laneMost)) << (kind % 4 * laneBits)
	}
	for j, i := range p.task {
		low, _ := d.Tasks[i].CrewBounds()
		if d.Tasks[i].Crew.Max == 0 {
			low = 0
		}
		ask := func(kind, n int) { p.need[j*p.words+kind/4] += uint64(min(n, laneMost)) << (kind % 4 * laneBits) }
		for _, n := range d.Tasks[i].Tools {
			if n.Each {
				n.Count = low
			}
			ask(n.Tool, n.Count)
		}
		if !p.skilled {
			ask(len(d.Tools), low)
		}
		for k := range p.words {
			if (p.there[k]-p.need[j*p.words+k])&laneTop != laneTop {
				return false // never enough: others say so better
			}
		}
	}
	return !p.skilled || p.takeSkills(d)
}

// takeSkills takes who may do what. It reports false for more than four skills
// or more parts than fit.
func (p *plain) takeSkills(d *sim.Drill) bool {
	ranks := make([]int, len(d.People))
	for i := range ranks {
		ranks[i] = i
	}
	slices.SortStableFunc(ranks, func(a, b int) int {
		return cmp.Compare(d.People[a].Skills.Count(), d.People[b].Skills.Count())
	})
	p.everyone = 1<<len(ranks) - 1
	for _, i := range p.task {
		t := &d.Tasks[i]
		low, _ := t.CrewBounds()
		r := roles{size: low, parts: t.RoleCount(), kind: make([]uint8, len(ranks))}
		if t.Crew.Max == 0 {
			r.size = 0
		}
		if len(t.Roles) > 4 || r.parts > countMost {
			return false
		}
		for set := range 16 {
			for k, role := range t.Roles {
				if set>>k&1 == 1 {
					r.left[set/8] += uint64(role.Count) << (set % 8 * 8)
				}
			}
			for kind := range 16 {
				if kind&^set == 0 {
					r.takes[kind][set/8] |= 1 << (set % 8 * 8)
				}
			}
		}
		for bit, person := range ranks {
			skills := d.People[person].Skills
			if skills.Holds(t.All) {
				r.able |= 1 << bit
			}
			for k, role := range t.Roles {
				if skills.Has(role.Skill) {
					r.kind[bit] |= 1 << k
				}
			}
		}
		p.crews = append(p.crews, r)
	}
	return true
}

// turned returns the drill played backwards: what came after comes before. A
// job starts in it as long after 0 as it ended before the end.
func (p *plain) turned() *plain {
	m := *p
	m.before, m.behind = make([][]link, len(p.task)), make([][]link, len(p.task))
	for j := range p.task {
		for _, l := range p.before[j] {
			gap := l.gap + p.length[j] - p.length[l.job]
			m.before[l.job] = append(m.before[l.job], link{int32(j), gap})
			m.behind[j] = append(m.behind[j], link{l.job, gap})
		}
	}
	m.tail = m.tails()
	return &m
}

// tails returns how long the drill lasts at least from the start of each job
// on.
func (p *plain) tails() []int32 {
	tail := make([]int32, len(p.task))
	var visit func(j int32) int32
	visit = func(j int32) int32 {
		if tail[j] == 0 {
			tail[j] = p.length[j]
			for _, l := range p.behind[j] {
				tail[j] = max(tail[j], l.gap+visit(l.job))
			}
		}
		return tail[j]
	}
	for j := range tail {
		visit(int32(j))
	}
	return tail
}
