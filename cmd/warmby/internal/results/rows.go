package results

import (
	"strings"

	"warmby/sim"
	"warmby/sim/batch"
	"warmby/sim/draw"
)

// The rows of the tables. The tags of a field name its column, in what unit it
// is and what it means; the data package says the same.

type runRow struct {
	Point     int32    `parquet:"point" doc:"the point, from 1 on; see points.csv"`
	Run       int64    `parquet:"run,delta" doc:"the run, from 0 on: runs of the same number have the same luck at all points and under all orders; warmby rehearse --seed and --run play one"`
	Order     string   `parquet:"order,dict" doc:"the drill order"`
	Milestone string   `parquet:"milestone,dict" doc:"the milestone; finish is when every task has ended"`
	Time      *float64 `parquet:"time_s,optional" unit:"s" doc:"when it was reached, in seconds since arrival; missing: never"`
}

// AtRun says which run a row is of.
type AtRun struct {
	Point int32  `parquet:"point" doc:"the point, from 1 on; see points.csv"`
	Run   int64  `parquet:"run,delta" doc:"the run, as in runs"`
	Order string `parquet:"order,dict" doc:"the drill order"`
}

// Coldest is the account of cold of one person in one run.
type Coldest struct {
	Peak   *float64 `parquet:"peak_wh_m2,optional" unit:"Wh/m2" doc:"the most heat lost and not yet won back at any moment, per square metre of skin; missing: no account, since weather or clothing is not given or the run came to a stop"`
	PeakAt *float64 `parquet:"peak_at_s,optional" unit:"s" doc:"when that was, in seconds since arrival; missing: no account"`
	Passed *float64 `parquet:"passed_at_s,optional" unit:"s" doc:"when it first reached the limit of 40 Wh/m2, in seconds since arrival; missing: never, or no account"`
}

type taskRow struct {
	AtRun
	Task     string   `parquet:"task,dict" doc:"the task; \"unpack ..\" takes an item off its load"`
	Start    *float64 `parquet:"start_s,optional" unit:"s" doc:"when work on it began (the whole crew was there), in seconds since arrival; missing: never"`
	End      *float64 `parquet:"end_s,optional" unit:"s" doc:"when it ended, in seconds since arrival; missing: never"`
	Called   *float64 `parquet:"called_s,optional" unit:"s" doc:"when its crew was called and its tools were taken, in seconds since arrival; missing: never"`
	Mishaps  int64    `parquet:"mishaps" doc:"how many mishaps it has in this run, if it is done at all"`
	Mishap   *float64 `parquet:"mishap_s,optional" unit:"s" doc:"how much longer they make it, all together"`
	People   string   `parquet:"people,dict" doc:"all who were there at some time, in roster order, with semicolons between"`
	Critical string   `parquet:"critical_of,dict" doc:"the milestones on whose critical sequence it is, with semicolons between: those that it decided when they came"`
}

type personRow struct {
	AtRun
	Person  string   `parquet:"person,dict" doc:"who"`
	Working *float64 `parquet:"working_s,optional" unit:"s" doc:"how long this person works on tasks"`
	Walking *float64 `parquet:"walking_s,optional" unit:"s" doc:"how long this person walks to tasks and lookouts"`
	Waiting *float64 `parquet:"waiting_s,optional" unit:"s" doc:"how long this person is at a task and waits for the rest of its crew"`
	Lookout *float64 `parquet:"lookout_s,optional" unit:"s" doc:"how long this person stands at lookouts"`
	Free    *float64 `parquet:"free_s,optional" unit:"s" doc:"how long this person has nothing to do, from its arrival until the last task has ended"`
	Coldest
}

type coldRow struct {
	AtRun
	Person string `parquet:"person,dict" doc:"who"`
	Coldest
}

type fuelRow struct {
	AtRun
	Stove   string   `parquet:"stove,dict" doc:"the kind of stove, all of that kind together"`
	Burning *float64 `parquet:"burning_s,optional" unit:"s" doc:"how long they burn, all together"`
	Volume  *float64 `parquet:"fuel_mL,optional" unit:"mL" doc:"the fuel they burn, of a fuel that is counted by volume; missing: by mass, or not known"`
	Mass    *float64 `parquet:"fuel_g,optional" unit:"g" doc:"the fuel they burn, of a fuel that is counted by mass; missing: by volume, or not known"`
}

type drawRow struct {
	Point   int32   `parquet:"point" doc:"the point, from 1 on; see points.csv"`
	Run     int64   `parquet:"run,delta" doc:"the run, as in runs; its draws are the same under all orders"`
	Name    string  `parquet:"name,dict" doc:"the task, person or load; empty for day and weather"`
	Purpose string  `parquet:"purpose,dict" doc:"what is drawn: work (the length of a task, before crew and day count), mishap (whether it happens), mishap adds, arrives, load arrives, day, own day (of a person), weather"`
	Draw    int64   `parquet:"draw" doc:"which draw of the same name and purpose, from 1 on: a mishap that may happen again has several, and those after the first that does not happen count for nothing"`
	U       float64 `parquet:"u" doc:"the uniform number, over 0 and under 1; with all its digits, so that it can be played again"`
	Value   float64 `parquet:"value" doc:"what the distribution in the scenario makes of it: seconds of a length or since arrival, the factor of the day or of a person's own, 1 or 0 for a mishap (by its usual chance where that hangs on a condition), the number of the weather case from 1 on"`
}

