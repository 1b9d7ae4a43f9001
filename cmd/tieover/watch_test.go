package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// watching runs watch on files and returns a channel with one value for each
// change that it reports.
func watching(t *testing.T, files ...string) <-chan struct{} {
	t.Helper()
	w := newWatcher(files)
	ctx, stop := context.WithCancel(t.Context())
	changes, gone := make(chan struct{}, 16), make(chan struct{})
	go func() {
		defer close(gone)
		w.follow(ctx, func() { changes <- struct{}{} })
	}()
	t.Cleanup(func() {
		stop()
		select {
		case <-gone:
		case <-time.After(time.Minute):
			t.Error("watch does not end with its context")
		}
	})
	return changes
}

func noticed(changes <-chan struct{}, within time.Duration) bool {
	select {
	case <-changes:
		return true
	case <-time.After(within):
		return false
	}
}

func TestWatch(t *testing.T) {
	const soon = time.Minute
	dir := t.TempDir()
	first, second := filepath.Join(dir, "a.yaml"), filepath.Join(dir, "b.yaml")
	write := func(name, text string) { // at once, so that no look falls between
		require.NoError(t, os.WriteFile(name+".new", []byte(text), 0o644))
		require.NoError(t, os.Rename(name+".new", name))
	}
	write(first, "one")
	write(second, "two")
	changes := watching(t, first, second)

	assert.False(t, noticed(changes, 3*watchEvery), "nothing has changed")
	write(second, "six") // as long as before
	assert.True(t, noticed(changes, soon), "a saved file")
	write(second, "six")
	assert.False(t, noticed(changes, 3*watchEvery), "saved again with the same text")

	require.NoError(t, os.Remove(first))
	assert.False(t, noticed(changes, 3*watchEvery), "an editor may take the file away for a moment")
	write(first, "seven")
	assert.True(t, noticed(changes, soon), "another file under its name")
}

// What is saved between the first look and the following is noticed: a build may
// take seconds.
func TestWatchMissesNothing(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.yaml")
	require.NoError(t, os.WriteFile(name, []byte("one"), 0o644))
	w := newWatcher([]string{name})
	assert.False(t, w.look())
	require.NoError(t, os.WriteFile(name, []byte("two"), 0o644))
	assert.True(t, w.look())
	assert.False(t, w.look())
}

// A file that is emptied before it is written, or written in pieces, is told of
// once, when it is whole; one that comes back to its old text not at all.
func TestWatchWaitsForTheWholeFile(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.yaml")
	write := func(text string) { require.NoError(t, os.WriteFile(name, []byte(text), 0o644)) }
	write("one")
	w := newWatcher([]string{name})
	assert.False(t, w.settled(), "nothing has changed")
	for _, half := range []string{"", "t", "tw", "two"} {
		write(half)
		assert.False(t, w.settled(), "%q may be half of a file", half)
	}
	assert.True(t, w.settled(), "at rest")
	assert.False(t, w.settled(), "told already")
	write("")
	assert.False(t, w.settled(), "emptied")
	write("two")
	assert.False(t, w.settled(), "written again")
	assert.False(t, w.settled(), "with the same text")
}

// A command line that no spec can make right is not watched for.
func TestWatchWrongUse(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "a.yaml")
	require.NoError(t, os.WriteFile(name, []byte("title: Lock\nlayers:\n  - {name: A, groups: 3+2}\n"), 0o644))
	for _, args := range [][]string{{"--only", "tune", "-o", dir}, {"-o", "-"}, {}} {
		var out, messages strings.Builder
		code := run(append([]string{"build", name, "--watch"}, args...), streams{strings.NewReader(""), &out, &messages})
		assert.Equal(t, wrongUse, code, "%v", args)
		assert.NotEmpty(t, messages.String())
	}
}

// A file that is away for a moment, as while an editor replaces it, is as it was;
// one that stays away has changed, once, and so it has when it is back.
func TestAFileThatIsGone(t *testing.T) {
	name := filepath.Join(t.TempDir(), "spec.yaml")
	require.NoError(t, os.WriteFile(name, []byte("title: A\n"), 0o644))
	w := newWatcher([]string{name})
	require.NoError(t, os.Rename(name, name+".away"))
	told := 0
	for look := 1; look <= 3*goneAfter; look++ {
		if w.settled() {
			told++
			assert.Equal(t, goneAfter+1, look, "gone at one look, at rest at the next")
		}
	}
	assert.Equal(t, 1, told)
	require.NoError(t, os.Rename(name+".away", name))
	assert.False(t, w.settled())
	assert.True(t, w.settled(), "back")
}
