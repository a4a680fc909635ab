package report

import (
	"fmt"
	"slices"
	"strings"

	"warmby/plots"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/heat"
)

// Study is what a paper has to say of a batch, by the checklist STRESS-DES: 20
// items that let others judge a discrete-event simulation and do it again
// (T. Monks and others, "Strengthening the reporting of empirical simulation
// studies: introducing the STRESS guidelines", Journal of Simulation 13 (2019),
// 55-67). What the file and the runs do not know is named as a gap, for whoever
// writes the paper.
type Study struct {
	Batched
	Drills  []*sim.Drill  // of the first point, one for each order
	Usual   *sim.Timeline // of the first of them, with usual values
	File    string        // the scenario
	SHA256  string
	Version string // of the program
	Engine  int
	Source  string // hash of the engine's source
	How     string // how the keys go together: " in a full grid"; "" for one key or none
	Common  bool   // whether all points meet the same luck
	Cold    bool   // whether the account of cold was written
	Stages  string // how runs were added until an interval was narrow; "" when all were asked for at once
	Given   string // where draws came from, in place of the seed; "" for none
}

// design says where the values of the points are.
func (s Study) design() string {
	if s.Points < 2 {
		return ""
	}
	return ", and what each point has in points.csv"
}

// hanging says that chances of mishaps hang on light or weather, where some do.
func (s Study) hanging() string {
	if slices.ContainsFunc(s.Drill.Tasks, func(t sim.Task) bool { return t.Mishap != nil && t.Mishap.When != nil }) {
		return ", for some tasks with another chance by the light or the weather when work on them starts"
	}
	return ""
}

// HowEstimated says for the methods of a paper how figures and their intervals are
// made.
const HowEstimated = "We give means with Student's t intervals, quantiles (of times to the whole second) with order-statistic intervals, and shares with Wilson's intervals, or Clopper and Pearson's where fewer than ten runs are on either side; differences between orders, and of points from the first, are paired by run: of means by Student's t, of shares by Newcombe's method 10, of quantiles by squaring and adding order-statistic intervals (Zou and Donner). All intervals are two-sided with 95 % and not adjusted for their number. A milestone that a run never reaches counts as infinitely late in quantiles and shares; where that happens no mean is given."

// OfSimulationOnly says for the methods of a paper what intervals do not tell.
const OfSimulationOnly = "Intervals tell the uncertainty of the simulation only, and not that of its inputs."

// StudyName is what the checklist is called in print.
const StudyName = "STRESS-DES (Monks and others, Journal of Simulation 13 (2019), 55-67)"

// item is one of the checklist.
type item struct {
	number, name string
	says         []Sentence
	table        *Table
	picture      *Picture
	gap          string // what nobody but the author knows; "" when nothing is missing
}

// Sections returns the items of the checklist, a section each, with a list of
// the gaps before them.
func (s Study) Sections() (list []Section) {
	items := s.items()
	gaps := []Block{Text{Says: Say("What follows is filled in from the file and the runs, by the checklist {}. The rest only its author knows:", StudyName)}}
	for _, it := range items {
		if it.gap != "" {
			gaps = append(gaps, Text{Head: it.number, Says: Say("{}", it.gap), Item: true})
		}
	}
	list = append(list, Section{Heading: "For a paper: what is still to write", Blocks: gaps, More: true})
	for _, it := range items {
		list = append(list, it.section())
	}
	return list
}

func (it item) section() Section {
	var blocks []Block
	for _, one := range it.says {
		blocks = append(blocks, Text{Says: one})
	}
	if it.picture != nil {
		blocks = append(blocks, *it.picture)
	}
	if it.table != nil {
		blocks = append(blocks, *it.table)
	}
	if it.gap != "" {
		blocks = append(blocks, Text{Head: "Gap", Says: Say("{}", it.gap)})
	}
	return Section{Heading: it.number + " " + it.name, Blocks: blocks, More: true}
}

func (s Study) items() []item {
	return slices.Concat(s.objectives(), s.logic(), s.data(), s.experiment(), s.implementation())
}

