package report

import (
	"cmp"
	"slices"
	"strings"

	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/heat"
	"warmby/sim/inside"
)

// aloneLine says whether a lit stove is left alone in a shelter; nothing where
// none burns in one.
func (r Rehearsal) aloneLine() Sentence {
	burns := inside.Burns(r.Timeline)
	if len(burns) == 0 {
		return nil
	}
	switch left := r.Alone; len(left) {
	case 0:
		if stove := burns[0].Stove; !slices.ContainsFunc(burns, func(b inside.Left) bool { return b.Stove != stove }) {
			return Say("{} never alone.", capital(r.Drill.Stoves[stove].Name))
		}
		return Say("Stoves never alone.")
	case 1:
		return Say("{} alone {} from {} ({}).", capital(r.Drill.Stoves[left[0].Stove].Name), Length(left[0].To-left[0].From),
			r.site().At(left[0].From), r.Drill.Tasks[left[0].Task].Name)
	}
	var parts []Sentence
	for _, l := range longestLeft(r.Alone, 2) {
		parts = append(parts, Say("{} {} from {}", r.Drill.Stoves[l.Stove].Name, Length(l.To-l.From), r.site().At(l.From)))
	}
	if more := len(r.Alone) - len(parts); more > 0 {
		parts = append(parts, Say("{} more", more))
	}
	return sentenceEnd(Say("Left alone: {}", Join(parts, ", ")))
}

// longestLeft returns the longest of some stretches, by time.
func longestLeft(all []inside.Left, most int) []inside.Left {
	list := slices.Clone(all)
	slices.SortStableFunc(list, func(a, b inside.Left) int { return cmp.Compare(b.To-b.From, a.To-a.From) })
	list = list[:min(most, len(list))]
	slices.SortStableFunc(list, func(a, b inside.Left) int { return cmp.Compare(a.From, b.From) })
	return list
}

// leftAlone names every stretch in which a lit stove is left alone.
func (r Rehearsal) leftAlone() (list []Block) {
	for _, l := range r.Alone {
		list = append(list, Text{Item: true, Says: r.left(l)})
	}
	return list
}

func (r Rehearsal) left(l inside.Left) Sentence {
	return Say("{} burns in {} with nobody there for {} from {} on ({}).", capital(r.Drill.Stoves[l.Stove].Name),
		r.Drill.Shelters[l.Shelter].Name, Length(l.To-l.From), Since(l.From), quote(r.Drill.Tasks[l.Task].Name))
}

// How many people are named in a few words for being cold and for sweating.
const (
	fewCold   = 3
	fewSweats = 2
)

// From how many grams on sweat is worth a word to everybody, in all and at one
// task in the down jacket. Chosen for this program: so much wets what is worn next
// to the skin.
const (
	muchSweat     = 50
	muchInJackets = 20
)

// warmthShort says in a few lines who gets too cold or sweats, which stoves are
// left alone, and how warm the shelters were.
func (r Rehearsal) warmthShort() (list []Block) {
	add := func(s Sentence) { list = append(list, Text{Item: true, Says: Briefly(s)}) }
	said := 0
	for _, i := range r.coldestFirst() {
		if p := &r.Accounts[i]; p.Verdict > cold.Within && said < fewCold {
			add(r.tooCold(p))
			said++
		}
	}
	said = 0
	for _, i := range r.sweatFirst() {
		if s := r.sweatShort(&r.Accounts[i]); s != nil && said < fewSweats {
			add(s)
			said++
		}
	}
	for i := range r.Rooms {
		if s := r.roomShort(&r.Rooms[i]); s != nil {
			add(s)
		}
	}
	for i := range r.Assumed {
		if a := &r.Assumed[i]; isOff(a) && r.moves(a) {
			add(r.offBy(a))
		}
	}
	return list
}

// coldestFirst returns those who have an account, the most heat lost first.
func (r Rehearsal) coldestFirst() []int {
	return r.sortedBy(func(p *cold.Person) float64 { return p.Peak })
}

// sweatFirst returns those who have an account, the most sweat first.
func (r Rehearsal) sweatFirst() []int {
	return r.sortedBy(func(p *cold.Person) float64 { return p.Sweat })
}

func (r Rehearsal) sortedBy(what func(*cold.Person) float64) (who []int) {
	for i := range r.Accounts {
		if r.Accounts[i].Why == "" {
			who = append(who, i)
		}
	}
	slices.SortStableFunc(who, func(a, b int) int { return cmp.Compare(what(&r.Accounts[b]), what(&r.Accounts[a])) })
	return who
}

