package document

import "warmby/sim/cold"

// Caution is something to be careful about that the scenario calls for.
type Caution struct {
	Topic   string `json:"topic"`
	Because string `json:"because,omitempty"`
	Text    string `json:"text"`
	DeferTo string `json:"defer_to,omitempty"`
}

// Cautions returns cautions in their shape.
func Cautions(cautions []cold.Caution) []Caution {
	list := []Caution{}
	for _, c := range cautions {
		list = append(list, Caution{c.Topic, c.Because, c.Text, c.DeferTo})
	}
	return list
}
