package report

import (
	"fmt"
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/doubt"
	"warmby/sim/halt"
	"warmby/sim/stats"
)

// Halts is how late one can halt, in some cases under some orders, for its
// report.
type Halts struct {
	Drill    *sim.Drill // of the first case under the first order, at the arrival of the file
	Arrivals []sim.Time // tried, rising; from the arrival of the file, below 0 for earlier ones
	Step     sim.Time   // from one to the next
	Seed     uint64
	// Runs is how many there are at each arrival, 0 for usual values only; Wanted
	// is how many were asked for, of which Evaluations left fewer.
	Runs, Wanted, Evaluations int
	Played                    int // drills
	Drawn                     bool
	Numbers                   doubt.Numbers
	Cases                     []HaltCase     // the first is told of at length
	Search                    *HaltSearch    // for an order under which one may halt later; nil when there was none
	All                       []cold.Caution // that all cases call for
	Repeat, Cautions          string         // commands, as in [Comparison]
}

// HaltCase is the scenario as it stands, or as a what-if changes it.
type HaltCase struct {
	Name   string // in words
	WhatIf string // "" as it stands
	Orders []Halting
}

// Halting is one case under one order.
type Halting struct {
	Order string // "" for tasks in file order
	*halt.Answer
	Doubted *halt.Answer // with the numbers doubted; nil where there is nothing to doubt
}

// HaltSearch is what came of looking for an order under which one may halt later:
// when there is one, it is the last of the orders of each case.
type HaltSearch struct {
	*halt.Found
	YAML string // the order as it is pasted into a file
}

// Report tells how late one can halt.
func (h Halts) Report() *Report {
	out := &Report{Title: h.title(), Subtitle: h.subtitle(), Repeat: h.Repeat, All: h.Repeat + " --all"}
	for _, w := range h.Warnings() {
		out.Warnings = append(out.Warnings, Say("Warning: {}", w))
	}
	out.Lead = h.lead()
	add := func(more bool, heading string, blocks ...Block) {
		out.Sections = append(out.Sections, Section{heading, blocks, more})
	}
	if h.several() {
		add(false, h.gridHeading(), h.grid())
	}
	add(false, h.arrivalsHeading(), append([]Block{Picture{Drawing: h.Drawing, Caption: h.question(), Table: h.arrivalsShort()}}, h.notes()...)...)
	if h.Search != nil && h.Search.YAML != "" {
		add(true, "The order "+quote(h.Search.Order.Name)+", to paste under orders", Code{h.Search.YAML})
	}
	add(true, "Drill", h.facts())
	add(true, "The latest, in full", h.latest()...)
	for i := range h.Cases {
		for k := range h.Cases[i].Orders {
			add(true, h.every(i, k), h.arrivals(i, k))
		}
	}
	if list := h.doubtedTable(); list != nil {
		add(true, Doubted, list...)
	}
	add(true, "How to read it", h.method())
	out.WithCautions(h.All, h.Cautions)
	return out
}

// first is what is told of at length.
func (h Halts) first() Halting { return h.Cases[0].Orders[0] }

// several reports whether there is anything to hold against each other.
func (h Halts) several() bool { return len(h.Cases) > 1 || len(h.Cases[0].Orders) > 1 }

func (h Halts) site() Site { return SiteOf(h.Drill) }

// when is an arrival on the clock.
func (h Halts) when(i int) Moment { return h.site().At(h.Arrivals[i]) }

// whenever is an arrival on the clock, -1 for none.
func (h Halts) whenever(i int) Sentence {
	if i < 0 {
		return Say("none")
	}
	return Say("{}", h.when(i))
}

// asked is the milestone that must be in time.
func (h Halts) asked() sim.Milestone { return h.Drill.Milestones[h.first().Milestone] }

// sure is the last arrival that is in time often enough for sure, -1 for none;
// with usual values there is no luck, and what is in time is.
func (h Halts) sure(a *halt.Answer) int {
	if h.Runs == 0 {
		return a.Latest()
	}
	return a.LatestSure()
}

// act is what people do at the arrival: they halt, or begin the morning.
func (h Halts) act() string {
	if h.site().Many == "mornings" {
		return "begin"
	}
	return "halt"
}

// question is what is answered.
func (h Halts) question() string { return "How late can we " + h.act() + "?" }

func (h Halts) title() string {
	title := ShortTitle(h.Drill.Title)
	if h.Drill.Order != "" {
		title += fmt.Sprintf(", %q", h.Drill.Order)
	}
	if name := h.Cases[0].WhatIf; name != "" {
		title += fmt.Sprintf(", what if %q", name)
	}
	return title
}

// wanted is the milestone asked about, with its target, or all well.
func (h Halts) wanted() string {
	if h.first().AllWell {
		return "all well"
	}
	return quote(h.asked().Name) + " " + targetWords(h.asked())
}