// tooCold says where somebody stands against the limit, from when on it is passed,
// and what cost most.
func (r Rehearsal) tooCold(p *cold.Person) Sentence {
	s := Say("{} is {} the limit of cold", p.Name, againstLimit(p.Verdict))
	switch {
	case p.PassedAt != sim.Never && p.Verdict == cold.Near:
		s = Say("{}, past it from {} on", s, r.site().At(p.PassedAt))
	case p.PassedAt != sim.Never:
		s = Say("{} from {} on", s, r.site().At(p.PassedAt))
	}
	if losses := r.lossesOf(p); len(losses) > 0 {
		s = Say("{}, mostly by {} {}", s, Length(losses[0].time), losses[0].doing)
	}
	return sentenceEnd(s)
}

// sweatShort says of somebody who works in the down jacket, or sweats much, at
// what and about how much; nothing of all others.
func (r Rehearsal) sweatShort(p *cold.Person) Sentence {
	for i := range p.Sweats {
		if s := &p.Sweats[i]; s.Halt && s.What == sim.Working && s.Grams >= muchInJackets {
			return Say("{} sweats about {} {} in the down jacket.", p.Name, grams(s.Grams), r.sweatsAt(s))
		}
	}
	if p.Sweat < muchSweat {
		return nil
	}
	return Say("{} sweats about {}, most of it {}.", p.Name, grams(p.Sweat), r.sweatsAt(&p.Sweats[0]))
}

func grams(g float64) Quantity {
	return Quantity{Value: 10 * float64(int(g/10+0.5)), Unit: "g"}
}

func (r Rehearsal) sweatsAt(s *cold.Sweat) string {
	return r.doing(cold.Entry{What: s.What, Task: s.Task, Lookout: s.Lookout})
}

// sweats tells who sweats at what.
func (r Rehearsal) sweats() []Block {
	t := Table{Caption: "Who sweats at what, and about how much", Columns: []Column{{}, {Head: "at"}, {"for", true}, {"about", true}, {Head: "wearing"}}}
	for _, i := range r.sweatFirst() {
		p := &r.Accounts[i]
		for _, s := range r.sweatsOf(p) {
			wearing := "what is worn on the march"
			if s.Halt {
				wearing = "what is worn at the halt"
			}
			t.Rows = append(t.Rows, Cells(p.Name, strings.TrimPrefix(s.doing, "on "), Stopwatch(s.Time), Quantity{Value: s.Grams, Unit: "g"}, wearing))
		}
	}
	if t.Rows == nil {
		return nil
	}
	return []Block{t, Text{Says: Say("By the heat balance: what the body has too much must leave as sweat. Drink as much, and open up or take off a layer before the work, not after it.")}}
}

// sweatsOf adds up what somebody sweats, by what is told of it.
func (r Rehearsal) sweatsOf(p *cold.Person) (list []told) {
	for i := range p.Sweats {
		s := p.Sweats[i]
		doing := r.sweatsAt(&s)
		at := slices.IndexFunc(list, func(t told) bool { return t.doing == doing && t.Halt == s.Halt })
		if at < 0 {
			list = append(list, told{s, doing})
			continue
		}
		list[at].Grams += s.Grams
		list[at].Time += s.Time
	}
	return list
}

// told is sweat with words for what it comes of.
type told struct {
	cold.Sweat
	doing string
}

// roomShort says in one line how warm a shelter was; nothing where it never was.
func (r Rehearsal) roomShort(room *heat.Room) Sentence {
	if room.Warm >= r.End {
		return nil
	}
	s := Say("{} is warm from {} on", capital(r.Drill.Shelters[room.Shelter].Name), r.site().At(room.Warm))
	if room.Warm == 0 {
		s = Say("{} is warm on arrival", capital(r.Drill.Shelters[room.Shelter].Name))
	}
	if out, ok := room.Out(); ok && out < r.End {
		s = Say("{}, its stove out at {}", s, r.site().At(out))
	} else if ok {
		s = Say("{}, its stove lit to the end", s)
	}
	if c, ok := room.Temperature(r.End); ok {
		s = Say("{}; {} at the end", s, degrees(c))
	}
	return sentenceEnd(s)
}

