package main

import (
	"context"
	"crypto/sha256"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/cmd/tieover/files"
	plot "tieover/export/chart"
)

const twoGates = "title: Sluice\nmeter: 4/4\ntempo: 60\nlength: 2 bars\nlayers:\n" +
	"  - {name: Gate, groups: 3+3+2}\n  - {name: Paddle, groups: 3+2}\n"

func put(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

func content(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// A score that somebody edited stays as it is, and with it all else, until it is
// moved away or --force is said. What is as it was written is written anew.
func TestEditedFilesAreKept(t *testing.T) {
	dir := t.TempDir()
	spec, out := filepath.Join(dir, "s.yaml"), filepath.Join(dir, "out")
	put(t, spec, twoGates)
	build := func(flags ...string) (int, string) {
		return at(append([]string{"build", spec, "-o", out}, flags...)...)
	}
	code, messages := build()
	require.Zero(t, code, messages)
	code, messages = build()
	require.Zero(t, code, "nothing was changed: %s", messages)

	put(t, spec, strings.Replace(twoGates, "2 bars", "3 bars", 1))
	code, messages = build()
	require.Zero(t, code, "only the spec was changed: %s", messages)

	score, part := filepath.Join(out, "score.musicxml"), filepath.Join(out, "parts", "gate.musicxml")
	put(t, score, "mine")
	put(t, part, "mine too")
	put(t, spec, strings.Replace(twoGates, "2 bars", "4 bars", 1))
	before := filesIn(t, out)
	code, messages = build()
	assert.Equal(t, wrongData, code)
	assert.Equal(t, "tieover: these files would be lost:\n  "+part+" was changed after tieover wrote it\n  "+score+" was changed after tieover wrote it\n"+
		"Nothing was written. Move them away or choose another place; --force writes over them.\n", messages)
	assert.Equal(t, before, filesIn(t, out))

	code, messages = build("--only", "chart")
	require.Zero(t, code, "the chart is as it was written: %s", messages)

	require.NoError(t, os.Rename(score, filepath.Join(out, "mine.musicxml")))
	require.NoError(t, os.Remove(part))
	code, messages = build()
	require.Zero(t, code, messages)
	assert.Equal(t, "mine", content(t, filepath.Join(out, "mine.musicxml")), "files of others are nothing to tieover")

	put(t, score, "mine")
	code, messages = build("--force")
	require.Zero(t, code, messages)
	assert.Contains(t, content(t, score), "score-partwise")
	code, messages = build()
	require.Zero(t, code, messages)
}

// A folder that tieover knows nothing of: only what would be as it is may be
// written over.
func TestFilesThatTieoverDidNotWrite(t *testing.T) {
	dir := t.TempDir()
	chart := filepath.Join(dir, "a.txt")
	put(t, chart, "a shopping list")
	code, messages := at("chart", round, "-o", chart)
	assert.Equal(t, wrongData, code)
	assert.Equal(t, "tieover: this file would be lost:\n  "+chart+" was not written by tieover\n"+
		"Nothing was written. Move it away or choose another place; --force writes over it.\n", messages)
	assert.Equal(t, "a shopping list", content(t, chart))
	assert.Equal(t, []string{"a.txt"}, names(t, dir))

	code, messages = at("chart", round, "-o", chart, "--force")
	require.Zero(t, code, messages)
	require.NoError(t, os.Remove(filepath.Join(dir, files.ManifestName)))
	code, messages = at("chart", round, "-o", chart)
	require.Zero(t, code, "the same text is no loss: %s", messages)

	for _, args := range [][]string{
		{"report", round}, {"realign", "3+2", "5"}, {"fit", "3+2+2", "--bars", "6"}, {"report", round, "--json"},
	} {
		code, messages := at(append(args, "-o", chart)...)
		require.Zero(t, code, "its own file, written by another command: %s", messages)
		put(t, chart, "mine")
		code, messages = at(append(args, "-o", chart)...)
		assert.Equal(t, wrongData, code, args)
		assert.Contains(t, messages, "was changed after tieover wrote it")
		require.NoError(t, os.Remove(chart))
	}
	code, messages = at("chart", round, "-o", filepath.Join(dir, files.ManifestName))
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, ".tieover is where tieover keeps what it wrote; choose another name")
}

// Worksheets too: a key that was corrected by hand stays.
func TestEditedWorksheetsAreKept(t *testing.T) {
	dir := t.TempDir()
	sheet := func(flags ...string) (int, string) {
		return at(append([]string{"worksheet", round, "-o", dir}, flags...)...)
	}
	code, messages := sheet()
	require.Zero(t, code, messages)
	put(t, filepath.Join(dir, "answers.txt"), "corrected")
	code, messages = sheet("--seed", "2")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "answers.txt was changed after tieover wrote it")
	code, messages = sheet("--seed", "2", "--force")
	require.Zero(t, code, messages)
}

