//go:build linux

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// failed runs a build that must fail and returns what it says.
func failed(t *testing.T, args ...string) string {
	t.Helper()
	var out, messages bytes.Buffer
	code := run(append([]string{"build"}, args...), streams{strings.NewReader(""), &out, &messages})
	assert.Equal(t, wrongData, code, "%s", messages.String())
	assert.Empty(t, out.String())
	return messages.String()
}

func TestTargetsThatAreNoFiles(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(path string) error
		want string
	}{
		{"folder", func(p string) error { return os.Mkdir(p, 0o755) }, "chart.txt is a folder"},
		{"link", func(p string) error { return os.Symlink("/elsewhere", p) }, "chart.txt is a link"},
		{"pipe", func(p string) error { return syscall.Mkfifo(p, 0o644) }, "chart.txt is not an ordinary file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			require.NoError(t, c.make(filepath.Join(dir, "chart.txt")))
			assert.Contains(t, failed(t, "-o", dir, round), c.want)
			entries, err := os.ReadDir(dir)
			require.NoError(t, err)
			assert.Len(t, entries, 1, "nothing else was written")
		})
	}
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	assert.Contains(t, failed(t, "-o", file, round), "is not a folder")
	assert.Contains(t, failed(t, "-o", filepath.Join(file, "below"), round), "not a directory")
}

// mounted gives a small file system of its own; it needs root.
func mounted(t *testing.T, options string) string {
	if os.Getuid() != 0 {
		t.Skip("mounting needs root")
	}
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, options); err != nil {
		t.Skipf("cannot mount here: %v", err)
	}
	t.Cleanup(func() { assert.NoError(t, syscall.Unmount(dir, syscall.MNT_DETACH)) })
	return dir
}

// Where nothing can be mounted, a limit on the size of files fails a write, too.
func TestFilesTooLarge(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	c := exec.Command("sh", "-c", `ulimit -f 8; exec "$0" build -o "$1" "$2"`, os.Args[0], dir, round)
	c.Env = append(os.Environ(), asCommand+"=1")
	messages, err := c.CombinedOutput()
	require.Error(t, err)
	assert.Equal(t, wrongData, c.ProcessState.ExitCode())
	assert.Contains(t, string(messages), "file too large")
	assert.NoDirExists(t, dir, "neither half files nor temporary ones stay, nor the folder")
}

// Who may not write into a folder is told so.
func TestForbiddenFolder(t *testing.T) {
	if os.Getuid() == 0 {
		t.Skip("root may write everywhere")
	}
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o555))
	assert.Contains(t, failed(t, "-o", dir, round), "permission denied")
	assert.Contains(t, failed(t, "-o", filepath.Join(dir, "new"), round), "permission denied")
	assert.Empty(t, names(t, dir))
	assert.NoError(t, os.Chmod(dir, 0o755), "so that it can be removed")
}

func TestDiskFull(t *testing.T) {
	dir := mounted(t, "size=64k")
	assert.Contains(t, failed(t, "-o", dir, round), "no space left on device")
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, entries, "neither half files nor temporary ones stay")
}

func TestReadOnlyFolder(t *testing.T) {
	dir := mounted(t, "size=1m")
	if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("cannot mount here: %v", err)
	}
	assert.Contains(t, failed(t, "-o", dir, round), "read-only file system")
	assert.Contains(t, failed(t, "-o", filepath.Join(dir, "new"), round), "read-only file system")
}

// A pipe is no regular file, so it may be read as it comes.
func TestSpecThroughAPipe(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pipe.yaml")
	require.NoError(t, syscall.Mkfifo(path, 0o644))
	go func() {
		text, _ := os.ReadFile(round)
		_ = os.WriteFile(path, text, 0o644)
	}()
	var out, messages bytes.Buffer
	assert.Zero(t, run([]string{"chart", path}, streams{nil, &out, &messages}), messages.String())
	assert.Contains(t, out.String(), "LOCK KEEPER'S ROUND")
}

func TestSpecsThatAreNoFiles(t *testing.T) {
	assert.Contains(t, failed(t, "-o", t.TempDir(), t.TempDir()), "is a folder; name a spec file in it")
	assert.Contains(t, failed(t, "-o", t.TempDir(), "missing.yaml"), "no such file")
	assert.Contains(t, failed(t, "-o", t.TempDir(), "/dev/zero"), "1 MiB")
}

