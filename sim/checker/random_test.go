package checker_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"

	"warmby/sim"
)

// randomDrill makes a small drill with everything in it, and its luck. Times
// are whole minutes more often than not, so that much happens at one instant.
func randomDrill(r *rand.Rand) (*sim.Drill, *sim.Luck) {
	g := &maker{r: r, d: &sim.Drill{Title: "random"}, l: &sim.Luck{}}
	g.places()
	g.people()
	g.kit()
	g.weather()
	g.tasks()
	g.lookouts()
	g.order()
	return g.d.Under(g.o), g.l
}

type maker struct {
	r *rand.Rand
	d *sim.Drill
	l *sim.Luck
	o sim.Order
}

// n returns a number from low to high.
func (g *maker) n(low, high int) int { return low + g.r.IntN(high-low+1) }

// odds reports true in so many of a hundred cases.
func (g *maker) odds(percent int) bool { return g.r.IntN(100) < percent }

// time returns up to so many minutes, mostly whole ones.
func (g *maker) time(minutes int) sim.Time {
	if g.odds(25) {
		return sim.Time(g.r.IntN(minutes*60_000 + 1))
	}
	return sim.Time(g.n(0, minutes)) * sim.Minute
}

func (g *maker) places() {
	g.d.Site = sim.Site{SnowDepth: 0.5, SnowTemperature: -10, SnowDensity: 200, Lights: g.odds(50)}
	g.d.Spots = []sim.Spot{{Name: "camp", In: -1}}
	for i := range g.n(1, 3) {
		g.d.Spots = append(g.d.Spots, sim.Spot{Name: fmt.Sprintf("spot%d", i), Walk: g.time(2), In: -1})
	}
}

func (g *maker) people() {
	g.d.Skills = []string{"stove", "lead"}
	for i := range g.n(1, 6) {
		p := sim.Person{Name: string(rune('A' + i)), Pace: 1000}
		if g.odds(30) {
			p.Pace = int64(g.n(500, 1500))
		}
		for s := range g.d.Skills {
			if i == 0 || g.odds(35) {
				p.Skills = p.Skills.With(s)
			}
		}
		g.d.People = append(g.d.People, p)
		at := sim.Time(0)
		if i > 0 && g.odds(25) {
			at = g.time(15)
		}
		g.l.Person = append(g.l.Person, at)
	}
}

func (g *maker) kit() {
	g.d.Tools = []sim.Tool{{Name: "axe", Count: g.n(1, 2)}, {Name: "shovel", Count: g.n(0, 3)}}
	g.d.Stoves = []sim.Stove{
		{Name: "heater", Count: g.n(1, 2), Power: 6000, Efficiency: .65, HoldsPots: g.odds(60), ToPots: .3},
		{Name: "burner", Count: g.n(1, 2), Power: 2200, Efficiency: .45},
	}
	g.d.Shelters = []sim.Shelter{{Name: "tent", Volume: 15, Skin: 25, U: 5, AirChanges: 2, Contents: 40000}}
	for i := range g.n(0, 2) {
		g.d.Loads = append(g.d.Loads, sim.Load{Name: fmt.Sprintf("sled%d", i)})
		g.l.Load = append(g.l.Load, g.time(10))
		for range g.n(1, 3) {
			item := sim.Item{Name: fmt.Sprintf("item%d", len(g.d.Items)), Load: i}
			switch {
			case g.odds(40):
				item.Brings = append(item.Brings, sim.Bring{Tool: 1, Stove: -1, Count: g.n(1, 2)})
			case g.odds(30) && !g.d.Stoves[1].Brought:
				item.Brings = append(item.Brings, sim.Bring{Tool: -1, Stove: 1, Count: g.d.Stoves[1].Count})
				g.d.Stoves[1].Brought = true
			}
			crew := 1
			if len(g.d.People) > 1 {
				crew = g.n(1, 2)
			}
			g.task(sim.Task{Name: "unpack " + item.Name, Kind: sim.Takes, Crew: sim.Crew{Min: crew, Max: crew}, Item: len(g.d.Items), Teamwork: .9}, g.time(3), 0)
			g.d.Items = append(g.d.Items, item)
		}
	}
	if len(g.d.Items) == 0 {
		g.d.Tools[1].Count++
	}
}

