// Package drills makes random drills for property tests: small enough to
// shrink, with every feature of a scenario that an engine must play.
package drills

import (
	"fmt"
	"math/big"
	"slices"

	"pgregory.net/rapid"

	"warmby/sim"
)

// Fixed is a quantity that is always the same, in milliseconds.
type Fixed float64

// Quantile returns the value.
func (f Fixed) Quantile(float64) float64 { return float64(f) }

// Usual returns the value.
func (f Fixed) Usual() float64 { return float64(f) }

// Even is a quantity that is uniform from 0 to twice its usual value.
type Even float64

// Quantile returns 2 p times the usual value.
func (e Even) Quantile(p float64) float64 { return 2 * p * float64(e) }

// Usual returns the middle.
func (e Even) Usual() float64 { return float64(e) }

// maker makes one drill.
type maker struct {
	t     *rapid.T
	d     *sim.Drill
	plain bool // nobody walks, joins or is pulled away, and there is no load and no stove
	crowd bool // more people than bits in a word
	many  bool // more tasks than bits in a word
	pulls bool // lookouts pull people from work for which each has a tool
	whole bool // with all that an evening may have, see Whole
}

// Draw makes a random drill under a random order. Most of them can finish;
// callers must expect refusals and warm-ups that never get there.
func Draw(t *rapid.T) *sim.Drill { return draw(t, false) }

// Any makes a random drill of either kind.
func Any(t *rapid.T) *sim.Drill { return draw(t, rapid.Bool().Draw(t, "whole")) }

// Whole makes a random drill in which people begin anywhere, tasks are for some
// only, for each person or for all, stoves are put out and shelters warmed again,
// melts are slowed, and lookouts begin and end with tasks and need nobody while
// somebody works there.
func Whole(t *rapid.T) *sim.Drill { return draw(t, true) }

func draw(t *rapid.T, whole bool) *sim.Drill {
	m := &maker{t: t, d: &sim.Drill{Title: "random"}, whole: whole}
	m.plain = m.one(4, "plain")
	m.crowd, m.many = m.one(16, "crowd"), m.one(40, "many")
	m.pulls = !m.plain && m.one(4, "pulls")
	m.site()
	m.people()
	if m.plain {
		m.tools()
	} else {
		m.kit()
	}
	m.tasks()
	if whole {
		m.evening()
	}
	m.lookouts()
	if whole {
		m.tie()
	}
	m.milestones()
	return m.order()
}

// n draws a whole number.
func (m *maker) n(from, to int, what string) int { return rapid.IntRange(from, to).Draw(m.t, what) }

// unlessPlain returns n, but 0 for a plain drill.
func (m *maker) unlessPlain(n int) int {
	if m.plain {
		return 0
	}
	return n
}

// one in k times it is true.
func (m *maker) one(k int, what string) bool { return m.n(1, k, what) == k }

// span draws a length of time, in half minutes so that events often coincide.
func (m *maker) span(most int, what string) sim.Time {
	return sim.Time(m.n(0, 2*most, what)) * 30 * sim.Second
}

func (m *maker) quantity(most int, what string) sim.Distribution {
	v := float64(m.span(most, what))
	if m.one(3, what+" odd") {
		v += float64(m.n(1, 29999, what+" rest"))
	}
	if m.one(2, what+" drawn") {
		return Even(v)
	}
	return Fixed(v)
}

func (m *maker) site() {
	d := m.d
	d.Site = sim.Site{Elevation: float64(m.n(0, 3000, "elevation")), SnowDepth: 0.8, SnowDensity: 250, SnowTemperature: -float64(m.n(0, 30, "snow"))}
	d.Site.Lights = m.one(2, "lights")
	d.Spots = []sim.Spot{{In: -1}}
	for i := range m.n(0, 3, "spots") {
		d.Spots = append(d.Spots, sim.Spot{Name: fmt.Sprint("spot ", i+1), Walk: m.span(m.unlessPlain(3), "walk"), In: -1})
	}
	for c := range m.n(1, 2, "weather cases") {
		w := sim.WeatherCase{Name: fmt.Sprint("case ", c+1), Weight: float64(c + 1)}
		at := sim.Time(0)
		for range m.n(1, 4, "rows") {
			w.Rows = append(w.Rows, sim.WeatherRow{At: at, Air: -float64(m.n(5, 40, "air")), Wind: float64(m.n(0, 15, "wind")), Humidity: 0.8})
			at += m.span(40, "row") + 30*sim.Second
		}
		d.Weather = append(d.Weather, w)
	}
	d.Light = []sim.Light{{At: 0, Dark: m.one(3, "dark")}}
	for at := m.span(60, "light") + 1; len(d.Light) < 3; at += m.span(60, "light") + 1 {
		d.Light = append(d.Light, sim.Light{At: at, Dark: !d.Light[len(d.Light)-1].Dark})
	}
	if m.one(4, "day") {
		d.Day = Even(1)
	}
}