// However a spec is written over while it is read, it is read whole or not at
// all.
func TestSpecChangesWhileRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "moving.yaml")
	versions := []string{strings.Repeat("a", 300_000), strings.Repeat("b", 500_000)}
	require.NoError(t, os.WriteFile(path, []byte(versions[0]), 0o644))
	quit, gone := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(gone)
		for i := 0; ; i++ {
			select {
			case <-quit:
				return
			default:
				_ = os.WriteFile(path+".new", []byte(versions[i%2]), 0o644)
				_ = os.Rename(path+".new", path)
				time.Sleep(time.Millisecond)
			}
		}
	}()
	whole, refused := 0, 0
	for range 300 {
		text, err := readSpec(streams{}, path)
		if err != nil {
			assert.ErrorContains(t, err, "was changed while it was read; try again")
			refused++
			continue
		}
		assert.True(t, string(text) == versions[0] || string(text) == versions[1], "%d bytes of a mixture", len(text))
		whole++
	}
	close(quit)
	<-gone
	text, err := readSpec(streams{}, path)
	require.NoError(t, err, "nobody writes any more")
	assert.Contains(t, versions, string(text))
	t.Log(whole, "read whole,", refused, "refused")
}

func TestTwoBuildsAtOnce(t *testing.T) {
	dir := t.TempDir()
	want := buildInto(t, []string{round})
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			var out, messages bytes.Buffer
			assert.Zero(t, run([]string{"build", "-o", dir, round}, streams{nil, &out, &messages}), messages.String())
		})
	}
	wait.Wait()
	assert.Equal(t, want, filesIn(t, dir), "every file is whole")
}

// A link to a folder is a folder; one that leads nowhere stays as it is.
func TestOutputFolderIsALink(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "real"), 0o755))
	require.NoError(t, os.Symlink("real", filepath.Join(dir, "link")))
	require.NoError(t, os.Symlink("nowhere", filepath.Join(dir, "lost")))
	code, messages := at("build", "-o", filepath.Join(dir, "link"), round)
	require.Zero(t, code, messages)
	assert.Contains(t, names(t, filepath.Join(dir, "real")), "score.musicxml")
	assert.Contains(t, failed(t, "-o", filepath.Join(dir, "lost"), round), "lost is a link to a folder that does not exist")
	assert.Equal(t, []string{"link", "lost", "real"}, names(t, dir))
}

// Every command that prints says so when its output is full.
func TestOutputIsFull(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip(err)
	}
	defer full.Close()
	for _, line := range []string{
		"chart " + round, "report " + round, "report --json " + round, "realign 3+2 5", "fit 3+2+2 --bars 6", "find 3 2 2 3 2 2 3 2 2",
		"find 3 2 2 3 2 2 --spec", "--help", "build --help", "help", "help spec", "help json", "find 3 2 2 3 2 2 --json", "instruments", "instruments --json", "new -", "new - --schema",
		"build -o - --only musicxml " + round, "build -o - --only chart " + round, "build -o - --only report " + round,
		"build -o - --only json " + round, "build -o - --only midi " + round, "build -o - --only page " + round,
	} {
		var messages bytes.Buffer
		assert.Equal(t, wrongData, run(strings.Fields(line), streams{strings.NewReader(""), full, &messages}), line)
		assert.Contains(t, messages.String(), "no space left on device", line)
	}
}

// With the disk full no command leaves a file, whole or half.
func TestDiskFullForEveryCommand(t *testing.T) {
	dir := mounted(t, "size=64k")
	filler, err := os.Create(filepath.Join(dir, "filler"))
	require.NoError(t, err)
	_, err = filler.Write(make([]byte, 1<<20))
	require.ErrorIs(t, err, syscall.ENOSPC)
	require.NoError(t, filler.Close())
	for _, args := range [][]string{
		{"chart", round, "-o", filepath.Join(dir, "x.txt")}, {"report", round, "-o", filepath.Join(dir, "x.txt")},
		{"realign", "3+2", "5", "-o", filepath.Join(dir, "x.txt")}, {"fit", "3+2+2", "--bars", "6", "-o", filepath.Join(dir, "x.txt")},
		{"new", filepath.Join(dir, "x.yaml")}, {"worksheet", round, "-o", filepath.Join(dir, "w")},
	} {
		code, messages := at(args...)
		assert.Equal(t, wrongData, code, args)
		assert.Contains(t, messages, "no space left on device", args)
	}
	assert.Equal(t, []string{"filler"}, names(t, dir))
}

// Output, messages and input may be closed.
func TestClosedStreams(t *testing.T) {
	for _, redirect := range []string{"2>&-", ">&-", "<&-", ">&- 2>&- <&-"} {
		dir := filepath.Join(t.TempDir(), "out")
		c := exec.Command("sh", "-c", `"$0" build -o "$1" "$2" `+redirect, os.Args[0], dir, round)
		c.Env = append(os.Environ(), asCommand+"=1")
		messages, err := c.CombinedOutput()
		require.NoError(t, err, "%s %s", redirect, messages)
		assert.Equal(t, buildInto(t, []string{round}), filesIn(t, dir), redirect)
	}
}
