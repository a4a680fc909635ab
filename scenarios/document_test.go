package scenarios

import (
	"strings"
	"testing"
)

const tiny = "warmby: 1\ntitle: a\npeople: [{name: A}]\ntasks: {a: {takes: 1 min}}\n"

func TestReadsWhatEditorsWrite(t *testing.T) {
	for name, src := range map[string]string{
		"byte order mark":        "\uFEFF" + tiny,
		"carriage returns":       strings.ReplaceAll(tiny, "\n", "\r\n"),
		"document markers":       "---\n" + tiny + "...\n",
		"no newline at the end":  strings.TrimSuffix(tiny, "\n"),
		"comments":               "# one\n" + tiny + "# two\n",
		"quoted keys and values": strings.NewReplacer("title: a", `"title": 'a'`, "1 min", `"1 min"`).Replace(tiny),
		"tabs in a comment":      strings.Replace(tiny, "title: a", "title: a\t# x", 1),
		"lists of one": "warmby: 1\ntitle: a\nweather: {at: 0 min, air: -3 C}\npeople: {name: A, skills: s}\nloads: {l: {pack: {item: i}}}\n" +
			"tasks: {a: {work: 1 min, needs: i, slowed: {when: air below 0 C, to: 110 %}}, b: {takes: 1 min, after: {task: a, from: start}}}\n" +
			"milestones: {m: {when: a}}\norders: {o: {groups: {d: {people: A, sequence: unpack l}}}}\nlookouts: {l: {who: A}}\n",
		"block style": "warmby: 1\ntitle: a\npeople:\n- name: A\ntasks:\n  a:\n    takes: 1 min\n",
	} {
		if _, err := Read("f.yaml", []byte(src)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestRefusesWhatIsNotPlainText(t *testing.T) {
	for _, c := range []struct{ name, src, want string }{
		{"other encoding", strings.Replace(tiny, "title: a", "title: caf\xe9", 1), "f.yaml:2:11: not UTF-8 text: byte 0xe9\n  title: caf?\n            ^\n  hint: save the file as UTF-8"},
		{"zero byte", strings.Replace(tiny, "title: a", "title: a\x00", 1), "f.yaml:2:9: the control character U+0000 is not allowed\n  title: a?\n          ^\n  hint: remove it"},
		{"escape", strings.Replace(tiny, "title: a", "title: \x1b[2Ja", 1), "f.yaml:2:8: the control character U+001B is not allowed\n  title: ?[2Ja\n         ^\n  hint: remove it"},
		{"turned writing", strings.Replace(tiny, "title: a", "title: \u202Ea", 1), "f.yaml:2:8: the control character U+202E is not allowed\n  title: ?a\n         ^\n  hint: remove it"},
		{"too large", strings.Repeat("#", maxBytes+1), "f.yaml:1:1: the file is too large: 1048577 bytes\n  hint: a scenario has at most 1 MiB (1048576 bytes)"},
		{"too many values", tiny + "x: [" + strings.Repeat("a,", 60_000) + "]\n", "f.yaml:1:1: too many values: 60005 commas, brackets, anchors and aliases\n  warmby: 1\n  ^\n  hint: at most 50000 are read"},
	} {
		_, err := Read("f.yaml", []byte(c.src))
		if err == nil || err.Error() != c.want {
			t.Errorf("%s:\n%v\nwant\n%s", c.name, err, c.want)
		}
	}
}

func TestPositionsCountCharacters(t *testing.T) {
	_, err := Read("f.yaml", []byte("\uFEFFwarmby: 1\r\ntitle: a\r\npeople: [{name: Åse, pace: fast}]\r\ntasks: {a: {takes: 1 min}}\r\n"))
	want := "f.yaml:3:28: people[1].pace: does not begin with a number, got \"fast\"\n" +
		"  people: [{name: Åse, pace: fast}]\n" +
		"                             ^\n" +
		"  hint: expected a number over 0 and up to 100"
	if err == nil || err.Error() != want {
		t.Errorf("%v\nwant\n%s", err, want)
	}
}
