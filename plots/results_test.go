package plots

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"warmby/sim"
)

// Results of many runs, as a batch might give them: invented.

var winterOrders = []string{"shelter first", "drink first", "two groups", "three pairs"}

// moments draws moments about a middle, in minutes; some never come.
func moments(n int, middle, spread, never float64, seed uint64) []sim.Time {
	r := rand.New(rand.NewPCG(seed, 1))
	out := make([]sim.Time, n)
	for i := range out {
		out[i] = at(middle * math.Exp(spread*(r.Float64()+r.Float64()+r.Float64()-1.4)))
		if r.Float64() < never {
			out[i] = sim.Never
		}
	}
	return out
}

func winterOdds(runs int) OddsInput {
	st := winterCourse()
	in := OddsInput{Title: "Kestrel Fell winter course, arrival before dusk: 4 orders", Arrival: st.arrival, Light: st.light,
		Foot: fmt.Sprintf("%d runs of each order, seed 1. Played by: warmby compare --runs %d --seed 1", runs, runs)}
	for k, m := range []struct {
		name    string
		by      sim.Time
		text    string
		middles [4]float64
		never   float64
	}{
		{"shelter up", at(72.5), "dark", [4]float64{68, 72, 69, 86}, 0},
		{"heated", at(115), "", [4]float64{109, 113, 114, 132}, 0.13},
		{"first hot drink", at(65), "16:00", [4]float64{69, 56, 55, 61}, 0},
		{"ready for the night", sim.Never, "", [4]float64{168, 171, 172, 190}, 0},
	} {
		om := OddsMilestone{Name: m.name, By: m.by, ByText: m.text}
		for i, o := range winterOrders {
			never := 0.0
			if i == 2 {
				never = m.never
			}
			om.Orders = append(om.Orders, OddsOrder{o, moments(runs, m.middles[i], 0.25, never, uint64(100*k+i))})
		}
		in.Milestones = append(in.Milestones, om)
	}
	return in
}

func winterDifferences() DifferencesInput {
	in := DifferencesInput{Title: "Kestrel Fell winter course: which order is ahead", Lead: "“Heated” comes 4.1 min sooner under shelter first than under drink first.",
		Foot: "1000 runs of each order, seed 1."}
	ms := func(minutes float64) float64 { return minutes * milliseconds }
	for k, m := range []string{"shelter up", "heated", "first hot drink"} {
		g := DifferenceGroup{Name: m}
		for i := range winterOrders {
			for j := i + 1; j < len(winterOrders); j++ {
				mid := float64(i-j)*3.1 + float64(k*j) - 1.5
				g.Rows = append(g.Rows, Difference{A: winterOrders[i], B: winterOrders[j], Mean: ms(mid), Low: ms(mid - 1.2), High: ms(mid + 1.3), Exploratory: k == 2})
			}
		}
		in.Groups = append(in.Groups, g)
	}
	nan := math.NaN()
	in.Groups[1].Rows[3] = Difference{A: "drink first", B: "two groups", Mean: nan, Low: nan, High: nan, Why: "never reached in 0 runs of the one and 130 of the other, of 1000"}
	in.Groups[1].Rows[4].Low, in.Groups[1].Rows[4].High = math.Inf(-1), math.Inf(1)
	return in
}

func winterMoves() MovesInput {
	nan := math.NaN()
	return MovesInput{Title: "Kestrel Fell winter course: what moves it", Lead: "A minute less of pitching the tent is 0.34 min won until it is heated.",
		Groups: []MovesGroup{
			{"shelter up under shelter first", []Mover{
				{"tramp the floor", 0.26, 0.22, 0.3, "", 0.99}, {"pitch the tent", 0.34, 0.32, 0.36, "", 1}, {"let it set", 0.97, 0.93, 1, "", 0.99},
				{"unpack tent", -0.12, -0.4, 0.15, "", 0.4}, {"bank the skirt", 0, 0, 0, "", 0}, {"eat supper", nan, nan, nan, "on no critical sequence in 200 runs, and not played again", 0},
			}},
			{"heated under shelter first", []Mover{
				{"warm the tent", nan, nan, nan, "its length is worked out, not given", 1}, {"light the heater", 0.99, 0.97, 1.01, "", 1},
				{"tramp the floor", 0.24, 0.2, 0.29, "", 0.97}, {"build the snow wall", 0.02, math.Inf(-1), math.Inf(1), "", 0.02},
			}},
		}}
}

// estimates are moments about some minutes.
func estimates(half float64, minutes ...float64) []Estimate {
	var out []Estimate
	for _, m := range minutes {
		e := Estimate{Value: sim.Never, Low: sim.Never, High: sim.Never}
		if !math.IsInf(m, 0) {
			e = Estimate{Value: at(m), Low: at(max(0, m-half)), High: at(m + half)}
		}
		out = append(out, e)
	}
	return out
}

