package paper

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"warmby/cmd/warmby/internal/cards"
	"warmby/scenarios"
	"warmby/scenarios/library"
	"warmby/sim"
	"warmby/sim/cold"
	"warmby/sim/draw"
	"warmby/sim/ifthen"
	"warmby/sim/reference"
	"warmby/sim/stats"
)

// sheetsOf plays an order of a scenario and tells all of its cards.
func sheetsOf(t *testing.T, name string, src []byte, order, language string) *cards.Sheets {
	t.Helper()
	s, err := scenarios.Read(name, src)
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Drill(order)
	if err != nil {
		t.Fatal(err)
	}
	tl := reference.Play(d, draw.Usual(d))
	text, _ := cards.LanguageFile(language)
	words, err := cards.ReadLanguage(language, text)
	if err != nil {
		t.Fatal(err)
	}
	return deckOf(t, s, tl).Tell(words, cards.Parts)
}

// deckOf is a deck with a line of every kind of trouble, and as many as a card may
// have to hold.
func deckOf(_ *testing.T, s *scenarios.Scenario, tl *sim.Timeline) *cards.Deck {
	deck := cards.DeckOf(tl, cold.Account(tl))
	deck.Loads = cards.LoadsOf(tl.Drill, nil)
	share, people := stats.ShareOf(40, 100), []string{}
	for _, p := range deck.People[:min(12, len(deck.People))] {
		people = append(people, p.Name)
	}
	last := tl.Drill.Milestones[0].Name
	for kind := ifthen.LateLoad; kind <= ifthen.NotDark; kind++ {
		a := cards.Advice{Kind: kind, Names: people, At: 15 * sim.Minute, Wind: 12, Milestone: last, With: &share, Without: &share}
		deck.Advice = append(deck.Advice, a)
		a.Take, a.With, a.Usual, a.Else = last, nil, sim.Hour, sim.Minute
		deck.Advice = append(deck.Advice, a)
		a.Take, a.Leave = "", []string{last, last}
		deck.Advice = append(deck.Advice, a, cards.Advice{Kind: kind, Names: people, Never: true})
	}
	for i := range tl.Drill.Items {
		for l := range deck.Loads {
			deck.Loads[l].Wins = append(deck.Loads[l].Wins, cards.Win{Item: tl.Drill.Items[i].Name, Milestone: last, Sooner: sim.Hour})
		}
	}
	return deck
}

// big writes a scenario of so many people with names of 40 letters in three
// scripts and tasks of 200 bytes.
func big(people int) []byte {
	names := []string{
		"Maximiliane-Theodora Oesterreicher-Lund ", "Κωνσταντίνος-Αλέξανδρος Παπαδημητρίου-Β ", "Александра-Елизавета Константинопольская ",
	}
	var b strings.Builder
	b.WriteString("warmby: 1\ntitle: a large camp\nsite: {latitude: 66.4, longitude: 25.3, arrival: 2027-01-16T14:55:00+02:00}\npeople:\n")
	for i := range people {
		letters := []rune(names[i%3])[:38]
		fmt.Fprintf(&b, "  - {name: \"%02d%s\"}\n", i, string(letters))
	}
	long := strings.Repeat("dig a very long trench ", 9)[:192]
	one := strings.Repeat("x", 190)
	b.WriteString("weather: {at: 0 min, air: -20 C, wind: 9 m/s, from: 250}\nspots:\n")
	for i := range people - 1 {
		fmt.Fprintf(&b, "  \"%02d%s\": {walk: %d min, bearing: %d}\n", i, strings.Repeat("spot", 9), 1+i%7, i*37%360)
	}
	fmt.Fprintf(&b, `  "%[3]s": {walk: 2 min, bearing: 80}
loads: {"%[3]s": {pack: [{item: "%[2]s a", weight: 3 kg, takes: 1 min}, {item: "%[2]s b", takes: 1 min}]}}
lookouts: {"%[2]s post": {from: 20 min, until: 90 min, relief: 15 min}}
tasks:
  "%[1]s one": {work: 400 min, crew: 1-%[4]d}
  "%[2]s two": {takes: 10 min, each: true, spot: "%[3]s", after: "%[1]s one"}
  "%[1]s three": {work: 90 min, crew: 1-3, can wait: true}
milestones: {dug: {when: "%[1]s one", by: dark}}
`, long, one, strings.Repeat("место", 18), max(1, people/2))
	return []byte(b.String())
}

// job is sheets as they were printed on a kind of paper.
type job struct {
	where  string
	sheets *cards.Sheets
	doc    *Document
}

// everything prints shipped scenarios under all orders, and teams of 1 to 100 with
// long names, on both kinds of paper, once for all tests.
func everything(t *testing.T) []job {
	if len(allJobs) > 0 {
		return allJobs
	}
	add := func(name string, src []byte, order, language string) {
		s := sheetsOf(t, name, src, order, language)
		for paper, size := range Sizes {
			doc, err := Print(s, size)
			if err != nil {
				t.Fatal(err)
			}
			allJobs = append(allJobs, job{fmt.Sprintf("%s, %q, %s, %s", name, order, language, paper), s, doc})
		}
	}
	for _, name := range library.Names() {
		src, _ := library.Read(name)
		s, err := scenarios.Read(name, src)
		if err != nil {
			t.Fatal(err)
		}
		for i, order := range s.Orders() {
			add(name, src, order, []string{"en", "de"}[i%2])
		}
	}
	for _, n := range []int{1, 2, 3, 9, 40, 100} {
		add(fmt.Sprint(n, " people"), big(n), "", "de")
	}
	return allJobs
}

