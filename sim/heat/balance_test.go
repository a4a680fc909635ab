package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"warmby/sim"
)

// told is a moment with new terms.
type told struct {
	at sim.Time
	in Terms
}

// follow tells a balance of a list of changes, the first of which starts it.
func follow(celsius float64, story []told) Balance {
	b := Start(story[0].at, celsius, story[0].in)
	for _, c := range story[1:] {
		b.Change(c.at, c.in)
	}
	return b
}

// stepped solves the balance numerically, in steps of a tenth of a second by
// Runge and Kutta, a stove that keeps a temperature being turned by hand: to all
// it can where the shelter is colder, to nothing where it is warmer. It returns
// the temperature and the joules that the stove gave.
func stepped(celsius float64, story []told, until sim.Time) (c, stove float64) {
	c = celsius
	for i := range story {
		end, in := until, story[i].in
		if i+1 < len(story) {
			end = min(until, story[i+1].at)
		}
		for at := story[i].at; at < end; {
			step := min(100, end-at)
			c, stove = turned(c, stove, step.Seconds(), &in)
			at += step
		}
	}
	return c, stove
}

// turned goes on by a step.
func turned(c, stove, h float64, in *Terms) (float64, float64) {
	if in.Fire == Unlit {
		return in.Outside, stove
	}
	loss := in.Shelter.U*in.Shelter.Skin + 353/(in.Outside+273.15)*1005*in.Shelter.AirChanges*in.Shelter.Volume/3600
	capacity := in.Shelter.Contents + 353/(in.Outside+273.15)*1005*in.Shelter.Volume
	power := 0.0
	switch {
	case in.Fire == Full:
		power = in.Stove
	case in.Fire == Keeping:
		// What brings it to the temperature within the step, as far as it can.
		power = min(max(loss*(c-in.Outside)-in.People+capacity*(in.To-c)/h, 0), in.Stove)
	}
	rate := func(c float64) float64 { return (in.People + power - loss*(c-in.Outside)) / capacity }
	k1 := rate(c)
	k2 := rate(c + h/2*k1)
	k3 := rate(c + h/2*k2)
	k4 := rate(c + h*k3)
	return c + h/6*(k1+2*k2+2*k3+k4), stove + power*h
}

// wholeEvening is a shelter over an evening: warmed, kept, in a storm that is too
// much for the stove, with a pot on it, in milder air that people alone hold, and
// with the stove out in the end.
func wholeEvening() []told {
	const min = sim.Minute
	full := Terms{tent(), -22, 200, Full, 5000, 15}
	keep := full
	keep.Fire = Keeping
	pot, storm, mild, out := keep, keep, keep, keep
	pot.Stove = 3500
	storm.Outside, storm.Stove, storm.Shelter.U = -45, 3500, 6
	mild.Outside, mild.People = 14.5, 400
	out.Fire = Out
	return []told{{10 * min, full}, {22 * min, keep}, {40 * min, pot}, {50 * min, storm}, {90 * min, keep}, {150 * min, mild}, {200 * min, keep}, {260 * min, out}}
}

func TestKeepingEqualsAStoveTurnedByHand(t *testing.T) {
	story := wholeEvening()
	for _, minute := range []sim.Time{15, 22, 24, 39, 45, 51, 60, 89, 91, 100, 149, 151, 170, 199, 201, 230, 259, 262, 280, 360} {
		at := minute * sim.Minute
		n := 1
		for n < len(story) && story[n].at <= at {
			n++
		}
		b := follow(-22, story[:n])
		want, _ := stepped(-22, story, at)
		near(t, "temperature at "+sim.Clock(at), b.Temperature(at), want, 2e-3)
	}
}

// Heat in from stove and people is heat stored and lost, over the whole evening.
func TestEnergyIsKeptOverAnEvening(t *testing.T) {
	story := wholeEvening()
	end := 6 * sim.Hour
	b := Start(story[0].at, -22, story[0].in)
	var stove, people, storedHeat, lost float64
	for i, c := range story {
		b.Change(c.at, c.in)
		to := end
		if i+1 < len(story) {
			to = story[i+1].at
		}
		stove += b.Gives(c.at, to)
		people += c.in.People * (to - c.at).Seconds()
		// The capacity changes with what is around: stored counts stretch by stretch.
		storedHeat += Capacity(c.in.Shelter, c.in.Outside) * (b.Temperature(to) - b.Temperature(c.at))
		lost += Loss(c.in.Shelter, c.in.Outside) * degreeSeconds(&b, c.in.Outside, c.at, to)
	}
	near(t, "in less stored and lost, of what came in", (stove+people-storedHeat-lost)/(stove+people), 0, 1e-6)
	_, turned := stepped(-22, story, end)
	near(t, "the stove's part against one turned by hand", stove/turned, 1, 1e-4)
}

