package scenarios

import (
	"fmt"
	"math/big"
	"strings"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
	"warmby/sim/draw"
	"warmby/sim/heat"
)

func (b *builder) readTools(n *yaml.Node) {
	b.d.Tools = make([]sim.Tool, len(b.tools.list))
	for i, name := range b.tools.list {
		b.d.Tools[i].Name = name
	}
	b.pairs(n, func(k, v *yaml.Node) {
		if i, ok := b.tools.index[k.Value]; ok && b.ok(v) && b.values[v] != nil {
			b.d.Tools[i].Count = b.number(v)
		}
	})
}

// readLoads reads loads and items, adds the unloadings as tasks, and counts
// what items bring.
func (b *builder) readLoads(n *yaml.Node) {
	b.d.Loads = make([]sim.Load, len(b.loads.list))
	b.d.Items = make([]sim.Item, len(b.items.list))
	b.d.Tasks = make([]sim.Task, len(b.tasks.list))
	brought := make([]int, len(b.stoves.list))
	b.pairs(n, func(k, v *yaml.Node) {
		i := b.loads.index[k.Value]
		load := &b.d.Loads[i]
		load.Name, load.Crew = k.Value, sim.Crew{Min: 1, Max: 1}
		if !b.ok(v) {
			return
		}
		load.Arrives = b.law(v, "arrives")
		load.Limit = b.float(v, "limit", 0)
		if crew := b.get(v, "crew"); crew != nil {
			if load.Crew, _ = parseCrew(crew.Value); load.Crew.Max == 0 {
				b.failGot(crew, "unloading needs somebody", "such as 1 or 1-2")
			}
		}
		weight := new(big.Rat)
		for _, item := range b.each(b.get(v, "pack")) {
			if name := b.get(item, "item"); name != nil {
				b.readItem(item, b.items.index[name.Value], i, brought)
			}
			if w := b.value(item, "weight"); w != nil {
				weight.Add(weight, w)
			}
		}
		if limit := b.value(v, "limit"); limit != nil && weight.Cmp(limit) > 0 {
			b.fail(b.get(v, "limit"), fmt.Sprintf("the load weighs %s kg, over its limit of %s kg", decimal(weight), decimal(limit)),
				"take something off, or spread it over two loads")
		}
	})
	b.countStoves(brought)
}

// decimal writes a number for people, to three places.
func decimal(v *big.Rat) string {
	if v.IsInt() {
		return v.Num().String()
	}
	s := v.FloatString(3)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}

func (b *builder) readItem(n *yaml.Node, i, load int, brought []int) {
	item := &b.d.Items[i]
	item.Name, item.Load, item.Weight = b.items.list[i], load, b.float(n, "weight", 0)
	b.pairs(b.get(n, "brings"), func(k, v *yaml.Node) {
		if !b.ok(v) || b.values[v] == nil {
			return
		}
		bring := sim.Bring{Tool: -1, Stove: -1, Count: b.number(v)}
		if s, ok := b.stoves.index[k.Value]; ok {
			bring.Stove = s
			brought[s] += bring.Count
		} else {
			bring.Tool = b.tools.index[k.Value]
		}
		item.Brings = append(item.Brings, bring)
	})
	amount := b.law(n, "takes")
	if amount == nil {
		amount = draw.Fixed(0)
	}
	name := unpackName(item.Name)
	b.d.Tasks[b.tasks.index[name]] = sim.Task{
		Name: name, What: fmt.Sprintf("Take %s off %s", item.Name, b.loads.list[load]), Kind: sim.Takes, Amount: amount,
		Crew: b.d.Loads[load].Crew, Teamwork: sim.DefaultTeamwork, Item: i,
	}
}

func (b *builder) readStoves(n *yaml.Node) {
	b.d.Stoves = make([]sim.Stove, len(b.stoves.list))
	b.pairs(n, func(k, v *yaml.Node) {
		s := &b.d.Stoves[b.stoves.index[k.Value]]
		s.Name, s.Count = k.Value, -1
		if !b.ok(v) {
			return
		}
		like := b.text(v, "like")
		c, known := classNamed(stoveClasses, func(c stoveClass) string { return c.name }, like)
		s.Power, s.Efficiency = b.float(v, "power", c.power), b.float(v, "efficiency", c.efficiency)
		for _, key := range []string{"power", "efficiency"} {
			if b.absent(v, "like") && b.absent(v, key) {
				b.missing(v, key, "", "give it, or a class of stove: like: "+stoveClasses[0].name)
			}
		}
		if s.Fuel = b.text(v, "fuel"); s.Fuel == "" {
			s.Fuel = c.fuel
		}
		if f, ok := heat.FuelNamed(s.Fuel); ok {
			s.FuelHeat, s.FuelByMass = f.Heat, f.ByMass
		}
		s.HoldsPots, s.ToPots = b.yes(v, "holds pots", known && c.holdsPots), b.float(v, "to pots", c.toPots)
		s.Count = b.whole(v, "count", -1)
		s.Flue = b.yes(v, "flue", known && c.flue)
		switch {
		case s.HoldsPots && s.ToPots == 0 && b.absent(v, "to pots"):
			b.missing(v, "to pots", " although the stove holds pots", "the share of its power that a pot on it gets, such as 30 %")
		case !s.HoldsPots && b.get(v, "to pots") != nil:
			b.fail(keyOf(v, "to pots"), "to pots belongs to a stove that holds pots", "add \"holds pots: true\"")
		}
	})
}

// countStoves gives each kind of stove its number: what the file says, else
// all that items bring, else 1.
func (b *builder) countStoves(brought []int) {
	for i := range b.d.Stoves {
		s := &b.d.Stoves[i]
		s.Brought = brought[i] > 0
		switch {
		case s.Count >= 0:
		case s.Brought:
			s.Count = brought[i]
		default:
			s.Count = 1
		}
	}
}

func (b *builder) readShelters(n *yaml.Node) {
	b.d.Shelters = make([]sim.Shelter, len(b.shelters.list))
	b.pairs(n, func(k, v *yaml.Node) {
		s := &b.d.Shelters[b.shelters.index[k.Value]]
		s.Name = k.Value
		if !b.ok(v) {
			return
		}
		c, known := classNamed(shelterClasses, func(c shelterClass) string { return c.name }, b.text(v, "like"))
		if !known {
			c = shelterClass{airChanges: 1}
		}
		for _, key := range []string{"volume", "skin", "u"} {
			if b.absent(v, "like") && b.absent(v, key) {
				b.missing(v, key, "", "give it, or a class of shelter: like: "+shelterClasses[4].name)
			}
		}
		s.Volume, s.Skin, s.U = b.float(v, "volume", c.volume), b.float(v, "skin", c.skin), b.float(v, "u", c.u)
		s.AirChanges = b.float(v, "air changes", c.airChanges)
		s.Contents = 1000 * b.float(v, "contents", c.contents)
		s.Sleeps = b.whole(v, "sleeps", int(c.sleeps))
		if at := b.value(v, "at start"); at != nil {
			inside := float(at)
			s.AtStart = &inside
			if b.absent(b.doc.root, "weather") {
				b.fail(keyOf(v, "at start"), "a shelter that is warm at the start needs weather, and the file has none", "add \"weather:\" with the air temperature")
			}
		}
	})
}
