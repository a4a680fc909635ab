package checker

// nothingLeft reports whether every task of a group's sequence has been
// called; unloading that the order does not name does not count.
func (m *moment) nothingLeft(group int) bool {
	det := &m.c.d.Groups[group]
	for _, k := range det.Sequence[det.Lead:] {
		if !m.called[k] {
			return false
		}
	}
	return true
}

// pool returns the people free for a group: its own, and those of groups
// with nothing left that lend theirs to it, through others with nothing left
// if need be.
func (m *moment) pool(group int) []int {
	var people []int
	for p := range m.is {
		if m.is[p] == free && m.serves(m.groupOf(p), group) {
			people = append(people, p)
		}
	}
	return people
}

// lentTo lists those at lookouts whom a group may use for a task that ends them.
func (m *moment) lentTo(k, group int) []int {
	var people []int
	for _, p := range m.lent(k) {
		if m.serves(m.groupOf(p), group) {
			people = append(people, p)
		}
	}
	return people
}

func (m *moment) groupOf(p int) int {
	for i, det := range m.c.d.Groups {
		for _, q := range det.People {
			if p == q {
				return i
			}
		}
	}
	return -1
}

// serves reports whether the people of a group serve another, too.
func (m *moment) serves(own, other int) bool {
	if own < 0 {
		return false
	}
	seen := make([]bool, len(m.c.d.Groups))
	var ask func(d int) bool
	ask = func(d int) bool {
		if d == other {
			return true
		}
		if seen[d] || !m.nothingLeft(d) {
			return false
		}
		seen[d] = true
		for _, next := range m.c.d.Groups[d].Then {
			if ask(next) {
				return true
			}
		}
		return false
	}
	return ask(own)
}
