package scenarios

import (
	"errors"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"warmby/internal/thorough"
)

// brokenFile is a scenario file with a mistake in it.
type brokenFile struct {
	name, src, want string
	at              int // of want in the archive
}

// brokenFiles reads testdata/broken.txtar.
func brokenFiles(t testing.TB) (*txtar.Archive, []brokenFile) {
	t.Helper()
	a, err := txtar.ParseFile("testdata/broken.txtar")
	if err != nil {
		t.Fatal(err)
	}
	good, err := os.ReadFile("testdata/evening.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var list []brokenFile
	for i := 0; i+1 < len(a.Files); i += 2 {
		name, kind, _ := strings.Cut(a.Files[i].Name, "/")
		b := brokenFile{name: name, src: string(a.Files[i].Data), want: string(a.Files[i+1].Data), at: i + 1}
		if a.Files[i+1].Name != name+"/want" {
			t.Fatalf("broken.txtar: %q is not followed by its want", a.Files[i].Name)
		}
		if b.src == "\n" {
			b.src = ""
		}
		if kind == "edit" {
			from, to, ok := strings.Cut(b.src, "\n=>\n")
			from, to = strings.ReplaceAll(from, `\n`, "\n"), strings.TrimSuffix(to, "\n")
			if !ok || !strings.Contains(string(good), from) {
				t.Fatalf("broken.txtar: %s: evening.yaml has no %q", name, from)
			}
			b.src = strings.Replace(string(good), from, to, 1)
		}
		list = append(list, b)
	}
	return a, list
}

// Every mistake is told with its place, its line, what was found and a hint.
func TestBrokenFilesAreExplained(t *testing.T) {
	a, list := brokenFiles(t)
	if len(list) < 60 {
		t.Errorf("%d broken files, want 60 at least", len(list))
	}
	for _, b := range list {
		t.Run(b.name, func(t *testing.T) {
			_, err := Read("file.yaml", []byte(b.src))
			if err == nil {
				t.Fatal("read without complaint")
			}
			var p *Problems
			if !errors.As(err, &p) || len(p.List) == 0 {
				t.Fatalf("error is a %T, want *Problems", err)
			}
			for _, one := range p.List {
				if one.Hint == generalHint {
					t.Errorf("%d:%d: %s: no hint of its own", one.Line, one.Col, one.Message)
				}
			}
			got := err.Error() + "\n"
			if *update {
				a.Files[b.at].Data = []byte(got)
				return
			}
			if diff := cmp.Diff(b.want, got); diff != "" {
				t.Errorf("message differs (-want +got):\n%s", diff)
			}
		})
	}
	if *update {
		if err := os.WriteFile("testdata/broken.txtar", txtar.Format(a), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// Whatever stands in the place of a value, whoever reads the message is told what
// to do.
func TestEveryMistakeHasAHintOfItsOwn(t *testing.T) {
	good, err := os.ReadFile("testdata/evening.yaml")
	if err != nil {
		t.Fatal(err)
	}
	lines, seen := strings.Split(string(good), "\n"), map[string]bool{}
	for i, line := range lines {
		key, value, ok := strings.Cut(line, ": ")
		if !ok || strings.HasPrefix(line, "warmby") {
			continue
		}
		for k, wrong := range []string{"-7", "99999 h", "[]", "{}", "nonsense", "\"true\"", "7 parsecs", "~", "[a, [b]]", "0.12345678", "{a: {b: c}}"} {
			if (i+k)%thorough.Cases(3, 1) > 0 { // in a hurry a third of them at each key
				continue
			}
			lines[i] = key + ": " + wrong
			var p *Problems
			if _, err := Read("file.yaml", []byte(strings.Join(lines, "\n"))); !errors.As(err, &p) {
				continue
			}
			for _, one := range p.List {
				if one.Hint == generalHint && !seen[one.Message] {
					seen[one.Message] = true
					t.Errorf("%s: %s for %s: %s: no hint of its own", key, wrong, value, one.Message)
				}
			}
		}
		lines[i] = line
	}
}