func (m *maker) people() {
	d := m.d
	for i := range m.n(0, 3, "skills") {
		d.Skills = append(d.Skills, fmt.Sprint("skill ", i+1))
	}
	people := m.n(2, 7, "people")
	if m.crowd {
		people += 63
	}
	for i := range people {
		p := sim.Person{Name: fmt.Sprint("P", i+1), Pace: 1000}
		if !m.plain && m.one(3, "pace") {
			p.Pace = int64(m.n(500, 1500, "pace of"))
		}
		if !m.plain && m.one(5, "own day") {
			p.Day = Even(1)
		}
		for s := range d.Skills {
			if m.one(2, "has skill") {
				p.Skills = p.Skills.With(s)
			}
		}
		if m.one(4, "late") {
			p.Arrives = m.quantity(15, "arrives")
		}
		d.People = append(d.People, p)
	}
}

func (m *maker) tools() {
	most := 3
	if m.one(5, "many tools") {
		most = 9 // more than have room in a word
	}
	for i := range m.n(0, most, "tools") {
		m.d.Tools = append(m.d.Tools, sim.Tool{Name: fmt.Sprint("tool ", i+1), Count: m.n(0, 3, "count")})
	}
}

func (m *maker) kit() {
	d := m.d
	m.tools()
	for i := range m.n(0, 2, "stoves") {
		d.Stoves = append(d.Stoves, sim.Stove{Name: fmt.Sprint("stove ", i+1), Count: m.n(1, 2, "works"), Brought: m.one(2, "brought"),
			Power: float64(m.n(500, 8000, "power")), Efficiency: 0.5, FuelHeat: 31e6, HoldsPots: m.one(2, "holds pots"), ToPots: 0.3})
	}
	for i := range m.n(0, 2, "shelters") {
		d.Shelters = append(d.Shelters, sim.Shelter{Name: fmt.Sprint("shelter ", i+1), Volume: 20, Skin: 35, U: 4, AirChanges: float64(m.n(1, 4, "air changes")), Contents: 60e3})
	}
	for l := range m.n(0, 2, "loads") {
		load := sim.Load{Name: fmt.Sprint("load ", l+1), Crew: m.crew(2)}
		if m.one(2, "load late") {
			load.Arrives = m.quantity(8, "load arrives")
		}
		d.Loads = append(d.Loads, load)
		for range m.n(1, 3, "items") {
			item := sim.Item{Name: fmt.Sprint("item ", len(d.Items)+1), Load: l, Weight: 5}
			if len(d.Tools) > 0 && m.one(2, "brings tool") {
				item.Brings = append(item.Brings, sim.Bring{Tool: m.n(0, len(d.Tools)-1, "which tool"), Stove: -1, Count: m.n(1, 2, "brings")})
			}
			if len(d.Stoves) > 0 {
				if s := m.n(0, len(d.Stoves)-1, "which stove"); d.Stoves[s].Brought {
					item.Brings = append(item.Brings, sim.Bring{Tool: -1, Stove: s, Count: 1})
				}
			}
			d.Items = append(d.Items, item)
		}
	}
}

// crew draws a range of numbers of people, at least one.
func (m *maker) crew(most int) sim.Crew {
	if m.crowd {
		most *= 20
	}
	most = min(most, max(1, len(m.d.People)-2))
	low := m.n(1, most, "crew")
	return sim.Crew{Min: low, Max: m.n(low, most+1, "crew max")}
}