func (s Study) objectives() []item {
	return []item{
		{number: "1.1", name: "Purpose of the model", says: []Sentence{
			Say("The model plays what a small team does from its arrival in deep snow until everybody is settled: who does which task when, with few tools, few people who may do some things, cold and dark. It is there to hold orders of the tasks against each other. The scenario is \"{}\".", s.Drill.Title),
		}, gap: "why this study was made, and for whom"},
		{number: "1.2", name: "Model outputs", says: []Sentence{
			Say("Of each run, the moment at which each milestone is reached, in whole milliseconds since arrival: the end of the last task that it waits for."),
			s.wellText(),
			Say(HowEstimated),
		}, table: s.milestonesTable()},
		{number: "1.3", name: "Aims of the experiment", says: []Sentence{s.aims()},
			gap: "what was to be found out, and why these orders and values were chosen"},
	}
}

func (s Study) wellText() Sentence {
	if !s.Cold {
		return Say("All is well in a run when every milestone with a target is reached by it and nobody passes the limit of the account of cold.")
	}
	return Say("All is well in a run when every milestone with a target is reached by it and nobody passes the limit of the account of cold. The account itself, the greatest heat that each person has lost and when the limit was passed, is in the table cold.")
}

func (s Study) milestonesTable() *Table {
	t := &Table{Caption: "The milestones", Columns: []Column{{Head: "milestone"}, {Head: "waits for"}, {Head: "target"}}}
	for m, one := range s.Drill.Milestones {
		var tasks []string
		for _, i := range one.When {
			tasks = append(tasks, s.Drill.Tasks[i].Name)
		}
		waits := Named(tasks)
		if one.Name == sim.FinishName {
			waits = "all tasks"
		}
		by := Say("none")
		if one.By != sim.Never {
			by = target(s.Drill, m)
		}
		t.Rows = append(t.Rows, Cells(one.Name, waits, by))
	}
	return t
}

func (s Study) aims() Sentence {
	says := Say("Drill orders held against each other: {}.", OrderNames(s.Orders))
	if len(s.Orders) == 1 {
		says = Say("One drill order was played: {}.", OrderNames(s.Orders))
	}
	if len(s.Keys) > 0 {
		says = Say("{} In the scenario {} varied{}: {}, each with its values in points.csv.", says, Named(s.Keys)+map[bool]string{true: " was", false: " were"}[len(s.Keys) == 1], s.How, Count{s.Points, "point"})
	}
	return says
}

// OrderNames joins the names of orders, of which one "" means none.
func OrderNames(orders []string) string {
	if len(orders) == 1 && orders[0] == "" {
		return "tasks in file order"
	}
	return Named(orders)
}

func (s Study) logic() []item {
	return []item{
		{number: "2.1", name: "Overview of the base model", says: []Sentence{
			Say("One drill with usual values, {}: who does what and when, what goes on by itself, and the milestones.", withOrder(s.Drills[0])),
		}, picture: s.overview()},
		{number: "2.2", name: "Logic of the base model", says: []Sentence{
			Say("A task may start when what it comes after has ended, what it needs is off its load, its tools and stoves are free, and enough free people may do it. At every event the lookouts that are due take their people first; then each group goes through its sequence, first to last, and starts what may start, passing over what may not (by the rule \"in turn\" the first that may not start stops it). Those called walk to the task, and it starts when all are there; free people join it where it allows. Nobody is called away from a task, but for a lookout that says so. A crew of n does n^x times the work of one, times their paces, less what dark, cold, wind and snow slow."),
			Say("A task may take longer by a mishap{}. A milestone is reached when the last of its tasks has ended. What can never start counts as never.", s.hanging()),
		}, table: s.tasksTable()},
		{number: "2.3", name: "Logic of the scenarios", says: []Sentence{
			Say("An order says who is in which group, and in which sequence a group looks for work; nothing else differs between orders at one point."),
		}, table: s.ordersTable()},
		{number: "2.4", name: "Algorithms", says: []Sentence{
			Say("Who is called: of the free people who may do a task those with the fewest skills first, then the nearest, then as in the list of people; one is passed over who would leave a role that nobody else can fill (Hall's marriage theorem)."),
			Say("Water: heat for snow to melt and water to warm (2.108, 333.55 and 4.186 kJ/kg) over the power of the stove times its efficiency. A shelter: one body of air, skin and contents that gains from stove and people (100 W each) and loses by skin and air changes; solved in closed form between changes."),
			Say("Cold: the heat balance of ISO 11079 (minimal criterion), added up stretch by stretch with a limit of {} Wh/m2; adding up is an extension of that standard, which is made for steady exposure. Dark is when the sun's centre is more than 6 degrees below the horizon, by the place and date of the file.", int(cold.HeatLimit)),
		}},
		s.components(),
	}
}

