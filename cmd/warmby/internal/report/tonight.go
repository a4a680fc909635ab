package report

import "strings"

// Tonight makes one report of two about one evening: the lead of the rehearsal,
// the orders side by side, and then the sections of both. Facts are what is known
// of tonight, remarks what it brings about.
func Tonight(rehearsed, compared *Report, facts, remarks []string) *Report {
	out := *rehearsed
	out.Title += ", tonight"
	out.Warnings = nil
	for _, r := range remarks {
		out.Warnings = append(out.Warnings, Say("{}", r))
	}
	out.Warnings = append(out.Warnings, rehearsed.Warnings...)
	table := compared.Lead
	if len(compared.Cautions) > 0 {
		table = table[:len(table)-1] // the line of cautions, which the lead has
	}
	var orders []Block
	for _, w := range compared.Warnings { // of other orders than the one above
		orders = append(orders, Text{Says: w})
	}
	heading := "All orders tonight"
	if len(facts) > 0 {
		heading += ": " + strings.Join(facts, ", ")
	}
	out.Sections = append([]Section{{Heading: heading, Blocks: append(orders, table...)}}, rehearsed.Sections...)
	for _, s := range compared.Sections {
		s.Heading = "All orders: " + uncapital(s.Heading)
		out.Sections = append(out.Sections, s)
	}
	out.fit()
	return &out
}

// uncapital begins words that follow others with a small letter.
func uncapital(s string) string { return strings.ToLower(s[:1]) + s[1:] }
