package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"warmby/cmd/warmby/internal/document"
	onpaper "warmby/cmd/warmby/internal/paper"
	"warmby/scenarios/library"
)

// printedCard is a card as a PDF reader finds it: its name and its lines.
type printedCard struct {
	name  string
	lines []string
}

// readCards reads the cards of people back from a PDF on A4, quarter by quarter.
func readCards(t *testing.T, file string) (list []printedCard) {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (Debian: poppler-utils)")
	}
	const wide, high = 297, 420
	for page := 1; ; page++ {
		for quarter := range 4 {
			out, err := exec.Command(tool, "-r", "72", "-f", strconv.Itoa(page), "-l", strconv.Itoa(page), "-x", strconv.Itoa(quarter%2*wide+1), "-y", strconv.Itoa(quarter/2*high+1),
				"-W", strconv.Itoa(wide-1), "-H", strconv.Itoa(high-1), "-layout", file, "-").Output()
			text := strings.TrimSpace(strings.ReplaceAll(string(out), "\f", ""))
			if err != nil || text == "" {
				return list
			}
			lines := strings.Split(text, "\n")
			head, _, _ := strings.Cut(strings.TrimSpace(lines[0]), "  ")
			list = append(list, printedCard{head, lines[1:]})
		}
	}
}

// stepsOn joins the lines of a card into what stands behind each minute.
func stepsOn(cards []printedCard, name string) (minutes []int, says []string) {
	begins := regexp.MustCompile(`^\s*(\d+)\s+(\S.*)$`)
	open := false
	for _, c := range cards {
		if c.name != name {
			continue
		}
		for _, line := range c.lines {
			text := strings.TrimSpace(line)
			switch m := begins.FindStringSubmatch(line); {
			case m != nil:
				at, _ := strconv.Atoi(m[1])
				minutes, says, open = append(minutes, at), append(says, m[2]), true
			case text == "":
			case strings.HasPrefix(text, "dark ") || strings.HasPrefix(text, "it is dark") || strings.HasPrefix(text, "Late? Leave:") || text == "Take care" || len(says) == 0:
				open = false
			case open:
				says[len(says)-1] += " " + text
			}
		}
	}
	return minutes, says
}

// Nothing stands on a card that is not in the timeline: each line that begins with
// a minute is a stretch of that person in rehearse --json.
func TestCardsSayOnlyWhatIsInTheTimeline(t *testing.T) {
	for _, name := range library.Names() {
		file := filepath.Join(t.TempDir(), "cards.pdf")
		answer(t, "warmby", "cards", name, "--only", "people", "--out", file)
		cards := readCards(t, file)
		var doc document.Rehearsal
		if err := json.Unmarshal([]byte(answer(t, "warmby", "rehearse", name, "--runs", "0", "--json")), &doc); err != nil {
			t.Fatal(err)
		}
		for _, p := range doc.People {
			minutes, says := stepsOn(cards, p.Name)
			if len(minutes) == 0 && p.Busy > 0 {
				t.Errorf("%s: %s works, and no line of his is found", name, p.Name)
			}
			for i, at := range minutes {
				if why := untrue(doc, p, at, says[i]); why != "" {
					t.Errorf("%s: %s: at %d min the card says %q: %s", name, p.Name, at, says[i], why)
				}
			}
		}
	}
}

// untrue says what a line of a card says that the timeline does not.
func untrue(doc document.Rehearsal, p document.Person, at int, says string) string {
	with := regexp.MustCompile(`with ([^;]*?)(;|$| take:| CALL OUT)`).FindStringSubmatch(says)
	for _, s := range p.Stretches {
		if int(s.From)/60000 != at || s.Task+s.Lookout == "" || s.Activity != "working" && s.Activity != "lookout" || !strings.HasPrefix(says, nameOf(s, p.Name)) {
			continue
		}
		if with == nil || s.Lookout != "" || strings.HasPrefix(with[1], "all the others") {
			return ""
		}
		i := slices.IndexFunc(doc.Tasks, func(task document.Task) bool { return task.Task == s.Task })
		if i < 0 {
			return "there is no such task"
		}
		for _, who := range strings.Split(with[1], ", ") {
			if !slices.Contains(doc.Tasks[i].People, strings.TrimSpace(who)) {
				return who + " is not of " + s.Task
			}
		}
		return ""
	}
	return "no stretch begins so then"
}

// nameOf is how a card begins to name a stretch.
func nameOf(s document.Stretch, person string) string {
	if item, ok := strings.CutPrefix(s.Task, "unpack "); ok {
		first, _, _ := strings.Cut(item, " ")
		return "unload: " + first
	}
	return strings.TrimSuffix(s.Task, ": "+person) + s.Lookout
}

// Without a place to write to the answer still says what there is, and what is
// written is what is printed.
func TestCardsAreTheSameBytesEachTime(t *testing.T) {
	var first []byte
	for _, workers := range []string{"a", "b"} {
		file := filepath.Join(t.TempDir(), workers+".pdf")
		answer(t, "warmby", "cards", "--out", file)
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if first != nil && string(first) != string(data) {
			t.Error("the bytes differ")
		}
		first = data
	}
}

func TestPapersAreTold(t *testing.T) {
	for name := range onpaper.Sizes {
		if !strings.Contains(cardsCommand(quietly()).Flag("paper").Usage, name) {
			t.Errorf("--paper does not tell of %s", name)
		}
	}
}
