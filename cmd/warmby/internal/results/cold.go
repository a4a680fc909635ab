package results

import (
	"strconv"
	"sync"

	"warmby/sim"
	"warmby/sim/batch"
)

// roster names the people of a point in roster order, and its tasks: those that
// each does for himself are as many as there are people.
type roster struct{ people, tasks []string }

// rosters knows who is there at each point, and what there is to do: the team
// may be what is varied. It is asked from several goroutines.
type rosters struct {
	drills func(point int) ([]*sim.Drill, error)
	mu     sync.Mutex
	by     map[int]roster
}

// of returns the people and tasks of a point. They are the same under all
// orders.
func (r *rosters) of(point int) (roster, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if names, ok := r.by[point]; ok {
		return names, nil
	}
	drills, err := r.drills(point)
	if err != nil {
		return roster{}, err
	}
	var names roster
	for i := range drills[0].People {
		names.people = append(names.people, drills[0].People[i].Name)
	}
	for i := range drills[0].Tasks {
		names.tasks = append(names.tasks, drills[0].Tasks[i].Name)
	}
	if r.by == nil {
		r.by = map[int]roster{}
	}
	r.by[point] = names
	return names, nil
}

// there is of, for a chunk that fits the batch: results.fits has asked before.
func (r *rosters) there(c *batch.Chunk) roster {
	names, err := r.of(c.Point)
	if err != nil {
		panic("a roster that was there is gone: " + err.Error())
	}
	return names
}

// forget drops the points before one, which are not asked for again.
func (r *rosters) forget(before int) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for point := range r.by {
		if point < before {
			delete(r.by, point)
		}
	}
}

// coldRows is how many rows of a table of cold a chunk makes.
func coldRows(c *batch.Chunk) int64 {
	n := 0
	for i := range c.Orders {
		n += len(c.Orders[i].Cold)
	}
	return int64(n)
}

// taskRowsIn is how many rows of a table of tasks a chunk makes.
func taskRowsIn(c *batch.Chunk) int64 {
	n := 0
	for i := range c.Orders {
		n += len(c.Orders[i].Start)
	}
	return int64(n)
}

// eachCold calls a function for each run, order and person of a chunk that fits
// the batch.
func (p *Plan) eachCold(c *batch.Chunk, row func(run, order int, person string, cold batch.Chill)) {
	people := p.rosters.there(c).people
	for run := c.From; run < c.To; run++ {
		for o := range c.Orders {
			for who, name := range people {
				row(run, o, name, c.Orders[o].Cold[(run-c.From)*len(people)+who])
			}
		}
	}
}

// csvCold writes a row for each run, order and person of a chunk.
type csvCold struct {
	d dialect
	p *Plan
}

func (c *csvCold) columns() []string {
	return []string{"point", "run", "order", "person", "peak_wh_m2", "peak_at_s", "passed_at_s"}
}

func (c *csvCold) encode(b []byte, chunk *batch.Chunk) []byte {
	comma := c.d.comma
	point := strconv.Itoa(chunk.Point+1) + comma
	c.p.eachCold(chunk, func(run, order int, person string, cold batch.Chill) {
		b = append(b, point...)
		b = strconv.AppendInt(b, int64(run), 10)
		b = append(b, comma+c.d.name(c.p.Job.Orders[order])+comma+c.d.name(person)+comma...)
		if cold.Peak >= 0 {
			b = c.d.appendThousandths(b, cold.Peak)
		}
		b = append(b, comma...)
		b = c.d.appendSeconds(b, cold.PeakAt)
		b = append(b, comma...)
		b = c.d.appendSeconds(b, cold.PassedAt)
		b = append(b, c.d.end...)
	})
	return b
}

// coldRow is a row of cold.parquet; a nil peak is no account, a nil passed
// never.
type coldRow struct {
	Point  int32    `parquet:"point"`
	Run    int64    `parquet:"run,delta"`
	Order  string   `parquet:"order,dict"`
	Person string   `parquet:"person,dict"`
	Peak   *float64 `parquet:"peak_wh_m2,optional"`
	PeakAt *float64 `parquet:"peak_at_s,optional"`
	Passed *float64 `parquet:"passed_at_s,optional"`
}

func coldRowsOf(p *Plan) func([]coldRow, []float64, *batch.Chunk) []coldRow {
	return func(rows []coldRow, times []float64, c *batch.Chunk) []coldRow {
		p.eachCold(c, func(run, order int, person string, cold batch.Chill) {
			row := coldRow{Point: int32(c.Point + 1), Run: int64(run), Order: p.Job.Orders[order], Person: person}
			if cold.Peak >= 0 {
				times = append(times, float64(cold.Peak)/1000)
				row.Peak = &times[len(times)-1]
			}
			row.PeakAt, row.Passed = pointer(&times, cold.PeakAt), pointer(&times, cold.PassedAt)
			rows = append(rows, row)
		})
		return rows
	}
}
