package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"warmby/cmd/warmby/internal/results"
	"warmby/internal/thorough"
)

// recipe is a program in the page on draws.
type recipe struct{ language, name, text string }

// recipesIn finds the programs of a page: what is indented after a line such as
// "# python: lhs.py", up to the next heading.
func recipesIn(page string) (list []recipe) {
	var at *recipe
	for line := range strings.Lines(page) {
		text := strings.TrimPrefix(line, "  ")
		head, name, ok := strings.Cut(strings.TrimSpace(strings.TrimPrefix(text, "# ")), ": ")
		switch {
		case strings.HasPrefix(text, "# ") && ok && (head == "python" || head == "R"):
			list = append(list, recipe{language: head, name: name})
			at = &list[len(list)-1]
		case line != "\n" && !strings.HasPrefix(line, "  "):
			at = nil
		case at != nil:
			at.text += text
		}
	}
	return list
}

// interpreter returns what runs a language, "" when it is not there with all
// that the recipes need.
func interpreter(language string) string {
	candidates, check := []string{"Rscript"}, []string{"-e", "1"}
	if language == "python" {
		candidates, check = []string{"/usr/bin/python3", "python3"}, []string{"-c", "import numpy, scipy.stats"}
	}
	for _, name := range candidates {
		if exec.Command(name, check...).Run() == nil {
			return name
		}
	}
	return ""
}

// tells is what each recipe must print, within the error of so few runs: the
// shares of variance add up to most of it, wind slows, a drink comes sooner.
var tells = map[string]string{
	"sobol.py": `all first orders together (0\.[6-9]|1\.0)`, "lhs.py": `'weather.wind': 0\.\d+, 'spots.kitchen.walk': [3-7]`,
	"paper.py": `(?s)weather.air +0\.\d+ \(.*not in 128 of 128 intervals.*ahead: kitchen first`,
	"again.py": `last: \[\d+, \d+, \d+, \d+, \d+\]`, "lhs.R": `explained: 0\.[4-9]`, "paired.R": `\[1\] -1\d\.\d+ -1\d\.`,
}

// fewer is what makes a recipe play less than it does as it is printed.
var fewer = map[string][]string{"paper.py": {"16"}}

// The recipes run as they are printed, where R, and Python with numpy and scipy,
// are there.
func TestRecipesForDrawsRun(t *testing.T) {
	recipes := recipesIn(results.Draws)
	if len(recipes) != 6 {
		t.Fatalf("%d recipes, want 6", len(recipes))
	}
	if !thorough.Asked() {
		t.Skip("WARMBY_LONG=1 runs them")
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	bin := t.TempDir()
	if err := os.Symlink(self, filepath.Join(bin, "warmby")); err != nil {
		t.Skip(err)
	}
	t.Setenv("PATH", bin+string(os.PathListSeparator)+os.Getenv("PATH"))
	for _, r := range recipes {
		t.Run(r.name, func(t *testing.T) {
			program := interpreter(r.language)
			if program == "" {
				t.Skipf("%s is not there", r.language)
			}
			t.Chdir(t.TempDir())
			if err := os.WriteFile(r.name, []byte(r.text), 0o666); err != nil {
				t.Fatal(err)
			}
			out, err := exec.Command(program, append([]string{r.name}, fewer[r.name]...)...).CombinedOutput()
			if err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			t.Logf("%s", out)
			if !regexp.MustCompile(tells[r.name]).Match(out) {
				t.Errorf("it prints no %s", tells[r.name])
			}
		})
	}
}
