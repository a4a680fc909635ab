package main

import (
	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/cards"
	"warmby/cmd/warmby/internal/document"
	onpaper "warmby/cmd/warmby/internal/paper"
	"warmby/sim"
	"warmby/sim/ifthen"
)

// cardsDocument is what the cards say, for programs.
func cardsDocument(src *ask.Source, f cardsFlags, deck *cards.Deck, printed *onpaper.Document) document.Cards {
	out := document.Cards{
		Head: document.Head{SchemaVersion: 1, Scenario: src.Name}, Title: deck.Title, Order: deck.Order, WhatIf: f.whatIf, Language: f.language,
		Dark: momentsOf(deck.Dark), People: []document.CardPerson{}, CallOuts: []document.CallOut{},
		Cards: printed.Cards, Pages: printed.Pages, Cautions: document.Cautions(deck.Cautions), Repeat: f.repeat(src),
	}
	for _, p := range deck.People {
		out.People = append(out.People, cardPersonDocument(p))
	}
	out.IfThen, out.Loads, out.Spots = adviceDocument(deck.Advice), loadsDocument(deck.Loads), []document.CardSpot{}
	out.Brief, out.WindFrom = listed(deck.Sentences(f.words)), deck.Camp.Wind.From
	for _, s := range deck.Camp.Spots {
		out.Spots = append(out.Spots, document.CardSpot{Names: s.Names, Bearing: s.Bearing, Walk: document.Seconds(s.Walk), Downwind: s.Downwind})
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

// troubleNames are the kinds of trouble for programs.
var troubleNames = map[ifthen.Kind]string{
	ifthen.LateLoad: "late load", ifthen.DeadStove: "dead stove", ifthen.Down: "down", ifthen.Windy: "wind",
	ifthen.Later: "later", ifthen.WhatIf: "what if", ifthen.NotYet: "not yet", ifthen.NotDark: "dark",
}

func adviceDocument(list []cards.Advice) []document.Advice {
	out := []document.Advice{}
	for _, a := range list {
		one := document.Advice{
			Trouble: troubleNames[a.Kind], Names: listed(a.Names), Wind: a.Wind, Take: a.Take, Leave: listed(a.Leave),
			Milestone: a.Milestone, Never: a.Never, At: momentOf(a.At), Usual: momentOf(a.Usual), Else: momentOf(a.Else),
		}
		if a.Take != "" {
			until := document.Seconds(a.Until)
			one.Until = &until
		}
		if a.With != nil {
			with, without := document.ShareOf(*a.With), document.ShareOf(*a.Without)
			one.With, one.Without = &with, &without
		}
		out = append(out, one)
	}
	return out
}

// momentOf is a moment that there may be none of.
func momentOf(at sim.Time) *document.Seconds {
	if at == sim.Never {
		return nil
	}
	s := document.Seconds(at)
	return &s
}

func loadsDocument(list []cards.Load) []document.CardLoad {
	out := []document.CardLoad{}
	for _, l := range list {
		load := document.CardLoad{Name: l.Name, Items: []document.CardItem{}, Limit: l.Limit, Weight: document.Decimals(l.Weight), Wins: []document.CardWin{}}
		for _, item := range l.Items {
			load.Items = append(load.Items, document.CardItem(item))
		}
		for _, w := range l.Wins {
			load.Wins = append(load.Wins, document.CardWin{Item: w.Item, Milestone: w.Milestone, Sooner: document.Seconds(w.Sooner)})
		}
		out = append(out, load)
	}
	return out
}
