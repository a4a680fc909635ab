package scenarios

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v4"
)

// Facts are what is known of one evening, to be laid over a scenario. Values are
// written as in a file; what is empty stays as the file has it.
type Facts struct {
	Arrive  string   // a clock time on the file's day, in the file's offset: "15:30"
	Air     string   // in all weather rows: "-28 C"
	Wind    string   // in all weather rows: "8 m/s"
	Without []string // people who are not there
	Late    []Late
	Dead    []Dead
}

// Late is a load or a person that comes so long after the team.
type Late struct{ Name, By string }

// Dead is how many stoves of a kind do not work.
type Dead struct {
	Stove string
	Count int // 1 or more
}

// OddFact is a fact that cannot be laid over a scenario.
type OddFact struct {
	Fact   string // arrive, air, wind, without, late or stove-dead
	Value  string // as it was given
	Reason string // what is wrong with it
	Hint   string // a likely cure
}

// OddFacts are all facts that cannot be laid over a scenario.
type OddFacts struct{ List []OddFact }

// Error returns a line for each fact.
func (o *OddFacts) Error() string {
	lines := make([]string, len(o.List))
	for i, one := range o.List {
		lines[i] = fmt.Sprintf("%s %s: %s", one.Fact, one.Value, one.Reason)
	}
	return strings.Join(lines, "\n")
}

func (o *OddFacts) add(fact, value, reason, hint string) {
	o.List = append(o.List, OddFact{fact, Printable(value), Printable(reason), Printable(hint)})
}

// Tonight returns the scenario with the facts of an evening laid over it, as if
// they had been written into a copy of the file, and remarks on what they bring
// about. A target on the clock that has passed when the team arrives is wanted
// at once ("0 min"), so that it is missed. The error is an *[OddFacts] with all
// that is odd.
func (s *Scenario) Tonight(f Facts) (*Scenario, []string, error) {
	o := &overlay{Scenario: s, odd: &OddFacts{}, root: s.doc.root}
	o.without(f.Without)
	o.dead(f.Dead)
	for _, l := range f.Late {
		o.late(l)
	}
	o.arrive(f.Arrive)
	o.weather("air", f.Air)
	o.weather("wind", f.Wind)
	if len(o.odd.List) > 0 {
		return nil, nil, o.odd
	}
	doc := *s.doc
	doc.root, doc.gone = o.root, append(doc.gone[:len(doc.gone):len(doc.gone)], o.gone...)
	b, list := build(&doc)
	if len(list) > 0 {
		p := &Problems{File: s.doc.file, List: list}
		p.finish()
		return nil, nil, fmt.Errorf("with all these facts together: %w", p)
	}
	return b.scenario(), o.remarks, nil
}

// overlay lays facts over the tree of a scenario, one after the other.
type overlay struct {
	*Scenario
	root    *yaml.Node
	gone    []string
	odd     *OddFacts
	remarks []string
}

// try takes a tree with one more fact in it, if the file can be read with it.
func (o *overlay) try(fact, value string, change func(root *yaml.Node) (*yaml.Node, error)) {
	alone, err := change(o.doc.root)
	if err == nil {
		var list []Problem
		doc := *o.doc
		doc.root, doc.gone = alone, append(doc.gone[:len(doc.gone):len(doc.gone)], o.gone...)
		if _, list = build(&doc); len(list) > 0 {
			p := &Problems{List: list}
			p.finish()
			o.odd.add(fact, value, p.List[0].Message, p.List[0].Hint)
			return
		}
	} else {
		reason, hint, _ := strings.Cut(err.Error(), "\n  hint: ")
		o.odd.add(fact, value, reason, hint)
		return
	}
	o.root, _ = change(o.root)
}

// without takes people away, unless work is left that nobody else may do.
func (o *overlay) without(names []string) {
	gone := map[string]bool{}
	for _, name := range names {
		if _, known := o.b.people.index[name]; !known {
			o.odd.add("without", name, fmt.Sprintf("nobody is called %q", name), nameHint(name, o.b.people.list))
			continue
		}
		gone[name] = true
	}
	switch {
	case len(gone) == 0:
		return
	case len(gone) == len(o.b.people.list):
		o.odd.add("without", strings.Join(o.b.people.list, ", "), "nobody is left", "leave somebody in")
		return
	case o.missed(gone):
		return
	}
	change := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	for _, name := range o.b.people.list {
		if gone[name] {
			o.gone = append(o.gone, name)
			change.Content = append(change.Content, wordNode(name), wordNode("absent"))
		}
	}
	o.try("without", strings.Join(o.gone, ", "), func(root *yaml.Node) (*yaml.Node, error) {
		m := newMerger(o.b)
		root = m.mergePeople(root, change)
		if len(m.list) > 0 {
			return nil, errors.New(m.list[0].Message)
		}
		return root, nil
	})
}

