package main

import (
	"fmt"
	"io"
	"os"
	"sync/atomic"
	"time"
)

// counter counts the bytes written so far.
type counter struct{ n atomic.Int64 }

func (c *counter) add(n int) { c.n.Add(int64(n)) }

func (c *counter) String() string {
	n := c.n.Load()
	if n == 0 {
		return "working …"
	}
	return fmt.Sprintf("writing … %d MB", n>>20)
}

// patience is how long work may last before anything is said about it.
const patience = 2 * time.Second

// progress says on a terminal, once work lasts longer than patience, that it
// goes on and how much is written; the returned function ends that and clears
// the line.
func progress(w io.Writer, bytes *counter) (stop func()) {
	if !isTerminal(w) {
		return func() {}
	}
	quit, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		tick := time.NewTicker(patience)
		defer tick.Stop()
		said := false
		for {
			select {
			case <-tick.C:
				fmt.Fprintf(w, "\r%s", bytes)
				said = true
				tick.Reset(patience / 4)
			case <-quit:
				if said {
					fmt.Fprint(w, "\r\033[K")
				}
				return
			}
		}
	}()
	return func() { close(quit); <-gone }
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