func (m *maker) tasks() {
	d := m.d
	for i, item := range d.Items {
		d.Tasks = append(d.Tasks, sim.Task{Name: "unpack " + item.Name, Kind: sim.Takes, Amount: m.quantity(3, "unpack"),
			Crew: d.Loads[item.Load].Crew, Item: i, Teamwork: sim.DefaultTeamwork})
	}
	tasks := m.n(1, 9, "tasks")
	if m.many {
		tasks += 62
	}
	for i := range tasks {
		t := sim.Task{Name: fmt.Sprint("task ", i+1), Item: -1, Teamwork: sim.DefaultTeamwork, Crew: sim.Crew{Min: 1, Max: 1}}
		if m.one(4, "teamwork") {
			t.Teamwork = float64(m.n(50, 110, "x")) / 100
		}
		m.kind(&t)
		m.wants(&t)
		if !m.one(30, "impossible") {
			m.allow(&t)
		}
		d.Tasks = append(d.Tasks, t)
	}
}

func (m *maker) kind(t *sim.Task) {
	d := m.d
	switch k := m.n(0, 9, "kind"); {
	case k <= 3 || m.pulls && k <= 6:
		t.Kind, t.Amount = sim.Work, m.quantity(30, "work")
	case k == 4:
		t.Kind, t.Amount, t.TimedPeople = sim.Timed, m.quantity(15, "timed"), m.n(1, 4, "people timed")
	case k == 5 && len(d.Stoves) > 0:
		t.Kind = sim.Melt
		t.Melt = &sim.Melting{Water: m.volume(4, "water"), Pot: m.volume(3, "pot"), Boil: m.one(2, "boil"), To: 40,
			Stove: m.n(0, len(d.Stoves)-1, "melt on"), IceHole: m.one(3, "ice hole"), Handling: m.span(1, "handling")}
		t.Melt.Start = new(big.Rat).Mul(t.Melt.Water, big.NewRat(1, 10))
	case k == 6 && len(d.Stoves) > 0 && len(d.Shelters) > 0:
		t.Kind = sim.Warm
		t.Warm = &sim.Warming{Shelter: m.n(0, len(d.Shelters)-1, "warms"), Stove: m.n(0, len(d.Stoves)-1, "warm with"), To: float64(m.n(-25, 15, "to")), People: m.n(0, 4, "inside")}
	default:
		t.Kind, t.Amount, t.ByDay = sim.Takes, m.quantity(20, "takes"), m.one(3, "by the day")
	}
	if t.Worked() {
		t.Crew = m.crew(2)
		t.Crew.Max += m.n(0, 2, "more")
		t.Joinable = !m.plain && t.Crew.Max > t.Crew.Min && !m.one(6, "not joinable")
		for range m.n(0, m.unlessPlain(2), "slowed") {
			t.Slowed = append(t.Slowed, sim.Slowdown{When: m.condition(), To: big.NewRat(int64(m.n(50, 250, "to percent")), 100)})
		}
	} else if m.one(3, "nobody") {
		t.Crew = sim.Crew{}
	} else if m.one(3, "crew range") {
		t.Crew = m.crew(2)
	}
}

// volume draws some half litres, or quarters of a US quart.
func (m *maker) volume(most int, what string) *big.Rat {
	if m.one(2, what+" in quarts") {
		return big.NewRat(int64(m.n(1, 5*most, what))*946_352_946, 4_000_000_000)
	}
	return big.NewRat(int64(m.n(1, 2*most, what)), 2)
}

func (m *maker) condition() sim.Condition {
	switch sim.ConditionKind(m.n(0, 4, "condition")) {
	case sim.Dark:
		return sim.Condition{Kind: sim.Dark}
	case sim.DarkWithLights:
		return sim.Condition{Kind: sim.DarkWithLights}
	case sim.AirBelow:
		return sim.Condition{Kind: sim.AirBelow, Value: -float64(m.n(5, 40, "below"))}
	case sim.WindOver:
		return sim.Condition{Kind: sim.WindOver, Value: float64(m.n(0, 15, "over"))}
	}
	return sim.Condition{Kind: sim.SnowDeeper, Value: float64(m.n(50, 100, "deeper")) / 100}
}

