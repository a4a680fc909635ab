package oddity

import (
	"slices"
	"strings"
	"unicode"

	"warmby/sim"
)

// What a task is for is known by words in its name and in what it says of itself.
var (
	eating   = []string{"eat", "eats", "supper", "meal", "dinner", "breakfast", "lunch", "bite", "soup", "porridge", "ration", "rations"}
	drinking = []string{"drink", "drinks", "tea", "cocoa", "coffee", "broth", "juice", "soup", "sip", "cup"}
)

// unfed finds who never eats or drinks in a long drill: nobody at all, or one where
// the others do each for himself.
func unfed(tl *sim.Timeline) []Remark {
	if !long(tl) {
		return nil
	}
	return append(without(tl, eating, NobodyEats, NeverEats), without(tl, drinking, NobodyDrinks, NeverDrinks)...)
}

// without finds who has no part in tasks of some words. Where none of them is done
// by each for himself they are for all.
func without(tl *sim.Timeline, words []string, nobody, never Kind) (found []Remark) {
	d := tl.Drill
	has := make([]bool, len(d.People))
	shared, each := false, false
	for i := range d.Tasks {
		t := &d.Tasks[i]
		switch {
		case tl.Tasks[i].End == sim.Never || t.Unloads() || !isFor(t, words):
		case t.Each == "":
			shared = true
		default:
			each = true
			for _, who := range tl.Tasks[i].People {
				has[who] = true
			}
		}
	}
	switch {
	case !shared && !each:
		return []Remark{remark(d, nobody)}
	case !each:
		return nil
	}
	for who, p := range d.People {
		if !has[who] && !p.Casualty && p.Hurt == nil {
			r := remark(d, never)
			r.Person = who
			found = append(found, r)
		}
	}
	return found
}

func isFor(t *sim.Task, words []string) bool {
	text := strings.ToLower(t.OwnName() + " " + t.What)
	return slices.ContainsFunc(strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }),
		func(word string) bool { return slices.Contains(words, word) })
}
