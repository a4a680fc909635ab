// Package oddity looks over a drill, and an evening played of it, for what people
// mostly did not mean.
//
// [Of] looks at the drill alone: shelters that no stove can warm, loads near their
// limit, what nothing uses. [Played] looks at an evening: targets missed, stoves
// left alone, jackets put on late, who never eats or drinks, a shelter warmed for
// nobody, little water. [Seldom] looks at many evenings. Each finds places and
// values, and no words: what is told of them is told elsewhere. What is found is a
// question to the author of a scenario, not a mistake.
package oddity

import (
	"warmby/sim"
	"warmby/sim/stats"
)

// Kind says what is odd.
type Kind int

// What may be odd. Beside each stand the fields of a [Remark] that say where.
const (
	ColdShelter    Kind = iota // Task asks for more than its stove holds: Value degrees C, in Weather from At on
	HeavyLoad                  // Index is a load near its limit: Value kg
	EmptyLookout               // Index is a lookout with more places than people
	NoRelief                   // Index is a lookout where nobody is left to relieve
	UnusedTool                 // Index is used by nothing
	UnusedItem                 // likewise
	UnusedStove                // likewise
	UnusedSpot                 // likewise
	UnusedSkill                // likewise
	NeverLit                   // Task puts out a kind of Stove that warms nothing
	TooWarmAtStart             // Shelter is warmer on arrival than Stove can hold: Value degrees C
	NearNothing                // Task is drawn far shorter than usual in Value of all runs
	OtherLights                // the mishap of Task hangs on a darkness that never is, for people do or do not carry lights
	NeverReached               // Index is a milestone
	NoTarget                   // Index is a milestone whose target does not come
	Late                       // Index is a milestone that comes At; no order can bring it before Best
	StoveAlone                 // Stove burns in Shelter for Task with nobody there, from At to To
	JacketLate                 // Person stands about in what was worn on the march, longest, from At to To; so do Value more
	NobodyEats                 // no task is for eating
	NobodyDrinks               // no task is for drinking
	NeverEats                  // Person does not, where others do
	NeverDrinks                // likewise
	NothingInside              // Shelter is warm from At on, and nobody has a task in it or goes in
	LittleWater                // Value litres a head
	SeldomMet                  // Index is a milestone met in Share of the evenings at most
)

// Remark is one thing that is odd. Which fields count stands with its Kind; an index
// that does not is -1.
type Remark struct {
	Kind                                Kind
	Index, Task, Person, Stove, Shelter int
	Weather                             int
	At, To                              sim.Time
	Best                                sim.Time // Never when nothing bounds it
	Value                               float64
	Share                               *stats.Share
	Drill                               *sim.Drill // that it is about
}

// remark returns a remark with no index.
func remark(d *sim.Drill, kind Kind) Remark {
	return Remark{Kind: kind, Index: -1, Task: -1, Person: -1, Stove: -1, Shelter: -1, Weather: -1, Best: sim.Never, Drill: d}
}
