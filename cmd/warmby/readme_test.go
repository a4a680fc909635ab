package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"warmby/internal/thorough"
)

const (
	readme     = "../../README.md"
	developers = "../../DEVELOPERS.md"
	readmeOpen = "-update rewrites it) -->\n```\n"
	readmeShut = "```\n"
)

func text(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// What README.md shows is the beginning of what the command prints: the ten
// lines of the lead.
func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	sections := strings.SplitAfter(answer(t, "warmby", "rehearse"), "\n\n")
	if len(sections) < 3 {
		t.Fatalf("warmby rehearse prints %d paragraphs, want more", len(sections))
	}
	want := sections[0] + "...\n"
	page := text(t, readme)
	before, rest, ok := strings.Cut(page, readmeOpen)
	if !ok {
		t.Fatalf("README.md has no line that ends in %q", readmeOpen)
	}
	got, after, _ := strings.Cut(rest, readmeShut)
	if *update && got != want {
		if err := os.WriteFile(readme, []byte(before+readmeOpen+want+readmeShut+after), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("README.md shows what is not printed (-printed +shown); -update rewrites it:\n%s", diff)
	}
}

// The lines that README.md quotes are lines that the command prints.
func TestReadmeQuotesWhatIsPrinted(t *testing.T) {
	quotes := []struct{ before, command string }{
		{"What `compare` prints begins like this:\n\n```\n", "warmby compare --runs 500"},
		{" --step 1min\n\n```\n", `warmby halt harl-plateau --milestone "heated and dogs fed" --from 12:30 --to 12:40 --step 1min`},
	}
	page := text(t, readme)
	for _, q := range quotes {
		_, rest, ok := strings.Cut(page, q.before)
		if !ok {
			t.Fatalf("README.md has no quotation after %q", q.before)
		}
		quoted, _, _ := strings.Cut(rest, readmeShut)
		if printed := answer(t, words(q.command)...); quoted == "" || !strings.Contains(printed, quoted) {
			t.Errorf("README.md quotes what %s does not print; it begins:\n%.600s", q.command, printed)
		}
	}
}

// The picture in README.md is the one that the command draws. Other processors
// may round otherwise, which no eye sees.
func TestReadmePictureIsWhatIsDrawn(t *testing.T) {
	const path = "../../testdata/kestrel-fell.svg"
	drawn := filepath.Join(t.TempDir(), "evening.svg")
	answer(t, "warmby", "rehearse", "--picture", drawn)
	want := text(t, drawn)
	if *update {
		if err := os.WriteFile(path, []byte(want), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if plain(text(t, path)) != plain(want) {
		t.Errorf("%s is not what the command draws; look at both, then rewrite it with -update", path)
	}
}

// plain rounds the numbers of a picture to whole points.
func plain(svg string) string {
	return regexp.MustCompile(`\.[0-9]+`).ReplaceAllString(svg, "")
}

// The commands that README.md shows must work as it shows them, but that in a
// hurry they play less.
func TestReadmeCommandsWork(t *testing.T) {
	page := text(t, readme)
	t.Chdir(t.TempDir())
	ran := 0
	for _, line := range strings.Split(page, "\n") {
		line, found := strings.CutPrefix(line, "    ")
		line, _, _ = strings.Cut(line, "   ")
		line = strings.Replace(line, "go run ./cmd/warmby", "warmby", 1)
		line = strings.TrimPrefix(line, "./")
		if found && strings.HasPrefix(line, "warmby ") {
			answer(t, inAHurry(words(line))...)
			ran++
		}
	}
	if ran < 8 {
		t.Errorf("found %d commands in README.md, want at least 8", ran)
	}
}

// inAHurry has a command play less than it usually does, if it can be told so and
// the line says nothing of it; when tests are to be thorough it stays as it is.
func inAHurry(line []string) []string {
	if thorough.Asked() {
		return line
	}
	command, _, err := rootCommand(&environment{}).Find(line[1:])
	if err != nil {
		return line
	}
	for _, little := range [][2]string{{"runs", "100"}, {"evaluations", "300"}} {
		if command.Flags().Lookup(little[0]) != nil && !slices.Contains(line, "--"+little[0]) {
			line = append(line, "--"+little[0], little[1])
		}
	}
	return line
}

// DEVELOPERS.md names files and folders; all of them must be there, and every
// folder with code must be named.
func TestDevelopersPageNamesWhatIsThere(t *testing.T) {
	page := text(t, developers)
	files := map[string]bool{}
	folders := map[string]bool{}
	root := filepath.Join("..", "..")
	for _, top := range []string{"cmd", "internal", "plots", "scenarios", "sim"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(path string, d os.DirEntry, err error) error {
			if err == nil && filepath.Ext(path) == ".go" {
				rel, _ := filepath.Rel(root, path)
				files[filepath.ToSlash(rel)], files[filepath.Base(path)] = true, true
				folders[filepath.ToSlash(filepath.Dir(rel))+"/"] = true
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range regexp.MustCompile("`([a-z_/]+\\.go)`").FindAllStringSubmatch(page, -1) {
		if !files[name[1]] {
			t.Errorf("DEVELOPERS.md names %s, which is not there", name[1])
		}
	}
	for folder := range folders {
		if !strings.Contains(page, "| `"+folder+"` |") {
			t.Errorf("DEVELOPERS.md does not name the folder %s", folder)
		}
	}
	for _, row := range regexp.MustCompile("(?m)^\\| `([a-z./]+/)`").FindAllStringSubmatch(page, -1) {
		if info, err := os.Stat(filepath.Join(root, row[1])); err != nil || !info.IsDir() {
			t.Errorf("DEVELOPERS.md names the folder %s, which is not there", row[1])
		}
	}
}
