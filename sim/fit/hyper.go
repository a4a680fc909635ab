package fit

import "math"

// spreadOf draws the spread of deviations around 0. Before them it is a half
// Student-t of 4 degrees of freedom on a scale (A. Gelman, Bayesian Analysis 1
// (2006) 515-534); it is drawn from a grid, evenly by its logarithm.
func (st *state) spreadOf(deviations []float64, scale float64) float64 {
	squares := 0.0
	for _, d := range deviations {
		squares += d * d
	}
	n := float64(len(deviations))
	var logs [64]float64
	for k, g := range grid {
		x := g / scale
		logs[k] = -n*math.Log(g) - squares/(2*g*g) - 2.5*math.Log1p(x*x/4) + math.Log(g)
	}
	return grid[st.s.weighed(logs[:len(grid)])]
}

// spreads draws the spread of each task around that of the file, which all of
// them together may find too narrow or too wide, and how much the file's is
// worth: s2 = v k s0^2 / chi2(v).
func (st *state) spreads() {
	k, v := st.wider, weights[st.worth]
	var inverse, logs, quotients float64
	for i, l := range st.m.Laws {
		squares := 0.0
		for _, at := range st.of[i] {
			e := st.log[at] - st.around(at) - st.task[i]
			squares += e * e
		}
		before := l.Spread * l.Spread
		st.square[i] = (float64(v)*k*before + squares) / st.s.chiSquared(v+len(st.of[i]))
		st.square[i] = math.Min(math.Max(st.square[i], 1e-5), 9)
		q := before / st.square[i]
		inverse, logs, quotients = inverse+q, logs+math.Log(q), quotients+1
	}
	// k: gamma before, of mean 1 and worth four degrees of freedom
	st.wider = st.s.chiSquared(4+int(quotients)*v) / (4 + float64(v)*inverse)
	st.wider = math.Min(math.Max(st.wider, 1e-3), 1e3)
	var chances [16]float64
	for j, w := range weights {
		h := float64(w) / 2
		g, _ := math.Lgamma(h)
		chances[j] = quotients*(h*math.Log(h*st.wider)-g) + h*logs - h*st.wider*inverse
	}
	st.worth = st.s.weighed(chances[:len(weights)])
}

// factors draws what each factor does to the logarithm of work.
func (st *state) factors() {
	for j, x := range st.m.Factors {
		sum, p := 0.0, 0.0
		for at, i := range st.law {
			r := st.rows[at]
			if !st.m.Laws[i].Work || x[r.Drill] == 0 {
				continue
			}
			left := st.log[at] - st.around(at) - st.task[i] + st.factor[j]*x[r.Drill]
			sum += left * x[r.Drill] / st.square[i]
			p += x[r.Drill] * x[r.Drill] / st.square[i]
		}
		st.changeBase(j, st.given(0, factorBefore, sum, p)-st.factor[j])
	}
}

func (st *state) changeBase(j int, by float64) {
	st.factor[j] += by
	for at := range st.rows {
		st.base[at] += by * st.m.Factors[j][st.rows[at].Drill]
	}
}

// paces draws the pace of each person: work takes less by the share that the
// person has in it. They mean something only relative to each other, so their
// mean is kept at 0.
func (st *state) paces() {
	if st.m.People == 0 {
		return
	}
	for who := range st.pace {
		sum, p := 0.0, 0.0
		for at, i := range st.law {
			if x := shareOf(st.rows[at].Crew, who); x > 0 && st.m.Laws[i].Work {
				left := st.log[at] - st.around(at) - st.task[i] - x*st.pace[who]
				sum -= left * x / st.square[i]
				p += x * x / st.square[i]
			}
		}
		st.changePace(who, st.given(0, paceBefore, sum, p)-st.pace[who])
	}
	mean := 0.0
	for _, a := range st.pace {
		mean += a / float64(len(st.pace))
	}
	for who := range st.pace {
		st.changePace(who, -mean)
	}
}

func (st *state) changePace(who int, by float64) {
	st.pace[who] += by
	for at := range st.rows {
		st.base[at] -= by * shareOf(st.rows[at].Crew, who)
	}
}

func shareOf(crew []PersonShare, who int) float64 {
	for _, c := range crew {
		if c.Person == who {
			return c.Share
		}
	}
	return 0
}