// Parts of a renamed layer go with the rename, unless somebody changed them;
// folders that are empty then go too. A selection removes nothing.
func TestPartsOfRenamedLayers(t *testing.T) {
	dir := t.TempDir()
	spec, out := filepath.Join(dir, "s.yaml"), filepath.Join(dir, "out")
	parts := filepath.Join(out, "parts")
	build := func(text string, flags ...string) string {
		put(t, spec, text)
		code, messages := at(append([]string{"build", spec, "-o", out, "--only", "musicxml"}, flags...)...)
		require.Zero(t, code, messages)
		return messages
	}
	assert.Empty(t, build(twoGates))
	put(t, filepath.Join(parts, "flute.musicxml"), "another's")
	assert.Empty(t, build(twoGates, "--layers", "Gate"), "the other part is still of the piece")
	assert.Equal(t, []string{"flute.musicxml", "gate.musicxml", "paddle.musicxml"}, names(t, parts))

	renamed := strings.Replace(twoGates, "Paddle", "Oar", 1)
	assert.Equal(t, "note: removed "+filepath.Join(parts, "paddle.musicxml")+", which was of an earlier build\n", build(renamed))
	assert.Equal(t, []string{"flute.musicxml", "gate.musicxml", "oar.musicxml"}, names(t, parts))

	put(t, filepath.Join(parts, "oar.musicxml"), "bowed here")
	left := "note: " + filepath.Join(parts, "oar.musicxml") + " is of an earlier build and was changed since; it is left as it is\n"
	assert.Equal(t, left, build(twoGates))
	assert.Equal(t, []string{"flute.musicxml", "gate.musicxml", "oar.musicxml", "paddle.musicxml"}, names(t, parts))
	assert.Empty(t, build(twoGates), "told once; it is not tieover's any more")
	put(t, spec, renamed)
	code, messages := at("build", spec, "-o", out, "--only", "musicxml")
	assert.Equal(t, wrongData, code, "and so it is not written over either")
	assert.Contains(t, messages, "oar.musicxml was not written by tieover")

	figures := filepath.Join(out, "figures")
	code, messages = at("build", spec, "-o", out, "--only", "figures")
	require.Zero(t, code, messages)
	require.DirExists(t, figures)
	assert.Empty(t, build(twoGates), "figures were not asked for")
	assert.DirExists(t, figures)
}

// What a longer piece has to do without does not stay from the shorter one.
func TestWhatIsLeftOutIsRemoved(t *testing.T) {
	dir := t.TempDir()
	spec, out := filepath.Join(dir, "s.yaml"), filepath.Join(dir, "out")
	put(t, spec, twoGates)
	code, messages := at("build", spec, "-o", out)
	require.Zero(t, code, messages)
	require.FileExists(t, filepath.Join(out, "page.html"))
	put(t, spec, strings.NewReplacer("2 bars", "320 bars", "3+3+2}", "3+3+2, pulse: 1/64, strike: all}").Replace(twoGates)) // 20,480 strokes
	code, messages = at("build", spec, "-o", out)
	require.Zero(t, code, messages)
	assert.Contains(t, messages, "left out: ")
	assert.Contains(t, messages, "note: removed "+filepath.Join(out, "page.html")+", which was of an earlier build")
	assert.NoFileExists(t, filepath.Join(out, "page.html"))
}

