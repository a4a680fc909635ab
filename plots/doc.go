// Package plots turns results into pictures.
//
// [Drill] draws one timeline: bars by person over a ruler of time, with cold
// strain and the temperature of shelters and pots below. A [Picture] is a list of marks on a
// sheet; [Picture.Bytes] puts it on paper as SVG, PNG or PDF.
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
