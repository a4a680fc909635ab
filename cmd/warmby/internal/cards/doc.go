// Package cards is what goes along on paper: a card a person, the wall sheet and
// what else a leader hangs up or reads out.
//
// A [Deck] holds values: names, moments, who does what with whom. [Deck.Tell]
// makes [Sheets] of it in a [Language], lines of words still without a place;
// [warmby/cmd/warmby/internal/paper] lays them out. Nothing here knows a
// millimetre, plays a drill or opens a file.
package cards
