package fit

import (
	"math"
	"math/big"

	"gonum.org/v1/gonum/stat/distuv"

	"warmby/sim"
	"warmby/sim/heat"
)

// StoveFit is what a log says of how much of a stove's heat gets into the pot.
type StoveFit struct {
	Stove int
	File  float64 // the file's efficiency
	// ByTime is from how long melts took, ByFuel from fuel burnt and water melted:
	// how many melts or drills, and what they say on average.
	Melts  int
	ByTime float64
	Fuels  int
	ByFuel float64
	// Plan is to plan with, between Low and High with 8 in 10.
	Plan, Low, High float64
}

// at returns the efficiency that is so many standard deviations of its logarithm
// from the plan; 1 at most.
func (s StoveFit) at(z float64) float64 {
	spread := math.Log(s.High/s.Low) / (2 * distuv.UnitNormal.Quantile(0.9))
	return min(1, s.Plan*math.Exp(float64(z*spread)))
}

// What is taken for likely of a stove before it is timed, from memory: how far
// its efficiency is from the file's, and from one melt to the next. The file's
// figure is worth stoveWorth melts.
const (
	stoveBefore = 0.3
	stoveEach   = 0.2
	stoveWorth  = stoveEach * stoveEach / (stoveBefore * stoveBefore)
	stoveFree   = 4 // degrees of freedom with which stoveEach is known
)

// stoves fits efficiencies: the file's melt takes handling and heat / (power x
// efficiency), so a melt that took another time tells another efficiency. Fuel and
// water are planned with only where no melt was timed: fuel goes into much
// besides the water that was noted.
func stoves(f *Fitted) []StoveFit {
	var out []StoveFit
	for i := range f.Drill.Stoves {
		s := &f.Drill.Stoves[i]
		fit := StoveFit{Stove: i, File: s.Efficiency}
		var logs, fuels []float64
		for k, e := range f.Evenings {
			for _, x := range byTime(e, f.Replayed[k], i) {
				logs, fit.Melts = append(logs, x), fit.Melts+1
				fit.ByTime += x
			}
			if x, ok := byFuel(e, i); ok {
				fuels, fit.Fuels = append(fuels, x), fit.Fuels+1
				fit.ByFuel += x
			}
		}
		if len(logs) == 0 {
			logs = fuels
		}
		if len(logs) == 0 || s.Efficiency <= 0 {
			continue
		}
		fit.ByTime = s.Efficiency * math.Exp(fit.ByTime/float64(max(1, fit.Melts)))
		fit.ByFuel = s.Efficiency * math.Exp(fit.ByFuel/float64(max(1, fit.Fuels)))
		fit.Plan, fit.Low, fit.High = planStove(s.Efficiency, logs)
		out = append(out, fit)
	}
	return out
}

// planStove puts logarithms of efficiency over the file's together with a
// conjugate normal: Student's t for the mean.
func planStove(file float64, logs []float64) (plan, low, high float64) {
	n, sum := float64(len(logs)), 0.0
	for _, x := range logs {
		sum += x
	}
	mean, squares := sum/n, 0.0
	for _, x := range logs {
		squares += (x - mean) * (x - mean)
	}
	worth := n + stoveWorth
	level := sum / worth
	free := stoveFree + n
	v := (stoveFree*stoveEach*stoveEach + squares + stoveWorth*n/worth*mean*mean) / free
	half := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: free}.Quantile(0.9) * math.Sqrt(v/worth)
	return math.Min(1, file*math.Exp(level)), math.Min(1, file*math.Exp(level-half)), math.Min(1, file*math.Exp(level+half))
}

// byTime returns, for each melt on a stove that was timed, the logarithm of its
// efficiency over that of the file. A stove that warms a shelter as well does not
// tell: what the pot had of it is not known.
func byTime(e Evening, played *Replayed, stove int) []float64 {
	var out []float64
	for k := range e.Timed.Jobs {
		j := &e.Timed.Jobs[k]
		t := &e.Drill.Tasks[j.Task]
		if t.Kind != sim.Melt || t.Melt.Stove != stove || e.Drill.Stoves[stove].HoldsPots || j.Unfinished || j.Mishaps > 0 {
			continue
		}
		start := j.Start
		if start == sim.Never {
			if start = played.Timeline.Tasks[j.Task].Start; start == sim.Never || off(played, k) {
				continue
			}
		}
		melt := heat.Melt(&e.Drill.Site, &e.Drill.Stoves[stove], t.Melt)
		took := j.End - start - (melt.Time - melt.Heating)
		if took > sim.Minute && melt.Heating > 0 && melt.Time != sim.Never {
			out = append(out, math.Log(float64(melt.Heating)/float64(took)))
		}
	}
	return out
}

func off(played *Replayed, job int) bool {
	for _, k := range played.Off {
		if k == job {
			return true
		}
	}
	return false
}

// byFuel returns the same from fuel burnt and water made of snow and boiled. A
// stove that warms a shelter as well does not tell.
func byFuel(e Evening, stove int) (float64, bool) {
	s := &e.Drill.Stoves[stove]
	for _, u := range e.Timed.Stoves {
		if u.Stove != stove || u.Fuel <= 0 || u.Water <= 0 || s.FuelHeat <= 0 || s.HoldsPots {
			continue
		}
		m := sim.Melting{Water: new(big.Rat).SetFloat64(u.Water), Boil: true}
		into := heat.MeltEnergy(&e.Drill.Site, &m)
		return math.Log(into / (u.Fuel * s.FuelHeat) / s.Efficiency), true
	}
	return 0, false
}
