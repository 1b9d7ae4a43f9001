package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/cmd/tieover/files"
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

// at runs the program and returns its exit code and what it says.
func at(args ...string) (code int, messages string) {
	var out, err bytes.Buffer
	code = run(args, streams{strings.NewReader(""), &out, &err})
	return code, err.String()
}

// A file that fails, or an error of our own in one, leaves neither itself nor
// the others, nor the folders made for them.
func TestAllFilesOrNone(t *testing.T) {
	for want, fill := range map[string]func(io.Writer) error{
		"bad.txt: no more paper":                   func(w io.Writer) error { _, _ = io.WriteString(w, "half"); return errors.New("no more paper") },
		"bad.txt: this is a bug in tieover, not a": func(w io.Writer) error { _, _ = io.WriteString(w, "half"); panic("lock gate") },
	} {
		dir := t.TempDir()
		err := writeAll(context.Background(), streams{err: io.Discard}, place{dir: filepath.Join(dir, "a", "b")},
			[]output{{"good.txt", text("whole"), "t"}, {"parts/bad.txt", fill, "t"}, {"last.txt", text("whole"), "t"}})
		assert.ErrorContains(t, err, want)
		assert.Empty(t, names(t, dir))
	}
}

// Whoever stops a command need not wait until what it computes comes to
// writing; what goes on then is neither written nor heard of.
func TestStoppedWhileNothingIsWritten(t *testing.T) {
	dir := t.TempDir()
	ctx, stop := context.WithCancel(context.Background())
	thinking, wake := make(chan struct{}), make(chan struct{})
	defer close(wake)
	err := writeAll(ctx, streams{err: io.Discard}, place{dir: filepath.Join(dir, "new")}, []output{{"a.txt", func(w io.Writer) error {
		_, _ = io.WriteString(w, "half")
		close(thinking)
		stop()
		<-wake
		return nil
	}, "t"}})
	<-thinking
	assert.ErrorIs(t, err, files.ErrStopped)
	assert.Empty(t, names(t, dir))
}

func TestUnlessStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	assert.NoError(t, unlessStopped(ctx, func() error { return nil }))
	assert.ErrorContains(t, unlessStopped(ctx, func() error { panic("lock gate") }), "this is a bug in tieover, not a mistake of yours: lock gate")
	wake := make(chan struct{})
	defer close(wake)
	stop()
	assert.ErrorIs(t, unlessStopped(ctx, func() error { <-wake; return nil }), files.ErrStopped)
}

// A name that would not show is quoted.
func TestNamesThatDoNotShow(t *testing.T) {
	for name, want := range map[string]string{"": `cannot read "": no such file`, "a\nb": `cannot read "a\nb": no such file`, "a b": "cannot read a b: no such file"} {
		_, messages := at("chart", name)
		assert.Contains(t, messages, want)
	}
}

// No command writes over a file that it reads.
func TestInputsAreKept(t *testing.T) {
	dir := t.TempDir()
	spec, err := os.ReadFile(round)
	require.NoError(t, err)
	mine := filepath.Join(dir, "chart.txt") // a name that build writes, too
	require.NoError(t, os.WriteFile(mine, spec, 0o644))
	for _, args := range [][]string{
		{"chart", mine, "-o", mine}, {"report", mine, "-o", mine}, {"build", mine, "-o", dir},
		{"chart", round, "--template", "../../templates/chart.tmpl", "-o", "../../templates/chart.tmpl"},
	} {
		code, messages := at(args...)
		assert.Equal(t, wrongData, code)
		assert.Contains(t, messages, "is what is read; choose another place")
	}
	assert.Equal(t, []string{"chart.txt"}, names(t, dir))
	left, err := os.ReadFile(mine)
	require.NoError(t, err)
	assert.Equal(t, spec, left)
}

func TestReadOnlyFileIsKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "report.txt")
	require.NoError(t, os.WriteFile(path, []byte("mine"), 0o444))
	code, messages := at("report", round, "-o", path)
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "report.txt is read-only; remove it or choose another place")
}

// A file that is replaced stays as private as it was.
func TestPermissionsAreKept(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("knows no permissions of this kind")
	}
	path := filepath.Join(t.TempDir(), "report.txt")
	require.NoError(t, os.WriteFile(path, nil, 0o600))
	code, messages := at("report", round, "-o", path, "--force")
	require.Zero(t, code, messages)
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	assert.NotZero(t, info.Size())
}

// Every command that writes files makes them whole, in folders that it makes.
func TestWrittenFiles(t *testing.T) {
	dir := t.TempDir()
	for _, args := range [][]string{
		{"chart", round, "-o", filepath.Join(dir, "c", "chart.txt")},
		{"report", round, "-o", filepath.Join(dir, "r", "report.txt")},
		{"realign", "3+2", "5", "-o", filepath.Join(dir, "realign.txt")},
		{"fit", "3+2+2", "--bars", "6", "-o", filepath.Join(dir, "fit.txt")},
		{"new", filepath.Join(dir, "n", "new.yaml")},
		{"worksheet", round, "-o", filepath.Join(dir, "w")},
	} {
		code, messages := at(args...)
		require.Zero(t, code, messages)
	}
	assert.Equal(t, []string{".tieover", "c", "fit.txt", "n", "r", "realign.txt", "w"}, names(t, dir))
	for name, content := range filesIn(t, dir) {
		assert.NotEmpty(t, content, name)
		assert.NotContains(t, name, ".tieover-")
	}
	code, messages := at("chart", round, "-o", filepath.Join(dir, "c")+string(filepath.Separator))
	assert.Equal(t, wrongUse, code)
	assert.Contains(t, messages, "that is a folder; name a file in it")
}
