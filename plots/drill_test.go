package plots

import (
	"bytes"
	"cmp"
	"fmt"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"warmby/sim"
	"warmby/sim/heat"
)

// faults returns what is wrong with the layout of a picture.
func faults(p *Picture) []string {
	var out []string
	complain := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	var texts []*words
	for _, m := range p.marks {
		if m.words != nil {
			texts = append(texts, m.words)
		}
	}
	sheet := rect{0, 0, p.Width, p.Height}
	for i, w := range texts {
		if !w.box().within(sheet) {
			complain("%q sticks out of the sheet", w.text)
		}
		for _, o := range texts[:i] {
			if w.box().grow(-0.05).meets(o.box()) {
				complain("%q lies on %q", w.text, o.text)
			}
		}
	}
	return append(append(out, barFaults(p)...), labelFaults(p)...)
}

// barFaults checks that every name is written inside its bar, or numbered
// and explained.
func barFaults(p *Picture) []string {
	var out []string
	m := newMeasure()
	explained := func(number int, name string) bool {
		return number > 0 && number <= len(p.notes) && strings.Contains(p.notes[number-1], name)
	}
	for _, r := range p.rows {
		for _, b := range r.bars {
			if b.name == "" {
				continue
			}
			if b.written.lines == nil {
				if !explained(b.number, b.name) {
					out = append(out, fmt.Sprintf("%q is neither written nor explained (number %d)", b.name, b.number))
				}
				continue
			}
			if got := strings.Join(b.written.lines, " "); got != b.name {
				out = append(out, fmt.Sprintf("bar says %q, want %q", got, b.name))
			}
			for _, line := range b.written.lines {
				if m.width(line, b.written.set) > b.area.width() || b.written.height() > b.area.height() {
					out = append(out, fmt.Sprintf("%q does not fit its bar", line))
				}
			}
		}
	}
	for i, note := range p.notes {
		if note == "" {
			out = append(out, fmt.Sprintf("note %d is empty", i+1))
		}
	}
	return out
}

// labelFaults checks that no line of a milestone or target runs through the
// text of another.
func labelFaults(p *Picture) []string {
	var out []string
	for i := range p.labels {
		l := &p.labels[i]
		for j := range p.labels {
			o := &p.labels[j]
			if i != j && o.line && l.covers(o.x) && o.lane > l.lane {
				out = append(out, fmt.Sprintf("the line of %q runs through %q", o.text, l.text))
			}
		}
	}
	return out
}

// shown returns all text of a picture, one piece a line.
func shown(p *Picture) string {
	var b strings.Builder
	for _, m := range p.marks {
		if m.words != nil {
			b.WriteString(m.words.text + "\n")
		}
	}
	return b.String()
}

func TestDrillShowsWhoDidWhatAndWhen(t *testing.T) {
	st := winterCourse()
	tl := st.timeline()
	p := Drill(tl, Options{Critical: critical(tl, "pitch the tent"), Curves: winterCurves(tl)})
	if len(p.rows) != 7 {
		t.Fatalf("%d rows, want 6 people and one for what goes by itself", len(p.rows))
	}
	var got []string
	for _, b := range p.rows[2].bars { // Berend
		mark := ""
		if b.critical {
			mark = " *"
		}
		got = append(got, fmt.Sprintf("%v-%v %s %s%s", b.from.Minutes(), b.to.Minutes(), b.look.word, b.name, mark))
	}
	want := []string{
		"0-6 free ", "6-7 work unpack shovels", "7-8 work unpack kitchen box", "8-10 work unpack heater", "10-13 work unpack tent",
		"13-23 free ", "23-26 walking ", "26-38 lookout north post", "38-39 free ", "39-40.5 walking ",
		"40.5-42 ready: waits for the crew ", "42-70 work pitch the tent *", "70-75 work set the flue", "75-76 free ",
		"76-97 work bank the skirt", "97-97.5 walking ", "97.5-118 work build the snow wall",
		"118-121 work count everybody and settle the night watch",
	}
	if !slices.Equal(got, want) {
		t.Errorf("Berend:\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	alone := p.rows[6]
	if alone.name != "by itself" || len(alone.bars) != 2 || alone.bars[0].name != "let it set" || alone.bars[1].name != "warm the tent" {
		t.Errorf("by itself: %+v", alone)
	}
	// A bar stands where the ruler says: half of the ruler is half of 121 min.
	a := axisFor(&sheet{measure: newMeasure()}, tl, p.rows)
	if got, want := a.x(at(60.5)), (a.x0+a.x1)/2; got < want-1e-9 || got > want+1e-9 {
		t.Errorf("60.5 of 121 min stands at %v, want %v", got, want)
	}
	for _, f := range faults(p) {
		t.Error(f)
	}
}

func TestDrillShowsMilestonesTargetsLightAndWeather(t *testing.T) {
	text := shown(Drill(winterCourse().timeline(), Options{}))
	for _, want := range []string{
		"Kestrel Fell winter course, arrival before dusk: two groups\n",
		"arrival Sat 16 January 2027, 13:40 +02:00; finish: 2 h 01 min after arrival, by 15:41\n",
		"1 h 06 min first hot drink\n", "1 h 10 min shelter up\n", "shelter up by dark\n", "first hot drink by 15:00\n",
		"1 h 52 min heated, late by 12 min\n", "2 h 01 min ready for the night, finish\n",
		"dark from 14:52\n", "−26 °C, wind 8.5 m/s, fresh breeze\n", "min since arrival\n", "13:50\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the picture", want)
		}
	}
	if strings.Contains(text, "°C\n100\n") {
		t.Error("a temperature panel without curves")
	}
}

