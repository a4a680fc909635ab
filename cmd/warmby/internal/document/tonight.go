package document

// Tonight is both answers for programs, as the two commands give them.
type Tonight struct {
	SchemaVersion int        `json:"schema_version"`
	Facts         []string   `json:"facts"`
	Remarks       []string   `json:"remarks"`
	Rehearse      Rehearsal  `json:"rehearse"`
	Compare       Comparison `json:"compare"`
	Repeat        string     `json:"repeat"`
}
