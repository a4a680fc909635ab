package main

import (
	"html"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"warmby/cmd/warmby/internal/page"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/terminal"
	"warmby/internal/thorough"
	"warmby/scenarios/library"
)

// toldBy are the commands that tell a report, each asked something quick, and of
// the demo what takes seconds, too. A command that learns to tell one is added
// here.
func toldBy(scenario string) [][]string {
	lines := [][]string{
		{"rehearse", scenario, "--seed", "1", "--run", "7", "--runs", "50"},
		{"compare", scenario, "--runs", "20", "--what-if", "all"},
		{"improve", scenario, "--evaluations", "300", "--runs", "0", "--what-if", "all"},
		{"check", scenario},
	}
	if !slices.Contains(scenariosRead(), scenario) {
		return lines
	}
	lines = append(lines, [][]string{
		{"rehearse", scenario, "--runs", "200"},
		{"rehearse", scenario, "--runs", "0"},
		{"improve", scenario, "--evaluations", "500", "--runs", "100"},
		{"improve", scenario, "--evaluations", "300", "--runs", "0", "--aim", "finish"},
		{"improve", scenario, "--evaluations", "500", "--runs", "100", "--aim", "finish", "--aim", "hot drink p90", "--aim", "all targets"},
		{"improve", scenario, "--evaluations", "300", "--runs", "20", "--what-if", "all"},
		{"compare", scenario, "--runs", "250", "--what-if", "all"},
		{"split", scenario, "--runs", "50", "--evaluations", "1500"},
		{"split", scenario, "--runs", "0", "--evaluations", "600", "--what-if", "all"},
		{"split", scenario, "--runs", "10", "--evaluations", "400", "--what-if", "all"},
		{"halt", scenario, "--runs", "150", "--step", "30 min"},
		{"halt", scenario, "--runs", "0", "--step", "30 min"},
		{"halt", scenario, "--runs", "100", "--step", "1 h", "--what-if", "all", "--order", "all"},
	}...)
	if scenario == library.Default { // logs are fitted in seconds, not in tenths
		lines = append(lines, [][]string{{"fit", scenario}, {"review", scenario, "--drill", "3"}, {"season", scenario},
			{"cards", scenario},
			{"tonight", scenario, "--runs", "250", "--air", "-28 C", "--without", "Edda"}}...)
	}
	return lines
}

// scenariosRead are the scenarios of which every report is read: the demo, or all
// when tests are to be thorough or files are written anew.
func scenariosRead() []string {
	if !thorough.Asked() && !*update {
		return []string{library.Default}
	}
	return library.Names()
}

// reportOf plays a command line, which must succeed, and returns the report that
// it tells.
func reportOf(t *testing.T, line []string) *report.Report {
	t.Helper()
	var told *report.Report
	var stderr strings.Builder
	e := &environment{stdin: strings.NewReader(""), stdout: io.Discard, stderr: &stderr, told: func(r *report.Report) { told = r }}
	if code := e.execute(t.Context(), line); code != exitDone || told == nil {
		t.Fatalf("warmby %s exits with %d, want 0 and a report:\n%s", strings.Join(line, " "), code, &stderr)
	}
	return told
}

// What every report is held to, whoever tells it. Each is played once.
func TestReportsOfShippedScenarios(t *testing.T) {
	for _, name := range library.Names() {
		for _, line := range toldBy(name) {
			t.Run(strings.Join(line, " "), func(t *testing.T) {
				told := reportOf(t, line)
				if len(told.Warnings) < 2 { // as those of 20 runs, which take the room of a lead
					beginsWithTenLines(t, told)
				}
				keepsItsWidth(t, told)
				isTheSameOnPaperAndScreen(t, told, line[0] == "check")
			})
		}
	}
}

// isTheSameOnPaperAndScreen: each figure of the page stands on the terminal, and
// the other way round.
func isTheSameOnPaperAndScreen(t *testing.T, told *report.Report, short bool) {
	t.Helper()
	var b strings.Builder
	if err := page.Write(&b, told); err != nil {
		t.Fatal(err)
	}
	paged := pageText(b.String())
	printed := terminal.Print(told, terminal.Options{Width: paper, All: true})
	missing(t, "the page", figures(paged), "the terminal", figures(printed))
	missing(t, "the terminal", figures(withoutStrips(printed)), "the page", figures(paged))
	fewest := 30
	if short {
		fewest = 10
	}
	if n := len(figures(paged)); n < fewest {
		t.Errorf("only %d figures on the page, want %d", n, fewest)
	}
}

// beginsWithTenLines: a leader reads ten lines, with no seconds in them and no
// interval, then one screen.
func beginsWithTenLines(t *testing.T, told *report.Report) {
	t.Helper()
	text := terminal.Print(told, terminal.Options{Width: paper})
	isALead(t, told.Repeat, text)
	if n := strings.Count(text, "\n"); n > terminal.Screen {
		t.Errorf("%d lines, want %d at most", n, terminal.Screen)
	}
}

var exact = regexp.MustCompile(`\d s\b|\d:\d\d:\d\d|\(\d+ to |%`)

// isALead looks at what stands on top of a text: ten lines at most, without
// seconds and intervals.
func isALead(t *testing.T, where, text string) {
	t.Helper()
	lead, _, _ := strings.Cut(text, "\n\n")
	if n := strings.Count(strings.TrimSuffix(lead, "\n"), "\n") + 1; n > 10 {
		t.Errorf("%s begins with %d lines, want 10 at most:\n%s", where, n, lead)
	}
	if found := exact.FindString(lead); found != "" {
		t.Errorf("%s leads with %q:\n%s", where, found, lead)
	}
}

// keepsItsWidth: whatever a scenario calls its orders, tasks and what-ifs, no line
// is too long for paper, nor for a terminal of 80 characters. What is to be copied
// as it is may be wider than a terminal, and the command that repeats the answer
// stands on one line.
func keepsItsWidth(t *testing.T, told *report.Report) {
	t.Helper()
	keeps := func(o terminal.Options, copied string) {
		for _, text := range strings.Split(terminal.Print(told, o), "\n") {
			n := utf8.RuneCountInString(text)
			if n > o.Width && !strings.HasPrefix(text, "Played by: ") && !strings.HasPrefix(text, "Everything, to the second: ") &&
				!strings.Contains(copied, strings.TrimSpace(text)) {
				t.Errorf("a line of %d characters, want %d at most: %q", n, o.Width, text)
			}
		}
	}
	for _, all := range []bool{false, true} {
		keeps(terminal.Options{Width: paper, All: all}, "")
		keeps(terminal.Options{Width: 80, All: all}, codeIn(told))
	}
}

// codeIn is the text of a report that is to be copied as it is.
func codeIn(told *report.Report) string {
	var code []string
	for _, s := range told.Sections {
		for _, b := range s.Blocks {
			if c, ok := b.(report.Code); ok {
				code = append(code, c.Text)
			}
		}
	}
	return strings.Join(code, "\n")
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

func TestAllAndJSONAreRefusedTogether(t *testing.T) {
	for _, line := range toldBy("kestrel-fell") {
		var stderr strings.Builder
		code := run(append(line, "--all", "--json"), strings.NewReader(""), &strings.Builder{}, &stderr)
		if code != exitUsage || !strings.Contains(stderr.String(), "--all and --json do not go together") {
			t.Errorf("%v exits with %d: %s", line, code, &stderr)
		}
	}
}