var allJobs []job

func TestNoTextLeavesItsMargins(t *testing.T) {
	for _, j := range everything(t) {
		where, doc := j.where, j.doc
		if len(doc.Boxes) < 20 {
			t.Errorf("%s: only %d texts", where, len(doc.Boxes))
		}
		byPage := map[int][]Box{}
		for _, b := range doc.Boxes {
			if b.X0 < b.Within.X0-0.01 || b.X1 > b.Within.X1+0.01 || b.Y0 < b.Within.Y0-0.01 || b.Y1 > b.Within.Y1+0.01 {
				t.Errorf("%s: page %d: %q leaves its margins: %v in %v", where, b.Page, b.Text, b.Rect, b.Within)
			}
			for _, o := range byPage[b.Page] {
				if overlap(b.Rect, o.Rect) {
					t.Errorf("%s: page %d: %q lies on %q", where, b.Page, b.Text, o.Text)
				}
			}
			byPage[b.Page] = append(byPage[b.Page], b)
		}
	}
}

// overlap reports whether two texts lie on each other by more than the room that
// accents and tails of letters may share.
func overlap(a, b Rect) bool {
	const share = 3
	return a.X0 < b.X1-0.5 && b.X0 < a.X1-0.5 && a.Y0 < b.Y1-share && b.Y0 < a.Y1-share
}

func TestCardsAreInLargeType(t *testing.T) {
	for _, j := range everything(t) {
		for _, b := range j.doc.Boxes {
			if b.Page <= (j.doc.Cards+quarters-1)/quarters && b.Size < normal {
				t.Errorf("%s: page %d: %q is set in %v points", j.where, b.Page, b.Text, b.Size)
			}
		}
	}
}

// whichCard is what stands beside the head of a card that goes on.
var whichCard = regexp.MustCompile(`^\d+ (of|von) \d+$`)

func TestNothingOfACardIsLeftOut(t *testing.T) {
	for _, j := range everything(t) {
		where, s, doc := j.where, j.sheets, j.doc
		var all strings.Builder
		for _, b := range doc.Boxes {
			if !whichCard.MatchString(b.Text) {
				all.WriteString(b.Text)
			}
		}
		printed := strings.ReplaceAll(all.String(), " ", "")
		for _, c := range s.Cards {
			name := strings.ReplaceAll(c.Name, " ", "")
			printed := strings.ReplaceAll(printed, name, "") // the head of the next card
			for _, l := range c.Lines {
				if text := strings.ReplaceAll(strings.ReplaceAll(l.Text, " ", ""), name, ""); !strings.Contains(printed, text) {
					t.Errorf("%s: %s: %q is not printed", where, c.Name, l.Text)
				}
			}
		}
	}
}

func TestSameSheetsGiveTheSameBytes(t *testing.T) {
	src, _ := library.Read("ravengill")
	var first []byte
	for range 3 {
		doc, err := Print(sheetsOf(t, "ravengill", src, "two groups", "de"), A4)
		if err != nil {
			t.Fatal(err)
		}
		if first != nil && !bytes.Equal(first, doc.Bytes) {
			t.Fatal("the bytes differ")
		}
		first = doc.Bytes
	}
}

// What a PDF reader finds lies where the boxes say, in every script.
func TestReadBackFromThePDF(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (Debian: poppler-utils)")
	}
	doc, err := Print(sheetsOf(t, "9 people", big(9), "", "de"), A4)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "cards.pdf")
	if err := os.WriteFile(file, doc.Bytes, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-bbox", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	found, page := 0, 0
	for _, line := range strings.Split(string(out), "\n") {
		if strings.Contains(line, "<page ") {
			page++
		}
		m := regexp.MustCompile(`<word xMin="(.*)" yMin="(.*)" xMax="(.*)" yMax="(.*)">(.*)</word>`).FindStringSubmatch(line)
		if m == nil {
			continue
		}
		var at [4]float64
		for i := range at {
			at[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		if !stands(doc, page, at, m[5]) {
			t.Errorf("page %d: %q at %v stands in no box", page, m[5], at)
		}
		found++
	}
	for _, want := range []string{"Παπαδημητρίου", "Константинопольская"} {
		if !strings.Contains(string(out), want[:len(want)-8]) {
			t.Errorf("the PDF reader finds no %q", want)
		}
	}
	if found < 500 || page != doc.Pages {
		t.Errorf("found %d words on %d pages of %d", found, page, doc.Pages)
	}
}

// stands reports whether a word lies in a box that has it.
func stands(doc *Document, page int, at [4]float64, word string) bool {
	word = strings.NewReplacer("&quot;", `"`, "&amp;", "&", "&lt;", "<", "&gt;", ">").Replace(word)
	for _, b := range doc.Boxes {
		if b.Page == page && strings.Contains(b.Text, word) && at[0] > b.X0-1 && at[2] < b.X1+1 && at[1] > b.Y0-2 && at[3] < b.Y1+2 {
			return true
		}
	}
	return false
}
