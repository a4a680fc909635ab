package report

import (
	"fmt"
	"math"

	"warmby/sim"
	"warmby/sim/inside"
	"warmby/sim/oddity"
)

// FindingOf tells a remark.
func FindingOf(r oddity.Remark) Finding {
	kind := WorthALook
	if r.Kind == oddity.NoTarget {
		kind = ToKnow
	}
	f := Finding{Kind: kind}
	switch {
	case r.Kind < oddity.NeverReached:
		f.Says, f.Hint = ofDrill(r)
	case r.Kind < oddity.JacketLate:
		f.Says, f.Hint = ofMilestones(r)
	default:
		f.Says, f.Hint = ofEvening(r)
	}
	return f
}

// ofDrill tells what is odd about a drill that nobody has played.
func ofDrill(r oddity.Remark) (Sentence, string) {
	d := r.Drill
	switch r.Kind {
	case oddity.ColdShelter:
		return Say("{} asks for {}, but {} holds no more than {} in {}, {}", quote(d.Tasks[r.Task].Name), degrees(d.Tasks[r.Task].Warm.To),
			quote(d.Stoves[r.Stove].Name), degrees(r.Value), quote(d.Shelters[r.Shelter].Name), weatherWhen(r)), "ask for less, or make the skin thicker, the air changes fewer (never none) or the stove stronger"
	case oddity.HeavyLoad:
		return Say("load {} weighs {}, close to its limit of {}", quote(d.Loads[r.Index].Name), kilograms(r.Value), kilograms(d.Loads[r.Index].Limit)),
			"snow, ice and wet canvas weigh too: leave some of the limit for them"
	case oddity.EmptyLookout:
		l := d.Lookouts[r.Index]
		return Say("lookout {} has {} and only {} in \"who\": some stay empty", quote(l.Name), Count{l.Places, "place"}, len(l.Who)), ""
	case oddity.NoRelief:
		l := d.Lookouts[r.Index]
		return Say("lookout {} has {} and nobody more in \"who\": nobody can ever be relieved", quote(l.Name), Count{l.Places, "place"}), ""
	case oddity.NeverLit:
		return Say("{} puts out {}, which warms no shelter", quote(d.Tasks[r.Task].Name), quote(d.Stoves[r.Stove].Name)),
			"only stoves that a warm-up has lit burn on; a stove under a pot goes out with it"
	case oddity.TooWarmAtStart:
		return Say("{} is at {} at the start, and {} can hold no more than {} in it", quote(d.Shelters[r.Shelter].Name), degrees(*d.Shelters[r.Shelter].AtStart),
			quote(d.Stoves[r.Stove].Name), degrees(r.Value)), "give the temperature that it has on arrival"
	case oddity.OtherLights:
		when, lights, other := d.Tasks[r.Task].Mishap.When.String(), "no lights", sim.Condition{Kind: sim.Dark}
		if d.Site.Lights {
			lights, other = "lights", sim.Condition{Kind: sim.DarkWithLights}
		}
		return Say("the mishap of {} has another chance when {}, which it never is: the team has {}", quote(d.Tasks[r.Task].OwnName()), quote(when), lights),
			fmt.Sprintf("write \"when: %s\", or change \"lights\" of the site", other)
	case oddity.NearNothing:
		return Say("{} takes less than a tenth of its usual {} in {} of 100 runs", quote(d.Tasks[r.Task].OwnName()), Length(d.Tasks[r.Task].Amount.Usual()), int(math.Round(100*r.Value))),
			"no work goes so fast: give three values, [quick, usual, slow]"
	}
	return neverUsed(r)
}

// neverUsed tells of what nothing uses.
func neverUsed(r oddity.Remark) (Sentence, string) {
	d := r.Drill
	what, name, cure := "", "", ""
	switch r.Kind {
	case oddity.UnusedTool:
		what, name, cure = "tool", d.Tools[r.Index].Name, "name it in \"tools\" of a task"
	case oddity.UnusedItem:
		what, name, cure = "item", d.Items[r.Index].Name, "name it in \"needs\" of a task, or leave it packed: it still has to be unloaded"
	case oddity.UnusedStove:
		what, name, cure = "stove", d.Stoves[r.Index].Name, "burn it in a \"melt\" or \"warm\""
	case oddity.UnusedSpot:
		what, name, cure = "spot", d.Spots[r.Index].Name, "name it as the \"spot\" of a task or lookout"
	default:
		what, name, cure = "skill", d.Skills[r.Index], "ask for it in \"skills\" of a task"
	}
	return Say("{} {} is never used", what, quote(name)), cure
}

// weatherWhen says in what weather.
func weatherWhen(r oddity.Remark) Sentence {
	row := r.Drill.Weather[r.Weather].Rows[r.Index]
	s := Say("with {} outside from {} on", degrees(row.Air), Length(r.At))
	if len(r.Drill.Weather) > 1 {
		s = Say("{} (weather {})", s, quote(r.Drill.Weather[r.Weather].Name))
	}
	return s
}

func kilograms(v float64) Quantity { return Quantity{Value: v, Unit: "kg", Decimals: 1} }