func (s Study) overview() *Picture {
	t := Table{Caption: "When each task starts and ends, with usual values", Columns: []Column{{Head: "task"}, {Head: "from"}, {Head: "to"}}}
	at := SiteOf(s.Drills[0])
	for i, one := range s.Usual.Tasks {
		t.Rows = append(t.Rows, []Sentence{Say("{}", s.Drills[0].Tasks[i].Name), Say("{}", at.At(one.Start)), Say("{}", at.At(one.End))})
	}
	return &Picture{Caption: "One drill with usual values", Table: t,
		Drawing: func() *plots.Picture {
			return plots.Drill(s.Usual, plots.Options{Title: "One drill with usual values", Curves: heat.Curves(s.Usual)})
		}}
}

func (s Study) tasksTable() *Table {
	t := &Table{Caption: "The tasks", Columns: []Column{{Head: "task"}, {Head: "crew"}, {Head: "skills"}, {Head: "holds"}, {Head: "comes after"}}}
	for i := range s.Drill.Tasks {
		k := &s.Drill.Tasks[i]
		t.Rows = append(t.Rows, Cells(k.Name, s.crewOf(k), s.skillsOf(k), s.holds(k), s.comesAfter(k)))
	}
	return t
}

func (s Study) crewOf(k *sim.Task) string {
	low, high := k.CrewBounds()
	switch {
	case k.Each != "":
		return s.Drill.People[k.Who[0]].Name
	case k.Everybody:
		return "everybody"
	case high == 0:
		return "nobody"
	case low == high:
		return fmt.Sprint(low)
	}
	return fmt.Sprintf("%d to %d", low, high)
}

func (s Study) skillsOf(k *sim.Task) string {
	var list []string
	for _, r := range k.Roles {
		list = append(list, fmt.Sprintf("%d %s", r.Count, s.Drill.Skills[r.Skill]))
	}
	for i, name := range s.Drill.Skills {
		if k.All.Has(i) {
			list = append(list, "all "+name)
		}
	}
	return strings.Join(list, ", ")
}

func (s Study) holds(k *sim.Task) string {
	var list []string
	for _, n := range k.Tools {
		count := fmt.Sprint(n.Count)
		if n.Each {
			count = "each one"
		}
		list = append(list, count+" "+s.Drill.Tools[n.Tool].Name)
	}
	if k.Melt != nil {
		list = append(list, "1 "+s.Drill.Stoves[k.Melt.Stove].Name)
	}
	if k.Warm != nil {
		list = append(list, "1 "+s.Drill.Stoves[k.Warm.Stove].Name)
	}
	return strings.Join(list, ", ")
}

func (s Study) comesAfter(k *sim.Task) string {
	var list []string
	for _, a := range k.After {
		name := s.Drill.Tasks[a.Task].Name
		if a.FromStart {
			name = "the start of " + name
		}
		if a.Lag > 0 {
			name = Length(a.Lag).Write(Full) + " after " + name
		}
		list = append(list, name)
	}
	for _, i := range k.Needs {
		list = append(list, s.Drill.Items[i].Name+" off its load")
	}
	return strings.Join(list, ", ")
}

