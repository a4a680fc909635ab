// Package checker walks a finished timeline and names every rule it breaks.
//
// It is written against the rules of a drill (section 3 of the design and its
// fine print, in the manual of the scenario format) and against no engine: it
// shares the types of package sim and the heat of warmby/sim/heat, and does
// the arithmetic of work, rates, conditions and crews again from the words.
// So an engine and the checker can only agree on what is written.
//
// # How it goes about it
//
// Some rules hold for each piece of a timeline by itself: a person is in one
// place, a walk has its length, no more tools are held than are there, a task
// ends at the very millisecond at which its work is done. Each has a function
// of its own that looks at the pieces one by one.
//
// The other rules are about choices: which task is called, who goes, who
// relieves a lookout, who joins. They are functions of the moment. For every
// instant at which something happens the checker reads off the timeline how
// things stood just before it (never from what it expected earlier), follows
// the words of the allocation for that one instant, and compares. So a wrong
// choice is reported once, where it was made. Of an instant only the first
// wrong choice is named, for the later ones follow from it. Nobody is allocated
// between instants: a call at a moment at which nothing happens is a violation
// of its own, else a place that has waited for somebody might be filled at any.
//
// Which people were free at a call is never in doubt: nobody but the
// allocation takes a free person, and what the allocation did earlier in the
// same instant is followed from the state before it. What the rules leave open is
// not asked: which of several free stoves is taken of a kind that holds no pots.
// Nor is what the timeline cannot show: what lookouts do at the very end of the
// drill, and what is called at the moment at which two stoves in one shelter stop it.
//
// # What needs no walk, and moments that coincide
//
// What needs no walk happens at once and counts for all that is looked at
// after it: a crew that is whole at its call begins, a relief takes over, a
// joiner is there. A place of a lookout for which nobody could be pulled waits
// for somebody to come free; nobody is pulled for it later. A relief who
// arrives at the very moment of the next relief has arrived: the place is owed
// another, who may take over there and then, and the time stood has no length. So it
// is with somebody who takes a place and is called from it, or is wanted there no
// more, within the instant. No stretch tells of that, but the allocation does: what
// people do then must follow from it.
//
// # What it is not
//
// It does not tell whether a drill can finish, and repairs nothing.
package checker
