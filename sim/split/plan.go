package split

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"warmby/sim"
)

// MostGroups is into how many groups a team is split at most.
const MostGroups = 3

// groupNames are what groups made here are called.
var groupNames = [MostGroups]string{"one", "two", "three"}

// plan is a split in the making: chains of tasks, each given to a group, and
// people, each in a group.
type plan struct {
	bare     *sim.Drill // the team, under no order
	sequence []int      // all tasks that the order is to name, in the order of their priority
	chain    []int      // by task; -1 for those not in the sequence
	weight   []float64  // by chain: person-milliseconds, roughly
	does     []int      // by chain: its group
	in       []int      // by person: their group
	groups   int
}

// drill returns the team under the plan. Every group lends its people to the
// others once it has nothing left to start.
func (p *plan) drill() *sim.Drill {
	groups := make([]sim.Group, p.groups)
	for i := range groups {
		groups[i].Name = groupNames[i]
		if p.groups == 1 {
			groups[i].Name = sim.Everyone
		}
		for j := range groups {
			if j != i {
				groups[i].Then = append(groups[i].Then, j)
			}
		}
	}
	for _, t := range p.sequence {
		d := &groups[p.groupFor(t)]
		d.Sequence = append(d.Sequence, t)
	}
	for who, i := range p.in {
		groups[i].People = append(groups[i].People, who)
	}
	return p.bare.Under(sim.Order{Groups: groups})
}

// groupFor returns the group that gets a task: that of its chain or, where nobody of
// those who may do it is in that, the group of the first who may.
func (p *plan) groupFor(task int) int {
	group, t := p.does[p.chain[task]], &p.bare.Tasks[task]
	if t.Who == nil || slices.ContainsFunc(t.Who, func(who int) bool { return p.in[who] == group }) {
		return group
	}
	return p.in[t.Who[0]]
}

// whole reports whether every group has somebody and something to do.
func (p *plan) whole() bool {
	people, tasks := make([]int, p.groups), make([]int, p.groups)
	for _, i := range p.in {
		people[i]++
	}
	for _, i := range p.does {
		tasks[i]++
	}
	return !slices.Contains(people, 0) && !slices.Contains(tasks, 0)
}

// neighbours returns all plans in which one chain or one person belongs to
// another group.
func (p *plan) neighbours() []*plan {
	var out []*plan
	bound := p.bound()
	try := func(of func(*plan) []int, stays []bool) {
		for i, was := range of(p) {
			for to := range p.groups {
				if to == was || stays != nil && stays[i] {
					continue
				}
				q := *p
				q.does, q.in = slices.Clone(p.does), slices.Clone(p.in)
				of(&q)[i] = to
				if q.whole() {
					out = append(out, &q)
				}
			}
		}
	}
	try(func(p *plan) []int { return p.does }, bound)
	try(func(p *plan) []int { return p.in }, nil)
	return out
}

// bound reports, by chain, whether each of its tasks goes with the one person who may
// do it, whatever group has it.
func (p *plan) bound() []bool {
	out := slices.Repeat([]bool{true}, len(p.weight))
	for _, t := range p.sequence {
		out[p.chain[t]] = out[p.chain[t]] && len(p.bare.Tasks[t].Who) == 1
	}
	return out
}

// mostPairs is how many plans two changes away are tried at most.
const mostPairs = 400

// pairs returns all plans two changes away, such as two people who change places,
// given those one change away; none where that is too many.
func (p *plan) pairs(near []*plan) (out []*plan) {
	if len(near)*len(near)/2 > mostPairs {
		return nil
	}
	key := func(p *plan) string { return fmt.Sprint(p.does, p.in) }
	seen := map[string]bool{key(p): true}
	for _, q := range near {
		seen[key(q)] = true
	}
	for _, q := range near {
		for _, r := range q.neighbours() {
			if k := key(r); !seen[k] {
				seen[k] = true
				out = append(out, r)
			}
		}
	}
	return out
}

// fewPlans is how many splits are tried one and all.
const fewPlans = 600

// all returns all plans of the same chains and people in as many groups; nil where
// that is not few.
func (p *plan) all() (out []*plan) {
	people := len(p.bare.People)
	if math.Pow(float64(p.groups), float64(len(p.weight)+people)) > fewPlans {
		return nil
	}
	every(len(p.weight), p.groups, func(does []int) {
		every(people, p.groups, func(in []int) {
			q := *p
			q.does, q.in = slices.Clone(does), slices.Clone(in)
			out = append(out, &q)
		})
	})
	return out
}

