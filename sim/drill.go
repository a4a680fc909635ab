package sim

import (
	"math/big"
	"math/bits"
	"slices"
	"time"
)

// Distribution is a quantity that may be drawn: a fixed value, three values,
// or one of the laws of a scenario. Package warmby/sim/draw has them.
type Distribution interface {
	// Quantile returns the value below which a draw falls with chance p,
	// 0 < p < 1.
	Quantile(p float64) float64
	// Usual returns the value that holds when nothing is drawn: the mode of
	// three values, the median of the other laws.
	Usual() float64
}

// Drill is one scenario played under one order. Everything refers to
// everything else by index. A Drill is not changed once built and may be
// shared by any number of engines.
type Drill struct {
	Title string // what the scenario calls itself
	Order string // name of the order played; "" when the scenario has none

	Site     Site
	Spots    []Spot   // Spots[0] is the centre of camp
	Skills   []string // names
	People   []Person // in roster order
	Tools    []Tool
	Loads    []Load
	Items    []Item // loads in file order, top first within a load
	Stoves   []Stove
	Shelters []Shelter
	Tasks    []Task // unloading first (as Items), then in file order
	Lookouts []Lookout
	// Milestones stand in file order, "finish" last.
	Milestones []Milestone
	Groups     []Group // at least one once an order is chosen
	Idle       Idle    // what people do who have nothing to do; for the cold account

	Weather []WeatherCase // nil when the scenario has no weather
	// Light lists when it grows dark and light again, from At 0 on, up to
	// the horizon. Empty when the scenario has no place or date.
	Light []Light
	// Day is the factor that one run puts on all its work; nil means 1.
	Day Distribution
}

// Site is where and when the team halts.
type Site struct {
	Latitude, Longitude float64   // degrees, north and east positive
	Placed              bool      // whether the place is known
	Elevation           float64   // metres
	Arrival             time.Time // t = 0 on the clock; zero when unknown
	SnowDepth           float64   // metres
	SnowDensity         float64   // kg/m3; 0 when unknown
	SnowTemperature     float64   // degrees C
	Lights              bool      // whether the team has lights
}

// Light is a moment from which it is dark, or light: the sun's centre under
// 6 degrees below the horizon is dark.
type Light struct {
	At   Time
	Dark bool
}

// Idle is what people do outdoors who have nothing to do. It changes the cold
// account, never the timeline.
type Idle struct {
	Effort  Effort // EffortUnset for low
	StayOut bool   // whether they stay out when a shelter is warm
}

// Spot is a place on the site.
type Spot struct {
	Name      string
	Walk      Time    // one way, from the centre of camp
	Bearing   float64 // degrees from north; for pictures only
	Sheltered float64 // share of the wind that still arrives is 1 - Sheltered, 0..1
	In        int     // index of the shelter it lies in; -1 outdoors
}

// Person is one of the team.
type Person struct {
	Name    string
	Skills  SkillSet
	Pace    int64        // thousandths; 1000 is usual
	Day     Distribution // the factor of a person's own day, by which the pace is divided; nil for always 1
	Arrives Distribution // milliseconds; nil means 0
	Begin   int          // the spot where the person is on arrival
	// Hurt is when a what-if lets the person be hurt, nil when it does not. Who
	// is hurt does no each task and is not counted for a crew of all.
	Hurt *Time
	// Helps says that a what-if lets the person stay with somebody hurt. Who does has
	// no each task, doing that there, and is not counted for a crew of all.
	Helps bool
	// Casualty says that the person is one: in no crew, and without an account.
	Casualty bool

	// For the cold account.
	March, Halt float64 // basic insulation of clothing, clo
	Damp        float64 // share of the insulation lost to damp, 0..1
}

// SkillSet is a set of indices into Drill.Skills; a drill has no more than
// MaxSkills of them.
type SkillSet uint64

// MaxSkills is how many different skills a drill may name.
const MaxSkills = 64

// Has reports whether skill i is in the set.
func (s SkillSet) Has(i int) bool { return s&(1<<i) != 0 }

// With returns the set with skill i in it.
func (s SkillSet) With(i int) SkillSet { return s | 1<<i }

// Holds reports whether every skill of t is in s.
func (s SkillSet) Holds(t SkillSet) bool { return t&^s == 0 }

// Count returns the number of skills in the set.
func (s SkillSet) Count() int { return bits.OnesCount64(uint64(s)) }

// Tool is a kind of tool that tasks hold while they last.
type Tool struct {
	Name  string
	Count int // there from the start, carried by hand
}

// Load is a sled or pack.
type Load struct {
	Name    string
	Arrives Distribution // milliseconds; nil means 0
	Limit   float64      // kg; 0 means none
	Crew    Crew         // of each unloading
}

// Item is a thing on a load. The items of a load come off in the order in
// which they stand in Drill.Items; the unloading of item i is task i.
type Item struct {
	Name   string
	Load   int
	Weight float64 // kg
	Brings []Bring
}

// Bring is what an item makes available when it is off its load: some of one
// kind of tool or of one kind of stove. The other index is -1.
type Bring struct {
	Tool, Stove int
	Count       int
}