func TestDrillMarksMishaps(t *testing.T) {
	p := Drill(winterCourse().timeline(), Options{})
	var got []string
	for _, b := range p.rows[0].bars {
		if b.from >= at(75) && b.to <= at(88) && b.look != lookFree {
			got = append(got, fmt.Sprint(b.look.word, b.from.Minutes(), b.to.Minutes(), b.name))
		}
	}
	want := []string{fmt.Sprint("work", 75.0, 80.0, ""), fmt.Sprint("mishap", 80.0, 88.0, "light the heater")}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestDrillThatNeverFinishesSaysSo(t *testing.T) {
	tl := neverWarm().timeline()
	p := Drill(tl, Options{Curves: winterCurves(tl)})
	text := shown(p)
	for _, want := range []string{"finish: never\n", "never: heated, ready for the night, finish\n", "Never begun: dry the boot liners\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the picture", want)
		}
	}
	// The supper and the warm-up, each at the end of its bar.
	if n := strings.Count("\n"+text, "\nnever\n"); n != 2 {
		t.Errorf("%d bars say never, want 2", n)
	}
	for _, f := range faults(p) {
		t.Error(f)
	}
}

func TestRulerChoosesItsSteps(t *testing.T) {
	arrival := winterCourse().arrival
	for _, c := range []struct {
		length      sim.Time
		step        sim.Time
		unit, first string
	}{
		{30 * sim.Minute, 2 * sim.Minute, "min since arrival", "13:40"},
		{90 * sim.Minute, 5 * sim.Minute, "min since arrival", "13:40"},
		{4 * sim.Hour, 10 * sim.Minute, "min since arrival", "13:45"},
		{5 * sim.Hour, 15 * sim.Minute, "min since arrival", "13:45"},
		{9 * sim.Hour, 30 * sim.Minute, "min since arrival", "14:00"},
		{20 * sim.Hour, sim.Hour, "h since arrival", "14:00"},
		{7 * 24 * sim.Hour, 6 * sim.Hour, "h since arrival", "17 Jan"},
	} {
		a := axis{x0: 80, x1: 820, length: c.length, arrival: arrival}
		_, step, unit := a.sinceArrival()
		if step != c.step || unit != c.unit {
			t.Errorf("%v: step %v, %s; want %v, %s", sim.Clock(c.length), sim.Clock(step), unit, sim.Clock(c.step), c.unit)
		}
		for _, k := range a.onTheClock() {
			if k.text != "" {
				if k.text != c.first {
					t.Errorf("%v: the clock begins at %s, want %s", sim.Clock(c.length), k.text, c.first)
				}
				break
			}
		}
	}
}

func TestWindIsNamedByTheBeaufortScale(t *testing.T) {
	// Mean wind at 10 m in m/s, lowest and highest of each class: Beaufort
	// wind scale as tabled by the Central Weather Bureau, Taipei.
	for _, c := range []struct {
		low, high float64
		want      string
	}{
		{0, 0.2, "calm"}, {0.3, 1.5, "light air"}, {1.6, 3.3, "light breeze"}, {3.4, 5.4, "gentle breeze"},
		{5.5, 7.9, "moderate breeze"}, {8, 10.7, "fresh breeze"}, {10.8, 13.8, "strong breeze"}, {13.9, 17.1, "near gale"},
		{17.2, 20.7, "gale"}, {20.8, 24.4, "strong gale"}, {24.5, 28.4, "storm"}, {28.5, 32.6, "violent storm"},
		{32.7, 61, "hurricane force"},
	} {
		for _, wind := range []float64{c.low, c.high} {
			if got, _ := windClass(wind); got != c.want {
				t.Errorf("%v m/s is called %q, want %q", wind, got, c.want)
			}
		}
	}
}

func TestUnknownFormatIsAnError(t *testing.T) {
	_, err := Drill(winterCourse().timeline(), Options{}).Bytes("gif")
	if err == nil || !strings.Contains(err.Error(), `got "gif"`) {
		t.Errorf("error is %v", err)
	}
}

