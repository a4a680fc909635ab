package drills

import (
	"fmt"
	"math/big"
	"slices"

	"warmby/sim"
)

// evening puts people, shelters and tasks into a drill that say who does what,
// where, and for how long stoves burn.
func (m *maker) evening() {
	d := m.d
	for i := range d.Shelters {
		if m.one(2, "warm at start") {
			at := float64(m.n(-20, 10, "at start"))
			d.Shelters[i].AtStart = &at
		}
		if len(d.Spots) > 1 && m.one(2, "spot inside") {
			d.Spots[m.n(1, len(d.Spots)-1, "which spot")].In = i
		}
	}
	for i := range d.Stoves {
		d.Stoves[i].Flue = m.one(2, "flue")
	}
	for i := range d.People {
		if m.one(3, "begins elsewhere") {
			d.People[i].Begin = m.n(0, len(d.Spots)-1, "begins at")
		}
	}
	if len(d.People) > 3 && m.one(8, "casualty") {
		d.People[m.n(0, len(d.People)-1, "who")].Casualty = true
	}
	for i := len(d.Items); i < len(d.Tasks); i++ {
		m.who(&d.Tasks[i])
	}
	m.each()
	m.out()
}

// who says who may do a task.
func (m *maker) who(t *sim.Task) {
	d := m.d
	if t.Kind == sim.Melt && m.one(2, "melt slowed") {
		t.Slowed = append(t.Slowed, sim.Slowdown{When: m.condition(), To: big.NewRat(int64(m.n(50, 400, "melt to percent")), 100)})
	}
	if t.Crew.Max == 0 {
		return
	}
	switch {
	case m.one(6, "who"):
		t.Who = []int{}
		for p := range d.People {
			if !m.one(3, "not of them") {
				t.Who = append(t.Who, p)
			}
		}
	case m.one(8, "everybody") && len(t.Roles) == 0 && t.All == 0:
		t.Everybody = true
	}
}

// each adds a task that each person does for himself.
func (m *maker) each() {
	d := m.d
	if m.crowd || m.many || !m.one(2, "each") {
		return
	}
	after := m.n(0, len(d.Tasks)-1, "each after")
	for p := range d.People {
		if d.People[p].Casualty {
			continue
		}
		d.Tasks = append(d.Tasks, sim.Task{Name: fmt.Sprintf("eat: %s", d.People[p].Name), Each: "eat", Who: []int{p}, Item: -1,
			Teamwork: sim.DefaultTeamwork, Crew: sim.Crew{Min: 1, Max: 1}, Kind: sim.Takes, Amount: m.quantity(6, "eat"),
			Spot: m.n(0, len(d.Spots)-1, "eats at"), After: []sim.After{{Task: after}}})
	}
}

// out lets tasks put stoves out, more of them where there are shelters to warm.
func (m *maker) out() {
	d := m.d
	for kind := range d.Stoves {
		for i := len(d.Items); i < len(d.Tasks); i++ {
			if m.one(5, "puts out") {
				d.Tasks[i].PutsOut = append(d.Tasks[i].PutsOut, kind)
			}
		}
	}
}

// tie ties lookouts to tasks.
func (m *maker) tie() {
	d := m.d
	some := func(what string) []int {
		list := []int{}
		for range m.n(1, 2, what) {
			if i := m.n(0, len(d.Tasks)-1, what+" task"); !slices.Contains(list, i) {
				list = append(list, i)
			}
		}
		return list
	}
	for i := range d.Lookouts {
		l := &d.Lookouts[i]
		if l.Hurt {
			continue
		}
		if m.one(3, "from tasks") {
			l.FromTasks = some("from")
		}
		switch m.n(0, 3, "until") {
		case 0:
			l.UntilTasks = some("until")
		case 1:
			l.Until = l.From + m.span(40, "until") + 1
		}
		l.UnlessWorked = m.one(2, "unless worked")
	}
}
