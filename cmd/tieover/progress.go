package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"sync/atomic"
	"time"

	"golang.org/x/term"
)

// patience is how long work may last before anything is printed about it.
const patience = 2 * time.Second

// progress says on a terminal, once work lasts longer than patience, that it
// goes on and how much is written; the returned function ends that and clears
// the line.
func progress(w io.Writer, bytes *atomic.Int64) (stop func()) {
	if v, ok := w.(*visible); ok {
		w = v.to // this is to steer the terminal
	}
	if !isTerminal(w) {
		return func() {}
	}
	quit, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		tick := time.NewTicker(patience)
		defer tick.Stop()
		printed := false
		for {
			select {
			case <-tick.C:
				state := "working …"
				if n := bytes.Load(); n > 0 {
					state = fmt.Sprintf("writing … %d MB", n>>20)
				}
				fmt.Fprintf(w, "\r%s", state)
				printed = true
				tick.Reset(patience / 4)
			case <-quit:
				if printed {
					fmt.Fprint(w, "\r\033[K")
				}
				return
			}
		}
	}()
	return func() { close(quit); <-gone }
}

// withProgress says on a terminal, once a command lasts longer than patience, that
// it goes on, until the command says something or asks for something there; the
// returned function ends that, too.
func withProgress(s streams) (streams, func()) {
	if !isTerminal(s.err) {
		return s, func() {}
	}
	rest := sync.OnceFunc(progress(s.err, new(atomic.Int64)))
	if isTerminal(s.in) {
		s.in = &awaited{s.in, rest}
	}
	return streams{s.in, &announced{s.out, rest}, &announced{s.err, rest}}, rest
}

// wrapping is a writer before another one.
type wrapping interface{ inner() io.Writer }

func (a *announced) inner() io.Writer { return a.Writer }

// announced and awaited do something before they write or read.
type announced struct {
	io.Writer
	before func()
}

type awaited struct {
	io.Reader
	before func()
}

func (a *announced) Write(p []byte) (int, error) {
	a.before()
	return a.Writer.Write(p)
}

func (a *awaited) Read(p []byte) (int, error) {
	a.before()
	return a.Reader.Read(p)
}

// isTerminal reports whether a stream is a terminal.
func isTerminal(stream any) bool {
	for {
		w, ok := stream.(wrapping)
		if !ok {
			break
		}
		stream = w.inner()
	}
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
