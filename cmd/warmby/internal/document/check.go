package document

import "warmby/cmd/warmby/internal/report"

// Check is what was found in scenario files.
type Check struct {
	SchemaVersion int       `json:"schema_version"`
	Files         []Checked `json:"files"`
}

// Checked is what was found in one file.
type Checked struct {
	File     string    `json:"file"`
	Title    string    `json:"title"`
	Good     bool      `json:"good"`
	Tasks    int       `json:"tasks"`
	Orders   int       `json:"orders"`
	WhatIfs  int       `json:"what_ifs"`
	Warnings int       `json:"warnings"`
	Findings []Finding `json:"findings"`
}

// Finding is one thing that there is to say about a scenario.
type Finding struct {
	Kind    string `json:"kind"`
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
	Line    int    `json:"line,omitempty"`
	Column  int    `json:"column,omitempty"`
}

// CheckOf writes what was found.
func CheckOf(files []report.CheckedFile) Check {
	doc := Check{SchemaVersion: 1, Files: []Checked{}}
	for _, f := range files {
		j := Checked{f.Name, f.Title, f.Good, f.Tasks, f.Orders, f.WhatIfs, len(f.Of(report.WorthALook)), []Finding{}}
		for _, one := range f.Findings {
			j.Findings = append(j.Findings, Finding{one.Kind, one.Says.Write(report.Full), one.Hint, one.Line, one.Column})
		}
		doc.Files = append(doc.Files, j)
	}
	return doc
}