func TestBytesRepeat(t *testing.T) {
	for _, f := range Formats {
		var first []byte
		for range 3 {
			tl := winterCourse().timeline()
			b, err := Drill(tl, Options{Curves: winterCurves(tl)}).Bytes(f)
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = b
			}
			if !bytes.Equal(b, first) {
				t.Errorf("%s differs from one time to the next", f)
			}
		}
	}
}

func TestPNGHasItsSizeAndIsNotBlank(t *testing.T) {
	p := Drill(winterCourse().timeline(), Options{})
	b, err := p.Bytes("png")
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	if w, want := img.Bounds().Dx(), 1754; w != want {
		t.Errorf("%d dots across, want %d", w, want)
	}
	if h, want := img.Bounds().Dy(), int(p.Height*dotsPerInch/72+0.5); h != want {
		t.Errorf("%d dots high, want %d", h, want)
	}
	// The middle of Leader's "pitch the tent" has the ink of work.
	for _, bar := range p.rows[0].bars {
		if bar.name == "pitch the tent" {
			x, y := (bar.area.x0+6)*dotsPerInch/72, (bar.area.y0+4)*dotsPerInch/72
			r, g, bl, _ := img.At(int(x), int(y)).RGBA()
			wr, wg, wb, _ := lookWork.fill.color().RGBA()
			if r != wr || g != wg || bl != wb {
				t.Errorf("a bar is %v, want %v", img.At(int(x), int(y)), color.RGBAModel.Convert(lookWork.fill.color()))
			}
		}
	}
}

func TestSVGHoldsItsWords(t *testing.T) {
	b, err := Drill(winterCourse().timeline(), Options{}).Bytes("svg")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{">Дмитрий</text>", ">Cécile</text>", "−22 °C", "'Liberation Sans',Arial,Helvetica,sans-serif"} {
		if !bytes.Contains(b, []byte(want)) {
			t.Errorf("%q is not in the SVG", want)
		}
	}
}

func TestPDFTextCanBeReadBack(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is not installed (Debian: poppler-utils)")
	}
	st := winterCourse()
	st.title = "Übung am Fjell ≤ −20 °C"
	b, err := Drill(st.timeline(), Options{}).Bytes("pdf")
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "drill.pdf")
	if err := os.WriteFile(file, b, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Übung am Fjell ≤ −20 °C: two groups", "Дмитрий", "Cécile", "Øyvind", "pitch the tent", "−26 °C, wind 8.5 m/s, fresh breeze"} {
		if !strings.Contains(string(out), want) {
			t.Errorf("%q cannot be read back", want)
		}
	}
}

func TestPictureGrowsWithPeopleAndFitsASheetWhenItCan(t *testing.T) {
	if p := Drill(winterCourse().timeline(), Options{}); p.Height > sheetHeight {
		t.Errorf("6 people take %v points, more than a sheet", p.Height)
	}
	few, many := Drill(crowd(20).timeline(), Options{}), Drill(crowd(30).timeline(), Options{})
	if many.Height <= few.Height || many.Width != sheetWidth {
		t.Errorf("30 people take %v x %v, 20 take %v high", many.Width, many.Height, few.Height)
	}
}

// names are what people may write: long, short, in any script.
func names() *rapid.Generator[string] {
	word := rapid.SampledFrom([]string{"a", "pitch", "the", "tent", "unpack", "überlang", "Schneeblockmauer", "вода", "≤20 °C",
		"wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww", "\t", "雪", "🏕", "&<x>", strings.Repeat("langerName", 9)})
	return rapid.OneOf(
		rapid.Map(rapid.SliceOfN(word, 1, 12), func(w []string) string { return strings.Join(w, " ") }),
		rapid.StringOfN(rapid.RuneFrom(nil, unicode.Latin, unicode.Cyrillic, unicode.Han, unicode.Cc), 1, 30, -1),
	)
}

