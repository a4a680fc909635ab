package scenarios

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"warmby/sim"
)

// orderWidth is how wide the sequences of a written order may be, in
// characters.
const orderWidth = 100

// OrderYAML writes an order as a block that can be pasted under "orders" of a
// scenario file, each line indented by so many spaces. The order must be one of
// the drill, with groups, as a search gives it.
func OrderYAML(d *sim.Drill, o sim.Order, name string, indent int) string {
	var b strings.Builder
	b.WriteString(strings.Repeat(" ", indent) + word(name) + ":\n")
	orderTree(d, o).block(&b, indent+2)
	return b.String()
}

// OrderJSON writes an order as it stands in a file, as JSON.
func OrderJSON(d *sim.Drill, o sim.Order) json.RawMessage {
	var b bytes.Buffer
	orderTree(d, o).json(&b)
	return b.Bytes()
}

// value is a part of an order: text, a list of names, or keys with values.
type value struct {
	text  string
	list  []string
	pairs []pair
	kind  byte // 't', 'l', 'p'
}

type pair struct {
	key string
	value
}

func text(s string) value { return value{text: s, kind: 't'} }

func orderTree(d *sim.Drill, o sim.Order) value {
	tree := value{kind: 'p'}
	if len(o.Crews) > 0 {
		crews := value{kind: 'p'}
		for _, c := range o.Crews {
			crews.pairs = append(crews.pairs, pair{d.Tasks[c.Task].Name, text(crewText(c.Crew))})
		}
		tree.pairs = append(tree.pairs, pair{"crews", crews})
	}
	if len(o.Groups) == 1 && len(o.Groups[0].Then) == 0 {
		tree.pairs = append(tree.pairs, groupTree(d, o, 0).pairs[1:]...) // all but people
		return tree
	}
	groups := value{kind: 'p'}
	for k, det := range o.Groups {
		groups.pairs = append(groups.pairs, pair{det.Name, groupTree(d, o, k)})
	}
	tree.pairs = append(tree.pairs, pair{"groups", groups})
	return tree
}

func groupTree(d *sim.Drill, o sim.Order, k int) value {
	det := &o.Groups[k]
	tree, people, sequence := value{kind: 'p'}, value{kind: 'l'}, value{kind: 'l'}
	for _, p := range det.People {
		people.list = append(people.list, d.People[p].Name)
	}
	for rest := det.Sequence; len(rest) > 0; {
		name, n := nameOfNext(d, det.People, rest)
		sequence.list = append(sequence.list, name)
		rest = rest[n:]
	}
	tree.pairs = append(tree.pairs, pair{"people", people})
	if det.InTurn {
		tree.pairs = append(tree.pairs, pair{"rule", text("in turn")})
	}
	tree.pairs = append(tree.pairs, pair{"sequence", sequence})
	switch {
	case len(det.Then) == 0:
	case len(det.Then) == 1:
		tree.pairs = append(tree.pairs, pair{"then", text(o.Groups[det.Then[0]].Name)})
	default:
		tree.pairs = append(tree.pairs, pair{"then", text("all")})
	}
	return tree
}

// nameOfNext returns the name of the first tasks of a sequence, and how many it stands
// for: where all of a group do something for themselves, one after the other in
// roster order, that is the task of the file.
func nameOfNext(d *sim.Drill, people, sequence []int) (string, int) {
	first := &d.Tasks[sequence[0]]
	if first.Each == "" {
		return first.Name, 1
	}
	var all []int
	for _, i := range d.Parts(sequence[0]) {
		if slices.Contains(people, d.Tasks[i].Who[0]) {
			all = append(all, i)
		}
	}
	if n := len(all); n > 0 && len(sequence) >= n && slices.Equal(sequence[:n], all) {
		return first.Each, n
	}
	return first.Name, 1
}

// block writes keys, a line for each, lists in brackets over as many lines as
// they need.
func (v value) block(b *strings.Builder, indent int) {
	for _, p := range v.pairs {
		head := strings.Repeat(" ", indent) + word(p.key) + ":"
		switch p.kind {
		case 't':
			b.WriteString(head + " " + scalar(p.text) + "\n")
		case 'l':
			writeList(b, head+" [", strings.Repeat(" ", indent+2), p.list)
		default:
			b.WriteString(head + "\n")
			p.block(b, indent+2)
		}
	}
}

func writeList(b *strings.Builder, line, indent string, list []string) {
	for k, s := range list {
		s = word(s)
		if k < len(list)-1 {
			s += ","
		} else {
			s += "]"
		}
		switch {
		case k == 0:
			line += s
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(s) > orderWidth:
			b.WriteString(line + "\n")
			line = indent + s
		default:
			line += " " + s
		}
	}
	if len(list) == 0 {
		line += "]"
	}
	b.WriteString(line + "\n")
}

// flow writes a value on one line.
func (v value) flow() string {
	var parts []string
	switch v.kind {
	case 't':
		return scalar(v.text)
	case 'l':
		for _, s := range v.list {
			parts = append(parts, word(s))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	for _, p := range v.pairs {
		parts = append(parts, word(p.key)+": "+p.flow())
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

func (v value) json(b *bytes.Buffer) {
	switch v.kind {
	case 't':
		if number.MatchString(v.text) {
			b.WriteString(v.text)
			return
		}
		b.WriteString(quotedJSON(v.text))
	case 'l':
		b.WriteByte('[')
		for k, s := range v.list {
			if k > 0 {
				b.WriteString(", ")
			}
			b.WriteString(quotedJSON(s))
		}
		b.WriteByte(']')
	default:
		b.WriteByte('{')
		for k, p := range v.pairs {
			if k > 0 {
				b.WriteString(", ")
			}
			b.WriteString(quotedJSON(p.key) + ": ")
			p.json(b)
		}
		b.WriteByte('}')
	}
}

var (
	number = regexp.MustCompile(`^[0-9]+$`)
	// plainWord is a name that stands in YAML without quotes, wherever it is.
	plainWord = regexp.MustCompile(`^\pL[\pL\pN]*([ _'-]+[\pL\pN]+)*$`)
	// notText is what a reader of YAML may take for something else.
	notText = regexp.MustCompile(`(?i)^(y|n|yes|no|on|off|true|false|null|nan|inf)$`)
)

// word writes a name, in quotes if it needs them. What JSON takes for text is
// text to YAML, too.
func word(s string) string {
	if plainWord.MatchString(s) && !notText.MatchString(s) {
		return s
	}
	return quotedJSON(s)
}

// scalar writes a value: as a word, but for crews.
func scalar(s string) string {
	if crew.MatchString(s) {
		return s
	}
	return word(s)
}

var crew = regexp.MustCompile(`^[0-9]+(-[0-9]+)?$`)

func quotedJSON(s string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		panic(fmt.Sprintf("scenarios: %q: %v", s, err)) // text is always encodable
	}
	return strings.TrimSuffix(b.String(), "\n")
}
