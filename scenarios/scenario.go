package scenarios

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"

	"warmby/sim"
)

// Scenario is a scenario file that has been read and found sound. It is not
// changed once read and may be shared.
type Scenario struct {
	doc     *document
	b       *builder
	drill   *sim.Drill // without an order
	orders  []sim.Order
	whatIfs []string
}

// Read reads a scenario. Name is what messages call the file. The error is a
// *[Problems] when the file is wrong; it names all mistakes of the file.
func Read(name string, src []byte) (*Scenario, error) {
	doc := parse(name, src)
	b, list := build(doc)
	list = append(list, doc.list...)
	if len(list) == 0 {
		doc.known = b.found()
	}
	if b != nil && len(list) < shownProblems { // more would not be shown
		list = append(list, b.checkWhatIfs()...)
	}
	if len(list) > 0 {
		p := &Problems{File: name, List: list}
		p.finish()
		return nil, p
	}
	return b.scenario(), nil
}

// build makes a drill of a tree and returns what is wrong with it; nil when
// there is nothing to build.
func build(doc *document) (*builder, []Problem) {
	if doc.root == nil {
		return nil, nil
	}
	r := newReader(doc)
	if doc.root.Kind != yaml.MappingNode {
		r.fail(doc.root, "the file must be keys with values, got "+describe(doc.root), "a scenario begins with \"warmby: 1\"")
		return nil, r.list
	}
	if !r.version() {
		return nil, r.list
	}
	fileKeys().check(r, doc.root)
	b := &builder{reader: r, d: &sim.Drill{}, parts: map[string][]int{}, unfit: map[string]bool{}}
	b.declare(doc.root)
	b.read(doc.root)
	return b, r.list
}

func (b *builder) scenario() *Scenario {
	s := &Scenario{doc: b.doc, b: b, drill: b.d, orders: b.orders}
	if b.doc.learnt != nil {
		s.drill = b.doc.learnt(b.d)
	}
	b.pairs(b.get(b.doc.root, "what if"), func(k, _ *yaml.Node) { s.whatIfs = append(s.whatIfs, k.Value) })
	return s
}

// version checks that the file begins with the version of the format, and
// reports whether the rest is worth reading.
func (r *reader) version() bool {
	root := r.doc.root
	const hint = "a scenario begins with \"warmby: 1\""
	if len(root.Content) == 0 {
		r.fail(root, "the file has no keys", hint)
		return false
	}
	k := keyOf(root, "warmby")
	if k == nil {
		r.fail(root, "the key \"warmby\" is missing", hint)
		return false
	}
	if k != root.Content[0] {
		r.list = append(r.list, Problem{Line: k.Line, Col: k.Column, Path: r.path(k), Source: r.doc.line(k.Line),
			Message: "must be the first key", Hint: hint})
	}
	return true
}

// read builds the drill, section by section.
func (b *builder) read(root *yaml.Node) {
	b.d.Title = b.text(root, "title")
	b.readSite(b.get(root, "site"))
	b.readSpots(b.get(root, "spots"))
	b.readWeather(b.get(root, "weather"))
	b.readPeople(root)
	b.readIdle(b.get(root, "free"))
	b.readTools(b.get(root, "tools"))
	b.readShelters(b.get(root, "shelters"))
	b.readStoves(b.get(root, "stoves"))
	b.readLoads(b.get(root, "loads"))
	b.readTasks(root)
	b.readLookouts(b.get(root, "lookouts"))
	b.readMilestones(b.get(root, "milestones"))
	b.readOrders(b.get(root, "orders"))
	b.d.Day = b.dayOf(root)
	b.d.Skills = b.skills.list
}

// Learning returns the scenario with all its drills changed, such as by what a
// log says of the lengths of tasks: those of what-ifs and of values that are set
// later as well.
func (s *Scenario) Learning(learnt func(*sim.Drill) *sim.Drill) *Scenario {
	out, doc, b, r := *s, *s.doc, *s.b, *s.b.reader
	doc.learnt, r.doc, b.reader = learnt, &doc, &r
	out.doc, out.b, out.drill = &doc, &b, learnt(s.b.d)
	return &out
}

// Title returns what the scenario calls itself.
func (s *Scenario) Title() string { return s.drill.Title }

// Orders returns the names of the drill orders in file order; nil when the
// file has none.
func (s *Scenario) Orders() []string {
	var list []string
	for _, o := range s.orders {
		list = append(list, o.Name)
	}
	return list
}

// Drill returns the scenario played under a drill order; "" is the first
// one, or file order when there is none. The error says which order is
// nearest to an unknown one.
func (s *Scenario) Drill(order string) (*sim.Drill, error) {
	if order == "" {
		if len(s.orders) == 0 {
			return s.drill.Under(sim.Order{}), nil
		}
		return s.drill.Under(s.orders[0]), nil
	}
	for _, o := range s.orders {
		if o.Name == order {
			return s.drill.Under(o), nil
		}
	}
	return nil, unknown(s.doc.file, "order", order, s.Orders())
}

// unknown is the error for a name that a scenario does not have.
func unknown(file, what, name string, known []string) error {
	hint := nameHint(name, known)
	if hint == "" {
		hint = "the file has no " + what + "s"
	}
	return fmt.Errorf("%s: no %s is called %q\n  hint: %s", file, what, name, strings.TrimSpace(hint))
}
