package main

import (
	"context"
	"crypto/sha256"
	"io"
	"os"
	"time"

	"tieover/score/spec"
)

// watchEvery is how often watched files are looked at.
const watchEvery = 250 * time.Millisecond

// watcher remembers files as they were when they were last looked at.
type watcher struct {
	files []string
	seen  []glance
}

// newWatcher looks at files. Make it before the files are read: then nothing
// that is saved while they are is missed.
func newWatcher(files []string) *watcher {
	w := &watcher{files, make([]glance, len(files))}
	w.look()
	return w
}

// look looks at the files again and reports whether one has another content.
func (w *watcher) look() (differs bool) {
	for i, name := range w.files {
		now := w.seen[i].again(name)
		differs = differs || now.sum != w.seen[i].sum
		w.seen[i] = now
	}
	return differs
}

// follow calls changed whenever the content of one of the files has changed,
// until the context ends. It looks at them again and again, so that it works on
// every file system and with editors that replace a file instead of writing to
// it. A file that cannot be read has changed when it can be again. Files that
// change while changed runs are noticed after it.
func (w *watcher) follow(ctx context.Context, changed func()) {
	tick := time.NewTicker(watchEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		if w.look() {
			changed()
		}
	}
}

// glance is what was last seen of a file.
type glance struct {
	size    int64
	changed time.Time
	looked  time.Time
	sum     [sha256.Size]byte
}

// settling is how long after a file's own time it is read again although its
// size and time are as before: some file systems keep time in seconds only.
const settling = 3 * time.Second

// again looks at the file once more, as far as a spec may reach. What cannot be
// read is as it was, since an editor may be about to put the new file in place.
func (g glance) again(name string) glance {
	info, err := os.Stat(name)
	if err != nil || !info.Mode().IsRegular() {
		return g
	}
	same := info.Size() == g.size && info.ModTime().Equal(g.changed)
	if same && g.looked.Sub(g.changed) > settling {
		return g
	}
	looked := time.Now()
	f, err := os.Open(name)
	if err != nil {
		return g
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, spec.MaxSize+1))
	if err != nil {
		return g
	}
	return glance{info.Size(), info.ModTime(), looked, sha256.Sum256(text)}
}
