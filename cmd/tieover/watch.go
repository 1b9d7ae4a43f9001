package main

import (
	"context"
	"crypto/sha256"
	"os"
	"time"

	"tieover/score/spec"
)

// watchEvery is how often watched files are looked at.
const watchEvery = 150 * time.Millisecond

// watcher remembers files as they were when they were last looked at, and the
// content with which each was last reported.
type watcher struct {
	files    []string
	seen     []glance
	reported [][sha256.Size]byte
}

// newWatcher looks at files and takes them as reported. Make it before the files are
// read: then nothing that is saved while they are is missed.
func newWatcher(names []string) *watcher {
	w := &watcher{names, make([]glance, len(names)), make([][sha256.Size]byte, len(names))}
	w.look()
	w.news()
	return w
}

// look looks at the files again and reports whether one has another content
// than at the look before.
func (w *watcher) look() (differs bool) {
	for i, name := range w.files {
		now := w.seen[i].again(name)
		differs = differs || now.sum != w.seen[i].sum
		w.seen[i] = now
	}
	return differs
}

// news reports whether a file that was seen has another content than it was
// last reported with, and takes all as reported.
func (w *watcher) news() (differs bool) {
	for i, g := range w.seen {
		differs = differs || g.sum != w.reported[i]
		w.reported[i] = g.sum
	}
	return differs
}

// settled looks at the files again and reports whether there is news and the
// files are at rest. Many programs empty a file before they write it: what is
// seen at one look only may be half of a file, and is waited out.
func (w *watcher) settled() bool { return !w.look() && w.news() }

// follow calls changed whenever the files are at rest and the content of one of
// them has changed, until the context ends. It looks at them again and again, so
// that it works on every file system and with editors that replace a file
// instead of writing to it. A file that cannot be read for two seconds has
// changed, and again when it can be read. Files that change while changed runs are noticed after it.
func (w *watcher) follow(ctx context.Context, changed func()) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-time.After(watchEvery): // no ticker: late ticks would leave no time between two looks
		}
		if w.settled() {
			changed()
		}
	}
}

// glance is what was last seen of a file.
type glance struct {
	size    int64
	changed time.Time
	looked  time.Time
	sum     [sha256.Size]byte // zero when it cannot be read
	misses  int               // looks in a row at which it could not be read
}

// goneAfter is how many looks in a row must fail until a file is gone: two
// seconds, within which every editor has put the new file in place.
const goneAfter = 14

// settling is how long after a file's own time it is read again although its size and
// time are as before: some file systems keep time in seconds only.
const settling = 3 * time.Second

// missed is a file that cannot be read: as it was at first, since an editor may
// be about to put the new file in place, then gone.
func (g glance) missed() glance {
	if g.misses++; g.misses >= goneAfter {
		return glance{misses: goneAfter}
	}
	return g
}

// again looks at the file once more, as far as a spec may reach; it is read unless its
// size and time have long been the same.
func (g glance) again(name string) glance {
	info, err := os.Stat(name)
	if err != nil || !info.Mode().IsRegular() { // a pipe would keep its reader waiting
		return g.missed()
	}
	same := info.Size() == g.size && info.ModTime().Equal(g.changed)
	if same && g.looked.Sub(g.changed) > settling {
		g.misses = 0
		return g
	}
	looked := time.Now()
	text, _, err := readUpTo(streams{}, name, spec.MaxSize+1)
	if err != nil {
		return g.missed()
	}
	return glance{size: info.Size(), changed: info.ModTime(), looked: looked, sum: sha256.Sum256(text)}
}
