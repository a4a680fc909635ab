package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"warmby/scenarios/library"
)

// What tonight answers is what it answers of a copy of the file into which the
// facts are written, to the byte.
func TestTonightIsTheFileWithItsFactsWrittenIn(t *testing.T) {
	src, _ := library.Read("kestrel-fell")
	text := regexp.MustCompile(`(?m)^  - \{name: Edda.*\n`).ReplaceAllString(string(src), "")
	text = regexp.MustCompile(`air: -\d+ C, wind: \d+ m/s`).ReplaceAllString(text, "air: -28 C, wind: 8 m/s")
	text = strings.NewReplacer(", Edda]", "]", "[Edda, ", "[", " 14:55 +", " 15:30 +", "    arrives: 6 min", "    arrives: 20 min",
		"burner: {power", "burner: {count: 1, power", "{name: Caro,", "{name: Caro, arrives: 9 min,").Replace(text)
	copied := filepath.Join(t.TempDir(), "kestrel-fell")
	if err := os.WriteFile(copied, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	common := []string{"--runs", "100", "--json"}
	facts := []string{"--arrive", "15:30", "--air", "-28 C", "--wind", "8 m/s", "--without", "Edda", "--late", "pulk=20min", "--late", "Caro=9min", "--stove-dead", "burner"}
	said := regexp.MustCompile(`(?m)^ *"(repeat|scenario)": .*$|"facts": \[[^]]*\]`)
	ask := func(args ...string) string {
		return said.ReplaceAllString(answer(t, append([]string{"warmby", "tonight"}, append(args, common...)...)...), "")
	}
	got, want := ask(append([]string{"kestrel-fell"}, facts...)...), ask(copied)
	if got != want {
		t.Errorf("facts laid over the file and written into a copy differ:\n%s", firstDifference(got, want))
	}
	if got == ask("kestrel-fell") {
		t.Error("the facts changed nothing")
	}
}

// firstDifference returns the first lines that differ.
func firstDifference(a, b string) string {
	as, bs := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(as), len(bs)) {
		if as[i] != bs[i] {
			return as[i] + "\n" + bs[i]
		}
	}
	return "one is longer"
}