// Stove is a kind of stove. Count is how many of them work in all; as many
// of these are there at a moment as items have brought, or all from the
// start when no item brings one.
type Stove struct {
	Name       string
	Count      int
	Brought    bool    // whether items bring it
	Power      float64 // watts
	Efficiency float64 // 0..1
	Fuel       string
	FuelHeat   float64 // joules per litre, or per kilogram when FuelByMass; 0 when unknown
	FuelByMass bool
	HoldsPots  bool    // whether a pot may stand on it while it warms a shelter
	ToPots     float64 // share of its power that a pot on it gets, 0..1
	// Flue says that the exhaust goes outdoors. Without one all the heat of the
	// fuel stays in a shelter that the stove warms, and so does the exhaust.
	Flue bool
}

// Shelter is a tent or hut as a body of air with a skin.
type Shelter struct {
	Name       string
	Volume     float64  // m3
	Skin       float64  // m2
	U          float64  // W/m2K
	AirChanges float64  // per hour
	Contents   float64  // J/K
	Sleeps     int      // how many people; 0 when unknown
	AtStart    *float64 // degrees C inside at t = 0; nil for the air outside
}

// Kind says what a task is.
type Kind int

// The kinds of task.
const (
	Work  Kind = iota // person-minutes of work
	Timed             // work as timed with some people
	Takes             // clock time: a wait or a fixed job
	Melt              // water from snow or an ice hole
	Warm              // a shelter brought to a temperature
)

// Task is a piece of work.
type Task struct {
	Name string
	What string // a sentence for people
	Kind Kind
	// Amount is drawn: person-milliseconds for Work, milliseconds for Timed
	// and Takes. Nil for Melt and Warm.
	Amount      Distribution
	TimedPeople int  // Timed: how many people were timed
	ByDay       bool // Takes: the day's factor counts for it, as it does for all work
	Melt        *Melting
	Warm        *Warming

	Crew Crew
	// Everybody says that the crew is everybody of the group that has the task
	// ([Drill.Under] counts them into Crew) but for those hurt.
	Everybody bool
	// Who lists the only people who may be of its crew, joiners too, rising;
	// nil for anybody, empty for nobody.
	Who []int
	// Each is the task of the file of which this is the part of one person,
	// Who[0]; "" for all other tasks.
	Each     string
	Roles    []Role   // one person for each
	All      SkillSet // skills asked of everyone in the crew
	Teamwork float64  // exponent x: a crew of n does n^x times the work of one
	Joinable bool
	Slowed   []Slowdown

	Tools []ToolNeed
	Needs []int // items that must be off their load
	Spot  int
	After []After

	Mishap *Mishap
	Makes  []Make // what is different about shelters once it has ended

	Item    int // the item that it unloads; -1 for all other tasks
	CanWait bool
	PutsOut []int // kinds of stove that it puts out at its end, see [Drill.PutsOutIn]

	// For the cold account and for cautions.
	LayersOn   bool // from its end people wear what they wear at the halt; of an each task, its one person
	Effort     Effort
	Hands      Hands
	Worn       Worn
	DryClothes bool // from its end its people are damp no more
	Felling    bool // trees are felled
}

// OwnName returns what the people who do a task call it: where each does it for
// himself, without the name behind it.
func (t *Task) OwnName() string {
	if t.Each != "" {
		return t.Each
	}
	return t.Name
}

// Unloads reports whether the task takes an item off its load.
func (t *Task) Unloads() bool { return t.Item >= 0 }

// MayDo reports whether a person may be of a task's crew as far as names go: a
// casualty is of none.
func (d *Drill) MayDo(t *Task, person int) bool {
	return !d.People[person].Casualty && (t.Who == nil || slices.Contains(t.Who, person))
}

// PutsOutIn returns the shelter to which a task that puts stoves out is bound:
// that of its spot, -1 for one outdoors, which puts them out in all shelters.
func (d *Drill) PutsOutIn(t *Task) int { return d.Spots[t.Spot].In }

// Crew is a range of numbers of people; both 0 for a task that needs nobody.
type Crew struct{ Min, Max int }

// Role asks for Count different people with a skill.
type Role struct{ Skill, Count int }

// ToolNeed is what a task holds of one kind of tool: Count in all, or one for
// each person when Each is set.
type ToolNeed struct {
	Tool  int
	Count int
	Each  bool
}

// After lets a task start no earlier than Lag after another has ended, or
// after work on it has started when FromStart is set.
type After struct {
	Task      int
	FromStart bool
	Lag       Time
}

// Slowdown multiplies the time that work takes while a condition holds.
type Slowdown struct {
	When Condition
	To   *big.Rat // 5/4 for "125 %"; over 0
}

// Mishap makes a task last longer with a given chance.
type Mishap struct {
	Chance float64      // 0..1
	Adds   Distribution // milliseconds
	Again  bool         // whether it may happen again after each time
	AtMost int          // how often in all; 1 unless Again
	// When is the condition with which the chance is Then, 0..1, if it holds at the
	// start of work on the task; nil for none.
	When *Condition
	Then float64
}