// wants draws what a task needs.
func (m *maker) wants(t *sim.Task) {
	d := m.d
	if !m.plain && t.Crew.Max > 0 && len(d.Skills) > 0 && m.one(3, "roles") {
		t.Roles = append(t.Roles, sim.Role{Skill: m.n(0, len(d.Skills)-1, "role"), Count: m.n(1, min(2, t.Crew.Max), "role count")})
		if s := m.n(0, len(d.Skills)-1, "second role"); s != t.Roles[0].Skill && t.RoleCount() < t.Crew.Max {
			t.Roles = append(t.Roles, sim.Role{Skill: s, Count: 1})
		}
	}
	if len(d.Skills) > 0 && m.one(6, "all") {
		t.All = t.All.With(m.n(0, len(d.Skills)-1, "asked of all"))
	}
	for tool := range d.Tools {
		if m.one(4, "tool") || m.pulls && m.one(2, "tool all the same") {
			need := sim.ToolNeed{Tool: tool, Count: m.n(1, 2, "need")}
			if !m.plain && t.Crew.Max > 0 && m.one(2, "each") {
				need = sim.ToolNeed{Tool: tool, Each: true}
			}
			t.Tools = append(t.Tools, need)
		}
	}
	for item := range d.Items {
		if m.one(5, "item") {
			t.Needs = append(t.Needs, item)
		}
	}
	t.Spot = m.n(0, len(d.Spots)-1, "at")
	for before := range d.Tasks {
		if m.one(5, "after") && !(m.many && m.one(2, "loosely")) {
			t.After = append(t.After, sim.After{Task: before, FromStart: m.one(3, "from start"), Lag: max(0, m.span(4, "lag")-sim.Minute)})
		}
	}
	if m.one(5, "mishap") {
		t.Mishap = &sim.Mishap{Chance: float64(m.n(1, 4, "chance")) / 4, Adds: m.quantity(8, "adds"), AtMost: 1}
		if m.one(2, "again") {
			t.Mishap.Again, t.Mishap.AtMost = true, 3
		}
		if m.one(3, "hangs on a condition") {
			when := m.condition()
			t.Mishap.When, t.Mishap.Then = &when, float64(m.n(0, 4, "then"))/4
		}
	}
	if len(d.Shelters) > 0 && m.one(5, "makes") {
		v := float64(m.n(1, 8, "made")) / 2
		mk := sim.Make{Shelter: m.n(0, len(d.Shelters)-1, "of")}
		if m.one(2, "u") {
			mk.U = &v
		} else {
			mk.AirChanges = &v
		}
		t.Makes = append(t.Makes, mk)
	}
}

// allow takes from a task what could never be had.
func (m *maker) allow(t *sim.Task) {
	d := m.d
	able := 0
	holders := make([]int, len(d.Skills))
	for _, p := range d.People {
		if !p.Skills.Holds(t.All) {
			continue
		}
		able++
		for s := range holders {
			if p.Skills.Has(s) {
				holders[s]++
			}
		}
	}
	if low, _ := t.CrewBounds(); able < low {
		t.All = 0
	}
	t.Roles = slices.DeleteFunc(t.Roles, func(r sim.Role) bool { return holders[r.Skill] < r.Count })
	there := func(tool int) int {
		n := d.Tools[tool].Count
		for _, item := range d.Items {
			for _, b := range item.Brings {
				if b.Tool == tool {
					n += b.Count
				}
			}
		}
		return n
	}
	low, _ := t.CrewBounds()
	t.Tools = slices.DeleteFunc(t.Tools, func(n sim.ToolNeed) bool {
		return there(n.Tool) < n.Count || n.Each && there(n.Tool) < low
	})
	if (t.Kind == sim.Melt && m.dead(t.Melt.Stove)) || (t.Kind == sim.Warm && m.dead(t.Warm.Stove)) {
		t.Kind, t.Melt, t.Warm, t.Amount = sim.Takes, nil, nil, m.quantity(20, "instead")
	}
}

// dead reports whether no item brings a stove that items are to bring.
func (m *maker) dead(stove int) bool {
	if !m.d.Stoves[stove].Brought {
		return false
	}
	for _, item := range m.d.Items {
		for _, b := range item.Brings {
			if b.Stove == stove {
				return false
			}
		}
	}
	return true
}

func (m *maker) lookouts() {
	d := m.d
	least := 0
	if m.pulls {
		least = 1
	}
	for i := range m.n(least, max(least, min(3, len(d.People)/3)), "lookouts") {
		l := sim.Lookout{Name: fmt.Sprint("lookout ", i+1), Places: min(len(d.People)-1, m.n(1, 2, "places")), From: m.span(5, "from"), Spot: m.n(0, len(d.Spots)-1, "lookout at"),
			IfNobody: sim.IfNobody(m.n(0, 2, "if nobody"))}
		if m.pulls {
			l.IfNobody = sim.Pull
		}
		if m.plain && l.IfNobody == sim.Pull {
			l.IfNobody = sim.Skip
		}
		if !m.one(6, "no relief") {
			l.Relief = m.span(15, "relief") + 3*sim.Minute
		}
		for p := range d.People {
			if !m.one(4, "not who") && !(m.pulls && m.one(2, "nor who")) && !d.People[p].Casualty {
				l.Who = append(l.Who, p)
			}
		}
		d.Lookouts = append(d.Lookouts, l)
	}
	if m.one(4, "hurt") {
		m.hurt()
	}
}

