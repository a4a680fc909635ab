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

// That others are inside than a warm-up counts on is told in full; the first screen
// tells it where it makes a minute's difference to when the shelter is warm.
func TestWhoIsInsideIsToldFirstWhereItMatters(t *testing.T) {
	const says = "Warm the tent counts on 1 inside"
	for order, first := range map[string]bool{"shelter first": false, "three pairs": true} {
		brief := answer(t, "warmby", "rehearse", "kestrel-fell", "--order", order, "--runs", "0")
		if strings.Contains(brief, says) != first {
			t.Errorf("%s: told on the first screen: %v, want %v", order, !first, first)
		}
		if full := answer(t, "warmby", "rehearse", "kestrel-fell", "--order", order, "--runs", "0", "--all"); !strings.Contains(full, says) {
			t.Errorf("%s: not told with --all", order)
		}
	}
}