// dead takes stoves away, unless none is left for a task.
func (o *overlay) dead(list []Dead) {
	for _, one := range list {
		value := one.Stove
		if one.Count != 1 {
			value += "=" + strconv.Itoa(one.Count)
		}
		kind, known := o.b.stoves.index[one.Stove]
		if !known {
			o.odd.add("stove-dead", value, fmt.Sprintf("no stove is called %q", one.Stove), nameHint(one.Stove, o.b.stoves.list))
			continue
		}
		left := o.drill.Stoves[kind].Count - one.Count
		if left < 0 {
			o.odd.add("stove-dead", value, fmt.Sprintf("there are %d of %q, not %d", o.drill.Stoves[kind].Count, one.Stove, one.Count), "give how many do not work, such as "+one.Stove+"=1")
			continue
		}
		if task := o.burning(kind); left == 0 && task != "" {
			o.odd.add("stove-dead", value, fmt.Sprintf("no other %q is there, and %q burns one", one.Stove, task), o.otherStove(kind, task))
			continue
		}
		o.try("stove-dead", value, func(root *yaml.Node) (*yaml.Node, error) {
			stoves := valueOf(root, "stoves")
			stove := with(valueOf(stoves, one.Stove), wordNode("count"), countNode(left))
			return with(root, keyOf(root, "stoves"), with(stoves, keyOf(stoves, one.Stove), stove)), nil
		})
	}
}

// late lets a load or a person come later.
func (o *overlay) late(l Late) {
	value := l.Name + "=" + l.By
	_, load := o.b.loads.index[l.Name]
	_, person := o.b.people.index[l.Name]
	if !load && !person {
		known := append(append([]string(nil), o.b.loads.list...), o.b.people.list...)
		o.odd.add("late", value, fmt.Sprintf("no load and nobody is called %q", l.Name), nameHint(l.Name, known))
		return
	}
	for _, name := range o.gone {
		if person && !load && name == l.Name {
			o.odd.add("late", value, fmt.Sprintf("%s is not there at all", name), "leave out one of the two")
			return
		}
	}
	by, err := parsedValue(value, l.By)
	if err != nil {
		o.odd.add("late", value, "must be a length of time", "such as "+l.Name+"=20min")
		return
	}
	o.try("late", value, func(root *yaml.Node) (*yaml.Node, error) {
		if load {
			loads := valueOf(root, "loads")
			return with(root, keyOf(root, "loads"), with(loads, keyOf(loads, l.Name), with(valueOf(loads, l.Name), wordNode("arrives"), by))), nil
		}
		people := newMerger(o.b).eachPerson(valueOf(root, "people"), func(name string, p *yaml.Node) (*yaml.Node, bool) {
			if name == l.Name {
				return with(p, wordNode("arrives"), by), true
			}
			return nil, true
		})
		return with(root, keyOf(root, "people"), people), nil
	})
}

// arrive moves the arrival to another time of the file's day.
func (o *overlay) arrive(at string) {
	if at == "" {
		return
	}
	clock, ok := parseClock(strings.TrimSpace(at))
	old := o.drill.Site.Arrival
	switch {
	case !ok:
		o.odd.add("arrive", at, fmt.Sprintf("not a clock time, got %q", at), "such as 15:30 (00:00 to 23:59)")
		return
	case old.IsZero():
		o.odd.add("arrive", at, "the file does not say on which day the team arrives", "add it under \"site\", such as arrival: 2027-01-16 13:40 +02:00")
		return
	}
	year, month, day := old.Date()
	now := time.Date(year, month, day, 0, 0, 0, 0, old.Location()).Add(clock)
	o.try("arrive", at, func(root *yaml.Node) (*yaml.Node, error) {
		site := valueOf(root, "site")
		root = with(root, keyOf(root, "site"), with(site, keyOf(site, "arrival"), wordNode(now.Format(time.RFC3339))))
		return o.passed(root, now, at), nil
	})
	o.sayPassed(now, at)
}

// passed makes targets that have passed at an arrival wanted at once.
func (o *overlay) passed(root *yaml.Node, now time.Time, at string) *yaml.Node {
	for _, name := range o.targetsBefore(now) {
		all := valueOf(root, "milestones")
		m := valueOf(all, name)
		root = with(root, keyOf(root, "milestones"), with(all, keyOf(all, name), with(m, keyOf(m, "by"), wordNode("0 min"))))
	}
	return root
}

func (o *overlay) sayPassed(now time.Time, at string) {
	for _, m := range o.drill.Milestones {
		for _, name := range o.targetsBefore(now) {
			if m.Name == name {
				o.remarks = append(o.remarks, Printable(fmt.Sprintf("%s is wanted by %s, before you arrive at %s: it counts as missed.", m.Name, m.ByText, at)))
			}
		}
	}
}

// targetsBefore lists the milestones whose target on the clock lies before a
// moment of arrival, and not before the file's own.
func (o *overlay) targetsBefore(now time.Time) (list []string) {
	later := now.Sub(o.drill.Site.Arrival).Milliseconds()
	for _, m := range o.drill.Milestones {
		if _, clock := parseClock(m.ByText); clock && int64(m.By) < later {
			list = append(list, m.Name)
		}
	}
	return list
}

// weather sets a value in all rows.
func (o *overlay) weather(key, value string) {
	switch {
	case value == "":
		return
	case valueOf(o.doc.root, "weather") == nil:
		o.odd.add(key, value, "the file has no weather", "add it there: weather: {at: 0 min, air: -20 C, wind: 4 m/s}")
		return
	}
	o.try(key, value, func(root *yaml.Node) (*yaml.Node, error) { return withWeather(root, "weather."+key, key, value) })
}

// wordNode is a word of a tree that no file has.
func wordNode(text string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text}
}

func countNode(n int) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!int", Value: strconv.Itoa(n)}
}
