package cards

import (
	"cmp"
	"slices"

	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/steps"
)

// Deck is all that the paper of one drill says, as values.
type Deck struct {
	Title, Order string
	Site         report.Site
	Dark         []sim.Time // when it grows dark in the drill; 0 when it is on arrival
	End          sim.Time
	People       []Person
	CallOuts     []CallOut // by when they end
	Advice       []Advice
	Loads        []Load
	Milestones   []Milestone
	Lookouts     []Lookout
	Leave        []string // tasks that can wait
	Camp         Camp
	Stoves       []string       // that burn in it
	Cautions     []cold.Caution // of the whole drill, in full
}

// CallOut is a task whose end is called out.
type CallOut struct {
	Task string // by its full name, as a log has it
	End  sim.Time
}

// Person is what one person's card says.
type Person struct {
	Name     string
	Steps    []Step
	Leave    []string // tasks of his own that may be left when it is late
	Cautions []string // topics, the most urgent first
}

// MostCautions is how many cautions a card has.
const MostCautions = 3

// Step is one thing to do, or a time at a lookout.
type Step struct {
	From, To sim.Time
	Tasks    []string // as people call them; none at a lookout
	Items    []string // that come off their loads, where the tasks are unloading
	Load     string   // where the first of these lies
	Lookout  string
	With     []string
	Tools    []Tool
	Spot     string // "" for the centre of camp
	// Before is whom somebody relieves at a lookout; After is who takes over
	// there, or stays on at a task.
	Before, After string
	CallsOut      bool
}

// Tool is what a step is done with: a number of something.
type Tool struct {
	Name  string
	Count int
}

// DeckOf returns the deck of a drill that was played, with the accounts of cold.
func DeckOf(tl *sim.Timeline, accounts []cold.Person) *Deck {
	d := tl.Drill
	deck := &Deck{Title: report.ShortTitle(d.Title), Order: d.Order, Site: report.SiteOf(d), End: tl.End}
	for _, l := range d.Light {
		if l.Dark && l.At <= tl.End {
			deck.Dark = append(deck.Dark, l.At)
		}
	}
	for _, i := range steps.CallOuts(tl) {
		deck.CallOuts = append(deck.CallOuts, CallOut{d.Tasks[i].Name, tl.Tasks[i].End})
	}
	deck.Cautions = cold.Cautions(d, accounts)
	deck.brief(tl)
	deck.Camp = CampOf(d, tl.Luck.Weather)
	for p, list := range steps.Of(tl) {
		if !d.People[p].Casualty { // is carried, and carries no card
			deck.People = append(deck.People, personOf(d, p, list, deck.Cautions))
		}
	}
	return deck
}

func personOf(d *sim.Drill, p int, list []steps.Step, all []cold.Caution) Person {
	out := Person{Name: d.People[p].Name}
	var tasks, lookouts []int
	for _, s := range list {
		out.Steps = append(out.Steps, stepOf(d, s))
		tasks = append(tasks, s.Tasks...)
		if s.Lookout >= 0 {
			lookouts = append(lookouts, s.Lookout)
		}
	}
	seen := map[string]bool{}
	for _, t := range tasks {
		if name := d.Tasks[t].OwnName(); d.Tasks[t].CanWait && !seen[name] {
			seen[name] = true
			out.Leave = append(out.Leave, name)
		}
	}
	own := cold.OfTasks(d, all, tasks, lookouts)
	for _, c := range cold.MostUrgent(own, len(own)) {
		if len(out.Cautions) < MostCautions {
			out.Cautions = append(out.Cautions, c.Topic)
		}
	}
	return out
}

func stepOf(d *sim.Drill, s steps.Step) Step {
	out := Step{From: s.From, To: s.To, With: names(d, s.With), CallsOut: s.CallsOut, Tools: toolsOf(d, s)}
	for _, t := range s.Tasks {
		out.Tasks = append(out.Tasks, d.Tasks[t].OwnName())
		if d.Tasks[t].Unloads() {
			out.Items = append(out.Items, d.Items[d.Tasks[t].Item].Name)
			out.Load = d.Loads[d.Items[d.Tasks[s.Tasks[0]].Item].Load].Name
		}
	}
	if s.Lookout >= 0 {
		out.Lookout = d.Lookouts[s.Lookout].Name
	}
	if s.Spot != 0 {
		out.Spot = d.Spots[s.Spot].Name
	}
	out.Before, out.After = nameOf(d, s.Before), nameOf(d, s.After)
	return out
}

// toolsOf is what the tasks of a step hold and need: tools by hand, items that
// bring none, the stove.
func toolsOf(d *sim.Drill, s steps.Step) (tools []Tool) {
	for _, i := range s.Tasks {
		t := &d.Tasks[i]
		for _, need := range t.Tools {
			count := need.Count
			if need.Each {
				count = 1
			}
			tools = append(tools, Tool{d.Tools[need.Tool].Name, count})
		}
		for _, item := range t.Needs {
			if len(d.Items[item].Brings) == 0 {
				tools = append(tools, Tool{d.Items[item].Name, 1})
			}
		}
		switch {
		case t.Melt != nil:
			tools = append(tools, Tool{d.Stoves[t.Melt.Stove].Name, 1})
		case t.Warm != nil:
			tools = append(tools, Tool{d.Stoves[t.Warm.Stove].Name, 1})
		}
	}
	return tools
}

func names(d *sim.Drill, people []int) (list []string) {
	for _, p := range people {
		list = append(list, d.People[p].Name)
	}
	return list
}

func nameOf(d *sim.Drill, person int) string {
	if person < 0 {
		return ""
	}
	return d.People[person].Name
}

func sortByFrom(list []Step) {
	slices.SortStableFunc(list, func(a, b Step) int { return cmp.Compare(a.From, b.From) })
}
