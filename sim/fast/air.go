package fast

import (
	"warmby/sim"
	"warmby/sim/heat"
)

// air is the air of a shelter.
type air struct {
	balance heat.Balance
	fire    int32 // the warm-up whose stove burns there, ended or not; -1 for none
	last    int32 // the last warm-up on which work has started, -1 for none
	told    around
}

// around is all that the air of a shelter hangs on.
type around struct {
	row, made  int32 // which step outside, and how many tasks have made something
	fire, last int32
	kept       bool // whether the warm-up has come to its end
	potOn      bool // whether a melt runs on its stove
}

// compileAirs works out in which shelters the air counts before a warm-up: those
// that are warm at the start, and those that are warmed more than once.
func (p *Program) compileAirs() {
	p.follows = make([]bool, len(p.d.Shelters))
	warmed := make([]bool, len(p.d.Shelters))
	for i := range p.d.Shelters {
		p.follows[i] = p.d.Shelters[i].AtStart != nil
	}
	for _, i := range p.warmers {
		s := p.tasks[i].Warm.Shelter
		p.follows[s] = p.follows[s] || warmed[s]
		warmed[s] = true
	}
	for i := range p.follows {
		p.follows[i] = p.follows[i] && warmed[i]
		p.airs = p.airs || p.follows[i]
	}
}

// resetAirs puts the air of all shelters back to the moment of arrival.
func (w *Worker) resetAirs() {
	for s := range w.airs {
		a := &w.airs[s]
		a.fire, a.last = -1, -1
		a.told = w.around(s)
		if w.p.follows[s] {
			inside := w.steps[0].Air
			if at := w.p.d.Shelters[s].AtStart; at != nil {
				inside = *at
			}
			a.balance = heat.Start(0, inside, w.terms(s, a.told))
		}
	}
}

// beginWarmUp lets a stove burn, if no other burns in the shelter.
func (w *Worker) beginWarmUp(i int32) {
	t := &w.tasks[i]
	s := t.Warm.Shelter
	a := &w.airs[s]
	if o := a.fire; o >= 0 && (w.jobs[o].phase != ended || w.tasks[o].stove != t.stove || w.jobs[o].unit != w.jobs[i].unit) {
		if w.clash == nil {
			w.clash = w.p.d.TwoFires(int(o), int(i))
		}
		return // the drill stops here
	}
	if !w.p.follows[s] {
		a.balance = heat.Start(w.now, w.steps[w.step].Air, heat.Terms{Outside: w.steps[w.step].Air})
	}
	a.fire, a.last = i, i
	w.warming++
	w.todo |= toHeat
	w.changeAir(s)
}

// changeAirs tells the air of shelters what has changed around it.
func (w *Worker) changeAirs() {
	if w.warming == 0 && !w.p.airs {
		return
	}
	for s := range w.airs {
		if f := w.airs[s].fire; w.p.follows[s] || f >= 0 && w.jobs[f].phase == working {
			w.changeAir(s)
		}
	}
}

func (w *Worker) changeAir(s int) {
	a := &w.airs[s]
	now := w.around(s)
	if now == a.told {
		return
	}
	a.told = now
	a.balance.Change(w.now, w.terms(s, now))
	if i := a.fire; i >= 0 && w.jobs[i].phase == working {
		at := max(a.balance.Reaches(w.tasks[i].Warm.To), w.jobs[i].start+1)
		if at != sim.Never {
			at = min(at, beyond)
		}
		w.reschedule(i, at)
	}
}

func (w *Worker) around(s int) around {
	a := around{row: w.row, made: int32(len(w.made)), fire: w.airs[s].fire, last: w.airs[s].last}
	if a.fire >= 0 {
		j := &w.jobs[a.fire]
		pot := w.stoves[w.tasks[a.fire].stove][j.unit].melt
		a.kept, a.potOn = j.phase > working, pot >= 0 && w.jobs[pot].phase >= working
	}
	return a
}

// terms returns what the air of a shelter depends on.
func (w *Worker) terms(s int, a around) heat.Terms {
	t := heat.Terms{Shelter: w.shelters[s], Outside: w.steps[w.step].Air, Fire: heat.Out}
	if a.last < 0 && t.Shelter.AtStart == nil {
		t.Fire = heat.Unlit
	}
	if a.last >= 0 {
		t.People = heat.PersonPower * float64(w.tasks[a.last].Warm.People)
	}
	if a.fire >= 0 {
		k := &w.tasks[a.fire]
		t.Stove = heat.StovePower(&w.p.d.Stoves[k.stove], a.potOn)
		if t.Fire = heat.Full; a.kept {
			t.Fire, t.To = heat.Keeping, k.Warm.To
		}
	}
	return t
}
