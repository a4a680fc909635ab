package plots

import (
	"cmp"
	"slices"
	"time"

	"warmby/sim"
	"warmby/sim/heat"
)

// job is a task as it was done; turn a turn at a lookout. Times in minutes.
type job struct {
	task                string
	called, start, end  float64
	worked              float64 // when the work was done; 0 means at the end
	crew                []string
	walk                float64 // of each of the crew, after the call
	kind                sim.Kind
	by                  bool // nobody needed
	never, neverStarted bool
}

type turn struct {
	who            string
	from, to, walk float64
}

// story is a drill told by hand.
type story struct {
	title, order string
	people       []string
	arrives      []float64
	jobs         []job
	turns        []turn
	lookout      string
	groups       []sim.Group
	milestones   []sim.Milestone
	weather      []sim.WeatherRow
	light        []sim.Light
	arrival      time.Time
}

func at(minutes float64) sim.Time { return sim.Time(minutes*60000 + 0.5) }

// timeline turns a story into what an engine would give.
func (st story) timeline() *sim.Timeline {
	d := &sim.Drill{Title: st.title, Order: st.order, Groups: st.groups, Milestones: st.milestones, Light: st.light}
	d.Site.Arrival = st.arrival
	d.Spots = []sim.Spot{{Name: "centre", In: -1}}
	if st.weather != nil {
		d.Weather = []sim.WeatherCase{{Rows: st.weather}}
	}
	if st.lookout != "" {
		d.Lookouts = []sim.Lookout{{Name: st.lookout, Places: 1}}
	}
	for _, p := range st.people {
		d.People = append(d.People, sim.Person{Name: p})
	}
	tl := &sim.Timeline{Drill: d, Luck: &sim.Luck{}, People: make([][]sim.Stretch, len(st.people))}
	for i, j := range st.jobs {
		task := sim.Task{Name: j.task, Kind: j.kind, Item: -1, Crew: sim.Crew{Min: 1, Max: 6}}
		if j.by {
			task.Crew = sim.Crew{}
		}
		d.Tasks = append(d.Tasks, task)
		t := sim.TaskTimes{Called: at(j.called), Start: at(j.start), Worked: at(j.end), End: at(j.end), Unit: -1}
		if j.worked > 0 {
			t.Worked = at(j.worked)
		}
		to := t.End
		if j.never {
			t.Worked, t.End = sim.Never, sim.Never
		}
		if j.neverStarted {
			t = sim.TaskTimes{Called: sim.Never, Start: sim.Never, Worked: sim.Never, End: sim.Never, Group: -1, Unit: -1}
			to = 0
		}
		for _, who := range j.crew {
			p := slices.Index(st.people, who)
			t.People = append(t.People, p)
			there := t.Called + at(j.walk)
			add := func(what sim.Activity, from, to sim.Time) {
				if to > from || what == sim.Working {
					tl.People[p] = append(tl.People[p], sim.Stretch{What: what, From: from, To: to, Task: i, Lookout: -1})
				}
			}
			add(sim.Walking, t.Called, there)
			add(sim.Ready, there, t.Start)
			add(sim.Working, max(there, t.Start), to)
		}
		tl.Tasks = append(tl.Tasks, t)
		tl.End = max(tl.End, to)
	}
	for _, w := range st.turns {
		p := slices.Index(st.people, w.who)
		if w.walk > 0 {
			tl.People[p] = append(tl.People[p], sim.Stretch{What: sim.Walking, From: at(w.from - w.walk), To: at(w.from), Task: -1, Lookout: 0})
		}
		tl.People[p] = append(tl.People[p], sim.Stretch{What: sim.Watching, From: at(w.from), To: at(w.to), Task: -1, Lookout: 0})
		tl.End = max(tl.End, at(w.to))
	}
	for p := range tl.People {
		from := sim.Time(0)
		if p < len(st.arrives) {
			from = at(st.arrives[p])
		}
		tl.People[p] = fillFree(tl.People[p], from, tl.End)
	}
	all := make([]int, len(d.Tasks))
	for i := range all {
		all[i] = i
	}
	d.Milestones = append(slices.Clone(d.Milestones), sim.Milestone{Name: sim.FinishName, When: all, By: sim.Never})
	tl.SetMilestones()
	return tl
}

// fillFree orders a person's stretches and fills the gaps with free time.
func fillFree(stretches []sim.Stretch, from, end sim.Time) []sim.Stretch {
	slices.SortStableFunc(stretches, func(a, b sim.Stretch) int { return cmp.Compare(a.From, b.From) })
	var out []sim.Stretch
	for _, s := range stretches {
		if s.From > from {
			out = append(out, sim.Stretch{What: sim.Free, From: from, To: s.From, Task: -1, Lookout: -1})
		}
		out = append(out, s)
		from = s.To
	}
	if end > from {
		out = append(out, sim.Stretch{What: sim.Free, From: from, To: end, Task: -1, Lookout: -1})
	}
	return out
}