// rooms tells how warm each shelter was to the end, and what that took.
func (r Rehearsal) rooms() []Block {
	t := Table{Caption: "How warm the shelters were, to the end", Columns: []Column{{}, {"lit", true}, {"warm", true}, {"then", true},
		{"coldest after", true}, {"stove out", true}, {"at the end", true}, {"fuel", true}}}
	for i := range r.Rooms {
		room := &r.Rooms[i]
		if room.Lit >= r.End {
			continue
		}
		row := Cells(r.Drill.Shelters[room.Shelter].Name, Stopwatch(room.Lit), Stopwatch(room.Warm), "", "", "never lit", "", r.burned(room))
		if room.Warm <= r.End {
			row[3], row[4] = temperatureAt(room, room.Warm), degreesOr(room.Coldest(r.End), room.Warm < r.End)
		}
		if out, ok := room.Out(); ok && out < r.End {
			row[5] = Say("{}", Stopwatch(out))
		} else if ok {
			row[5] = Say("not yet")
		}
		row[6] = temperatureAt(room, r.End)
		t.Rows = append(t.Rows, row)
	}
	if t.Rows == nil {
		return nil
	}
	return []Block{t, Text{Says: Say("Fuel is what the stoves that warm the shelter burn until they are out, pots on them included.")}}
}

func temperatureAt(room *heat.Room, t sim.Time) Sentence {
	c, ok := room.Temperature(t)
	return degreesOr(c, ok)
}

func degreesOr(c float64, ok bool) Sentence {
	if !ok {
		return nil
	}
	return Say("{}", degrees(c))
}

// burned adds up the fuel that warmed a shelter, by kind of stove.
func (r Rehearsal) burned(room *heat.Room) Sentence {
	var parts []Sentence
	for i := range r.Drill.Stoves {
		stove := &r.Drill.Stoves[i]
		joules := 0.0
		for k := range room.Spans {
			if s := &room.Spans[k]; s.Task >= 0 && r.Drill.Tasks[s.Task].Warm.Stove == i {
				joules += s.Burns(stove)
			}
		}
		switch {
		case joules > 0 && stove.FuelHeat > 0:
			parts = append(parts, Say("{}", fuelOf(joules/stove.FuelHeat, stove.FuelByMass)))
		case joules > 0:
			parts = append(parts, Say("not known"))
		}
	}
	return Join(parts, " and ")
}

// assumed tells how many were inside against those whom warm-ups count on.
func (r Rehearsal) assumed() []Block {
	t := Table{Caption: "How many were inside against those whom warm-ups count on", Columns: []Column{{}, {"counts on", true},
		{"inside on average", true}, {"while warming up", true}, {"warm", true}, {"with those there", true}}}
	for i := range r.Assumed {
		a := &r.Assumed[i]
		t.Rows = append(t.Rows, Cells(r.Drill.Tasks[a.Task].Name, Number(a.People), heads(a.Inside), heads(a.Warming),
			Stopwatch(r.Tasks[a.Task].End), Stopwatch(a.End)))
	}
	if t.Rows == nil {
		return nil
	}
	list := []Block{t}
	for i := range r.Assumed {
		if a := &r.Assumed[i]; isOff(a) {
			list = append(list, Text{Item: true, Says: r.offBy(a)})
		}
	}
	return list
}

func heads(n float64) Quantity { return Quantity{Value: n, Decimals: 1} }

// isOff reports whether a warm-up counts on more than one person too many or too
// few, on average to the end or while it goes on.
func isOff(a *inside.Assumption) bool {
	d := a.Warming - float64(a.People)
	return a.Off() || d > 1 || d < -1
}

// moves reports whether it makes a difference of a minute or more to when a warm-up
// ends that others were inside than it counts on.
func (r Rehearsal) moves(a *inside.Assumption) bool {
	end := r.Tasks[a.Task].End
	return end != sim.Never && (a.End >= end+sim.Minute || a.End <= end-sim.Minute)
}

// offBy says what difference it makes that others were inside than a warm-up
// counts on.
func (r Rehearsal) offBy(a *inside.Assumption) Sentence {
	s := Say("{} counts on {} inside; the average is {}, and {} while it warms up", capital(r.Drill.Tasks[a.Task].Name), a.People,
		heads(a.Inside), heads(a.Warming))
	end := r.Tasks[a.Task].End
	switch {
	case end == sim.Never:
	case a.End == sim.Never:
		s = Say("{}: with those it never gets so warm in this drill", s)
	case a.End >= end+sim.Minute:
		s = Say("{}: with those it is warm {} later", s, Length(a.End-end))
	case a.End <= end-sim.Minute:
		s = Say("{}: with those it is warm {} sooner", s, Length(end-a.End))
	default:
		s = Say("{}: less than a minute sooner or later", s)
	}
	return sentenceEnd(s)
}