// A manifest that is damaged vouches for nothing.
func TestDamagedManifest(t *testing.T) {
	dir := t.TempDir()
	list, chart := filepath.Join(dir, files.ManifestName), filepath.Join(dir, "a.txt")
	other := filepath.Join(filepath.Dir(dir), "other.txt")
	put(t, other, "another's")
	good := fmt.Sprintf("%08x-9 text %q\n", crc32.ChecksumIEEE([]byte("another's")), "a.txt")
	for name, bad := range map[string]string{
		"empty": "", "another's": "my notes\n", "another version": "tieover 3\n" + good, "cut": "tieover 2\n" + good[:15],
		"without its last line's end": "tieover 2\n" + strings.TrimSuffix(good, "\n"), "a short sum": "tieover 2\nabcd text \"a.txt\"\n",
		"no quotes": "tieover 2\n" + strings.ReplaceAll(good, `"`, ""), "merged by hand": "tieover 2\n<<<<<<< ours\n" + good,
		"out of the folder": "tieover 2\n" + strings.Replace(good, "a.txt", "../other.txt", 1), "an absolute name": "tieover 2\n" + strings.Replace(good, "a.txt", "/etc/passwd", 1),
		"itself": "tieover 2\n" + strings.Replace(good, "a.txt", ".tieover", 1), "zeros": strings.Repeat("\x00", 4096),
	} {
		put(t, list, bad)
		put(t, chart, "mine")
		code, messages := at("chart", round, "-o", chart)
		assert.Equal(t, wrongData, code, name)
		assert.Contains(t, messages, list+", in which tieover keeps what it wrote there, is damaged (", name)
		assert.Equal(t, "mine", content(t, chart), name)
		assert.Equal(t, bad, content(t, list), name)
		code, messages = at("chart", round, "-o", chart, "--force")
		require.Zero(t, code, "%s: %s", name, messages)
		code, messages = at("chart", round, "-o", chart)
		require.Zero(t, code, "the list is mended: %s", messages)
	}
	assert.Equal(t, "another's", content(t, other))

	require.NoError(t, os.Remove(list))
	require.NoError(t, os.Mkdir(list, 0o755))
	code, messages := at("chart", round, "-o", chart, "--force")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, list+" is a folder")
}

// Many commands may write into one folder at once, as a makefile does, and all
// of it is known afterwards.
func TestManyWriteIntoOneFolder(t *testing.T) {
	dir := t.TempDir()
	for range 2 {
		var wait sync.WaitGroup
		for i := range 8 {
			wait.Go(func() {
				code, messages := at("fit", "3+2", "--bars", fmt.Sprint(i+1), "-o", filepath.Join(dir, fmt.Sprintf("%d.txt", i)))
				assert.Zero(t, code, messages)
			})
		}
		wait.Wait()
	}
	assert.Equal(t, 1+8, strings.Count(content(t, filepath.Join(dir, files.ManifestName)), "\n"), "a head and all files")
}

// --watch goes on after a build that would lose something.
func TestWatchGoesOnAfterALoss(t *testing.T) {
	dir := t.TempDir()
	spec, out := filepath.Join(dir, "s.yaml"), filepath.Join(dir, "out")
	chart := filepath.Join(out, "chart.txt")
	put(t, spec, twoGates)
	put(t, chart, "mine")
	ctx, stop := context.WithCancel(t.Context())
	messages := &shared{}
	gone := make(chan error)
	go func() {
		o := buildOptions{dir: out, only: []string{"chart"}, chart: plot.Default()}
		gone <- o.keepBuilding(ctx, streams{err: messages}, []string{spec})
	}()
	waitFor(t, messages, "chart.txt was not written by tieover")
	assert.Equal(t, "mine", content(t, chart))
	require.NoError(t, os.Remove(chart))
	put(t, spec, strings.Replace(twoGates, "Sluice", "Weir", 1))
	waitFor(t, messages, "built "+out)
	assert.Contains(t, content(t, chart), "WEIR")
	stop()
	require.NoError(t, <-gone)
}

// shared is a text that one goroutine writes while another reads it.
type shared struct {
	mu   sync.Mutex
	text strings.Builder
}

func (s *shared) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(p)
}

func (s *shared) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

func waitFor(t *testing.T, said fmt.Stringer, what string) {
	t.Helper()
	for waited := time.Duration(0); !strings.Contains(said.String(), what); waited += 5 * time.Millisecond {
		require.Less(t, waited, time.Minute, "%q is not said: %s", what, said)
		time.Sleep(5 * time.Millisecond)
	}
}

// Standard output keeps no list.
func TestStandardOutputHasNoManifest(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	put(t, "s.yaml", twoGates)
	for _, args := range [][]string{{"build", "s.yaml", "--only", "chart", "-o", "-"}, {"chart", "s.yaml", "-o", "-"}, {"new", "n.yaml"}} {
		code := run(args, streams{strings.NewReader(""), io.Discard, io.Discard})
		require.Zero(t, code, args)
	}
	assert.Equal(t, []string{"n.yaml", "s.yaml"}, names(t, dir))
}

