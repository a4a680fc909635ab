// Package plots turns results into pictures.
//
// [Drill] draws one timeline: bars by person over a ruler of time, with cold
// strain and the temperature of shelters and pots below.
//
// The others draw what many runs gave: [Odds] when milestones are reached,
// [Differences] which order is ahead, [Moves] what a milestone hangs on,
// [Sweep] and [TimeByTeam] what a key or one more person does, [Front] orders
// judged by several aims, [HaltOdds] how late a team may arrive. They take
// plain numbers and say on the sheet what is drawn and how sure it is.
//
// A [Picture] is a list of marks on a sheet; [Picture.Bytes] puts it on paper
// as SVG, PNG or PDF.
//
// # What is promised
//
// The same result gives the same bytes each time. No text is cut and none
// lies on another: a name that does not fit its bar is shortened to a number,
// and a list under the picture explains every number. Nothing is told by
// colour alone: every fill has a hatching of its own, every line a dash, and
// both have words.
//
// # What it is not
//
// The package reads no file and writes none, and knows nothing of scenarios:
// it draws what warmby/sim says happened.
package plots