func winterSweep() SweepInput {
	inf := math.Inf(1)
	return SweepInput{Title: "Kestrel Fell winter course: what the power of the heater does", Milestone: "heated", By: at(115), Arrival: winterCourse().arrival,
		Lead:    "With 5 kW or more the tent is warm by 16:50 in 9 of 10 evenings under shelter first.",
		Measure: "9 of 10 evenings by then", Interval: "its 95 % interval",
		Keys: []SweepKey{{Name: "stoves.heater.power", Unit: "kW", Values: []float64{3, 4, 5, 6, 7.5, 9}}},
		Lines: []SweepLine{
			{"shelter first", estimates(3, inf, 141, 124, 113, 107, 103)},
			{"drink first", estimates(4, inf, 150, 129, 118, 111, 107)},
			{"three pairs", estimates(5, inf, inf, 149, 136, 130, 127)},
		}}
}

func winterMap() SweepInput {
	in := winterSweep()
	in.Title = "Kestrel Fell winter course: heater and shovels"
	in.Keys = append(in.Keys, SweepKey{Name: "tools.shovel", Values: []float64{1, 2, 3, 4}})
	for k := range in.Lines {
		in.Lines[k].Estimates = nil
		for i := range in.Keys[0].Values {
			for j := range 4 {
				m := 160 - 9*float64(i) - 8*float64(j) + 7*float64(k)
				if m > 158 {
					m = math.Inf(1)
				}
				in.Lines[k].Estimates = append(in.Lines[k].Estimates, estimates(3, m)...)
			}
		}
	}
	return in
}

func winterTeam() TimeByTeamInput {
	return TimeByTeamInput{Title: "Kestrel Fell winter course: what one more person is worth", Milestone: "heated", By: at(115), Arrival: winterCourse().arrival,
		Lead: "From five people on, one more wins less than 4 min.", Measure: "mean", Interval: "its 95 % interval", People: []int{2, 3, 4, 5, 6, 7, 8, 9},
		Lines: []SweepLine{{"shelter first", estimates(2, 190, 151, 130, 119, 115, 112, 110, 110)}, {"two groups", estimates(2.5, math.Inf(1), 160, 136, 122, 114, 108, 105, 104)}}}
}

func winterFront() FrontInput {
	return FrontInput{Title: "Kestrel Fell winter course: no order is best at everything", Lead: "12 of 4000 orders tried are beaten by none in both.",
		Aims: []Aim{{"first hot drink, 9 of 10 evenings by", "min since arrival"}, {"heated, 9 of 10 evenings by", "min since arrival"}},
		Orders: []FrontOrder{
			{"shelter first", []float64{81, 123}}, {"drink first", []float64{60, 128}}, {"two groups", []float64{58, 130}}, {"three pairs", []float64{74, 153}},
			{"found 1", []float64{63, 121}}, {"found 2", []float64{68, 117}}, {"found 3", []float64{59, 126}}, {"never warm", []float64{60, math.Inf(1)}},
		}}
}

func winterFronts() FrontInput {
	in := winterFront()
	in.Aims = append(in.Aims, Aim{"worst cold strain", "Wh/m²"})
	for i := range in.Orders {
		in.Orders[i].Values = append(slices.Clone(in.Orders[i].Values), 20+float64(i*i%7)*5)
	}
	return in
}

func winterHalt() HaltOddsInput {
	first := time.Date(2027, 1, 24, 11, 30, 0, 0, time.FixedZone("", 3600))
	in := HaltOddsInput{Title: "Harl Plateau dog-sled journey: the latest halt", Lead: "Halt by 13:00 and in 9 of 10 evenings it is heated before dark.",
		Odds: 0.9, Latest: first.Add(90 * time.Minute), Dark: []ClockSpan{{first.Add(231 * time.Minute), first.Add(20 * time.Hour)}},
		Milestones: []HaltMilestone{{Name: "heated and dogs fed", Asked: true}, {Name: "shelter up"}, {Name: "hot drink"}}}
	for k := range 17 {
		in.Arrivals = append(in.Arrivals, first.Add(time.Duration(15*k)*time.Minute))
		for i := range in.Milestones {
			s := 1 / (1 + math.Exp((float64(15*k)-[]float64{130, 190, 160}[i])/18))
			half := 1.96 * math.Sqrt(s*(1-s)/400)
			in.Milestones[i].Odds = append(in.Milestones[i].Odds, Odd{s, max(0, s-half), min(1, s+half+0.004)})
		}
	}
	return in
}
