package cold

import (
	"fmt"
	"slices"
	"strings"

	"warmby/sim"
)

// Caution is something a report prints because the scenario calls for it.
type Caution struct {
	Topic   string // a word or two
	Because string // what in the scenario calls for it; "" for what always stands
	Text    string
	DeferTo string // who knows better; "" where Text says so

	about string  // which of several things of the topic
	worse float64 // how grave it is beside others of its topic, more for worse
}

func caution(topic, because, text, deferTo string) Caution {
	return Caution{Topic: topic, Because: because, Text: text, DeferTo: deferTo}
}

// Standard is what every report says about the account and the tool.
const Standard = "The running sum of cold is our extension of a standard for steady exposure (ISO 11079); it knows neither wet clothing nor fingers. " +
	Griefahn + " " +
	"warmby plans and trains. It is not medical or safety advice: local rules, makers' instructions and qualified people come first."

// Cautions returns the cautions that a drill calls for, the gravest first,
// [Standard] last. People are the accounts of a drill as played, or nil.
func Cautions(d *sim.Drill, people []Person) []Caution {
	var out []Caution
	for _, c := range []func(*sim.Drill) (Caution, bool){
		carbonMonoxide, flame, casualty, scalds, liquidFuel, fuelGas, alarm, pitching, handLine, meltInTheWind, coldInjury, windChillCaution, bareHands,
		felling, ice, snowOnTop,
	} {
		if caution, ok := c(d); ok {
			out = append(out, caution)
		}
	}
	out = append(out, overload(d)...)
	if people == nil {
		people = unaccounted(d)
	}
	out = append(out, strain(d, people)...)
	return append(out, Caution{Topic: "what this is", Text: Standard})
}

// CautionsOfAll returns the cautions that drills together call for.
func CautionsOfAll(drills []*sim.Drill) []Caution {
	var lists [][]Caution
	for _, d := range drills {
		lists = append(lists, Cautions(d, nil))
	}
	return Joint(lists...)
}

// Joint returns the cautions that several drills call for, given those of each:
// of two on the same matter the graver, with what calls for it.
func Joint(lists ...[]Caution) []Caution {
	var all []Caution
	for _, list := range lists {
		at := 0 // after the last that both have
		for _, c := range list {
			k := slices.IndexFunc(all, func(o Caution) bool { return o.Topic == c.Topic && o.about == c.about })
			switch {
			case k < 0:
				all = slices.Insert(all, at, c)
				at++
			case c.worse > all[k].worse:
				all[k] = c
				at = k + 1
			default:
				at = k + 1
			}
		}
	}
	return all
}

func carbonMonoxide(d *sim.Drill) (Caution, bool) {
	because := stoveInside(d)
	return caution("carbon monoxide", because,
		"A burning stove in a closed space makes carbon monoxide, which cannot be seen or smelt; a pot on the flame makes much more of it. "+
			"Keep a low and a high opening clear of snow and rime, have an alarm, and never sleep while an unvented stove burns. "+
			"Headache, dizziness, sickness or unusual sleepiness: everybody out into fresh air at once, stove off, call medical help."+stale(d),
		"the stove maker's manual, fire and public health services, the rules of your organisation"), because != ""
}

func flame(d *sim.Drill) (Caution, bool) {
	because := stoveInside(d)
	return caution("flame in a tent", because,
		"Tent cloth, sleeping bags and down burn in seconds. Set the stove on a firm base away from cloth and the way out, keep the way out open and a knife at hand, "+
			"light it only where its maker allows, and let somebody tend it all the time.",
		"the makers of tent and stove, fire services"), because != ""
}

// stoveInside returns what has a stove burn in a shelter, or "".
func stoveInside(d *sim.Drill) string {
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Kind == sim.Warm {
			return fmt.Sprintf("%q burns in %q", d.Stoves[t.Warm.Stove].Name, d.Shelters[t.Warm.Shelter].Name)
		}
	}
	for i := range d.Tasks {
		t := &d.Tasks[i]
		if t.Kind != sim.Melt {
			continue
		}
		if in := d.Spots[t.Spot].In; in >= 0 {
			return fmt.Sprintf("%q burns in %q", d.Stoves[t.Melt.Stove].Name, d.Shelters[in].Name)
		}
	}
	if len(d.Stoves) > 0 && len(d.Shelters) > 0 {
		return fmt.Sprintf("there is a stove (%q) and a shelter (%q)", d.Stoves[0].Name, d.Shelters[0].Name)
	}
	return ""
}

