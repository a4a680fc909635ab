package main

import (
	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/cards"
	"warmby/cmd/warmby/internal/document"
	onpaper "warmby/cmd/warmby/internal/paper"
	"warmby/sim"
)

// cardsDocument is what the cards say, for programs.
func cardsDocument(src *ask.Source, f cardsFlags, deck *cards.Deck, printed *onpaper.Document) document.Cards {
	out := document.Cards{
		SchemaVersion: 1, Scenario: src.Name, Title: deck.Title, Order: deck.Order, WhatIf: f.whatIf, Language: f.language,
		Dark: momentsOf(deck.Dark), People: []document.CardPerson{}, CallOuts: []document.CallOut{},
		Cards: printed.Cards, Pages: printed.Pages, Cautions: document.Cautions(deck.Cautions), Repeat: f.repeat(src),
	}
	for _, p := range deck.People {
		out.People = append(out.People, cardPersonDocument(p))
	}
	for _, c := range deck.CallOuts {
		out.CallOuts = append(out.CallOuts, document.CallOut{Task: c.Task, End: document.Seconds(c.End)})
	}
	return out
}

func cardPersonDocument(p cards.Person) document.CardPerson {
	out := document.CardPerson{Name: p.Name, Steps: []document.CardStep{}, Leave: listed(p.Leave), Cautions: listed(p.Cautions)}
	for _, s := range p.Steps {
		step := document.CardStep{
			From: document.Seconds(s.From), To: document.Seconds(s.To), Tasks: listed(s.Tasks), Lookout: s.Lookout, With: listed(s.With),
			Tools: []document.CardTool{}, Spot: s.Spot, Before: s.Before, After: s.After, CallsOut: s.CallsOut,
		}
		for _, tool := range s.Tools {
			step.Tools = append(step.Tools, document.CardTool(tool))
		}
		out.Steps = append(out.Steps, step)
	}
	return out
}

// momentsOf are moments in their shape.
func momentsOf(list []sim.Time) []document.Seconds {
	out := []document.Seconds{}
	for _, at := range list {
		out = append(out, document.Seconds(at))
	}
	return out
}

// listed is a list that is never null.
func listed(list []string) []string { return append([]string{}, list...) }