// winterCourse is six people, a tent, a sled and a lookout with relief.
func winterCourse() story {
	l, a, b, c, d, e := "Leader", "Aila", "Berend", "Cécile", "Дмитрий", "Øyvind"
	st := story{
		title: "Kestrel Fell winter course, arrival before dusk", order: "two groups",
		people:  []string{l, a, b, c, d, e},
		arrives: []float64{0, 0, 0, 0, 0, 4},
		lookout: "north post",
		arrival: time.Date(2027, 1, 16, 13, 40, 0, 0, time.FixedZone("", 2*3600)),
		light:   []sim.Light{{At: 0}, {At: at(72.5), Dark: true}},
		weather: []sim.WeatherRow{{At: 0, Air: -22, Wind: 4}, {At: at(90), Air: -26, Wind: 8.5}},
		groups:  []sim.Group{{Name: "tent", People: []int{0, 1, 2, 3}}, {Name: "water and wood", People: []int{4, 5}}},
	}
	st.jobs = []job{
		{task: "unpack shovels", called: 6, start: 6, end: 7, crew: []string{b}},
		{task: "unpack kitchen box", called: 7, start: 7, end: 8, crew: []string{b}},
		{task: "unpack heater", called: 8, start: 8, end: 10, crew: []string{b}},
		{task: "unpack tent", called: 10, start: 10, end: 13, crew: []string{b}},
		{task: "choose the place", called: 0, start: 0, end: 5, crew: []string{l, c}},
		{task: "tramp the floor", called: 7, start: 7, end: 19, crew: []string{l, c}},
		{task: "let it set", called: 19, start: 19, end: 39, by: true, kind: sim.Takes},
		{task: "cut blocks for the snow wall", called: 19, start: 20, end: 39, crew: []string{l, c}, walk: 1},
		{task: "pitch the tent", called: 39, start: 42, end: 70, crew: []string{l, b, c}, walk: 1.5},
		{task: "peg the guys", called: 70, start: 70, end: 76, crew: []string{c}},
		{task: "set the flue", called: 70, start: 70, end: 75, crew: []string{b}},
		{task: "light the heater", called: 75, start: 75, end: 88, worked: 80, crew: []string{l}},
		{task: "warm the tent", called: 88, start: 88, end: 112, by: true, kind: sim.Warm},
		{task: "bank the skirt", called: 76, start: 76, end: 97, crew: []string{c, b}},
		{task: "build the snow wall", called: 97, start: 97.5, end: 118, crew: []string{c, b}, walk: .5},
		{task: "dig the kitchen", called: 8, start: 9, end: 24, crew: []string{d}, walk: 1},
		{task: "set up the burner", called: 24, start: 24, end: 28, crew: []string{d}},
		{task: "melt for tea", called: 28, start: 28, end: 66, crew: []string{d}, kind: sim.Melt},
		{task: "serve tea", called: 66, start: 66, end: 66, crew: []string{d}},
		{task: "melt for supper", called: 67, start: 67, end: 116, crew: []string{d}, kind: sim.Melt},
		{task: "gather standing dead wood", called: 26, start: 34, end: 60, crew: []string{e}, walk: 8},
		{task: "dig the latrine", called: 70, start: 72, end: 90, crew: []string{e}, walk: 2},
		{task: "stow the kit", called: 90, start: 92, end: 101, crew: []string{l}, walk: 1},
		{task: "spread mats and sleeping bags", called: 101, start: 101, end: 109, crew: []string{l}},
		{task: "count everybody and settle the night watch", called: 118, start: 118, end: 121, crew: []string{l, b, c}},
	}
	st.turns = []turn{
		{a, 3, 25, 3}, {e, 6, 6, 0}, {a, 25, 26, 0},
		{b, 26, 38, 3}, {a, 47, 68, 3}, {e, 68, 70, 0}, {a, 93, 121, 3},
	}
	st.milestones = []sim.Milestone{
		{Name: "shelter up", When: []int{8}, By: at(72.5), ByText: "dark"},
		{Name: "heated", When: []int{12}, By: at(100), ByText: "100 min"},
		{Name: "first hot drink", When: []int{18}, By: at(80), ByText: "15:00"},
		{Name: "ready for the night", When: []int{24, 23}, By: sim.Never},
	}
	return st
}

// critical marks tasks by name.
func critical(tl *sim.Timeline, names ...string) []bool {
	out := make([]bool, len(tl.Drill.Tasks))
	for _, n := range names {
		out[tl.Drill.TaskNamed(n)] = true
	}
	return out
}

// winterCurves are temperatures such as the heat package gives.
func winterCurves(tl *sim.Timeline) []heat.Curve {
	curve := func(name string, shelter int, from, to, c0, c1, flat float64) heat.Curve {
		c := heat.Curve{Name: name, Task: 0, Shelter: shelter}
		for i := 0; i <= 40; i++ {
			f := float64(i) / 40
			v := c0 + (c1-c0)*f*(1.6-0.6*f)
			if f < flat {
				v = c0
			}
			c.Points = append(c.Points, heat.Point{At: at(from + f*(to-from)), C: v})
		}
		return c
	}
	return []heat.Curve{
		curve("melt for tea", -1, 28, 66, -12, 99, 0),
		curve("melt for supper", -1, 67, 116, -12, 99, 0),
		curve("tent", 0, 88, 112, -22, 10, 0),
	}
}

// neverWarm is a drill whose warm-up never gets there.
func neverWarm() story {
	st := winterCourse()
	for i := range st.jobs {
		switch st.jobs[i].task {
		case "warm the tent", "melt for supper":
			st.jobs[i].never = true
			st.jobs[i].end = 121
		}
	}
	st.jobs = append(st.jobs, job{task: "dry the boot liners", neverStarted: true})
	st.milestones[3].When = []int{25}
	return st
}
