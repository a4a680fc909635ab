//go:build unix

package main

import (
	"bytes"
	"io"
	"os"
	ossignal "os/signal"
	"syscall"
	"testing"
)

// startReading wraps a stream and tells when it is first read.
type startReading struct {
	io.Reader
	started chan struct{}
}

func (s *startReading) Read(p []byte) (int, error) {
	if s.started != nil {
		close(s.started)
		s.started = nil
	}
	return s.Reader.Read(p)
}

func TestInterruptEndsACommandThatWaits(t *testing.T) {
	for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if ossignal.Ignored(signal) {
			continue // these tests were started by nohup
		}
		waiting, end := io.Pipe() // nothing is ever written
		defer end.Close()
		started := make(chan struct{})
		var stdout, stderr bytes.Buffer
		code := make(chan int)
		go func() {
			code <- run([]string{"check", "-"}, &startReading{waiting, started}, &stdout, &stderr)
		}()
		<-started
		self, err := os.FindProcess(os.Getpid())
		if err != nil {
			t.Fatal(err)
		}
		if err := self.Signal(signal); err != nil {
			t.Fatal(err)
		}
		if got := <-code; got != exitInterrupted {
			t.Errorf("%v: exit code %d, want %d", signal, got, exitInterrupted)
		}
		if got, want := stderr.String(), "warmby: interrupted\n"; got != want {
			t.Errorf("%v: standard error holds %q, want %q", signal, got, want)
		}
		if stdout.Len() > 0 {
			t.Errorf("%v: standard output holds %q, want nothing", signal, &stdout)
		}
	}
}