// degreeSeconds sums the temperature over that outside, by Simpson's rule in
// pieces of a second.
func degreeSeconds(b *Balance, outside float64, from, to sim.Time) float64 {
	sum := 0.0
	for at := from; at < to; at += sim.Second {
		h := min(sim.Second, to-at)
		sum += h.Seconds() / 6 * (b.Temperature(at) + 4*b.Temperature(at+h/2) + b.Temperature(at+h) - 6*outside)
	}
	return sum
}

// By hand: 5 kW and two people into the worked tent at -30 C hold 9 C and some
// more; kept at 5 C the stove gives H 35 W less 200.
func TestKeepingTakesWhatIsNeeded(t *testing.T) {
	in := Terms{tent(), -30, 200, Full, 5000, 0}
	b := Start(0, -30, in)
	at := b.Reaches(5)
	in.Fire, in.To = Keeping, 5
	b.Change(at, in)
	want := Loss(tent(), -30)*35 - 200
	near(t, "kept", b.Temperature(at+sim.Hour), 5, 0)
	near(t, "power", b.Takes(at+sim.Minute), want, 1e-6)
	near(t, "needed", in.Needs(5), want, 1e-6)
	near(t, "joules in an hour", b.Gives(at+sim.Minute, at+sim.Minute+sim.Hour), want*3600, 1e-3)
}

func TestUnlitShelterIsAsWarmAsTheAir(t *testing.T) {
	in := Terms{Shelter: tent(), Outside: -20}
	b := Start(0, 99, in)
	near(t, "at first", b.Temperature(sim.Hour), -20, 0)
	in.Outside = -10
	b.Change(sim.Hour, in)
	near(t, "later", b.Temperature(sim.Hour), -10, 0)
	if got := b.Reaches(5); got != sim.Never {
		t.Errorf("reaches 5 C at %v, unlit", got)
	}
	in.Fire, in.Stove = Full, 5000
	b.Change(2*sim.Hour, in)
	near(t, "when lit", b.Temperature(2*sim.Hour), -10, 0)
	in.Outside = -12 // the weather of the same moment, told later
	b.Change(2*sim.Hour, in)
	near(t, "when lit in the new weather", b.Temperature(2*sim.Hour), -12, 0)
}

func TestWarmAtTheStartCoolsTowardsTheAir(t *testing.T) {
	b := Start(0, 8, Terms{Shelter: tent(), Outside: -20, Fire: Out})
	tau := Capacity(tent(), -20) / Loss(tent(), -20)
	near(t, "after half an hour", b.Temperature(30*sim.Minute), -20+28*math.Exp(-1800/tau), 1e-9)
	in := Terms{tent(), -20, 0, Full, 5000, 0}
	b.Change(30*sim.Minute, in)
	near(t, "a warm-up starts there", b.Temperature(30*sim.Minute), -20+28*math.Exp(-1800/tau), 1e-9)
	if b.Reaches(-18) != 30*sim.Minute {
		t.Errorf("warm enough already, yet there at %v", b.Reaches(-18))
	}
}

// Two engines may tell the same changes one by one or all at once.
func TestBalanceForgetsWhatDidNotLast(t *testing.T) {
	a := Terms{tent(), -22, 200, Full, 5000, 0}
	b, c := a, a
	b.Stove, c.Fire, c.To = 3000, Keeping, 3
	once, often := Start(0, -22, a), Start(0, -22, a)
	once.Change(1111, c)
	for _, x := range []told{{777, a}, {1111, b}, {1111, a}, {1111, c}, {1500, c}, {1500, b}, {1500, c}} {
		often.Change(x.at, x.in)
	}
	for _, at := range []sim.Time{1500, 99999, 9999999} {
		if once.Temperature(at) != often.Temperature(at) || once.Gives(1500, at) != often.Gives(1500, at) {
			t.Errorf("at %v: told once %v, told often %v", at, once.Temperature(at), often.Temperature(at))
		}
	}
}

