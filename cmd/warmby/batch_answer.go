package main

import (
	"io"

	"warmby/cmd/warmby/internal/ask"
	"warmby/cmd/warmby/internal/results"
)

// What batch and merge have in common: the folder they write, and how they tell
// what became of it.

// outFolder returns the folder of results of a name.
func (e *environment) outFolder(path string) *results.Folder {
	f := results.NewFolder(path)
	f.BeforeNaming = e.beforeNaming
	return f
}

// sweep returns the picture that is asked for; nil for none. Pictures that
// cannot be written are refused before anything is played.
func (e *environment) sweep(p *results.Plan, asked ask.Sweep, force bool) (*results.Sweep, error) {
	if err := e.checkPictures(asked.Pictures, force); err != nil {
		return nil, err
	}
	return results.NewSweep(p, asked)
}

// tellResults prints what became of a batch and draws its picture.
func (e *environment) tellResults(r *results.Results, folder, command string, pictures []string, force bool) error {
	if _, err := io.WriteString(e.stdout, resultsText(r, folder, command, e.width())); err != nil || len(pictures) == 0 {
		return err
	}
	return e.writePicture(r.Picture(), pictures, force)
}
