package scenarios

import (
	"flag"
	"os"
	"strings"
	"testing"

	"warmby/sim/draw"
	"warmby/sim/reference"
)

var update = flag.Bool("update", false, "rewrite what follows from the declarations: doc.go's key reference")

// referenceBegins is the heading under which doc.go's generated part stands.
const referenceBegins = "// # Key reference\n"

// The manual's key reference is what the declarations say. With -update the
// test rewrites doc.go.
func TestManualListsEveryKeyAsDeclared(t *testing.T) {
	var b strings.Builder
	for _, line := range strings.Split(strings.TrimSpace(keyReference()), "\n") {
		switch {
		case line == "":
			b.WriteString("//\n")
		case line[0] == '\t':
			b.WriteString("//" + line + "\n")
		default:
			b.WriteString("// " + line + "\n")
		}
	}
	b.WriteString("package scenarios\n")
	head, got, _ := strings.Cut(docSource, referenceBegins)
	if want := b.String(); referenceBegins+got != want {
		if *update {
			if err := os.WriteFile("doc.go", []byte(head+want), 0o644); err != nil {
				t.Fatal(err)
			}
			return
		}
		t.Error("doc.go's key reference differs from the declarations; run go test -update ./scenarios")
	}
}

func TestManualIsPlainText(t *testing.T) {
	m := Manual()
	if !strings.HasPrefix(m, "The scenario file: the manual\n") || strings.Contains(m, "//") || strings.Contains(m, "\t") || strings.Contains(m, "package scenarios\n") {
		t.Errorf("Manual begins %q or has comment markers, tabs or code", m[:60])
	}
	for _, o := range objectsOf(fileKeys()) {
		for _, k := range o.keys {
			if !strings.Contains(m, "    "+k.name+": ") {
				t.Errorf("Manual does not list %q of %s", k.name, o.name)
			}
		}
	}
}

// The example in the manual is a file that reads and plays.
func TestManualsExampleReadsAndFinishes(t *testing.T) {
	_, rest, _ := strings.Cut(docSource, "// # A whole small scenario\n//\n")
	var b strings.Builder
	for _, line := range strings.Split(rest, "\n") {
		if text, ok := strings.CutPrefix(line, "//\t"); ok {
			b.WriteString(text + "\n")
		} else {
			break
		}
	}
	s, err := Read("manual", []byte(b.String()))
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range s.Orders() {
		play(t, s, o)
	}
	if want, err := os.ReadFile("testdata/small.yaml"); err != nil || string(want) != b.String() {
		t.Errorf("the manual's example is not testdata/small.yaml (%v)", err)
	}
}

// play plays a scenario under an order with its usual values.
func play(t *testing.T, s *Scenario, order string) {
	t.Helper()
	d, err := s.Drill(order)
	if err != nil {
		t.Fatal(err)
	}
	if err := reference.Play(d, draw.Usual(d)).Stopped(); err != nil {
		t.Fatalf("order %q: %v", order, err)
	}
}
