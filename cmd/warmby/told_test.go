package main

import (
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"warmby/scenarios/library"
)

// toldBy are the commands that tell a report, each asked something quick. A
// command that learns to tell one is added here.
func toldBy(scenario string) [][]string {
	lines := [][]string{
		{"rehearse", scenario, "--runs", "200"},
		{"rehearse", scenario, "--seed", "1", "--run", "7", "--runs", "50"},
		{"rehearse", scenario, "--runs", "0"},
		{"improve", scenario, "--evaluations", "500", "--runs", "100"},
		{"improve", scenario, "--evaluations", "300", "--runs", "0", "--aim", "finish"},
		{"improve", scenario, "--evaluations", "500", "--runs", "100", "--aim", "finish", "--aim", "all targets"},
		{"improve", scenario, "--evaluations", "300", "--runs", "20", "--what-if", "all"},
		{"compare", scenario, "--runs", "250", "--what-if", "all"},
		{"check", scenario},
		{"split", scenario, "--runs", "50", "--evaluations", "1500"},
		{"split", scenario, "--runs", "0", "--evaluations", "600", "--what-if", "all"},
		{"halt", scenario, "--runs", "150", "--step", "30 min"},
		{"halt", scenario, "--runs", "0", "--step", "30 min"},
		{"halt", scenario, "--runs", "100", "--step", "1 h", "--what-if", "all", "--order", "all"},
	}
	if scenario == library.Default { // logs are fitted in seconds, not in tenths
		lines = append(lines, [][]string{{"fit", scenario}, {"review", scenario, "--drill", "3"}, {"season", scenario},
			{"cards", scenario},
			{"tonight", scenario, "--runs", "250", "--air", "-28 C", "--without", "Edda"}}...)
	}
	return lines
}

// toldOf are the scenarios of which reports are read: all with WARMBY_LONG, and
// when they are written anew.
func toldOf() []string {
	if os.Getenv("WARMBY_LONG") == "" && !*update {
		return []string{library.Default}
	}
	return library.Names()
}

// Paper, screen and page tell the same: each figure of one stands in the other.
func TestTerminalAndPageHaveTheSameFigures(t *testing.T) {
	for _, name := range toldOf() {
		for _, line := range toldBy(name) {
			t.Run(strings.Join(line, " "), func(t *testing.T) {
				file := filepath.Join(t.TempDir(), "report.html")
				text := answer(t, append([]string{"warmby"}, append(line, "--all", "--report", file)...)...)
				data, err := os.ReadFile(file)
				if err != nil {
					t.Fatal(err)
				}
				page := pageText(string(data))
				missing(t, "the page", figures(page), "the terminal", figures(text))
				missing(t, "the terminal", figures(withoutStrips(text)), "the page", figures(page))
				fewest := 30
				if line[0] == "check" {
					fewest = 10
				}
				if len(figures(page)) < fewest {
					t.Errorf("only %d figures on the page", len(figures(page)))
				}
			})
		}
	}
}

func missing(t *testing.T, here string, want map[string]bool, there string, got map[string]bool) {
	t.Helper()
	for f := range want {
		if !got[f] {
			t.Errorf("%s has the figure %s, and %s does not", here, f, there)
		}
	}
}

var figureText = regexp.MustCompile(`\d+(?:[:.]\d+)*`)

func figures(text string) map[string]bool {
	all := map[string]bool{}
	for _, f := range figureText.FindAllString(text, -1) {
		all[f] = true
	}
	return all
}

var (
	unseen = regexp.MustCompile(`(?s)<style>.*?</style>|<svg.*?</svg>|<title>.*?</title>|<div class="strips".*?</div>\s*</div>`)
	tag    = regexp.MustCompile(`<[^>]*>`)
)

// pageText is what a page says, its pictures apart.
func pageText(page string) string {
	return html.UnescapeString(tag.ReplaceAllString(unseen.ReplaceAllString(page, " "), " "))
}

var strips = regexp.MustCompile(`(?s)\n[^\n]*\|0 .*?One sign is[^\n]*\n`)

// withoutStrips takes away the rulers and the marks of strips, which are no
// figures.
func withoutStrips(text string) string { return strips.ReplaceAllString(text, "\n") }

// A leader reads ten lines: no seconds in them, no interval; then one screen.
func TestReportsBeginWithTenLines(t *testing.T) {
	exact := regexp.MustCompile(`\d s\b|\d:\d\d:\d\d|\(\d+ to |%`)
	for _, name := range toldOf() {
		for _, line := range toldBy(name) {
			text := answer(t, append([]string{"warmby"}, line...)...)
			lead, _, _ := strings.Cut(text, "\n\n")
			where := "warmby " + strings.Join(line, " ")
			if n := strings.Count(lead, "\n") + 1; n > 10 {
				t.Errorf("%s begins with %d lines, want 10 at most:\n%s", where, n, lead)
			}
			if n := strings.Count(text, "\n"); n > 50 {
				t.Errorf("%s has %d lines, want 50 at most", where, n)
			}
			if found := exact.FindString(lead); found != "" {
				t.Errorf("%s leads with %q:\n%s", where, found, lead)
			}
			for _, l := range strings.Split(text, "\n") {
				if utf8.RuneCountInString(l) > paper && !strings.HasPrefix(l, "Everything, to the second: ") {
					t.Errorf("%s: a line of %d characters: %q", where, utf8.RuneCountInString(l), l)
				}
			}
		}
	}
}

func TestAllAndJSONAreRefusedTogether(t *testing.T) {
	for _, line := range toldBy("kestrel-fell") {
		var stderr strings.Builder
		code := run(append(line, "--all", "--json"), strings.NewReader(""), &strings.Builder{}, &stderr)
		if code != exitUsage || !strings.Contains(stderr.String(), "--all and --json do not go together") {
			t.Errorf("%v exits with %d: %s", line, code, &stderr)
		}
	}
}
