package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"

	"golang.org/x/term"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/document"
	"warmby/cmd/warmby/internal/page"
	"warmby/cmd/warmby/internal/report"
	"warmby/cmd/warmby/internal/terminal"
	"warmby/plots"
)

// mayAnswer checks how an answer is to be handed out, and that its files can be
// written, before anything is played; more are files for further pictures.
func (e *environment) mayAnswer(a ask.Answer, more ...string) error {
	if err := a.Check(); err != nil {
		return err
	}
	for _, path := range more {
		if _, err := ask.PictureFormat(path); err != nil {
			return err
		}
	}
	return e.mayWrite(a.Force, append(a.Files(), more...)...)
}

// drawing is a further picture and the files it goes into.
type drawing struct {
	paths []string
	draw  func() *plots.Picture
}

// inFull reports whether more of an answer is told than what fits a screen.
func (e *environment) inFull(a ask.Answer) bool {
	return a.All || a.JSON || a.Report != "" || e.told != nil
}

// answer hands out an answer: printed as a report or as a document for
// programs, then the page and the pictures that were asked for.
func (e *environment) answer(a ask.Answer, told *report.Report, forPrograms func() any, draw func() *plots.Picture, more ...drawing) error {
	if len(e.set) > 0 {
		told.Warnings = append([]report.Sentence{report.Say("Not as the file has it: {}.", strings.Join(e.set, ", "))}, told.Warnings...)
	}
	if e.told != nil {
		e.told(told)
	}
	return e.tell(func() error {
		if a.JSON {
			return document.Write(e.stdout, forPrograms())
		}
		_, err := fmt.Fprint(e.stdout, terminal.Print(told, terminal.Options{Width: e.width(), All: a.All}))
		return err
	}, func() error {
		var files []outFile
		if a.Report != "" {
			var b bytes.Buffer
			if err := page.Write(&b, told); err != nil {
				return err
			}
			files = append(files, outFile{a.Report, b.Bytes()})
		}
		for _, d := range append([]drawing{{a.Pictures, draw}}, more...) {
			for _, path := range d.paths {
				file, err := drawn(d.draw(), path)
				if err != nil {
					return err
				}
				files = append(files, file)
			}
		}
		if err := e.writeFiles(a.Force, files...); err != nil {
			return err
		}
		for _, file := range files {
			e.note("wrote %s", file.path)
		}
		return nil
	})
}

// drawn puts a picture into a file, in the format of its ending.
func drawn(picture *plots.Picture, path string) (outFile, error) {
	format, err := ask.PictureFormat(path)
	if err != nil {
		return outFile{}, err
	}
	data, err := picture.Bytes(format)
	if err != nil {
		return outFile{}, fmt.Errorf("cannot draw %s: %w", path, err)
	}
	return outFile{path, data}, nil
}

// paper is how wide text is when it does not go to a terminal, in characters.
const paper = terminal.Paper

// width returns how wide text may be: the terminal's width, within reason, or
// that of paper, so that files are the same everywhere.
func (e *environment) width() int {
	if f, ok := e.screen.(*os.File); ok && isTerminal(f) {
		if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
			return min(180, max(72, w))
		}
	}
	return paper
}
