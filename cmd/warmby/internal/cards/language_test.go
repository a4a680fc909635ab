package cards

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func TestLanguagesInsideTheProgramAreWhole(t *testing.T) {
	for name, text := range shippedLanguages {
		l, err := ReadLanguage(name, text)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if name == "en" {
			continue
		}
		for _, key := range l.keys() {
			if same := l.texts[key] == English().texts[key]; same && len(place.ReplaceAllString(l.texts[key], "")) > 10 {
				t.Errorf("%s: %s is as in English: %q", name, key, l.texts[key])
			}
		}
	}
}

// Each text is said somewhere, and each that is said is there.
func TestEveryTextIsSaid(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]bool{}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`\b[tl]\.Say\("([^"]+)"`).FindAllStringSubmatch(string(src), -1) {
			said[m[1]] = true
			if !English().has(m[1]) && m[1] != "caution " {
				t.Errorf("%s says %q, which english.yaml has not", file, m[1])
			}
		}
	}
	for _, key := range English().keys() {
		if !said[key] && !strings.HasPrefix(key, "caution ") {
			t.Errorf("english.yaml has %q, which nothing says", key)
		}
	}
}

func TestAWrongFileIsRefusedWithAllItsMistakes(t *testing.T) {
	text := strings.NewReplacer("arrived: arrived", "arived: arrived", "relieve {name}", "relieve {nme}", "take care: Take care", "take care: ''").Replace(string(english))
	_, err := ReadLanguage("own.yaml", []byte(text))
	if err == nil {
		t.Fatal("it is read")
	}
	for _, want := range []string{
		"arived: there is no such text", "did you mean \"arrived\"?", "relieve: must name {name}, got {nme}", "take care: is empty", "arrived: is missing", `in English: "arrived"`,
	} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q is not said:\n%v", want, err)
		}
	}
}

func FuzzReadLanguage(f *testing.F) {
	f.Add(string(english))
	f.Add("relieve: &a relieve {name}\nx: *a\n")
	f.Add("- a\n")
	f.Fuzz(func(t *testing.T, text string) {
		if l, err := ReadLanguage("own.yaml", []byte(text)); err == nil {
			for key := range English().texts {
				if !l.has(key) {
					t.Errorf("read without %q", key)
				}
			}
		}
	})
}