func liquidFuel(d *sim.Drill) (Caution, bool) {
	for i := range d.Stoves {
		s := &d.Stoves[i]
		if s.Fuel == "" || s.FuelByMass {
			continue
		}
		return caution("liquid fuel", fmt.Sprintf("%q burns %s", s.Name, s.Fuel),
			"Fuel stays liquid far below freezing: a splash on skin freezes it at once, so wear gloves that fuel does not soak. "+
				"Fill out of doors with the stove cold and no flame near, through a funnel and not to the brim, wipe up spills, and never let off pressure near a flame.",
			"the stove maker's manual, fire services"), true
	}
	return Caution{}, false
}

// coldest returns the coldest air of all weather cases; ok is false without
// weather.
func coldest(d *sim.Drill) (air float64, ok bool) {
	for _, w := range d.Weather {
		for _, r := range w.Rows {
			if !ok || r.Air < air {
				air, ok = r.Air, true
			}
		}
	}
	return air, ok
}

func coldInjury(d *sim.Drill) (Caution, bool) {
	air, known := coldest(d)
	because := "it is about snow"
	if known {
		because = fmt.Sprintf("air down to %.0f C", air)
	}
	c := caution("cold injury", because,
		"Cover bare skin, keep clothing dry, and let pairs look at each other's faces and hands. Numb or waxy skin, shivering, stumbling, mumbling or odd behaviour: "+
			"stop, get the person out of the wind, dry and warm, give warm sweet drinks to whoever can swallow, and evacuate early. "+
			"Do not rub frozen skin, and do not thaw it if it may freeze again.",
		"medical services, mountain and wilderness medicine societies, the weather service's warnings")
	c.worse = -air
	return c, !known || air <= 10
}

func windChillCaution(d *sim.Drill) (Caution, bool) {
	worst, because, fast := Value{Why: "no weather"}, "", false
	for _, w := range d.Weather {
		for _, r := range w.Rows {
			c := WindChill(r.Air, Kmh(r.Wind))
			if !c.OK() || worst.OK() && c.X >= worst.X {
				continue
			}
			worst, fast = c, Kmh(r.Wind) > FastWindKmh
			because = fmt.Sprintf("wind chill down to %.0f (air %.0f C, wind %.1f m/s)", c.X, r.Air, r.Wind)
		}
	}
	if !worst.OK() || HazardOf(worst.X) < HazardLow {
		return Caution{}, false
	}
	text := "Class of wind chill: " + HazardOf(worst.X).String() + "."
	if fast {
		text += " In wind over 50 km/h these times are shorter."
	}
	c := caution("wind chill", because,
		text+" Cover faces, plan the work out of the wind, and take people in on time. Wet skin, metal and fuel freeze skin sooner than the class says.",
		"the weather service")
	c.worse = -worst.X
	return c, true
}

func bareHands(d *sim.Drill) (Caution, bool) {
	because := ""
	for i := range d.Tasks {
		if t := &d.Tasks[i]; t.Hands == sim.Bare || t.Hands == sim.Thin {
			because = fmt.Sprintf("%q is done with bare hands or in thin gloves", t.Name)
			break
		}
	}
	air, known := coldest(d)
	if because == "" && (len(d.Stoves)+len(d.Tools) == 0 || known && air > 0) {
		return Caution{}, false
	}
	if because == "" {
		because = "stoves and tools are handled in the cold"
	}
	text := "Bare skin sticks and freezes to cold metal, and cold fuel freezes it on touch: keep thin gloves on under mittens. Stop and warm hands that have gone numb."
	if t := BareHandTime(air); known && t.OK() {
		text += fmt.Sprintf(" A published rule gives bare hands %.0f min in air of %.0f C, metal and fuel not counted.", t.X, air)
	}
	c := caution("bare hands", because, text, "occupational health services, makers' instructions")
	c.worse = -air
	return c, true
}