func (s Study) ordersTable() *Table {
	t := &Table{Caption: "The orders at the first point", Columns: []Column{{Head: "order"}, {Head: "group"}, {Head: "people"}, {Head: "sequence"}}}
	for _, d := range s.Drills {
		for _, g := range d.Groups {
			var people, tasks []string
			for _, p := range g.People {
				people = append(people, d.People[p].Name)
			}
			for _, i := range g.Sequence[g.Lead:] {
				tasks = append(tasks, d.Tasks[i].Name)
			}
			t.Rows = append(t.Rows, Cells(orderName(d.Order), g.Name, strings.Join(people, ", "), strings.Join(tasks, ", ")))
		}
	}
	return t
}

func (s Study) components() item {
	d := s.Drill
	count := func(n int, what string) Sentence { return Say("{}", Count{n, what}) }
	kinds := func(n int, of string) Sentence { return Say("{} of {}s", Count{n, "kind"}, of) }
	return item{number: "2.5", name: "Components", says: []Sentence{
		Say("Entities: {}, each with skills, a pace and clothing, who walk between {}.", Say("{} people", len(d.People)), count(len(d.Spots), "place")),
		Say("Activities: {}, of which {} unload a sled or pack, and {}.", count(len(d.Tasks), "task"), len(d.Items), count(len(d.Lookouts), "lookout")),
		Say("Resources: {}, {} and {}; people with a skill are a resource of the tasks that ask for it.", kinds(len(d.Tools), "tool"), kinds(len(d.Stoves), "stove"), count(len(d.Shelters), "shelter")),
		Say("Queues: there is no line of waiting entities. A task waits for people, tools and other tasks; who is free takes the first task of the sequence of the group that may start."),
		Say("Entry and exit: people and loads enter when they arrive; nobody leaves before the end."),
	}}
}

func (s Study) data() []item {
	return []item{
		{number: "3.1", name: "Data sources", says: []Sentence{Say("All lengths, chances and paces are in the scenario, {}, SHA-256 {}.", s.File, s.SHA256)},
			gap: "where the lengths, chances and paces of the file come from: drills that were timed, people who were asked, tables"},
		{number: "3.2", name: "Preparation of the data", says: []Sentence{Say("None is done here: what the file says is played. \"warmby fit\" makes such numbers from logs of drills, and writes old value, new value and number of drills beside each as a comment.")},
			gap: "what was done with raw data before it came into the file"},
		{number: "3.3", name: "Input parameters", says: []Sentence{s.inputsText()}, table: s.inputsTable()},
		{number: "3.4", name: "Assumptions", says: []Sentence{
			Say("Lengths of tasks, mishaps, arrivals and weather are drawn independently of each other{}. Nobody tires, learns, forgets the order, argues or is clumsy beyond what the file says. A shelter has one temperature. The account of cold knows no wet clothing, fingers, feet or faces, and no food, drink, sleep, illness or age.", s.dayText()),
			Say(OfSimulationOnly),
		}, gap: "which of these matter for the question of this study"},
	}
}

func (s Study) dayText() string {
	if s.Drill.Day == nil {
		return ""
	}
	return ", but for the factor of the day that all work of a run shares"
}

func (s Study) inputsText() Sentence {
	says := Say("At the first point, with the ends between which 9 of 10 draws lie. Work is in person-minutes, clock time in minutes. What each does for himself is drawn for each person by itself.")
	if s.Points > 1 {
		says = Say("{} What differs at other points is in points.csv.", says)
	}
	return says
}

