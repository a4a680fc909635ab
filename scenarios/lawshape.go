package scenarios

import (
	"fmt"
	"math/big"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
	"warmby/sim/draw"
)

// lawShape is a quantity of work or time that may be drawn: one value, three,
// or one of the laws. Most bounds every value.
type lawShape struct{ most string }

func (s lawShape) value() quantityShape { return quantityShape{d: inTime, low: "0 s", high: s.most} }

// The forms that a law may have as a mapping.
var lawForms = []string{"quick", "triangular", "uniform", "exponential", "lognormal", "observed"}

func (s lawShape) check(r *reader, n *yaml.Node) {
	r.checkOnce(s, n, s.read)
}

func (s lawShape) read(r *reader, n *yaml.Node) {
	switch n.Kind {
	case yaml.ScalarNode:
		s.value().check(r, n)
		if r.ok(n) {
			r.laws[n] = draw.Fixed(float(r.values[n]))
		}
	case yaml.SequenceNode:
		if v := s.times(r, n, n, 3); v != nil && r.rising(n, v) {
			r.law(n)(draw.PERT(v[0], v[1], v[2]))
		}
	case yaml.MappingNode:
		s.form(r, n)
	}
}

// form reads a law written as a mapping: by the key that names it.
func (s lawShape) form(r *reader, n *yaml.Node) {
	for _, o := range s.objects() {
		if !r.has(n, o.keys[0].name) && !(o.keys[0].name == "quick" && (r.has(n, "usual") || r.has(n, "slow"))) {
			continue
		}
		before := len(r.list)
		o.check(r, n)
		if len(r.list) > before {
			r.bad[n] = true
			return
		}
		s.build(r, n, o.keys[0].name)
		return
	}
	if len(n.Content) > 0 {
		first := n.Content[0]
		r.failNear(first, fmt.Sprintf("unknown law %s", quote(first.Value)), "", first.Value, lawForms)
		r.bad[n] = true
		return
	}
	r.fail(n, "must be a length of time, three of them, or a law", "such as 20 min, [15 min, 20 min, 40 min] or {uniform: [10 min, 20 min]}")
}

func (s lawShape) build(r *reader, n *yaml.Node, form string) {
	at := func(key string) float64 { return float(r.values[r.get(n, key)]) }
	list := r.get(n, form)
	switch form {
	case "quick":
		v := []float64{at("quick"), at("usual"), at("slow")}
		covers := 1.0
		if c := r.get(n, "covers"); c != nil {
			covers = float(r.values[c])
		}
		if r.rising(n, v) {
			r.law(n)(draw.PERTCovering(v[0], v[1], v[2], covers))
		}
	case "triangular":
		if v := s.times(r, n, list, 3); v != nil && r.rising(list, v) {
			r.law(n)(draw.Triangular(v[0], v[1], v[2]))
		}
	case "uniform":
		if v := s.times(r, n, list, 2); v != nil {
			if v[0] > v[1] {
				r.fail(list, "the first value must not be over the second", "write the smaller one first")
				r.bad[n] = true
				return
			}
			r.law(n)(draw.Uniform(v[0], v[1]))
		}
	case "exponential":
		r.law(n)(draw.Exponential(at("exponential")))
	case "lognormal":
		m := r.get(n, "lognormal")
		r.law(n)(draw.LogNormal(float(r.values[r.get(m, "median")]), float(r.values[r.get(m, "spread")])))
	case "observed":
		var v []float64
		for _, c := range r.each(list) {
			v = append(v, float(r.values[c]))
		}
		r.law(n)(draw.Observed(v))
	}
}

// times reads a list of just so many lengths of time; owner is what becomes
// unusable when it is wrong.
func (s lawShape) times(r *reader, owner, list *yaml.Node, count int) []float64 {
	if list.Kind != yaml.SequenceNode || len(list.Content) != count {
		what := map[int]string{2: "two values [from, to]", 3: "three values [quick, usual, slow]"}[count]
		got := describe(list)
		if list.Kind == yaml.SequenceNode {
			got = fmt.Sprintf("%d", len(list.Content))
		}
		r.fail(list, "must be "+what+", got "+got, "such as "+map[int]string{2: "[10 min, 20 min]", 3: "[15 min, 20 min, 40 min]"}[count])
		r.bad[owner] = true
		return nil
	}
	var v []float64
	for _, c := range list.Content {
		if !r.bad[c] && r.values[c] == nil {
			s.value().check(r, c)
		}
		if r.bad[c] {
			r.bad[owner] = true
			continue
		}
		v = append(v, float(r.values[c]))
	}
	if len(v) < count {
		return nil
	}
	return v
}

// rising refuses three values that do not rise from quick to slow.
func (r *reader) rising(n *yaml.Node, v []float64) bool {
	switch {
	case v[0] > v[1]:
		r.fail(n, "quick must not be over usual", "the three values stand as quick, usual, slow")
	case v[1] > v[2]:
		r.fail(n, "usual must not be over slow", "the three values stand as quick, usual, slow")
	default:
		return true
	}
	return false
}

// law keeps what a constructor returns.
func (r *reader) law(n *yaml.Node) func(sim.Distribution, error) {
	return func(d sim.Distribution, err error) {
		if err != nil {
			r.fail(n, err.Error(), "such as [15 min, 20 min, 40 min]")
			return
		}
		r.laws[n] = d
	}
}

func (s lawShape) words() string {
	return "length of time that may be drawn"
}

// objects declares the laws that are mappings; the first key names each.
func (s lawShape) objects() []*object {
	v, bound := s.value(), quantityShape{d: inTime, low: "0 s", high: s.most}
	law := func(name string, is shape, say string, more ...key) *object {
		return &object{name: name, keys: append([]key{{name: name, is: is, need: true, say: say}}, more...)}
	}
	return []*object{
		law("quick", v, "three values of which the outer two need not be the extremes",
			key{name: "usual", is: v, need: true, say: "the most likely value"},
			key{name: "slow", is: v, need: true, say: "the slow one"},
			key{name: "covers", is: quantityShape{d: inShare, low: "1 %", high: "100 %"}, std: "100 %", say: "the share of cases between quick and slow"}),
		law("triangular", fixedList{v, 3}, "least, most likely and greatest value"),
		law("uniform", fixedList{v, 2}, "every value between two is as likely"),
		law("exponential", bound, "a wait without memory, by its mean"),
		law("lognormal", &object{inline: true, name: "lognormal law", say: "a law with a long tail", keys: []key{
			{name: "median", is: v, need: true, say: "the value that half of the cases stay under"},
			{name: "spread", is: numberShape{"1", "10", 6, false}, need: true, say: "the geometric standard deviation, 1.3 for some 30 % up or down"},
		}}, "by median and spread"),
		law("observed", listShape{of: v, most: 1000}, "one of some times that were measured"),
	}
}

// fixedList is a list of just so many values.
type fixedList struct {
	of    shape
	count int
}

func (s fixedList) check(r *reader, n *yaml.Node) {
	if n.Kind != yaml.SequenceNode || len(n.Content) != s.count {
		return // lawShape.times says so
	}
	for _, c := range n.Content {
		if !r.bad[c] {
			s.of.check(r, c)
		}
	}
}
func (s fixedList) words() string { return fmt.Sprintf("list of %d", s.count) }

// ms returns a checked length of time in whole milliseconds, half away from
// zero.
func ms(v *big.Rat) sim.Time { return sim.Time(round(v).Int64()) }
