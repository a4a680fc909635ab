package cards

import (
	"fmt"

	"warmby/cmd/warmby/internal/report"
)

// Printed is a deck that was told and laid out, for the report of it.
type Printed struct {
	Deck         *Deck
	Sheets       *Sheets
	Cards, Pages int
	Out          string // the file that it is written to; "" for none
	Repeat       string // the command that prints it again
	CautionsBy   string // the command that prints the cautions in full
}

// Report says what there is to print, and with everything all the words of it.
func (p *Printed) Report() *report.Report {
	title := p.Deck.Title
	if p.Deck.Order != "" {
		title += fmt.Sprintf(", %q", p.Deck.Order)
	}
	r := &report.Report{Title: title, Subtitle: report.Say("On paper."), Repeat: p.Repeat, All: p.Repeat + " --all"}
	r.Lead = append(r.Lead, report.Text{Says: report.Say("{} and {}.", report.Count{N: p.Cards, What: "card"}, report.Count{N: p.Pages, What: "page"})})
	if p.Out == "" {
		r.Lead = append(r.Lead, report.Text{Says: report.Say("To print: {} --out cards.pdf", p.Repeat)})
	}
	r.WithCautions(p.Deck.Cautions, p.CautionsBy)
	for _, c := range p.Sheets.Cards {
		r.Sections = append(r.Sections, report.Section{Heading: c.Name, Blocks: blocksOf(c), More: !c.Leaders})
	}
	return r
}

// blocksOf is a card as text.
func blocksOf(c Card) (blocks []report.Block) {
	for _, l := range c.Lines {
		text := l.Text
		if l.Left != "" {
			text = l.Left + "  " + text
		}
		if l.Field {
			text += " ____"
		}
		if l.Joins && len(blocks) > 0 {
			last := blocks[len(blocks)-1].(report.Text)
			between := "; "
			if l.Flush {
				between = ": "
			}
			last.Says = append(last.Says, report.Words(between+text))
			blocks[len(blocks)-1] = last
			continue
		}
		blocks = append(blocks, report.Text{Says: report.Say("{}", text), Item: true})
	}
	return blocks
}