// inputsTable lists every law that is drawn from, and what is fixed.
func (s Study) inputsTable() *Table {
	t := &Table{Caption: "The inputs", Columns: []Column{{Head: "of"}, {Head: "what"}, {Head: "law"}, {Head: "5 %", Right: true}, {Head: "usual", Right: true}, {Head: "95 %", Right: true}}}
	law := func(of, what string, d sim.Distribution, unit float64) {
		if d == nil {
			return
		}
		cell := func(v float64) string { return fmt.Sprintf("%.2f", v/unit) }
		t.Rows = append(t.Rows, Cells(of, what, draw.Name(d), cell(d.Quantile(0.05)), cell(d.Usual()), cell(d.Quantile(0.95))))
	}
	const minute = float64(sim.Minute)
	for i := range s.Drill.Tasks {
		k := &s.Drill.Tasks[i]
		if k.Each != "" && i > 0 && s.Drill.Tasks[i-1].Each == k.Each {
			continue // each person's is drawn by the same law
		}
		law(k.OwnName(), amountOf(k), k.Amount, minute)
		if k.Mishap != nil {
			chance := hundredths(k.Mishap.Chance) + " %"
			if when := k.Mishap.When; when != nil {
				chance += fmt.Sprintf(" (%s: %s %%)", when, hundredths(k.Mishap.Then))
			}
			law(k.Name, fmt.Sprintf("mishap in %s, adds", chance), k.Mishap.Adds, minute)
		}
	}
	for _, p := range s.Drill.People {
		law(p.Name, "arrives after", p.Arrives, minute)
	}
	for _, l := range s.Drill.Loads {
		law(l.Name, "arrives after", l.Arrives, minute)
	}
	law("all work of a run", "factor of the day", s.Drill.Day, 1)
	total := 0.0
	for _, w := range s.Drill.Weather {
		total += w.Weight
	}
	for _, w := range s.Drill.Weather {
		if len(s.Drill.Weather) > 1 {
			t.Rows = append(t.Rows, Cells("weather", w.Name+" in "+hundredths(w.Weight/total)+" %", "one of several", "", "", ""))
		}
	}
	return t
}

func amountOf(k *sim.Task) string {
	switch k.Kind {
	case sim.Work:
		return "work"
	case sim.Timed:
		return fmt.Sprintf("time with %d people", k.TimedPeople)
	}
	return "clock time"
}

func (s Study) experiment() []item {
	luck := "all orders at a point"
	if s.Common {
		luck = "all orders and points"
	}
	return []item{
		{number: "4.1", name: "Start of a run", says: []Sentence{Say("Every run begins with the arrival of the team: nothing done, loads packed, tools carried by hand at hand, people where the file puts them. There is no warm-up period, and none is needed: the drill has an end.")}},
		{number: "4.2", name: "Length of a run", says: []Sentence{Say("A run ends with its last task, or when nothing that is left can ever start. It is broken off after {}, which counts as never.", Length(sim.Horizon))}},
		{number: "4.3", name: "Estimation", says: []Sentence{
			Say("{}. {}Run k of {} meets the same luck, so that differences are paired (common random numbers).", s.Runs+" of each order"+map[bool]string{true: " at each point", false: ""}[s.Points > 1], s.Stages, luck),
		}},
	}
}

func (s Study) implementation() []item {
	random := Say("A uniform number is found from the seed ({}), the run, the name of the task, its purpose and its place in line by mixing 64 bits (counter-based: there is no state). The inverse of the distribution function turns it into a length.", fmt.Sprint(s.Seed))
	if s.Given != "" {
		random = Say("{} {}", random, s.Given)
	}
	return []item{
		{number: "5.1", name: "Software", says: []Sentence{Say("{}, engine {}, source of the engine SHA-256 {}; written in Go.", s.Version, s.Engine, s.Source)}},
		{number: "5.2", name: "Random numbers", says: []Sentence{random}},
		{number: "5.3", name: "How the model is run", says: []Sentence{Say("Next-event time advance on a clock of whole milliseconds. What happens at one moment is taken in a fixed sequence, so that a run has one outcome. Times and amounts of work are whole numbers; the same scenario, seed and version give the same bytes on any number of processors of any make.")}},
		{number: "5.4", name: "Machine", says: []Sentence{Say("Nothing in the results depends on the machine.")},
			gap: "the machine and how long it took, if readers should know"},
		{number: "6.1", name: "Code and files", says: []Sentence{
			Say("The scenario is in scenario.yaml beside the tables{}. The command that makes all of it again: {}", s.design(), s.Repeat),
		}, gap: "where scenario, tables and this report are kept for readers"},
	}
}