// anyTimeline draws timelines that no engine would give, too.
func anyTimeline(t *rapid.T) *sim.Timeline {
	end := sim.Time(rapid.SampledFrom([]int{0, 1, 90_000, 40 * 60_000, 130 * 60_000, 700 * 60_000, 7 * 24 * 3_600_000}).Draw(t, "end"))
	moment := func(label string) sim.Time { return sim.Time(rapid.Int64Range(0, int64(end)).Draw(t, label)) }
	d := &sim.Drill{Title: names().Draw(t, "title"), Order: "x", Lookouts: []sim.Lookout{{Name: names().Draw(t, "lookout")}}}
	tl := &sim.Timeline{Drill: d, Luck: &sim.Luck{}, End: end}
	if rapid.Bool().Draw(t, "clock") {
		d.Site.Arrival = winterCourse().arrival
	}
	for range rapid.IntRange(1, 40).Draw(t, "tasks") {
		task := sim.Task{Name: names().Draw(t, "task"), Item: -1, Crew: sim.Crew{Max: rapid.IntRange(0, 3).Draw(t, "crew")}}
		times := sim.TaskTimes{Start: moment("start"), Worked: end, End: end, Unit: -1}
		switch rapid.IntRange(0, 5).Draw(t, "how") {
		case 0:
			times.Worked, times.End = sim.Never, sim.Never
		case 1:
			times.Start, times.Worked, times.End = sim.Never, sim.Never, sim.Never
		case 2:
			times.Worked, times.End = times.Start, times.Start
		case 3:
			times.Worked = sim.Time(rapid.Int64Range(int64(times.Start), int64(end)).Draw(t, "worked"))
		}
		d.Tasks = append(d.Tasks, task)
		tl.Tasks = append(tl.Tasks, times)
	}
	for range rapid.SampledFrom([]int{1, 2, 4, 9, 17, 30}).Draw(t, "people") {
		d.People = append(d.People, sim.Person{Name: names().Draw(t, "person")})
		cuts := []sim.Time{moment("arrives"), end}
		for range rapid.IntRange(0, 9).Draw(t, "stretches") {
			cuts = append(cuts, max(cuts[0], moment("cut")))
		}
		slices.Sort(cuts)
		var did []sim.Stretch
		for i := 1; i < len(cuts); i++ {
			s := sim.Stretch{From: cuts[i-1], To: cuts[i], Task: rapid.IntRange(0, len(d.Tasks)-1).Draw(t, "which"), Lookout: 0}
			s.What = sim.Activity(rapid.IntRange(0, 4).Draw(t, "what"))
			did = append(did, s)
		}
		tl.People = append(tl.People, did)
	}
	if rapid.Bool().Draw(t, "groups") {
		d.Groups = []sim.Group{{Name: names().Draw(t, "group"), People: []int{0}}, {Name: "b"}}
	}
	for range rapid.IntRange(1, 9).Draw(t, "milestones") {
		m := sim.Milestone{Name: names().Draw(t, "milestone"), By: sim.Never}
		if rapid.Bool().Draw(t, "by") {
			m.By, m.ByText = moment("by")*5/4, names().Draw(t, "by text")
		}
		at := moment("reached")
		if rapid.IntRange(0, 4).Draw(t, "never") == 0 {
			at = sim.Never
		}
		d.Milestones, tl.Milestones = append(d.Milestones, m), append(tl.Milestones, at)
	}
	for i := range rapid.IntRange(0, 8).Draw(t, "weather") {
		if i == 0 {
			d.Weather = []sim.WeatherCase{{}}
		}
		d.Weather[0].Rows = append(d.Weather[0].Rows, sim.WeatherRow{At: moment("row"), Air: -20.5 + float64(i), Wind: 5 * float64(i)})
		d.Light = append(d.Light, sim.Light{At: moment("light"), Dark: i%2 == 0})
	}
	if d.Weather != nil {
		slices.SortFunc(d.Weather[0].Rows, func(a, b sim.WeatherRow) int { return cmp.Compare(a.At, b.At) })
		slices.SortFunc(d.Light, func(a, b sim.Light) int { return cmp.Compare(a.At, b.At) })
	}
	return tl
}

func anyCurves(t *rapid.T, end sim.Time) []heat.Curve {
	var out []heat.Curve
	for range rapid.IntRange(0, 7).Draw(t, "curves") {
		c := heat.Curve{Name: names().Draw(t, "curve")}
		for at := range rapid.IntRange(0, 5).Draw(t, "points") {
			c.Points = append(c.Points, heat.Point{At: end * sim.Time(at) / 5, C: rapid.Float64Range(-60, 110).Draw(t, "C")})
		}
		out = append(out, c)
	}
	return out
}

func TestNoTextIsCutOrLiesOnAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tl := anyTimeline(t)
		p := Drill(tl, Options{Curves: anyCurves(t, tl.End), Cold: anyCold(t, rapid.IntRange(0, 9).Draw(t, "accounts"))})
		if f := faults(p); len(f) > 0 {
			t.Fatal(strings.Join(f, "\n"))
		}
	})
}

func TestAnyTimelineCanBeWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tl := anyTimeline(t)
		p := Drill(tl, Options{Curves: anyCurves(t, tl.End), Cold: anyCold(t, rapid.IntRange(0, 9).Draw(t, "accounts"))})
		if _, err := p.Bytes(rapid.SampledFrom([]string{"svg", "pdf", "svg", "pdf", "svg", "pdf", "svg", "png"}).Draw(t, "format")); err != nil {
			t.Fatal(err)
		}
	})
}