func (g *maker) task(t sim.Task, amount, mishap sim.Time) {
	g.d.Tasks = append(g.d.Tasks, t)
	g.l.Amount = append(g.l.Amount, amount)
	g.l.Mishap = append(g.l.Mishap, mishap)
	g.l.Mishaps = append(g.l.Mishaps, 0)
	g.l.MishapThen, g.l.MishapsThen = append(g.l.MishapThen, mishap), append(g.l.MishapsThen, 0)
}

func (g *maker) weather() {
	c := sim.WeatherCase{Name: "only", Weight: 1}
	at := sim.Time(0)
	for range g.n(1, 4) {
		c.Rows = append(c.Rows, sim.WeatherRow{At: at, Air: float64(g.n(-30, -5)), Wind: float64(g.n(0, 12)), Humidity: .8})
		at += g.time(20) + 1
	}
	g.d.Weather = []sim.WeatherCase{c}
	g.d.Light = []sim.Light{{At: 0}, {At: 10*sim.Minute + g.time(20), Dark: true}, {At: 40*sim.Minute + g.time(20)}}
}

// volume draws tenths of a litre, or quarters of a US quart.
func (g *maker) volume(from, to int) *big.Rat {
	n := big.NewRat(int64(g.n(from, to)), 1)
	if g.odds(50) {
		return n.Mul(n, big.NewRat(946_352_946, 4_000_000_000))
	}
	return n.Mul(n, big.NewRat(1, 10))
}

func (g *maker) tasks() {
	warmed := -1
	unloads := len(g.d.Items)
	for i := range g.n(2, 9) {
		t := sim.Task{Name: fmt.Sprintf("task%d", i), Item: -1, Teamwork: []float64{1, .9}[g.n(0, 1)], Spot: g.n(0, len(g.d.Spots)-1)}
		amount, mishap := g.time(12), sim.Time(0)
		switch x := g.n(0, 99); {
		case x < 45:
			t.Kind = sim.Work
		case x < 55:
			t.Kind, t.TimedPeople = sim.Timed, g.n(1, 3)
		case x < 80:
			t.Kind = sim.Takes
		case x < 90:
			t.Kind, amount = sim.Melt, 0
			t.Melt = &sim.Melting{Water: g.volume(5, 20), Pot: g.volume(5, 15), Boil: true, Stove: g.n(0, 1), IceHole: g.odds(30), Handling: g.time(1)}
		default:
			t.Kind, amount = sim.Warm, 0
			t.Warm = &sim.Warming{Stove: 0, To: float64(g.n(-4, 10)), People: g.n(0, 3)}
			if warmed >= 0 {
				t.After = append(t.After, sim.After{Task: warmed})
			}
			warmed = len(g.d.Tasks)
		}
		worked := t.Kind == sim.Work || t.Kind == sim.Timed
		g.crew(&t, worked)
		if worked && g.odds(40) {
			t.Slowed = append(t.Slowed, sim.Slowdown{When: sim.Condition{Kind: sim.ConditionKind(g.n(0, 3)), Value: float64(g.n(-20, 8))}, To: big.NewRat(int64(g.n(80, 200)), 100)})
		}
		g.needs(&t, unloads)
		if g.odds(12) {
			mishap = g.time(5)
		}
		if g.odds(15) {
			u := float64(g.n(1, 4))
			t.Makes = append(t.Makes, sim.Make{Shelter: 0, U: &u})
		}
		g.task(t, amount, mishap)
		if g.odds(12) {
			when := sim.Condition{Kind: sim.ConditionKind(g.n(0, 3)), Value: float64(g.n(-20, 8))}
			g.d.Tasks[len(g.d.Tasks)-1].Mishap = &sim.Mishap{When: &when}
			g.l.MishapThen[len(g.l.MishapThen)-1] = g.time(5)
		}
	}
	var all []int
	for k := range g.d.Tasks {
		all = append(all, k)
	}
	g.d.Milestones = []sim.Milestone{
		{Name: "first", When: []int{0}, By: sim.Never},
		{Name: sim.FinishName, When: all, By: sim.Never},
	}
}

func (g *maker) crew(t *sim.Task, worked bool) {
	people := len(g.d.People)
	switch {
	case worked:
		t.Crew.Min = g.n(1, min(2, people))
		t.Crew.Max = t.Crew.Min + g.n(0, 3)
		t.Joinable = t.Crew.Max > t.Crew.Min && g.odds(85)
	case g.odds(25):
		return // needs nobody
	default:
		t.Crew.Min = g.n(1, min(2, people))
		t.Crew.Max = t.Crew.Min
	}
	if g.odds(25) {
		t.Roles = append(t.Roles, sim.Role{Skill: g.n(0, 1), Count: 1})
	} else if g.odds(10) && t.Crew.Min == 1 {
		t.All = t.All.With(g.n(0, 1))
	}
}

