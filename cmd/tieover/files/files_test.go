package files

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, s)
		return err
	}
}

// names lists what is in a folder.
func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	list := []string{}
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

func content(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// What stands in the way of one file, even when it came only after the files
// were begun, keeps all from being replaced.
func TestCommitLooksFirst(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a.txt"), []byte("old"), 0o644))
	b, err := New(context.Background(), dir)
	require.NoError(t, err)
	require.NoError(t, b.Write("a.txt", "t", text("new")))
	require.NoError(t, b.Write("b.txt", "t", text("new")))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "b.txt"), 0o755))
	_, err = b.Commit()
	assert.ErrorContains(t, err, "b.txt is a folder; remove it or choose another place")
	assert.Equal(t, []string{"a.txt", "b.txt"}, names(t, dir))
	old, err := os.ReadFile(filepath.Join(dir, "a.txt"))
	require.NoError(t, err)
	assert.Equal(t, "old", string(old))
}

func TestStoppedBeforeCommit(t *testing.T) {
	dir := t.TempDir()
	ctx, stop := context.WithCancel(context.Background())
	b, err := New(ctx, filepath.Join(dir, "new"))
	require.NoError(t, err)
	require.NoError(t, b.Write("a.txt", "t", text("whole")))
	stop()
	assert.ErrorIs(t, b.Write("b.txt", "t", text("late")), ErrStopped)
	_, err = b.Commit()
	assert.ErrorIs(t, err, ErrStopped)
	assert.Empty(t, names(t, dir))
}

// Names of any kind are listed so that they are found again.
func TestManifestOfAnyNames(t *testing.T) {
	m := manifest{}
	for i, name := range []string{"a b.txt", "parts/größer.musicxml", "quote\"d", "new\nline", "no \xff text", "水"} {
		m[name] = entry{"text", []Sum{{int64(i), 7}, {int64(i + 1), 1 << 31}}}
	}
	back, bad := parseManifest([]byte(m.String()))
	assert.Empty(t, bad)
	assert.Equal(t, m, back)
}

// If the program is killed while files get their names, what has its new name
// and what has not are both as tieover wrote them.
func TestKilledWhileFilesGetTheirNames(t *testing.T) {
	dir := t.TempDir()
	write := func(text1, text2 string) *Batch {
		b, err := New(context.Background(), dir)
		require.NoError(t, err)
		for name, what := range map[string]string{"a.txt": text1, "b.txt": text2} {
			require.NoError(t, b.Write(name, "t", text(what)))
		}
		return b
	}
	_, err := write("old", "old too").Commit()
	require.NoError(t, err)
	b := write("new", "new too")
	listed, err := b.mayCommit()
	require.NoError(t, err)
	require.NoError(t, b.list(listed.and(b.files)))
	require.NoError(t, os.Rename(b.files[0].temp, b.files[0].target)) // and no further
	b.release()

	notes, err := write("newer", "newer too").Commit()
	require.NoError(t, err)
	assert.Empty(t, notes)
	assert.Equal(t, "newer", content(t, filepath.Join(dir, "a.txt")))
	assert.Len(t, strings.Split(content(t, filepath.Join(dir, ManifestName)), "\n"), 4, "a head, two files and nothing of before")
}