// A folder inside the target that is a link may lead anywhere.
func TestLinksInsideTheTarget(t *testing.T) {
	dir := t.TempDir()
	out, elsewhere := filepath.Join(dir, "out"), filepath.Join(dir, "elsewhere")
	require.NoError(t, os.Mkdir(out, 0o755))
	require.NoError(t, os.Mkdir(elsewhere, 0o755))
	if err := os.Symlink(elsewhere, filepath.Join(out, "parts")); err != nil {
		t.Skip(err)
	}
	for _, flags := range [][]string{{}, {"--force"}} {
		code, messages := at(append([]string{"build", round, "-o", out, "--only", "musicxml"}, flags...)...)
		assert.Equal(t, wrongData, code)
		assert.Contains(t, messages, filepath.Join(out, "parts")+" is a link, which may lead out of the folder; remove it or choose another place")
	}
	assert.Empty(t, names(t, elsewhere))
	assert.Equal(t, []string{"parts"}, names(t, out))

	// Nor is anything removed there.
	part := filepath.Join(elsewhere, "gate.musicxml")
	put(t, part, "a part")
	put(t, filepath.Join(out, files.ManifestName), fmt.Sprintf("tieover 2\n%08x-6 chart %q\n", crc32.ChecksumIEEE([]byte("a part")), "parts/gate.musicxml"))
	code, messages := at("build", round, "-o", out, "--only", "chart")
	require.Zero(t, code, messages)
	assert.FileExists(t, part)
}

// A folder that the first version of the manifest vouches for (SHA-256) may be built
// again; what was changed there since may not be lost.
func TestManifestOfTheFirstVersion(t *testing.T) {
	dir := t.TempDir()
	list, chart := filepath.Join(dir, files.ManifestName), filepath.Join(dir, "a.txt")
	put(t, chart, "as it was written")
	put(t, list, fmt.Sprintf("tieover 1\n%x text %q\n", sha256.Sum256([]byte("as it was written")), "a.txt"))
	code, messages := at("chart", round, "-o", chart)
	require.Zero(t, code, messages)
	assert.NotEqual(t, "as it was written", content(t, chart))
	assert.True(t, strings.HasPrefix(content(t, list), "tieover 2\n"), content(t, list))

	put(t, chart, "mine")
	put(t, list, fmt.Sprintf("tieover 1\n%x text %q\n", sha256.Sum256([]byte("as it was written")), "a.txt"))
	code, messages = at("chart", round, "-o", chart)
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, chart+" was changed after tieover wrote it")
	assert.Equal(t, "mine", content(t, chart))

	for name, bad := range map[string]string{
		"a short sum":          "tieover 1\nabcd text \"a.txt\"\n",
		"out of the folder":    fmt.Sprintf("tieover 1\n%x text %q\n", sha256.Sum256([]byte("mine")), "../other.txt"),
		"its end is not there": fmt.Sprintf("tieover 1\n%x text %q", sha256.Sum256([]byte("mine")), "a.txt"),
		"nor of a changed one": fmt.Sprintf("tieover 1\n%x text %q", sha256.Sum256([]byte("another's")), "a.txt"),
	} {
		put(t, list, bad)
		_, messages = at("chart", round, "-o", chart)
		assert.Contains(t, messages, "is damaged (", name)
	}
}

// What the first version's list says was written, and is no longer made, is removed, or
// named where it was changed.
func TestLeftByTheFirstVersion(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "parts", "as-written.musicxml"), "a part")
	put(t, filepath.Join(dir, "parts", "changed.musicxml"), "my part")
	sum := sha256.Sum256([]byte("a part"))
	put(t, filepath.Join(dir, files.ManifestName), fmt.Sprintf("tieover 1\n%x musicxml %q\n%x musicxml %q\n%x musicxml %q\n",
		sum, "parts/as-written.musicxml", sum, "parts/changed.musicxml", sum, "parts/gone.musicxml"))
	code, messages := at("build", round, "-o", dir, "--only", "musicxml")
	require.Zero(t, code, messages)
	assert.Contains(t, messages, "note: removed "+filepath.Join(dir, "parts", "as-written.musicxml"))
	assert.Contains(t, messages, filepath.Join(dir, "parts", "changed.musicxml")+" is of an earlier build and was changed since")
	assert.NotContains(t, messages, "gone")
}