// every calls back with each way to put n things into some groups, none empty.
func every(n, groups int, tell func(in []int)) {
	in := make([]int, n)
	for {
		there := 0
		for _, g := range in {
			there |= 1 << g
		}
		if there == 1<<groups-1 {
			tell(in)
		}
		k := 0
		for ; k < n && in[k] == groups-1; k++ {
			in[k] = 0
		}
		if k == n {
			return
		}
		in[k]++
	}
}

// deal gives each chain, the heaviest first, to the group that has least to do
// until then.
func (p *plan) deal() []float64 {
	chains := make([]int, len(p.weight))
	for i := range chains {
		chains[i] = i
	}
	slices.SortStableFunc(chains, func(a, b int) int { return cmp.Compare(p.weight[b], p.weight[a]) })
	load := make([]float64, p.groups)
	p.does = make([]int, len(chains))
	for _, c := range chains {
		least := 0
		for i := range load {
			if load[i] < load[least] {
				least = i
			}
		}
		p.does[c] = least
		load[least] += p.weight[c]
	}
	return load
}

// staff puts so many people into each group: first those with skills that a group
// asks for, the rarest skill first and of its people those with the fewest skills
// first; then the rest by roster.
func (p *plan) staff(sizes []int) {
	left := slices.Clone(sizes)
	people := p.bare.People
	p.in = make([]int, len(people))
	for i := range p.in {
		p.in[i] = -1
	}
	put := func(who, group int) { p.in[who], left[group] = group, left[group]-1 }
	needs := p.needs()
	skills := make([]int, len(p.bare.Skills))
	holders := make([]int, len(skills))
	for s := range skills {
		skills[s] = s
		for _, who := range people {
			if who.Skills.Has(s) {
				holders[s]++
			}
		}
	}
	slices.SortStableFunc(skills, func(a, b int) int { return cmp.Compare(holders[a], holders[b]) })
	for _, s := range skills {
		for group := range p.groups {
			has := 0
			for who, in := range p.in {
				if in == group && people[who].Skills.Has(s) {
					has++
				}
			}
			for ; has < needs[group][s] && left[group] > 0; has++ {
				best := -1
				for who := range people {
					if p.in[who] < 0 && people[who].Skills.Has(s) && (best < 0 || people[who].Skills.Count() < people[best].Skills.Count()) {
						best = who
					}
				}
				if best < 0 {
					break
				}
				put(best, group)
			}
		}
	}
	for who := range people {
		for group := 0; p.in[who] < 0; group++ {
			if left[group] > 0 {
				put(who, group)
			}
		}
	}
}

// needs returns how many people with each skill the tasks of each group ask
// for, at most at a time in one task.
func (p *plan) needs() [][]int {
	out := make([][]int, p.groups)
	for i := range out {
		out[i] = make([]int, len(p.bare.Skills))
	}
	for _, t := range p.sequence {
		task, need := &p.bare.Tasks[t], out[p.does[p.chain[t]]]
		for _, r := range task.Roles {
			need[r.Skill] = max(need[r.Skill], r.Count)
		}
		for s := range need {
			if task.All.Has(s) {
				need[s] = max(need[s], task.Crew.Min)
			}
		}
	}
	return out
}

// sizes shares n people out by what each group has to do, one to each at least
// (largest remainders, the first of equals).
func sizes(n int, load []float64) []int {
	total := 0.0
	for _, w := range load {
		total += w
	}
	out := make([]int, len(load))
	rest := make([]float64, len(load))
	left := n
	for i, w := range load {
		share := float64(n) / float64(len(load))
		if total > 0 {
			share = float64(n) * w / total
		}
		out[i] = max(1, int(share))
		rest[i] = share - float64(out[i])
		left -= out[i]
	}
	for ; left != 0; left -= sign(left) {
		best := -1
		for i := range out {
			switch {
			case left < 0 && out[i] == 1:
			case best < 0, left > 0 && rest[i] > rest[best], left < 0 && rest[i] < rest[best]:
				best = i
			}
		}
		out[best] += sign(left)
		rest[best] -= float64(sign(left))
	}
	return out
}

func sign(n int) int { return cmp.Compare(n, 0) }
