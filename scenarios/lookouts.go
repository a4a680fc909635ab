package scenarios

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

func (b *builder) readLookouts(n *yaml.Node) {
	for _, name := range b.doc.with {
		if i, ok := b.people.index[name]; ok {
			b.d.People[i].Helps = true
		}
	}
	b.pairs(n, func(k, v *yaml.Node) {
		if !b.ok(v) {
			return
		}
		b.d.Lookouts = append(b.d.Lookouts, b.readLookout(k, v))
	})
}

func (b *builder) readLookout(k, v *yaml.Node) sim.Lookout {
	l := sim.Lookout{
		Name: k.Value, Places: b.whole(v, "people", 1), Relief: b.ms(v, "relief"), Spot: b.spotOf(v, "spot"),
		Longest: b.ms(v, "longest"), Effort: effortNamed(b.text(v, "effort")),
		UnlessWorked: b.yes(v, "unless somebody works there", false),
		Hurt:         slices.Contains(b.doc.hurt, k),
		IfNobody:     map[string]sim.IfNobody{"skip": sim.Skip, "pull": sim.Pull}[b.text(v, "if nobody is free")],
		Who:          b.whoOf(v, "who"),
	}
	l.From, l.FromTasks = b.mark(v, "from")
	l.Until, l.UntilTasks = b.mark(v, "until")
	if until := b.get(v, "until"); until != nil && b.values[until] != nil && l.FromTasks == nil && l.Until <= l.From {
		b.failGot(until, "the lookout must end after it has begun", "leave \"until\" out to have it stand to the end")
	}
	if l.Who == nil {
		for i := range b.people.list {
			if !b.d.People[i].Casualty {
				l.Who = append(l.Who, i)
			}
		}
	}
	if l.Hurt {
		for _, i := range l.Who {
			b.d.People[i].Hurt = &l.From
		}
	}
	return l
}

// mark returns when a lookout begins or ends: at a time, or with tasks.
func (b *builder) mark(v *yaml.Node, key string) (at sim.Time, tasks []int) {
	n := b.get(v, key)
	if n == nil || b.values[n] != nil {
		return b.ms(v, key), nil
	}
	for _, one := range b.each(n) {
		for _, i := range b.findTasks(one) {
			if slices.Contains(tasks, i) {
				b.failGot(one, fmt.Sprintf("the task stands twice in %q", key), "name it once")
				break
			}
			tasks = append(tasks, i)
		}
	}
	return 0, tasks
}
