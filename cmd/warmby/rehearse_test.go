package main

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"
)

// BenchmarkRehearse is one rehearsal of the demo from file to text, all that
// the command does but starting the process.
func BenchmarkRehearse(b *testing.B) {
	for b.Loop() {
		var out, errs bytes.Buffer
		if code := run([]string{"rehearse"}, strings.NewReader(""), &out, &errs); code != exitDone {
			b.Fatal(code, errs.String())
		}
	}
}

// BenchmarkRehearsePicture is the same with a picture of each format.
func BenchmarkRehearsePicture(b *testing.B) {
	for _, format := range []string{"svg", "png", "pdf"} {
		b.Run(format, func(b *testing.B) {
			path := filepath.Join(b.TempDir(), "evening."+format)
			for b.Loop() {
				var out, errs bytes.Buffer
				if code := run([]string{"rehearse", "--picture", path, "--force"}, strings.NewReader(""), &out, &errs); code != exitDone {
					b.Fatal(code, errs.String())
				}
			}
		})
	}
}