// eachRun calls a function for each run and order of a chunk; k counts the runs
// from 0 on.
func (p *Plan) eachRun(c *batch.Chunk, row func(at AtRun, k, order int)) {
	first := p.firstRun(c.Point)
	for k := range c.Runs() {
		for o := range c.Orders {
			row(AtRun{int32(c.Point + 1), first + int64(c.From+k), p.Job.Orders[o]}, k, o)
		}
	}
}

func (p *Plan) runRows(c *batch.Chunk, a *arena, row func(runRow)) {
	milestones := p.First.Milestones
	p.eachRun(c, func(at AtRun, k, o int) {
		for m := range milestones {
			row(runRow{at.Point, at.Run, at.Order, milestones[m].Name, a.seconds(c.Orders[o].Milestones[k*len(milestones)+m])})
		}
	})
}

func (p *Plan) taskRows(c *batch.Chunk, a *arena, row func(taskRow)) {
	there := p.there(c)
	n, words := len(there.tasks), batch.CrewWords(len(there.people))
	var luck sim.Luck
	p.eachRun(c, func(at AtRun, k, o int) {
		if o == 0 {
			p.luckOf(c.Point, c.From+k, there.sampler, &luck)
		}
		runs := &c.Orders[o]
		for t, name := range there.tasks {
			i := k*n + t
			mishaps, adds := luck.MishapsOf(there.drill, t, runs.Start[i])
			row(taskRow{
				AtRun: at, Task: name,
				Start: a.seconds(runs.Start[i]), End: a.seconds(runs.End[i]), Called: a.seconds(runs.Called[i]),
				Mishaps: int64(mishaps), Mishap: a.seconds(adds),
				People: there.crew(runs.Crew[i*words : (i+1)*words]), Critical: p.milestonesIn(runs.Critical[i]),
			})
		}
	})
}

// crew names the people whose bits are set.
func (r *roster) crew(words []uint64) string {
	var names []string
	for who, name := range r.people {
		if words[who/64]>>(who%64)&1 == 1 {
			names = append(names, name)
		}
	}
	return strings.Join(names, "; ")
}

// milestonesIn names the milestones whose bits are set.
func (p *Plan) milestonesIn(bits uint64) string {
	var names []string
	for m := range min(64, len(p.First.Milestones)) {
		if bits>>m&1 == 1 {
			names = append(names, p.First.Milestones[m].Name)
		}
	}
	return strings.Join(names, "; ")
}

func (p *Plan) personRows(c *batch.Chunk, a *arena, row func(personRow)) {
	people := p.there(c).people
	p.eachRun(c, func(at AtRun, k, o int) {
		for who, name := range people {
			i := k*len(people) + who
			spent := c.Orders[o].Spent[i*batch.Activities : (i+1)*batch.Activities]
			row(personRow{
				AtRun: at, Person: name,
				Working: a.seconds(spent[sim.Working]), Walking: a.seconds(spent[sim.Walking]), Waiting: a.seconds(spent[sim.Ready]),
				Lookout: a.seconds(spent[sim.Watching]), Free: a.seconds(spent[sim.Free]),
				Coldest: a.coldest(c.Orders[o].Cold[i]),
			})
		}
	})
}

func (p *Plan) coldRows(c *batch.Chunk, a *arena, row func(coldRow)) {
	people := p.there(c).people
	p.eachRun(c, func(at AtRun, k, o int) {
		for who, name := range people {
			row(coldRow{AtRun: at, Person: name, Coldest: a.coldest(c.Orders[o].Cold[k*len(people)+who])})
		}
	})
}

func (a *arena) coldest(c batch.Chill) Coldest {
	return Coldest{a.thousandths(c.Peak), a.seconds(c.PeakAt), a.seconds(c.PassedAt)}
}

func (p *Plan) fuelRows(c *batch.Chunk, a *arena, row func(fuelRow)) {
	stoves := p.there(c).stoves
	p.eachRun(c, func(at AtRun, k, o int) {
		for s := range stoves {
			burnt := c.Orders[o].Fuel[k*len(stoves)+s]
			r := fuelRow{AtRun: at, Stove: stoves[s].Name, Burning: a.seconds(burnt.Lit)}
			if stoves[s].FuelByMass {
				r.Mass = a.thousandths(burnt.Fuel)
			} else {
				r.Volume = a.thousandths(burnt.Fuel)
			}
			row(r)
		}
	})
}

func (p *Plan) drawRows(c *batch.Chunk, _ *arena, row func(drawRow)) {
	there := p.there(c)
	first := p.firstRun(c.Point)
	for run := c.From; run < c.To; run++ {
		us := p.draws(c.Point, run, there.factors)
		for i := range there.factors {
			f := &there.factors[i]
			row(drawRow{int32(c.Point + 1), first + int64(run), f.Name, f.Purpose, int64(f.N + 1), us[i], worth(f, us[i])})
		}
	}
}

// worth is what a number comes to in a table: lengths in seconds, to the
// millisecond, and weather cases counted from 1 on.
func worth(f *draw.Factor, u float64) float64 {
	v := f.Value(u)
	switch {
	case f.IsLength():
		return sim.Milliseconds(v).Seconds()
	case f.Purpose == draw.ForWeather:
		return v + 1
	}
	return v
}
