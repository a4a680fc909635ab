package main

import (
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/fast"
)

// playAgain plays a changed drill with the luck of a timeline.
func playAgain(d *sim.Drill, luck *sim.Luck) (*sim.Timeline, error) {
	p, err := fast.Compile(d)
	if err != nil {
		return nil, err
	}
	return p.Worker().Timeline(luck)
}

// darkText says what the dark cost: the drill played again as if it stayed
// light. It is empty when the dark slows nothing.
func darkText(tl *sim.Timeline, width int) string {
	d := tl.Drill
	slows, dark := false, false
	for i := range d.Tasks {
		for _, s := range d.Tasks[i].Slowed {
			slows = slows || s.When.Kind == sim.Dark && !d.Site.Lights || s.When.Kind == sim.DarkWithLights && d.Site.Lights
		}
	}
	for _, l := range d.Light {
		dark = dark || l.Dark && l.At <= tl.End
	}
	if !slows || !dark {
		return ""
	}
	light := *d
	light.Light = []sim.Light{{At: 0}}
	again, err := playAgain(&light, tl.Luck)
	if err != nil {
		return ""
	}
	var parts []string
	for i, m := range d.Milestones {
		was, is := again.Milestones[i], tl.Milestones[i]
		switch {
		case is == sim.Never && was == sim.Never:
		case is == sim.Never:
			parts = append(parts, fmt.Sprintf("%s never instead of at %s", m.Name, sim.Clock(was)))
		case is > was:
			parts = append(parts, fmt.Sprintf("%s %s later", m.Name, sim.Clock(is-was)))
		case is < was:
			parts = append(parts, fmt.Sprintf("%s %s sooner (other people were free at other times)", m.Name, sim.Clock(was-is)))
		}
	}
	if len(parts) == 0 {
		return wrap("It grows dark, but moves no milestone.", width, "  ", "  ")
	}
	return wrap("Played again as if it stayed light, all else equal. The dark cost: "+strings.Join(parts, "; ")+".", width, "  ", "  ")
}

// The relief intervals that are tried for a lookout.
const (
	reliefStep    = 5 * sim.Minute
	reliefLongest = 2 * sim.Hour
)

// reliefText proposes for each lookout with relief the longest interval that
// keeps the heat debt of all who stand there within the limit, all else equal.
func reliefText(tl *sim.Timeline, people []cold.Person, width int) string {
	d := tl.Drill
	if !anyAccount(people) {
		return ""
	}
	var b strings.Builder
	for i := range d.Lookouts {
		l := &d.Lookouts[i]
		if l.Relief == 0 {
			continue
		}
		var over, others []string
		for _, who := range pastLimit(people) {
			if standsAt(tl, who, i) {
				over = append(over, people[who].Name)
			} else {
				others = append(others, people[who].Name)
			}
		}
		now := "keeps all who stand there within the limit"
		if over != nil {
			now = "takes " + list(over) + " over the limit"
		}
		now += fmt.Sprintf(" of %d Wh/m2", cold.HeatLimit)
		if others != nil {
			now += " (" + list(others) + " passes it without standing there)"
			if len(others) > 1 {
				now = strings.Replace(now, " passes it", " pass it", 1)
			}
		}
		longest := longestRelief(tl, i)
		proposal := fmt.Sprintf("none from %s to %s keeps all of them within it", sim.Clock(reliefStep), sim.Clock(reliefLongest))
		if longest > 0 {
			proposal = fmt.Sprintf("the longest that keeps all who stand there within it is %s (tried in steps of %s up to %s)",
				sim.Clock(longest), sim.Clock(reliefStep), sim.Clock(reliefLongest))
		}
		b.WriteString(wrap(fmt.Sprintf("%s: relief every %s %s; %s.", l.Name, sim.Clock(l.Relief), now, proposal), width, "  ", "    "))
	}
	return b.String()
}

func anyAccount(people []cold.Person) bool {
	for i := range people {
		if people[i].Why == "" {
			return true
		}
	}
	return false
}

// pastLimit returns those whose debt passes the limit, by their places in the
// roster.
func pastLimit(people []cold.Person) (over []int) {
	for i := range people {
		if people[i].Why == "" && people[i].PassedAt != sim.Never {
			over = append(over, i)
		}
	}
	return over
}

// standsAt reports whether somebody stands at a lookout at some time.
func standsAt(tl *sim.Timeline, person, lookout int) bool {
	return slices.ContainsFunc(tl.People[person], func(s sim.Stretch) bool { return s.What == sim.Watching && s.Lookout == lookout })
}

// longestRelief returns the longest interval of a lookout with which nobody who
// stands there passes the limit, 0 for none.
func longestRelief(tl *sim.Timeline, lookout int) sim.Time {
	for relief := reliefLongest; relief > 0; relief -= reliefStep {
		d := *tl.Drill
		d.Lookouts = append([]sim.Lookout(nil), d.Lookouts...)
		d.Lookouts[lookout].Relief = relief
		again, err := playAgain(&d, tl.Luck)
		if err != nil {
			continue
		}
		if !slices.ContainsFunc(pastLimit(cold.Account(again)), func(who int) bool { return standsAt(again, who, lookout) }) {
			return relief
		}
	}
	return 0
}
