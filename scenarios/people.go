package scenarios

import (
	"fmt"
	"math/big"
	"sort"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

func (b *builder) readPeople(root *yaml.Node) {
	begin := b.spotOf(root, "begin")
	n := b.get(root, "people")
	b.d.People = make([]sim.Person, len(b.people.list))
	for i, name := range b.people.list {
		b.d.People[i] = sim.Person{Name: name, Pace: 1000, Begin: begin}
	}
	if n != nil && n.Kind == yaml.SequenceNode && len(n.Content) == 0 {
		return // the shape says so
	}
	for _, v := range b.each(n) {
		name := b.get(v, "name")
		if name == nil {
			continue
		}
		b.readPerson(&b.d.People[b.people.index[name.Value]], v)
	}
}

func (b *builder) readPerson(p *sim.Person, v *yaml.Node) {
	seen := map[string]bool{}
	for _, skill := range b.each(b.get(v, "skills")) {
		if seen[skill.Value] {
			b.failGot(skill, "the skill stands twice", "take one of them out")
			continue
		}
		seen[skill.Value] = true
		if i, ok := b.skill(skill); ok {
			p.Skills = p.Skills.With(i)
		}
	}
	if pace := b.value(v, "pace"); pace != nil {
		p.Pace = round(new(big.Rat).Mul(pace, big.NewRat(1000, 1))).Int64()
	}
	p.Day = b.dayOf(v)
	p.Arrives = b.law(v, "arrives")
	if b.get(v, "begin") != nil {
		p.Begin = b.spotOf(v, "begin")
	}
	p.Casualty = b.yes(v, "casualty", false)
	p.Damp = b.float(v, "damp", 0)
	class, worn := winterClothing, b.get(v, "clothing")
	if like := b.text(worn, "like"); like != "" {
		class = like
	}
	c, _ := classNamed(clothingClasses, func(c clothingClass) string { return c.name }, class)
	p.March, p.Halt = b.float(worn, "march", c.march), b.float(worn, "halt", c.halt)
}

// spotOf returns the spot that a key names, the centre of camp without it.
func (b *builder) spotOf(n *yaml.Node, key string) int {
	if spot := b.get(n, key); spot != nil {
		i, _ := b.find(b.spots, spot)
		return i
	}
	return 0
}

// readIdle reads what people do who have nothing to do.
func (b *builder) readIdle(n *yaml.Node) {
	b.d.Idle = sim.Idle{Effort: effortNamed(b.text(n, "effort")), StayOut: !b.yes(n, "go in", true)}
}

// whoOf returns the people whom a key names, rising; nil without the key. No
// casualty may be among them.
func (b *builder) whoOf(v *yaml.Node, key string) []int {
	if b.absent(v, key) {
		return nil
	}
	who := []int{}
	for _, n := range b.each(b.get(v, key)) {
		i, ok := b.once(b.people, n, v, key)
		switch {
		case !ok:
		case b.d.People[i].Casualty:
			b.failGot(n, "is a casualty and does no work", "leave the name out, or the key \"casualty\" of the person")
		default:
			who = append(who, i)
		}
	}
	sort.Ints(who)
	return who
}

// skill returns the index of a skill, which need not be anybody's.
func (b *builder) skill(n *yaml.Node) (int, bool) {
	if i, ok := b.skills.index[n.Value]; ok {
		return i, true
	}
	if len(b.skills.list) == sim.MaxSkills {
		b.fail(n, fmt.Sprintf("more than %d different skills", sim.MaxSkills), "give people who do the same one skill in common")
		return 0, false
	}
	return b.skills.add(n.Value), true
}