func (g *maker) needs(t *sim.Task, unloads int) {
	if g.odds(25) {
		t.Tools = append(t.Tools, sim.ToolNeed{Tool: 0, Count: 1})
	}
	if t.Crew.Max > 0 && t.Crew.Min == 1 && g.odds(25) {
		t.Tools = append(t.Tools, sim.ToolNeed{Tool: 1, Count: 1, Each: true})
	}
	if unloads > 0 && g.odds(30) {
		t.Needs = append(t.Needs, g.n(0, unloads-1))
	}
	if n := len(g.d.Tasks); n > unloads && g.odds(50) {
		a := sim.After{Task: g.n(unloads, n-1), FromStart: g.odds(25)}
		if g.odds(40) {
			a.Lag = g.time(4)
		}
		t.After = append(t.After, a)
	}
}

func (g *maker) lookouts() {
	for i := range g.n(0, 2) {
		l := sim.Lookout{Name: fmt.Sprintf("post%d", i), Places: g.n(1, 2), Spot: g.n(0, len(g.d.Spots)-1), IfNobody: sim.IfNobody(g.n(0, 2))}
		if len(g.d.People) < 4 {
			l.Places = 1
		}
		if len(g.d.People) < 3 {
			return
		}
		l.From = g.time(5)
		if g.odds(85) {
			l.Relief = sim.Time(g.n(3, 10)) * sim.Minute
		}
		for p := range g.d.People {
			if g.odds(70) {
				l.Who = append(l.Who, p)
			}
		}
		if len(l.Who) == 0 {
			l.Who = []int{0}
		}
		g.tie(&l)
		g.d.Lookouts = append(g.d.Lookouts, l)
	}
	if g.odds(30) {
		g.hurt(g.n(0, len(g.d.People)-1))
	}
}

// tie lets a lookout begin and end with tasks, and need nobody while somebody works
// there.
func (g *maker) tie(l *sim.Lookout) {
	l.UnlessWorked = g.odds(40)
	if g.odds(25) {
		l.FromTasks = []int{g.n(0, len(g.d.Tasks)-1)}
	}
	if g.odds(25) {
		l.UntilTasks = []int{g.n(0, len(g.d.Tasks)-1)}
	}
}

// hurt lets a person be hurt, often when a post is due.
func (g *maker) hurt(p int) {
	l := sim.Lookout{Name: "hurt", Places: 1, Who: []int{p}, From: g.time(15), IfNobody: sim.Pull, Hurt: true, Spot: g.n(0, len(g.d.Spots)-1)}
	if len(g.d.Lookouts) > 0 && g.odds(60) {
		l.From = g.d.Lookouts[0].From + sim.Time(g.n(0, 2))*g.d.Lookouts[0].Relief
	}
	with := sim.Lookout{Name: "with", Places: 1, From: l.From, Spot: l.Spot, IfNobody: sim.Pull}
	for o := range g.d.People {
		if o != p {
			with.Who = append(with.Who, o)
		}
	}
	g.d.Lookouts = append(g.d.Lookouts, l)
	if len(with.Who) > 1 && g.odds(50) {
		g.d.Lookouts = append(g.d.Lookouts, with)
	}
}

func (g *maker) order() {
	groups := g.n(1, 3)
	if groups > len(g.d.People) {
		groups = 1
	}
	g.o = sim.Order{Name: "random"}
	for i := range groups {
		det := sim.Group{Name: fmt.Sprintf("group%d", i), InTurn: g.odds(30)}
		for j := range groups {
			if j != i && g.odds(60) {
				det.Then = append(det.Then, j)
			}
		}
		g.o.Groups = append(g.o.Groups, det)
	}
	for p := range g.d.People {
		if i := g.n(0, groups); i < groups {
			g.o.Groups[i].People = append(g.o.Groups[i].People, p)
		}
	}
	placed := len(g.d.Items) > 0 && g.odds(25)
	for _, k := range g.r.Perm(len(g.d.Tasks)) {
		if g.d.Tasks[k].Unloads() && !placed {
			continue
		}
		for i := range groups {
			if g.odds(100 / groups) {
				g.o.Groups[i].Sequence = append(g.o.Groups[i].Sequence, k)
			}
		}
	}
}
