package main

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// watching runs watch on files and returns a channel with one value for each
// change that it reports.
func watching(t *testing.T, files ...string) <-chan struct{} {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	changes, gone := make(chan struct{}, 16), make(chan struct{})
	go func() {
		defer close(gone)
		watch(ctx, files, func() { changes <- struct{}{} })
	}()
	t.Cleanup(func() {
		stop()
		select {
		case <-gone:
		case <-time.After(5 * time.Second):
			t.Error("watch does not end with its context")
		}
	})
	time.Sleep(watchEvery / 2) // it has seen the files once
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
	const soon = 10 * time.Second
	dir := t.TempDir()
	first, second := filepath.Join(dir, "a.yaml"), filepath.Join(dir, "b.yaml")
	write := func(name, text string) { require.NoError(t, os.WriteFile(name, []byte(text), 0o644)) }
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
	write(filepath.Join(dir, "new"), "seven")
	require.NoError(t, os.Rename(filepath.Join(dir, "new"), first))
	assert.True(t, noticed(changes, soon), "another file under its name")
}
