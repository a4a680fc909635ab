package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/scenarios/library"
)

// What the page on questions shows is what its commands print. The page is
// testdata/questions.tmpl with three kinds of lines filled in:
//
//	$ warmby ...   a command, which is run
//	> text         the next line of its output that begins with the text
//	>> text        that line and the lines below it that are indented further
//
// After -update read the sentences as well: they say what the figures mean.
func TestQuestionsPageShowsWhatIsPrinted(t *testing.T) {
	onlyLong(t)
	page, err := filepath.Abs("questions.txt")
	if err != nil {
		t.Fatal(err)
	}
	want := fill(t, text(t, filepath.Join("testdata", "questions.tmpl")))
	if *update && questionsPage != want {
		if err := os.WriteFile(page, []byte(want), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(want, questionsPage); diff != "" {
		t.Errorf("questions.txt shows what is not printed (-printed +shown); "+
			"go test ./cmd/warmby -run Questions -update rewrites it:\n%s", diff)
	}
}

// fill runs the commands of the template in a folder of their own and puts in
// what it asks for.
func fill(t *testing.T, template string) string {
	t.Helper()
	t.Chdir(t.TempDir())
	printed := map[string]string{} // by command line
	var page strings.Builder
	var x *excerpt
	for line := range strings.Lines(template) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.HasPrefix(line, "$ "):
			command := line[2:]
			if _, ran := printed[command]; !ran {
				printed[command] = answer(t, words(command)...)
			}
			x = &excerpt{rest: strings.Split(printed[command], "\n")}
			page.WriteString("    " + command + "\n\n")
		case strings.HasPrefix(line, "> "), strings.HasPrefix(line, ">> "):
			marks, begins, _ := strings.Cut(line, " ")
			if x == nil || !x.take(begins, marks == ">>") {
				t.Fatalf("testdata/questions.tmpl: no line that begins with %q follows in what is printed", begins)
			}
		default:
			if x != nil {
				page.WriteString(x.String())
				x = nil
			}
			page.WriteString(line + "\n")
		}
	}
	if x != nil {
		t.Fatal("testdata/questions.tmpl ends within an excerpt: say how to read it")
	}
	return page.String()
}

// excerpt is what a page shows of the output of a command.
type excerpt struct {
	rest  []string // lines of output not yet passed
	lines []string // taken, with ... for those passed over
}

// take takes the next line that begins with the text, after its indentation,
// and the lines that hang below it when they are wanted.
func (x *excerpt) take(begins string, below bool) bool {
	for i, line := range x.rest {
		if !strings.HasPrefix(strings.TrimLeft(line, " "), begins) {
			continue
		}
		if len(x.lines) > 0 && strings.TrimSpace(strings.Join(x.rest[:i], "")) != "" {
			x.lines = append(x.lines, "...")
		}
		end := i + 1
		for below && end < len(x.rest) && indent(x.rest[end]) > indent(line) {
			end++
		}
		x.lines = append(x.lines, x.rest[i:end]...)
		x.rest = x.rest[end:]
		return true
	}
	return false
}

// String returns the lines behind a bar, without the indentation that they
// have in common.
func (x *excerpt) String() string {
	least := 100
	for _, line := range x.lines {
		if line != "..." {
			least = min(least, indent(line))
		}
	}
	var b strings.Builder
	for _, line := range x.lines {
		if line != "..." {
			line = line[least:]
		}
		b.WriteString("| " + line + "\n")
	}
	return b.String()
}

func indent(line string) int {
	return len(line) - len(strings.TrimLeft(line, " "))
}

// Every scenario that is shipped has its questions answered.
func TestQuestionsPageNamesEveryScenario(t *testing.T) {
	for _, name := range library.Names() {
		if !strings.Contains(questionsPage, " "+name+" --") {
			t.Errorf("no command on the page is about %s", name)
		}
	}
}
