package cards

import (
	"math"
	"slices"

	"warmby/sim"
	"warmby/sim/packing"
)

// Load is what the pack list says of one load.
type Load struct {
	Name          string
	Items         []Item // top first
	Weight, Limit float64
	Arrives       sim.Time
	Wins          []Win // what is better packed on top, the best first
}

// Item is a thing on a load.
type Item struct {
	Name   string
	Weight float64 // kg; 0 when the file does not say
}

// Win is what an item on top wins.
type Win struct {
	Item, Milestone string
	Sooner          sim.Time
}

// MostWins is how many of a load are told.
const MostWins = 3

// LoadsOf returns the loads of a drill with what on top wins.
func LoadsOf(d *sim.Drill, wins []packing.Win) (list []Load) {
	for i := range d.Loads {
		l := Load{Name: d.Loads[i].Name, Limit: d.Loads[i].Limit}
		if a := d.Loads[i].Arrives; a != nil {
			l.Arrives = sim.Milliseconds(a.Usual())
		}
		for _, item := range d.Items {
			if item.Load == i {
				l.Items = append(l.Items, Item{item.Name, item.Weight})
				l.Weight += item.Weight
			}
		}
		for _, w := range wins {
			if d.Items[w.Item].Load == i && len(l.Wins) < MostWins {
				l.Wins = append(l.Wins, Win{d.Items[w.Item].Name, d.Milestones[w.Milestone].Name, w.Sooner})
			}
		}
		list = append(list, l)
	}
	return list
}

// Camp is where things are, from the centre.
type Camp struct {
	Spots []Spot
	Wind  Wind
}

// Spot is a place, or several that lie at the same.
type Spot struct {
	Names     []string
	Walk      sim.Time
	Bearing   float64 // degrees from north
	Sheltered float64 // share of the wind that it is spared
	Downwind  bool    // whether what the wind takes from the centre goes there
}

// Wind is that of the first weather that is usual.
type Wind struct {
	Known bool
	Speed float64  // m/s, the strongest
	From  *float64 // degrees from north; nil when nobody knows
}

// downwind is how far to either side of where the wind blows to a spot still lies
// in what it takes along, in degrees.
const downwind = 30

// CampOf returns the camp of a drill under a weather case.
func CampOf(d *sim.Drill, weather int) Camp {
	var c Camp
	if weather < len(d.Weather) {
		for _, r := range d.Weather[weather].Rows {
			c.Wind.Known = true
			c.Wind.Speed = max(c.Wind.Speed, r.Wind)
			if c.Wind.From == nil {
				c.Wind.From = r.From
			}
		}
	}
	for _, s := range d.Spots {
		c.add(s)
	}
	return c
}

// add adds a spot, to another that lies at the same place where there is one.
func (c *Camp) add(s sim.Spot) {
	for i := range c.Spots {
		if o := &c.Spots[i]; o.Walk == s.Walk && (s.Walk == 0 || o.Bearing == s.Bearing) {
			o.Names = append(o.Names, s.Name)
			o.Sheltered = max(o.Sheltered, s.Sheltered)
			return
		}
	}
	spot := Spot{Names: []string{s.Name}, Walk: s.Walk, Bearing: s.Bearing, Sheltered: s.Sheltered}
	if c.Wind.From != nil && s.Walk > 0 {
		off := math.Abs(math.Mod(s.Bearing-*c.Wind.From+360, 360) - 180)
		spot.Downwind = off <= downwind
	}
	c.Spots = append(c.Spots, spot)
}

// Milestone is when something is usually reached, and when it is wanted.
type Milestone struct {
	Name   string
	At, By sim.Time // sim.Never for none
}

// Lookout is a standing duty and who has it, one after the other.
type Lookout struct {
	Name   string
	From   sim.Time
	Relief sim.Time // 0 for none
	Who    []string
}

// brief fills in what is said aloud of a drill that was played.
func (d *Deck) brief(tl *sim.Timeline) {
	drill := tl.Drill
	for i, m := range drill.Milestones[:max(0, len(drill.Milestones)-1)] {
		by := m.By
		if m.ByText == "" {
			by = sim.Never
		}
		d.Milestones = append(d.Milestones, Milestone{m.Name, tl.Milestones[i], by})
	}
	for i, l := range drill.Lookouts {
		if out := lookoutOf(tl, i); len(out.Who) > 0 && !l.Hurt {
			d.Lookouts = append(d.Lookouts, out)
		}
	}
	seen := map[string]bool{}
	for i := range drill.Tasks {
		if name := drill.Tasks[i].OwnName(); drill.Tasks[i].CanWait && !seen[name] {
			seen[name] = true
			d.Leave = append(d.Leave, name)
		}
	}
	for i, s := range drill.Stoves {
		if slices.ContainsFunc(drill.Tasks, func(t sim.Task) bool { return t.Melt != nil && t.Melt.Stove == i || t.Warm != nil && t.Warm.Stove == i }) {
			d.Stoves = append(d.Stoves, s.Name)
		}
	}
}

func lookoutOf(tl *sim.Timeline, lookout int) Lookout {
	l := tl.Drill.Lookouts[lookout]
	out := Lookout{Name: l.Name, Relief: l.Relief, From: sim.Never}
	var turns []Step
	for p := range tl.People {
		for _, s := range tl.People[p] {
			if s.What == sim.Watching && s.Lookout == lookout {
				turns = append(turns, Step{From: s.From, Lookout: tl.Drill.People[p].Name})
			}
		}
	}
	sortByFrom(turns)
	for _, t := range turns {
		out.From = min(out.From, t.From)
		out.Who = append(out.Who, t.Lookout)
	}
	return out
}
