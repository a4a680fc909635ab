package document

import (
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/rehearse"
)

// Alone is a time in which a stove burns in a shelter with nobody there.
type Alone struct {
	Stove   string  `json:"stove"`
	Shelter string  `json:"shelter"`
	Task    string  `json:"task"`
	From    Seconds `json:"from_s"`
	To      Seconds `json:"to_s"`
}

// Room is how warm a shelter was.
type Room struct {
	Shelter string   `json:"shelter"`
	Lit     Seconds  `json:"lit_s"`
	Warm    Seconds  `json:"warm_s"`
	Out     Seconds  `json:"out_s"`
	Coldest *float64 `json:"coldest_c"`
	AtEnd   *float64 `json:"at_end_c"` // null where it was never lit
}

// WarmUp is who was inside against those whom a warm-up counts on.
type WarmUp struct {
	Task      string  `json:"task"`
	Shelter   string  `json:"shelter"`
	CountsOn  int     `json:"counts_on"`
	Inside    float64 `json:"average_inside"`
	Warming   float64 `json:"average_warming"`
	End       Seconds `json:"end_s"`
	WithThose Seconds `json:"warm_with_those_s"`
	Needs     float64 `json:"needs_w"`
}

// Sweat is what somebody sweats at one thing.
type Sweat struct {
	Activity string  `json:"activity"`
	Task     string  `json:"task,omitempty"`
	Lookout  string  `json:"lookout,omitempty"`
	Length   Seconds `json:"length_s"`
	Grams    float64 `json:"sweat_g"`
	Halt     bool    `json:"in_down_jacket"`
}

func alone(r *rehearse.Rehearsal) []Alone {
	d, list := r.Drill, []Alone{}
	for _, l := range r.Alone {
		list = append(list, Alone{d.Stoves[l.Stove].Name, d.Shelters[l.Shelter].Name, d.Tasks[l.Task].Name, Seconds(l.From), Seconds(l.To)})
	}
	return list
}

func rooms(r *rehearse.Rehearsal) []Room {
	list := []Room{}
	for i := range r.Rooms {
		room := &r.Rooms[i]
		one := Room{Shelter: r.Drill.Shelters[room.Shelter].Name, Lit: Seconds(room.Lit), Warm: Seconds(room.Warm), Out: Seconds(sim.Never)}
		if out, ok := room.Out(); ok && out < r.End {
			one.Out = Seconds(out)
		}
		if c, ok := room.Temperature(r.End); ok {
			c = Decimals(c)
			one.AtEnd = &c
			if room.Warm <= r.End {
				coldest := Decimals(room.Coldest(r.End))
				one.Coldest = &coldest
			}
		}
		list = append(list, one)
	}
	return list
}

func warmUps(r *rehearse.Rehearsal) []WarmUp {
	list := []WarmUp{}
	for _, a := range r.Assumed {
		list = append(list, WarmUp{r.Drill.Tasks[a.Task].Name, r.Drill.Shelters[a.Shelter].Name, a.People, Decimals(a.Inside),
			Decimals(a.Warming), Seconds(r.Tasks[a.Task].End), Seconds(a.End), Decimals(a.Needs)})
	}
	return list
}

func sweats(d *sim.Drill, p *cold.Person) []Sweat {
	list := []Sweat{}
	for _, s := range p.Sweats {
		one := Sweat{Activity: activity(s.What), Length: Seconds(s.Time), Grams: Decimals(s.Grams), Halt: s.Halt}
		if s.What == sim.Working {
			one.Task = d.Tasks[s.Task].Name
		}
		if s.What == sim.Watching {
			one.Lookout = d.Lookouts[s.Lookout].Name
		}
		list = append(list, one)
	}
	return list
}

func verdict(v cold.Verdict) string {
	switch v {
	case cold.Within:
		return "within"
	case cold.Near:
		return "near"
	case cold.FarOver:
		return "far over"
	}
	return "over"
}
