package report

import (
	"errors"
	"fmt"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/compare"
	"warmby/sim/split"
	"warmby/sim/stats"
)

// Splits is what team sizes and splits of a team do, for its report.
type Splits struct {
	*split.Answer
	Game  *split.Game
	Drill *sim.Drill // under the first order
	Order string     // under which worth was asked for; "" for the first
	// Cases are what-ifs by name, the scenario as it stands first as "" unless one
	// what-if was asked for alone.
	Cases []string
	Drawn bool
	// YAML is the best split as it is pasted into a file; "" where it stands there.
	YAML             string
	All              []cold.Caution // that all cases call for
	Repeat, Cautions string         // commands, as in [Comparison]
}

// Report tells what one more is worth, and which split is for which size.
func (s Splits) Report() *Report {
	out := &Report{Title: s.title(), Subtitle: s.subtitle(), Repeat: s.Repeat, All: s.Repeat + " --all"}
	told := s.tellWarnings(out)
	out.Lead = s.lead(most - 1 - lines(Say("{}. {}", out.Title, out.Subtitle)) - told)
	add := func(more bool, heading string, blocks []Block) {
		if len(blocks) > 0 {
			out.Sections = append(out.Sections, Section{heading, blocks, more})
		}
	}
	add(len(s.Sizes) <= shownSizes, "Team sizes under the best split of each", append(s.sizes(), s.sizesNotes()...))
	add(false, s.worthHeading(), s.worth())
	add(false, s.kindsHeading(), s.kinds())
	add(false, "Which split bends least", s.bendsShort())
	if shown := s.Shown(); shown != nil {
		add(false, fmt.Sprintf("Every milestone %s, %s", s.measure(), s.people(shown.People)), s.milestones(shown))
		add(false, fmt.Sprintf("Who is in which group, %s", s.people(shown.People)), s.groups(shown))
	}
	s.inFull(add)
	out.WithCautions(s.All, s.Cautions)
	return out
}

// shownSizes is how many sizes a lead has mostly room for.
const shownSizes = 3

// inFull adds what only who asks for everything reads.
func (s Splits) inFull(add func(more bool, heading string, blocks []Block)) {
	add(true, "What was tried", s.facts())
	add(true, "What is worth nothing that can be told", s.rest())
	if len(s.Sizes) > 1 {
		add(true, "Every milestone under the best split of each size", s.milestonesBySize())
	}
	add(true, "Where more people are later", s.laterInFull())
	if shown := s.Shown(); shown != nil {
		add(true, "Cold, "+s.people(shown.People), s.cold(shown))
		if s.YAML != "" {
			add(true, fmt.Sprintf("The best split for %s, to paste under \"orders\"", s.people(shown.People)), []Block{Code{Text: s.YAML}})
		}
	}
	add(true, "The split that bends least, by case", s.bendsInFull())
	add(true, "How to read it", s.method())
}

func (s Splits) site() Site { return SiteOf(s.Drill) }

func (s Splits) milestone() sim.Milestone { return s.Drill.Milestones[s.Game.Milestone] }

func (s Splits) usual() bool { return s.Game.Runs == 0 }

func (s Splits) own() int { return len(s.Drill.People) }

// people counts people.
func (s Splits) people(n int) string {
	if n == 1 {
		return "1 person"
	}
	return fmt.Sprintf("%d people", n)
}

func (s Splits) title() string {
	title := ShortTitle(s.Drill.Title) + ", a team of " + fmt.Sprint(s.own())
	if s.Cases[0] != "" {
		title += fmt.Sprintf(", what if %q", s.Cases[0])
	}
	return title
}

// measure says in what sense a moment is meant.
func (s Splits) measure() string {
	if s.usual() {
		return "with usual values"
	}
	return "on average"
}

func (s Splits) subtitle() Sentence {
	says := Say("{} {}", capital(s.milestone().Name), s.measure())
	if dark := darkOf(s.Drill); !dark.IsEmpty() {
		says = Say("{}; {}", says, dark)
	}
	return sentenceEnd(says)
}

// form names a form of split in a table: an order in quotation marks, or what was
// found.
func (s Splits) form(f split.Form) string {
	switch {
	case f == split.Form{}:
		return "the best split"
	case f.Order != "":
		return quote(f.Order)
	case f.Listed:
		return "file order"
	case f.Groups == 1:
		return "found: 1 group"
	}
	return fmt.Sprintf("found: %d groups", f.Groups)
}

// under names a split in a sentence, after "with".
func (s Splits) under(one *split.Split) string {
	switch {
	case one.Order != "":
		return quote(one.Order)
	case one.Form().Listed:
		return "the sequence of the file"
	case len(one.Drill.Groups) == 1:
		return "an order found here for one group"
	}
	return fmt.Sprintf("a split found here into %d groups", len(one.Drill.Groups))
}

// tellWarnings gives a report what must be known before its figures are used, and
// returns how many lines that takes.
func (s Splits) tellWarnings(out *Report) (taken int) {
	for _, w := range s.unreliable() {
		says := Say("Warning: {}", w)
		out.Warnings, taken = append(out.Warnings, says), taken+lines(says)
	}
	return taken
}