// withOrder begins a sentence about one order.
func withOrder(d *sim.Drill) string {
	if d.Order == "" {
		return "tasks in file order"
	}
	return fmt.Sprintf("order %q", d.Order)
}

// ofMilestones tells of milestones and stoves as they were played.
func ofMilestones(r oddity.Remark) (Sentence, string) {
	d := r.Drill
	switch r.Kind {
	case oddity.NoTarget:
		m := d.Milestones[r.Index]
		return Say("milestone {} is asked for by {}, which does not come", quote(m.Name), m.ByText), ""
	case oddity.StoveAlone:
		return Say("{}: {} burns in {} with nobody there for {}, from {} on ({})", withOrder(d), quote(d.Stoves[r.Stove].Name), quote(d.Shelters[r.Shelter].Name),
			Length(r.To-r.At), Length(r.At), quote(d.Tasks[r.Task].Name)), "give it a lookout from its lighting on with \"unless somebody works there\", or put it out"
	}
	m := d.Milestones[r.Index]
	s := Say("{}: milestone {} comes after {}, {} later than asked for", withOrder(d), quote(m.Name), Length(r.At), Length(r.At-m.By))
	if r.Best > m.By && r.Best != sim.Never {
		return Say("{}; no order can make it come before {}", s, Length(r.Best)), "set a later target, or make what it waits for shorter"
	}
	return s, ""
}

// NeverReached tells of a milestone that is never reached.
func NeverReached(tl *sim.Timeline, milestone int) Finding {
	return Finding{Kind: WorthALook, Says: Say("{}: milestone {} is never reached: {}", withOrder(tl.Drill), quote(tl.Drill.Milestones[milestone].Name), WhyMilestone(tl, milestone))}
}

// Stopped tells what is reached before a drill comes to a stop, and what never is.
func Stopped(tl *sim.Timeline) Finding {
	var done, never []Sentence
	for i, m := range tl.Drill.Milestones {
		if at := tl.Milestones[i]; at == sim.Never {
			never = append(never, Say("{}", quote(m.Name)))
		} else {
			done = append(done, Say("{} after {}", quote(m.Name), Length(at)))
		}
	}
	says := Say("nothing is reached by then")
	if done != nil {
		says = Say("reached by then: {}", Join(done, ", "))
	}
	return Finding{Kind: ToKnow, Says: Say("{}: it comes to a stop after {}; {}; never: {}", withOrder(tl.Drill), Length(tl.End), says, Join(never, ", "))}
}

// AloneIn tells of a stove that is left alone in a what-if, with an order.
func AloneIn(whatIf, order string, d *sim.Drill, l inside.Left) Finding {
	return Finding{Kind: ToKnow, Says: Say("what if {}: {} burns in {} with nobody there for {}, from {} on ({})", quote(whatIf), quote(d.Stoves[l.Stove].Name),
		quote(d.Shelters[l.Shelter].Name), Length(l.To-l.From), Length(l.From), order)}
}

// ofEvening tells what is odd about an evening as it was played.
func ofEvening(r oddity.Remark) (Sentence, string) {
	d := r.Drill
	switch r.Kind {
	case oddity.JacketLate:
		who := Say("{} stands", d.People[r.Person].Name)
		if r.Value > 0 {
			who = Say("{} (and {} more) stands", d.People[r.Person].Name, int(r.Value))
		}
		return Say("{}: {} about for {} in what was worn on the march, from {} on", withOrder(d), who, Length(r.To-r.At), Length(r.At)),
			"put a task with \"layers on\" first, best with \"each: true\""
	case oddity.NobodyEats:
		return Say("nobody eats: no task says so, in its name or in \"what\""), "such as eat supper: {takes: 15 min, each: true}"
	case oddity.NobodyDrinks:
		return Say("nobody drinks: no task says so, in its name or in \"what\""), "such as serve tea: {takes: 5 min}, after it is melted"
	case oddity.NeverEats:
		return Say("{}: {} never eats, as others do each for himself", withOrder(d), d.People[r.Person].Name), "give \"each\" tasks to all, or say in \"who\" whom they are for"
	case oddity.NeverDrinks:
		return Say("{}: {} never drinks, as others do each for himself", withOrder(d), d.People[r.Person].Name), "give \"each\" tasks to all, or say in \"who\" whom they are for"
	case oddity.NothingInside:
		return Say("{}: {} is warm from {} on, and then nobody has a task in it or goes in", withOrder(d), quote(d.Shelters[r.Shelter].Name), Length(r.At)),
			"give eating, bottles and dry socks a spot in it, or ask why it is warmed"
	case oddity.LittleWater:
		return Say("only {} of water a head are made, for {}", litres(r.Value), Count{len(d.People), "head"}),
			"a hot drink, supper and a bottle for the night take three quarters of a litre a head and more"
	}
	m := d.Milestones[r.Index]
	s := Say("{} is in time ({}) in {} at best ({})", quote(m.Name), targetWords(m), Share{Share: *r.Share, Of: SiteOf(d).Many}, withOrder(d))
	return s, "set a later target, or look for a better order: warmby improve"
}

func litres(v float64) Quantity { return Quantity{Value: v, Unit: "L", Decimals: 2} }