func drawTerms(t *rapid.T) Terms {
	return Terms{
		Shelter: sim.Shelter{
			Volume: rapid.Float64Range(2, 60).Draw(t, "volume"), Skin: rapid.Float64Range(5, 80).Draw(t, "skin"),
			U: rapid.Float64Range(0.3, 8).Draw(t, "u"), AirChanges: rapid.Float64Range(0, 20).Draw(t, "air changes"),
			Contents: rapid.Float64Range(0, 2e5).Draw(t, "contents"),
		},
		Outside: rapid.Float64Range(-45, 20).Draw(t, "outside"),
		People:  100 * float64(rapid.IntRange(0, 6).Draw(t, "people")),
		Fire:    Fire(rapid.IntRange(int(Out), int(Keeping)).Draw(t, "fire")),
		Stove:   rapid.Float64Range(0, 9000).Draw(t, "stove"),
		To:      rapid.Float64Range(-10, 25).Draw(t, "to"),
	}
}

func TestBalanceEqualsAStoveTurnedByHandEverywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start := rapid.Float64Range(-45, 30).Draw(t, "start")
		var story []told
		at := sim.Time(0)
		for range rapid.IntRange(1, 4).Draw(t, "changes") {
			story = append(story, told{at, drawTerms(t)})
			at += sim.Time(rapid.Int64Range(1, 20*60000).Draw(t, "wait"))
		}
		b := follow(start, story)
		want, _ := stepped(start, story, at)
		// A tenth of a second of the fastest change bounds what turning by hand is off.
		if got := b.Temperature(at); math.Abs(got-want) > 0.05 {
			t.Fatalf("%v C, by hand %v", got, want)
		}
	})
}

// Reaches is where the temperature is, and a stove gives no more than it can.
func TestReachesAgreesWithTemperature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawTerms(t)
		b := Start(0, rapid.Float64Range(-45, 30).Draw(t, "start"), in)
		level := rapid.Float64Range(-40, 25).Draw(t, "level")
		there := b.Reaches(level)
		if there == sim.Never {
			for _, at := range []sim.Time{0, sim.Minute, sim.Hour, 100 * sim.Hour} {
				if b.Temperature(at) > level+1e-9 {
					t.Fatalf("never %v C, but %v C at %v", level, b.Temperature(at), at)
				}
			}
		} else if there > 0 {
			if before, after := b.Temperature(there-1), b.Temperature(there+1); before > level+1e-9 || after < level-1e-9 {
				t.Fatalf("%v C at %v, but %v before and %v after", level, there, before, after)
			}
		}
		for _, at := range []sim.Time{1, sim.Minute, sim.Hour} {
			if w := b.Takes(at); w < 0 || w > in.Stove {
				t.Fatalf("takes %v W of %v", w, in.Stove)
			}
		}
	})
}

func TestMoreLossNeverWarms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := drawTerms(t)
		start := max(in.Outside, rapid.Float64Range(-45, 30).Draw(t, "start"))
		worse := in
		worse.Shelter.AirChanges += rapid.Float64Range(0, 5).Draw(t, "more air")
		at := sim.Time(rapid.Int64Range(0, 5*3600000).Draw(t, "at"))
		a, b := Start(0, start, in), Start(0, start, worse)
		if b.Temperature(at) > a.Temperature(at)+1e-9 {
			t.Fatalf("%v C with more loss, %v C with less", b.Temperature(at), a.Temperature(at))
		}
		if in.Fire == Keeping && b.Gives(0, at) < a.Gives(0, at)-1e-6*(1+a.Gives(0, at)) {
			t.Fatalf("%v J with more loss, %v J with less", b.Gives(0, at), a.Gives(0, at))
		}
	})
}

func TestBalanceTakesNoMemory(t *testing.T) {
	in := Terms{tent(), -22, 200, Full, 5000, 0}
	if n := testing.AllocsPerRun(100, func() {
		b := Start(0, -22, in)
		keep := in
		keep.Fire, keep.To = Keeping, 5
		b.Change(b.Reaches(5), keep)
		_ = b.Temperature(sim.Hour) + b.Gives(sim.Hour, 2*sim.Hour)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
