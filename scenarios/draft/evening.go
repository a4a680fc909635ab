package draft

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"time"
)

// evening is what the template needs.
type evening struct {
	answers   Answers
	arrival   time.Time
	longitude float64

	Schema, Quoted, LongitudeNote           string
	Latitude, Longitude, Elevation, Arrival string
	Snow, SnowTemp                          string
	Air, AirLater, Wind, WindLater          string
	Heater, Several                         bool
	Bitter                                  bool // so cold that the jacket stays on for moderate work
	Trial                                   bool // without what-ifs, to be read faster

	Team             []member
	Leader, Watchful string
	Clothing         string
	Tents            []*tent
	Tables           []table

	Shovels, Burners      int
	KitchenWeight         int
	KitchenWork, SnowWork string
	KitchenCrew           int
	Power                 string // of a heater
	Drinks, Suppers       []melt
	Bottles               []melt
	CheckSpot, CheckAfter string
	Targets               targets
	Orders                []order
	Missing, LateSled     string
}

type member struct {
	Name  string
	Stove bool
	tent  int // where this one sleeps
}

// table is who eats and changes socks where.
type table struct {
	Eat, Socks, Bottle, Inside, Pitch, SocksAfter string
	Who                                           string // "" for everybody
}

type melt struct{ Task, Water string }

// invented names, the leader first.
var invented = strings.Fields("Leader Aila Berend Ciro Dagny Eskil Fenna Goran Hedda Ivo Jorun Kasimir Linnea Mirko Nanna Osmo Petra Ruben Signe Tilda")

func newEvening(a Answers) *evening {
	e := &evening{answers: a, Schema: a.Schema, Quoted: quoted(a.Title), Heater: a.Heater, Several: a.Tents > 1}
	e.place()
	e.weather()
	e.team()
	e.pitch()
	e.kitchen()
	e.tables()
	e.orders()
	return e
}

// place settles where and when it is.
func (e *evening) place() {
	p := e.answers.Place
	e.longitude = p.Longitude
	e.arrival = e.answers.Arrival.in(p.Longitude, e.answers.Here)
	if math.IsNaN(p.Longitude) {
		_, offset := e.arrival.Zone()
		e.longitude = math.Max(-180, math.Min(180, float64(offset)/240))
		e.LongitudeNote = "; that of the clock: put in your own"
	}
	e.Latitude, e.Longitude = fmt.Sprintf("%.6g", p.Latitude), fmt.Sprintf("%.6g", e.longitude)
	e.Elevation = fmt.Sprintf("%.0f m", p.Elevation)
	e.Arrival = e.arrival.Format("2006-01-02 15:04 -07:00")
}

// bitter is the air, less a degree for each m/s of wind, in which the jacket
// stays on for moderate work (invented).
const bitter = -26

// weather lets the evening grow three degrees colder, and the wind get up in
// some. Snow is some eight degrees warmer than the air, and never above -1 C
// (both from memory).
func (e *evening) weather() {
	air, wind := e.answers.Air, e.answers.Wind
	e.Air, e.AirLater = air.Text, fmt.Sprintf("%.4g C", air.Value-3)
	e.Wind, e.WindLater = wind.Text, fmt.Sprintf("%.3g m/s", 1.4*wind.Value+2)
	e.Bitter = air.Value-wind.Value < bitter
	e.Snow, e.SnowTemp = e.answers.Snow.Text, fmt.Sprintf("%.4g C", math.Min(air.Value+8, -1))
}

// team names the people and says in which tent each sleeps.
func (e *evening) team() {
	a := e.answers
	for i := range a.People {
		name := invented[i]
		if a.Names != nil {
			name = plainOrQuoted(a.Names[i])
		}
		e.Team = append(e.Team, member{Name: name, Stove: i < a.StovePeople, tent: i % a.Tents})
	}
	e.Leader = e.Team[0].Name
	e.Watchful = names(e.Team[:2])
	if a.People > 2 && a.StovePeople < a.People {
		e.Missing = e.Team[a.People-1].Name
	}
}

var plainName = regexp.MustCompile(`^\p{L}[\p{L}\p{M}'. -]*$`)

// plainOrQuoted is a name as it may stand in a file, without quotation marks
// where YAML takes it for a word and nothing else.
func plainOrQuoted(name string) string {
	switch strings.ToLower(name) {
	case "y", "n", "yes", "no", "on", "off", "true", "false", "null":
		return quoted(name)
	}
	if plainName.MatchString(name) {
		return name
	}
	return quoted(name)
}

func names(team []member) string {
	var list []string
	for _, m := range team {
		list = append(list, m.Name)
	}
	return strings.Join(list, ", ")
}

// inTent returns who sleeps in a tent.
func (e *evening) inTent(i int) (list []member) {
	for _, m := range e.Team {
		if m.tent == i {
			list = append(list, m)
		}
	}
	return list
}

// peopleToABurner is for how many one burner melts: a litre and a half at a time.
const peopleToABurner = 3

// kitchen sizes what is dug, melted and carried for so many.
func (e *evening) kitchen() {
	n := e.answers.People
	e.Shovels = (n + 1) / 2
	e.Burners = (n + peopleToABurner - 1) / peopleToABurner
	e.KitchenWeight = 6 + 2*e.Burners
	e.KitchenWork = minutes(8 + 2*float64(e.Burners))
	e.KitchenCrew = min(3, n)
	e.SnowWork = minutes(4 + 0.6*float64(n))
	e.Drinks = e.melts("melt for a drink", 0.5)
	e.Suppers = e.melts("melt for supper", 0.7)
	e.Bottles = e.melts("melt for the bottles", 0.7)
}

// melts shares so many litres a head among the burners.
func (e *evening) melts(task string, litres float64) (list []melt) {
	each := math.Ceil(10*litres*float64(e.answers.People)/float64(e.Burners)) / 10
	for i := range e.Burners {
		name := task
		if i > 0 {
			name = fmt.Sprintf("%s on burner %d", task, i+1)
		}
		list = append(list, melt{name, fmt.Sprintf("%.4g L", each)})
	}
	return list
}

func tasksOf(list []melt) (tasks []string) {
	for _, m := range list {
		tasks = append(tasks, m.Task)
	}
	return tasks
}

// DrinkTasks lists the melts for the drink; the others theirs.
func (e *evening) DrinkTasks() string { return strings.Join(tasksOf(e.Drinks), ", ") }

// SupperTasks lists the melts for supper.
func (e *evening) SupperTasks() string { return strings.Join(tasksOf(e.Suppers), ", ") }

// BottleTasks lists the melts for the night bottles.
func (e *evening) BottleTasks() string { return strings.Join(tasksOf(e.Bottles), ", ") }

// OneLess is how many burners are left when one is dead.
func (e *evening) OneLess() int { return e.Burners - 1 }

// minutes writes a length of which usual is the likeliest: a third less when
// all goes well, two thirds more when not (invented).
func minutes(usual float64) string {
	return fmt.Sprintf("[%.0f min, %.0f min, %.0f min]", math.Max(1, math.Round(usual*0.67)), math.Max(1, math.Round(usual)), math.Max(1, math.Round(usual*1.67)))
}
