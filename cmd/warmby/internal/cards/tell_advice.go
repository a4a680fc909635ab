package cards

import (
	"math"
	"strings"

	"warmby/cmd/warmby/internal/report"
	"warmby/sim"
	"warmby/sim/ifthen"
	"warmby/sim/stats"
)

// ifThen is the leader's card of what to do when it goes otherwise.
func (t teller) ifThen() Card {
	c := Card{Name: t.Say("if then"), Leaders: true}
	if t.Order != "" {
		c.add(Line{Text: t.quoted(t.Order)})
	}
	for _, a := range t.Advice {
		c.add(Line{Text: t.trouble(a), Bold: true, Rule: true})
		c.add(Line{Text: t.advice(a), Joins: true, Flush: true})
	}
	if len(t.Advice) == 0 {
		c.add(Line{Text: t.Say("no advice"), Rule: true})
	}
	return c
}

// trouble says what has happened.
func (t teller) trouble(a Advice) string {
	name := strings.Join(a.Names, ", ")
	switch a.Kind {
	case ifthen.LateLoad:
		return t.Say("if late", "name", name, "clock", t.clock(a.At))
	case ifthen.DeadStove:
		return t.Say("if dead", "name", name)
	case ifthen.Down:
		return t.Say("if down", "name", t.hurt(a.Names), "after", report.Length(a.At))
	case ifthen.Windy:
		return t.Say("if windy", "wind", report.Quantity{Value: a.Wind, Unit: "m/s"})
	case ifthen.Later:
		return t.Say("if later", "clock", t.clock(a.At))
	case ifthen.NotYet:
		return t.Say("if not yet", "name", name, "clock", t.clock(a.At))
	case ifthen.NotDark:
		return t.Say("if dark before", "name", name, "clock", t.clock(a.At))
	}
	return t.Say("if so", "name", name)
}

// hurt names who it is: anybody where it may be all.
func (t teller) hurt(names []string) string {
	if len(names) > 1 && len(names) == len(t.People) {
		return t.Say("anybody")
	}
	return t.either(names)
}

func (t teller) either(names []string) string {
	if last := len(names) - 1; last > 0 {
		return t.Say("or", "names", strings.Join(names[:last], ", "), "last", names[last])
	}
	return strings.Join(names, "")
}

// advice says what to do, and how sure it is.
func (t teller) advice(a Advice) string {
	if a.Never {
		return t.Say("cannot be finished")
	}
	return t.whatToDo(a) + " " + t.howSure(a)
}

func (t teller) whatToDo(a Advice) string {
	switch {
	case a.Take != "" && a.Kind != ifthen.Later && a.Kind != ifthen.Windy && (a.At == sim.Never || a.Until < a.At):
		return t.Say("take if known", "order", t.quoted(a.Take), "clock", t.clock(a.Until))
	case a.Take != "":
		return t.Say("take order", "order", t.quoted(a.Take))
	case len(a.Leave) > 0:
		return t.Say("leave", "tasks", strings.Join(a.Leave, ", "))
	}
	return t.Say("keep order")
}

// howSure says what comes of it, and how often.
func (t teller) howSure(a Advice) string {
	name := a.Milestone
	switch {
	case a.With == nil:
		return t.Say("comes later", "name", name, "clock", t.clock(byMinute(a.Usual)), "else", t.clock(byMinute(a.Else)))
	case name == "":
		return t.Say("all in time", "often", t.often(*a.With), "else", t.often(*a.Without))
	case a.Take == "" && len(a.Leave) == 0:
		return t.Say("in time only", "name", name, "often", t.often(*a.With), "else", t.often(*a.Without))
	}
	return t.Say("in time", "name", name, "often", t.often(*a.With), "else", t.often(*a.Without))
}

func byMinute(at sim.Time) sim.Time {
	if at == sim.Never {
		return at
	}
	return sim.ByMinute(at)
}

// often is a share in plain words.
func (t teller) often(s stats.Share) string {
	switch n := InTen(s); n {
	case 0:
		return t.Say("hardly ever")
	case 10:
		return t.Say("nearly always")
	default:
		return t.Say("in ten", "n", report.Number(n))
	}
}

// InTen is how often in ten times something is so, as cards say it.
func InTen(s stats.Share) int { return int(math.Round(10 * s.Value)) }
