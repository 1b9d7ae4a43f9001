package main

import (
	"context"
	"crypto/sha256"
	"os"
	"time"
)

// watchEvery is how often watched files are looked at.
const watchEvery = 250 * time.Millisecond

// watch calls changed whenever the content of one of the files has changed,
// until the context ends. It looks at them again and again, so that it works on
// every file system and with editors that replace a file instead of writing to
// it. A file that cannot be read has changed when it can be again. Files that
// change while changed runs are noticed after it.
func watch(ctx context.Context, files []string, changed func()) {
	seen := make([]glance, len(files))
	for i, name := range files {
		seen[i] = glance{}.again(name)
	}
	tick := time.NewTicker(watchEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		differs := false
		for i, name := range files {
			now := seen[i].again(name)
			differs = differs || now.sum != seen[i].sum
			seen[i] = now
		}
		if differs {
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

// again looks at the file once more. What cannot be read is as it was, since
// an editor may be about to put the new file in place.
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
	text, err := os.ReadFile(name)
	if err != nil {
		return g
	}
	return glance{info.Size(), info.ModTime(), looked, sha256.Sum256(text)}
}