// often says how often it must be in time.
func (h Halts) often() Sentence {
	if h.Runs == 0 {
		return Say("usual values")
	}
	return Say("{}", Odds{h.first().Odds, h.site().Many})
}

func (h Halts) subtitle() Sentence {
	s := Say("{}, {}", sentenceCapital(Say("{}", h.wanted())), h.often())
	if odds := h.first().ColdOdds; odds > 0 {
		s = Say("{}, nobody too cold in {}", s, Odds{odds, h.site().Many})
	}
	if h.Numbers.Drills > 0 {
		s = Say("{}; {}", s, timedWords(h.Numbers))
	}
	return sentenceEnd(Say("{}; arrivals {} to {}", s, h.when(0), h.when(len(h.Arrivals)-1)))
}

// targetWords writes a target after the name of its milestone: "by dark".
func targetWords(m sim.Milestone) string {
	if onTheClock(m) {
		return "by " + m.ByText
	}
	return "within " + m.ByText
}

// onTheClock reports whether a target stays where it is on the clock.
func onTheClock(m sim.Milestone) bool { return m.ByText == "dark" || strings.Contains(m.ByText, ":") }

// orderName names an order as sentences do.
func orderName(order string) string {
	if order == "" {
		return "file order"
	}
	return quote(order)
}

// Warnings says what should keep readers from leaning on the figures.
func (h Halts) Warnings() (list []Sentence) {
	if h.Runs == 0 {
		list = append(list, Say("usual values only: no run is drawn and no mishap happens, so that every milestone is in time or not, without odds or interval"))
	} else if few := stats.ShareOf(0, int64(h.Runs)).Warning; few != "" {
		list = append(list, Say("{}", few))
	}
	if h.Runs < h.Wanted {
		list = append(list, Say("--evaluations {} leaves {} for each arrival rather than {}: intervals are wider", h.Evaluations, Count{h.Runs, "run"}, h.Wanted))
	}
	if !h.Drawn && h.Runs > 0 {
		list = append(list, Say("nothing in this scenario is left to luck: every run is the same, and intervals say nothing"))
	}
	if m := h.asked(); !h.first().AllWell && !onTheClock(m) {
		list = append(list, Say("{} is asked for by {}, which counts from arrival: it moves with the halt, and only light and weather tell one halt from another", quote(m.Name), m.ByText))
	}
	return append(list, h.stops()...)
}

// stops says which cases come to a stop under which orders, over all arrivals.
func (h Halts) stops() (list []Sentence) {
	for _, c := range h.Cases {
		for _, o := range c.Orders {
			stopped, first := 0, -1
			for i, p := range o.Points {
				if stopped += p.Stopped; p.Stopped > 0 && first < 0 {
					first = i
				}
			}
			if first < 0 {
				continue
			}
			what := Say("the drill")
			if h.several() {
				what = Say("{}, {},", c.Name, orderName(o.Order))
			}
			list = append(list, Briefly(Say("{} came to a stop in {} of {} runs, first when arriving at {} ({}); what was not reached by then counts as never",
				what, stopped, len(o.Points)*max(1, h.Runs), h.when(first), o.Points[first].Stop.Error())))
		}
	}
	return list
}

// facts says what was played.
func (h Halts) facts() Block {
	luck := Say("usual values only, no drawn runs")
	if h.Runs > 0 {
		luck = Say("{} of each, seed {}", Count{h.Runs, "run"}, fmt.Sprint(h.Seed))
	}
	apart := ""
	if len(h.Arrivals) > 1 {
		apart = ", " + Length(h.Step).Write(Full) + " apart"
	}
	return Text{Says: sentence(Say("{}; {} tried{}; {}; played {} drills; the file's own arrival {}", h.Drill.Title,
		Count{len(h.Arrivals), "arrival"}, apart, luck, Grouped(h.Played), Date(h.Drill.Site.Arrival)))}
}

func (h Halts) method() Block {
	luck := Say("Every arrival is played once, with usual values.")
	if h.Runs > 0 {
		luck = Say("Runs {} to {} of seed {}: all arrivals meet the same lengths, mishaps and weather cases. "+
			"Sure: the lower end of the interval is enough too. The toss-up: the share itself is enough, its interval reaches below. "+
			"Each interval holds with {} for one arrival at a time (Wilson's, or the exact one for rare shares).", 0, h.Runs-1, fmt.Sprint(h.Seed), Percent(0.95))
	}
	return Text{Says: Say("Only the arrival moves. Weather rows keep their clock times, and before the first of them the first holds; dark, and targets such as 15:00, stay on the clock, "+
		"so that a halt after the target is too late. What counts from arrival moves with it: targets such as 100 min, those who come behind, lookouts. {} "+
		"It is foretold from lengths in a file: halt sooner when the team is tired, or the place is not found at once.", luck)}
}