func felling(d *sim.Drill) (Caution, bool) {
	for i := range d.Tasks {
		if t := &d.Tasks[i]; t.Felling {
			return caution("felling", fmt.Sprintf("%q", t.Name),
				"Only trained people fell trees. Everybody else stays at least two tree lengths away; clear the snow from a way of retreat before the first cut, "+
					"never fell one tree with another, beware of snow and dead branches above, and stop in wind. Some rules ask for more.",
				"forestry and labour authorities, trained fellers, the saw maker's manual, the land owner"), true
		}
	}
	return Caution{}, false
}

func ice(d *sim.Drill) (Caution, bool) {
	for i := range d.Tasks {
		if t := &d.Tasks[i]; t.Kind == sim.Melt && t.Melt.IceHole {
			return caution("ice", fmt.Sprintf("%q takes water from an ice hole", t.Name),
				"Ice differs from step to step and is weak at inlets, outlets and under snow. Somebody who knows the water tests it before people walk on it; go in pairs with a line, mark the hole, and boil what you drink.",
				"local people and rescue services"), true
		}
	}
	return Caution{}, false
}

func snowOnTop(d *sim.Drill) (Caution, bool) {
	if len(d.Shelters) == 0 || d.Site.SnowDepth <= 0 {
		return Caution{}, false
	}
	return caution("site and snow", fmt.Sprintf("%q stands in %.0f cm of snow", d.Shelters[0].Name, d.Site.SnowDepth*100),
		"Choose a site away from slopes that may slide, cornices and trees laden with snow. Clear snow from roof and vents through the night, and keep snow shelters open to the air.",
		"the avalanche warning service, local guides"), true
}

// overload returns a caution for each load near its limit or over it.
func overload(d *sim.Drill) []Caution {
	var out []Caution
	for i := range d.Loads {
		l := &d.Loads[i]
		weight, near := d.NearLimit(i)
		if !near {
			continue
		}
		c := caution("overload", fmt.Sprintf("%q carries %.1f of %.1f kg", l.Name, weight, l.Limit),
			"A sled or pack near its limit tips, breaks and hurts those who haul it, most of all downhill. Share the weight, lash it low, brake from behind, and lift together.",
			"the maker of sled or pack")
		c.about, c.worse = l.Name, weight/l.Limit
		out = append(out, c)
	}
	return out
}

// strain returns what the accounts call for: who passes the limit, who has
// no account, and clothing that is never put on.
func strain(d *sim.Drill, people []Person) []Caution {
	var over, without []string
	why := ""
	for i := range people {
		switch p := &people[i]; {
		case p.Casualty: // has a caution of its own
		case p.Why != "":
			without = append(without, p.Name)
			why = p.Why
		case p.PassedAt != sim.Never:
			over = append(over, fmt.Sprintf("%s after %s", p.Name, sim.Clock(p.PassedAt)))
		}
	}
	var out []Caution
	if len(over) > 0 {
		out = append(out, caution("cold strain", strings.Join(over, ", "),
			fmt.Sprintf("The account passes %d Wh/m2. Change the plan: relieve sooner, put layers on before the stop, shelter the lookout, or warm people in between. "+
				"Staying under the number promises nothing for hands, feet and faces.", HeatLimit),
			"whoever leads on the spot, medical services"))
	}
	if len(without) > 0 {
		c := caution("no account of cold", strings.Join(without, ", "),
			"Nothing is known about the cold these people take ("+strings.TrimPrefix(why, "no account: ")+"); that is not good news about it.", "")
		c.worse = float64(len(without))
		out = append(out, c)
	}
	if len(people) > len(without) && !layersMarked(d) {
		out = append(out, caution("layers", "no task is marked `layers on`",
			"Everybody but the lookouts is counted in what they wear on the march to the end. People who stop moving put on dry, warm layers first.", ""))
	}
	return out
}

// unaccounted returns the people of a drill of whom no account can be kept,
// whatever is played.
func unaccounted(d *sim.Drill) []Person {
	var list []Person
	for i, why := range refusals(d) {
		if why != "" {
			list = append(list, Person{Name: d.People[i].Name, Why: why, Casualty: d.People[i].Casualty, PassedAt: sim.Never})
		}
	}
	return list
}

func layersMarked(d *sim.Drill) bool {
	for i := range d.Tasks {
		if d.Tasks[i].LayersOn {
			return true
		}
	}
	return false
}