// MishapChances returns the chances with which a task may meet its mishap, that
// with its condition last: one where it has no condition, or one that always
// holds or never does; none without a mishap.
func (d *Drill) MishapChances(task int) []float64 {
	m := d.Tasks[task].Mishap
	switch {
	case m == nil:
		return nil
	case m.When == nil:
		return []float64{m.Chance}
	}
	holds, fails := false, false
	for weather := range max(1, len(d.Weather)) {
		if weather < len(d.Weather) && len(d.Weather) > 1 && d.Weather[weather].Weight <= 0 {
			continue
		}
		for _, s := range d.Steps(weather) {
			if m.When.Holds(&d.Site, s) {
				holds = true
			} else {
				fails = true
			}
		}
	}
	var list []float64
	if fails {
		list = append(list, m.Chance)
	}
	if holds {
		list = append(list, m.Then)
	}
	return list
}

// Melting is a pot of water made from snow, or drawn from an ice hole.
type Melting struct {
	Water    *big.Rat // litres, in all
	Start    *big.Rat // litres of water at 0 C already there; nil means none
	Pot      *big.Rat // litres that a filling holds; nil means all of it
	Boil     bool     // to the boiling point
	To       float64  // degrees C, unless Boil
	Stove    int
	IceHole  bool // water at 0 C instead of snow
	Handling Time // for each filling, after the heat
}

// Warming is a warm-up of a shelter.
type Warming struct {
	Shelter int
	Stove   int
	To      float64 // degrees C
	People  int     // each gives 100 W
}

// Make is a change to a shelter; nil fields stay as they are.
type Make struct {
	Shelter                               int
	Volume, Skin, U, AirChanges, Contents *float64 // units as in Shelter
}

// Effort is a class of metabolic rate.
type Effort int

// The classes of effort; EffortUnset lets the cold account choose by kind.
const (
	EffortUnset Effort = iota
	Resting
	Low
	Moderate
	High
	VeryHigh
)

// Hands says what is worn on the hands during a task.
type Hands int

// What may be worn on the hands.
const (
	HandsUnset Hands = iota
	Mittens
	Thin
	Bare
)

// Worn says which clothing is worn during a task.
type Worn int

// What may be worn during a task. WornUnset leaves it to effort and to whether
// layers are on.
const (
	WornUnset Worn = iota
	WornMarch
	WornHalt
)

// Lookout is a standing duty with relief. It has places, one for each person who
// stands there at a time.
type Lookout struct {
	Name   string
	Places int
	From   Time // when it begins, unless FromTasks are given
	// FromTasks are tasks with whose ends it begins, the last of them.
	FromTasks []int
	Until     Time // when it ends; 0 means with the drill, or with UntilTasks
	// UntilTasks are tasks of which the first on which work starts ends it. Who
	// stands there counts as free for them.
	UntilTasks []int
	// UnlessWorked says that it needs nobody while people are at work at its
	// spot, or at another spot in the same shelter.
	UnlessWorked bool
	Relief       Time // between reliefs; 0 means none
	Spot         int
	Who          []int // people in roster order
	IfNobody     IfNobody
	Longest      Time // reported when overstepped; 0 means no bound
	Effort       Effort
	// Hurt says that the one person of Who is hurt from From on: this comes
	// before every other lookout and every task, wherever it stands in the list,
	// and also for somebody relieved at that very moment.
	Hurt bool
}

// IfNobody says what happens when nobody is free to take a place.
type IfNobody int

// What happens when nobody is free.
const (
	Wait IfNobody = iota // the first to come free, ahead of tasks
	Skip                 // given up until the next relief time
	Pull                 // somebody leaves a joinable task
)

// Milestone is a moment people ask about: when all of its tasks have ended.
type Milestone struct {
	Name   string
	When   []int // tasks; for "finish" all of them
	By     Time  // Never when there is no target
	ByText string
}

// Met reports whether a moment at which the milestone is reached, [Never] if it is
// not, is in time for its target. Without a target every moment is.
func (m *Milestone) Met(at Time) bool { return at != Never && at <= m.By }

// WeatherCase is one way in which the weather may go.
type WeatherCase struct {
	Name   string
	Weight float64 // shares; need not add up to 1
	Rows   []WeatherRow
}

// WeatherRow holds from At until the next row.
type WeatherRow struct {
	At       Time
	Air      float64 // degrees C
	Wind     float64 // m/s at 10 m
	Humidity float64 // 0..1
	// From is where the wind comes from, degrees from north; nil when nobody
	// knows. For pictures only.
	From *float64
}

// FinishName is the milestone that every drill has without naming it.
const FinishName = "finish"

// TaskNamed returns the index of a task, or -1.
func (d *Drill) TaskNamed(name string) int {
	for i := range d.Tasks {
		if d.Tasks[i].Name == name {
			return i
		}
	}
	return -1
}

// WalkTime returns how long a person walks from one spot to another.
func (d *Drill) WalkTime(from, to int) Time {
	if from == to {
		return 0
	}
	return d.Spots[from].Walk + d.Spots[to].Walk
}
