package main

import (
	"fmt"
	"io"
	"os"

	"strings"

	"warmby/cmd/warmby/internal/cards"
	"warmby/cmd/warmby/internal/mistake"
)

// languageOf returns the words of cards: those of a language inside the program by
// its name, else those of a file.
func (e *environment) languageOf(arg string) (*cards.Language, error) {
	if text, ok := cards.LanguageFile(arg); ok {
		return cards.ReadLanguage(arg, text)
	}
	if !strings.HasSuffix(arg, ".yaml") && !strings.HasSuffix(arg, ".yml") {
		return nil, &mistake.Usage{What: fmt.Sprintf("--language expects %s, or a file that ends in .yaml, got %q", strings.Join(cards.ShippedLanguages(), " or "), arg), Cure: "\"warmby help language\" prints the English words, to be translated"}
	}
	f, err := os.Open(arg)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", arg, mistake.Reason(err))
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, cards.MaxLanguage+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", arg, mistake.Reason(err))
	}
	return cards.ReadLanguage(arg, text)
}

// languagePage is the English file of words.
func languagePage() string {
	text, _ := cards.LanguageFile("en")
	return string(text)
}
