package cards

import (
	"bytes"
	_ "embed"
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"warmby/scenarios"
)

//go:embed english.yaml
var english []byte

//go:embed german.yaml
var german []byte

// shippedLanguages are those inside the program, by the name that asks for them.
var shippedLanguages = map[string][]byte{"en": english, "de": german}

// ShippedLanguages lists the names of the languages inside the program.
func ShippedLanguages() []string { return slices.Sorted(maps.Keys(shippedLanguages)) }

// LanguageFile returns the file of a language inside the program, to be
// translated.
func LanguageFile(name string) ([]byte, bool) {
	text, ok := shippedLanguages[name]
	return text, ok
}

// Language is the fixed words of cards: a text for each key, with the places of
// names and figures in braces, "relieve {name}".
type Language struct{ texts map[string]string }

// English is the language that cards are in unless another is asked for.
var English = sync.OnceValue(func() *Language {
	l, err := read("english.yaml", english, nil)
	if err != nil {
		panic("cards: " + err.Error())
	}
	return l
})

// Say writes a text with values in the places that it names, given as name and
// value by turns; a value is a string or a figure. A key or a place that there is
// not is misuse and panics.
func (l *Language) Say(key string, values ...any) string {
	text, known := l.texts[key]
	if !known {
		panic(fmt.Sprintf("cards: no text %q", key))
	}
	pairs := make([]string, 0, len(values))
	for i := 0; i < len(values); i += 2 {
		value, ok := values[i+1].(string)
		if !ok {
			value = written(values[i+1])
		}
		pairs = append(pairs, "{"+values[i].(string)+"}", value)
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// has reports whether there is a text of a key.
func (l *Language) has(key string) bool { return l.texts[key] != "" }

// MaxLanguage is how large the file of a language may be, in bytes.
const MaxLanguage = 1 << 16

// maxText is how long a text may be, in characters.
const maxText = 300

// ReadLanguage reads a file of words. It must have every text of the English one,
// no other, and in each the same places in braces. The error is a
// *[scenarios.Problems] with all mistakes.
func ReadLanguage(name string, src []byte) (*Language, error) { return read(name, src, English()) }

// read reads a file of words; model has the texts that it must have, nil for any.
func read(name string, src []byte, model *Language) (*Language, error) {
	r := languageReader{lines: strings.Split(string(src), "\n"), model: model, language: &Language{map[string]string{}}}
	if root := r.root(src); root != nil {
		for i := 0; i+1 < len(root.Content); i += 2 {
			r.entry(root.Content[i], root.Content[i+1])
		}
		r.missing()
	}
	if len(r.list) > 0 {
		return nil, scenarios.NewProblems(name, r.list)
	}
	return r.language, nil
}

type languageReader struct {
	lines    []string
	model    *Language
	language *Language
	list     []scenarios.Problem
}

const shape = "a line for each text, such as \"relieve: relieve {name}\"; \"warmby help language\" prints the English file"

// root parses the file; nil when it is no list of texts.
func (r *languageReader) root(src []byte) *yaml.Node {
	if len(src) > MaxLanguage {
		r.fail(1, 1, "", fmt.Sprintf("over %d bytes, which is more than a file of words may have", MaxLanguage), shape)
		return nil
	}
	if !utf8.Valid(src) {
		r.fail(1, 1, "", "is not UTF-8", "save it as UTF-8")
		return nil
	}
	loader, err := yaml.NewLoader(bytes.NewReader(bytes.TrimPrefix(src, []byte("\uFEFF"))))
	var doc yaml.Node
	if err == nil {
		err = loader.Load(&doc)
	}
	if err != nil {
		line, col, message := placeOf(err)
		r.fail(line, col, "", "cannot be read as YAML: "+message, "a text with a colon, a brace at its beginning or a # stands in quotation marks")
		return nil
	}
	if len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
		r.fail(1, 1, "", "is not a list of texts", shape)
		return nil
	}
	return doc.Content[0]
}

func placeOf(err error) (line, col int, message string) {
	var many *yaml.LoadErrors
	var one *yaml.LoadError
	if errors.As(err, &many) && len(many.Errors) > 0 {
		one = many.Errors[0]
	}
	if one != nil || errors.As(err, &one) {
		return max(1, one.Mark.Line), max(1, one.Mark.Column), strings.TrimPrefix(one.Message, "yaml: ")
	}
	return 1, 1, err.Error()
}

// entry reads one text.
func (r *languageReader) entry(k, v *yaml.Node) {
	fail := func(n *yaml.Node, message, hint string) { r.fail(n.Line, n.Column, k.Value, message, hint) }
	switch {
	case k.Kind != yaml.ScalarNode || v.Kind != yaml.ScalarNode || v.Anchor != "":
		r.fail(v.Line, v.Column, "", "must be a text", shape)
		return
	case r.model != nil && !r.model.has(k.Value):
		fail(k, "there is no such text", scenarios.NameHint(k.Value, r.model.keys()))
		return
	case r.language.texts[k.Value] != "":
		fail(k, "stands twice", "leave one of the two out")
		return
	case strings.TrimSpace(v.Value) == "":
		fail(v, "is empty", r.englishHint(k.Value))
	case utf8.RuneCountInString(v.Value) > maxText:
		fail(v, fmt.Sprintf("is over %d characters long", maxText), "cards are small: "+r.englishHint(k.Value))
	case strings.Contains(v.Value, "\n"):
		fail(v, "has more than one line", "cards break lines by themselves")
	case scenarios.Fault(v.Value) != "":
		fail(v, scenarios.Fault(v.Value), "leave it out")
	case r.model != nil && !slices.Equal(placesIn(v.Value), placesIn(r.model.texts[k.Value])):
		fail(v, "must name "+orNone(placesIn(r.model.texts[k.Value]))+", got "+orNone(placesIn(v.Value)), r.englishHint(k.Value))
	}
	r.language.texts[k.Value] = v.Value
}

// missing names the texts that are not there.
func (r *languageReader) missing() {
	if r.model == nil {
		return
	}
	for _, key := range r.model.keys() {
		if _, there := r.language.texts[key]; !there {
			r.fail(len(r.lines), 1, key, "is missing", r.englishHint(key))
		}
	}
}

func (r *languageReader) englishHint(key string) string {
	if r.model == nil {
		return shape
	}
	return fmt.Sprintf("in English: %q", r.model.texts[key])
}

func (r *languageReader) fail(line, col int, path, message, hint string) {
	source := ""
	if line >= 1 && line <= len(r.lines) {
		source = strings.TrimRight(r.lines[line-1], "\r")
	}
	r.list = append(r.list, scenarios.Problem{Line: line, Col: col, Path: path, Message: message, Hint: hint, Source: source})
}

func (l *Language) keys() []string { return slices.Sorted(maps.Keys(l.texts)) }

var place = regexp.MustCompile(`\{[^}]*\}`)

// placesIn lists the places of a text, each once, by the alphabet.
func placesIn(text string) []string {
	list := place.FindAllString(text, -1)
	slices.Sort(list)
	return slices.Compact(list)
}

func orNone(places []string) string {
	if len(places) == 0 {
		return "no place in braces"
	}
	return strings.Join(places, " and ")
}