// Warnings says what should keep readers from leaning on the figures, and which
// sizes cannot play.
func (s Splits) Warnings() []Sentence {
	list := s.unreliable()
	if s.Least != nil {
		list = append(list, s.cannot(s.Least))
	}
	for _, size := range s.Sizes {
		list = append(list, s.ofSize(size)...)
	}
	return list
}

// unreliable says why all figures flatter or are rough.
func (s Splits) unreliable() (list []Sentence) {
	if s.usual() {
		list = append(list, Say("usual values only: nothing is drawn and no mishap happens, so that times flatter"))
	} else if few := stats.ShareOf(0, int64(s.Game.Runs)).Warning; few != "" {
		list = append(list, Say("{}", few))
	} else if rare := compare.RarestOf(s.Drill, s.Game.Runs); rare != nil {
		list = append(list, RareWarning(rare, s.Game.Runs))
	}
	if !s.Drawn && !s.usual() {
		list = append(list, Say("nothing in this scenario is left to luck: every run is the same, and intervals say nothing"))
	}
	return list
}

// sizesNotes says which sizes cannot play, and where to look again.
func (s Splits) sizesNotes() (list []Block) {
	for _, w := range s.Warnings()[len(s.unreliable()):] {
		list = append(list, Text{Item: true, Says: sentence(w)})
	}
	return list
}

func (s Splits) ofSize(size *split.Size) (list []Sentence) {
	if size.Best < 0 {
		list = append(list, s.cannot(size))
	}
	if one := size.SoonerThanBest(s.Game.Milestone); one != nil {
		list = append(list, Say("{}: the search chose {}, but {} is sooner here: let it play more drills (--evaluations)",
			s.people(size.People), s.under(size.BestSplit()), s.under(one)))
	}
	for _, one := range size.Splits {
		if one.Stopped > 0 {
			list = append(list, Say("{} with {} came to a stop in {} of {} runs, which count as never", s.people(size.People), s.under(one), one.Stopped, s.Game.Runs))
		}
	}
	return list
}

// cannot says why a size cannot play: the first reason, and how many more there
// are.
func (s Splits) cannot(size *split.Size) Sentence {
	var n *sim.NeverError
	if !errors.As(size.Why, &n) || len(n.Causes) == 0 {
		return Say("{} cannot play this drill: {}", s.people(size.People), fmt.Sprint(size.Why))
	}
	text := (&sim.NeverError{Causes: n.Causes[:1]}).Error()
	if more := len(n.Causes) - 1; more > 0 {
		text += fmt.Sprintf(" (and %d more)", more)
	}
	return Say("{} cannot play this drill: {}", s.people(size.People), text)
}

// change holds size i against the one before it, under one form of split.
func (s Splits) change(i int, form split.Form) *split.Change {
	return split.ChangeAt(s.Sizes, i, form, s.Game.Milestone)
}

// Forms lists the best split and then all forms that there are at any size.
func (s Splits) Forms() []split.Form {
	return append([]split.Form{{}}, split.Forms(s.Sizes)...)
}

// Later lists where more people are later, beyond what luck explains, with the best
// split or with an order of the file.
func (s Splits) Later() (list []*split.Change) {
	for i := range s.Sizes {
		for _, form := range s.Forms() {
			if c := s.change(i, form); form.Groups == 0 && c.Later() {
				list = append(list, c)
			}
		}
	}
	return list
}

// facts says what was played.
func (s Splits) facts() []Block {
	tried := 0
	for _, size := range s.Sizes {
		tried += size.Tried
	}
	luck := Say("usual values only, no drawn runs")
	if !s.usual() {
		luck = Say("{} of each that was chosen, seed {}", Count{s.Game.Runs, "run"}, fmt.Sprint(s.Game.Seed))
	}
	says := Say("{}; milestone {}; {}, {} splits tried; played {} drills in search; {}", s.Drill.Title, quote(s.milestone().Name),
		Count{len(s.Sizes), "team size"}, Grouped(tried), Grouped(s.Game.Played()), luck)
	if n := s.Game.Evaluations; n > 0 {
		says = Say("{} (at most {} in search)", says, Grouped(n))
	}
	if n := len(s.Cases) - 1; n > 0 {
		says = Say("{}; as it stands and {}", says, Count{n, "what-if"})
	}
	return []Block{Text{Says: sentence(says)}}
}

// when is the mean of a milestone on the clock, or why there is none.
func (s Splits) when(m stats.Mean) Sentence {
	if !m.OK() {
		return Say("none")
	}
	return Say("{}", OnAverage{m, s.site()})
}

// by is how much sooner something is on average; below 0 it is later.
func (s Splits) by(m stats.Mean) Sentence {
	switch {
	case !m.OK():
		return Say("no mean ({})", m.Why)
	case m.Runs == 1:
		return Say("{}", Sooner(millis(m.Value)))
	}
	return Say("{}", Difference{m})
}

// versus says how far the first of two is sooner, or that there is no telling.
func (s Splits) versus(d stats.Difference) Sentence {
	switch {
	case !d.Mean.OK():
		return Say("no mean of it")
	case split.Ahead(d) != 0:
		return s.by(d.Mean.Negated())
	case d.Mean.Value == 0 && (d.Mean.Runs == 1 || d.Mean.SD == 0):
		return Say("the same")
	case d.Mean.Runs < stats.FewRuns:
		return Say("too few runs")
	}
	return Say("level")
}