// hurt lets one or two people be hurt, and others stay with them.
func (m *maker) hurt() {
	d := m.d
	well := slices.DeleteFunc(indices(len(d.People)), func(p int) bool { return d.People[p].Casualty })
	down := rapid.Permutation(well).Draw(m.t, "who is hurt")[:m.n(1, min(2, len(well)-1), "how many are hurt")]
	for _, p := range down {
		from, spot := m.span(20, "hurt from"), m.n(0, len(d.Spots)-1, "lies at")
		if m.one(2, "hurt when a place is due") && len(d.Lookouts) > 0 {
			l := &d.Lookouts[m.n(0, len(d.Lookouts)-1, "at which lookout")]
			from = l.From + sim.Time(m.n(0, 2, "at which relief"))*l.Relief
		}
		pulls := sim.Pull
		if m.plain {
			pulls = sim.Wait
		}
		d.Lookouts = append(d.Lookouts, sim.Lookout{Name: "hurt: " + d.People[p].Name, Places: 1, From: from, Spot: spot, Who: []int{p}, IfNobody: pulls, Hurt: true})
		var others []int
		d.People[p].Hurt = &from
		for _, o := range well {
			if !slices.Contains(down, o) {
				others = append(others, o)
			}
		}
		if n := m.n(0, min(2, len(others)), "helpers"); n > 0 {
			if m.one(2, "helpers named") {
				others = others[:n]
				for _, o := range others {
					d.People[o].Helps = true
				}
			}
			d.Lookouts = append(d.Lookouts, sim.Lookout{Name: "with " + d.People[p].Name, Places: n, From: from, Spot: spot, Who: others, IfNobody: pulls})
		}
	}
}

func (m *maker) milestones() {
	finish := sim.Milestone{Name: sim.FinishName, By: sim.Never}
	for i := range m.d.Tasks {
		finish.When = append(finish.When, i)
	}
	some := sim.Milestone{Name: "some", By: m.span(60, "by"), When: []int{m.n(0, len(m.d.Tasks)-1, "milestone")}}
	m.d.Milestones = []sim.Milestone{some, finish}
}

// order draws an order: one to three groups with some of the tasks each.
func (m *maker) order() *sim.Drill {
	d := m.d
	fewest := 1
	if m.pulls {
		fewest = 2
	}
	groups := make([]sim.Group, m.n(fewest, max(1, m.unlessPlain(3)), "groups"))
	apart := m.one(2, "apart") // each task in one group only
	for i := range groups {
		det := &groups[i]
		det.Name = fmt.Sprint("group ", i+1)
		det.InTurn = !m.plain && m.one(3, "in turn")
		switch to := m.n(0, len(groups), "then"); {
		case m.pulls && !m.one(3, "lends"): // to nobody
		case to == len(groups) && m.one(2, "then all"):
			for k := range groups {
				if k != i {
					det.Then = append(det.Then, k)
				}
			}
		case to != i && to < len(groups):
			det.Then = []int{to}
		}
		for _, task := range rapid.Permutation(indices(len(d.Tasks))).Draw(m.t, "sequence") {
			if apart && task%len(groups) == i || !apart && !m.one(3, "left out") {
				det.Sequence = append(det.Sequence, task)
			}
		}
	}
	for p := range d.People {
		if k := m.n(0, len(groups), "whose"); k < len(groups) {
			groups[k].People = append(groups[k].People, p)
		}
	}
	o := sim.Order{Name: "random", Groups: groups}
	for i, t := range d.Tasks {
		if t.Worked() && t.Crew.Max > t.Crew.Min && m.one(4, "narrow") {
			o.Crews = append(o.Crews, sim.CrewChoice{Task: i, Crew: sim.Crew{Min: t.Crew.Min, Max: max(t.Crew.Min, t.RoleCount(), t.Crew.Max-1)}})
		}
	}
	return d.Under(o)
}

func indices(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}
