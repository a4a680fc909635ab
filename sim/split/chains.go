package split

import (
	"cmp"
	"slices"

	"warmby/sim"
)

// priorities returns the tasks that an order is to name, in the order in which
// they were called in a timeline, and the weight of each: people times length.
// Unloading that the order of the timeline does not name is left unnamed.
func priorities(tl *sim.Timeline) (sequence []int, weight []float64) {
	d := tl.Drill
	lead := make([]bool, len(d.Tasks))
	for _, det := range d.Groups {
		for _, t := range det.Sequence[:det.Lead] {
			lead[t] = true
		}
	}
	weight = make([]float64, len(d.Tasks))
	for t, times := range tl.Tasks {
		if times.Start != sim.Never && times.End != sim.Never {
			weight[t] = float64(len(times.People)) * float64(times.End-times.Start)
		}
		if !lead[t] {
			sequence = append(sequence, t)
		}
	}
	place := make([]int, len(d.Tasks)) // in the sequences of the order
	for _, det := range d.Groups {
		for k, t := range det.Sequence {
			place[t] = max(place[t], k)
		}
	}
	slices.SortStableFunc(sequence, func(a, b int) int {
		return cmp.Or(cmp.Compare(tl.Tasks[a].Called, tl.Tasks[b].Called), cmp.Compare(place[a], place[b]))
	})
	return sequence, weight
}

// byThread makes chains in which each task comes after the one before it. A task
// goes on with the chain of what it comes after, the heaviest if there are several,
// unless another task went on with it already. What comes off one load stays one
// chain.
func byThread(d *sim.Drill, sequence []int, weight []float64) []int {
	chain := none(len(d.Tasks))
	tail := none(len(d.Tasks)) // by chain: its last task
	load := none(len(d.Loads)) // by load: its chain
	chains := 0
	for _, t := range sequence {
		task := &d.Tasks[t]
		if task.Unloads() {
			of := d.Items[task.Item].Load
			if load[of] < 0 {
				load[of] = chains
				chains++
			}
			chain[t] = load[of]
			continue
		}
		best := -1
		for _, a := range task.After {
			if c := chain[a.Task]; c >= 0 && tail[c] == a.Task && (best < 0 || weight[a.Task] > weight[tail[best]]) {
				best = c
			}
		}
		if best < 0 {
			best = chains
			chains++
		}
		chain[t], tail[best] = best, t
	}
	return chain
}

// byMilestone makes a chain for each milestone, of what it hangs on and no earlier
// one does, and one chain of the rest.
func byMilestone(d *sim.Drill, sequence []int, _ []float64) []int {
	bundle := none(len(d.Tasks))
	var mark func(t, g int)
	mark = func(t, g int) {
		if bundle[t] >= 0 {
			return
		}
		bundle[t] = g
		for _, a := range d.Tasks[t].After {
			mark(a.Task, g)
		}
	}
	for g, m := range d.Milestones {
		for _, t := range m.When {
			mark(t, g)
		}
	}
	// What comes off one load stays together; bundles are counted from 0 on.
	chain, number, load := none(len(d.Tasks)), map[int]int{}, map[int]int{}
	for _, t := range sequence {
		g := bundle[t]
		if d.Tasks[t].Unloads() {
			of := d.Items[d.Tasks[t].Item].Load
			if _, ok := load[of]; !ok {
				load[of] = g
			}
			g = load[of]
		}
		if _, ok := number[g]; !ok {
			number[g] = len(number)
		}
		chain[t] = number[g]
	}
	return chain
}

func none(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = -1
	}
	return out
}

// plansOf returns plans for a team with the priorities of a timeline of it:
// split into some groups by thread and by milestone, staffed by what each
// group has to do, and with one person more in each group and one less in
// another. Where few can be made, all come after these.
func plansOf(bare *sim.Drill, tl *sim.Timeline, groups int) []*plan {
	sequence, weight := priorities(tl)
	var out []*plan
	for _, bundle := range []func(*sim.Drill, []int, []float64) []int{byThread, byMilestone} {
		p := plan{bare: bare, sequence: sequence, chain: bundle(bare, sequence, weight), groups: groups}
		for _, t := range sequence {
			for len(p.weight) <= p.chain[t] {
				p.weight = append(p.weight, 0)
			}
			p.weight[p.chain[t]] += weight[t]
		}
		if groups == 1 {
			p.does, p.in = make([]int, len(p.weight)), make([]int, len(bare.People))
			return []*plan{&p} // however it is grouped
		}
		usual := sizes(len(bare.People), p.deal())
		add := func(sizes []int) {
			q := p
			q.staff(sizes)
			if q.whole() {
				out = append(out, &q)
			}
		}
		add(usual)
		for more := range groups {
			for less := range groups {
				if more != less && usual[less] > 1 {
					changed := slices.Clone(usual)
					changed[more]++
					changed[less]--
					add(changed)
				}
			}
		}
		out = append(out, p.all()...)
	}
	return out
}

// plansFor returns plans made from each of some timelines.
func plansFor(bare *sim.Drill, priority []*sim.Timeline, groups int) []*plan {
	var out []*plan
	for _, tl := range priority {
		out = append(out, plansOf(bare, tl, groups)...)
	}
	return out
}

// plansAfter returns the plan of a smaller team with so many groups, with the
// others of this one in any one of them; nil when there is none.
func plansAfter(bare *sim.Drill, groups int, smaller *Size) []*plan {
	if smaller == nil {
		return nil
	}
	var out []*plan
	for _, s := range smaller.Splits {
		if s.plan == nil || s.plan.groups != groups || len(s.plan.in) > len(bare.People) {
			continue
		}
		for group := range groups {
			p := *s.plan
			p.bare, p.in = bare, slices.Clone(s.plan.in)
			for len(p.in) < len(bare.People) {
				p.in = append(p.in, group)
			}
			out = append(out, &p)
		}
	}
	return out
}
