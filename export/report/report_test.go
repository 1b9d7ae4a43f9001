package report_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"io"
	"math/big"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"github.com/rivo/uniseg"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/export/report"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/sample"
	"tieover/score/spec"
)

var update = flag.Bool("update", false, "rewrite the goldens; read them before committing")

func read(t testing.TB, files ...string) *score.Piece {
	t.Helper()
	var all []spec.File
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		all = append(all, spec.File{Name: filepath.Base(filepath.Dir(name)), Text: text})
	}
	p, problems := spec.Read(all)
	require.Empty(t, problems)
	return p
}

func piece(t testing.TB, text string) *score.Piece {
	t.Helper()
	p, problems := spec.Read([]spec.File{{Name: "test.yaml", Text: []byte(text)}})
	require.Empty(t, problems)
	return p
}

// sections are the specs that all goldens of the project use.
func sections(t testing.TB) []string {
	t.Helper()
	names, err := filepath.Glob("../../testdata/sections/*/section.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	return names
}

func text(t testing.TB, p *score.Piece, o report.Options) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, report.Text(&out, p, o))
	return out.String()
}

// Every line fits an 80 column terminal, ends without blanks, and no two blank
// lines follow each other.
func TestPaper(t *testing.T) {
	for _, name := range sections(t) {
		for _, o := range []report.Options{{}, {Glossary: true, Terms: beat.British, Rows: -1}} {
			got := text(t, read(t, name), o)
			for _, line := range strings.Split(got, "\n") {
				assert.LessOrEqual(t, uniseg.StringWidth(line), 80, "%s: %q", name, line)
				assert.Equal(t, strings.TrimRight(line, " "), line, name)
			}
			assert.NotContains(t, got, "\n\n\n", name)
		}
	}
}

// Plain English: no "1 cycles", no "2 cycle", no "an quarter", no format verb
// that went wrong.
func TestNumbersAgreeWithNouns(t *testing.T) {
	wrong := regexp.MustCompile(`\b1 (eighths|quarters|cycles|bars|attacks|times|groups|pairs|rows)\b` +
		`|\b([02-9]|\d\d+) (eighth|quarter|cycle|bar|attack|group|pair)\b[^-]` +
		`|\ban? (eighths|quarters|halves)\b|\ba eighth\b|\ban (quarter|half)\b|%!`)
	for _, name := range sections(t) {
		for _, line := range strings.Split(text(t, read(t, name), report.Options{Rows: -1}), "\n") {
			assert.Empty(t, wrong.FindString(line), "%s: %q", name, line)
		}
	}
}

func TestBritishTerms(t *testing.T) {
	p := piece(t, "title: T\nmeter: 5/4\nlength: 2 realignments\nlayers:\n  - {name: A, groups: 3+2+2+3}\n  - {name: B, groups: 3+3+2+2+2}\n")
	got := text(t, p, report.Options{Terms: beat.British})
	assert.Contains(t, got, "crotchet =")
	assert.Contains(t, got, "each cycle begins 2 quavers (a crotchet) later")
	assert.NotContains(t, got, "eighth")
	assert.NotContains(t, got, "quarter")
}

func TestGoldens(t *testing.T) {
	known := map[string]bool{}
	golden := func(name string, write func(io.Writer) error) {
		var out bytes.Buffer
		require.NoError(t, write(&out))
		known[name] = true
		path := filepath.Join("testdata", name)
		if *update {
			require.NoError(t, os.WriteFile(path, out.Bytes(), 0o644))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, string(want), out.String(), name)
	}
	keepers := "../../testdata/sections/lock-keepers-round/section.yaml"
	small := piece(t, "title: T\nsection: B\nmeter: 3/4\nlength: 1 realignment\nlayers:\n  - {name: A, groups: 2+1, instrument: marimba, pitches: C5 E5}\n  - {name: B, groups: 3+2}\n")
	golden("small.json", func(w io.Writer) error { return report.JSON(w, small) })
	golden("keepers-realign.txt", func(w io.Writer) error { return report.Realign(w, read(t, keepers), true, report.Options{}) })
	loop := piece(t, "title: T\nmeter: 5/4\nlength: 6 bars\nlayers: [{name: A, groups: 3+2+2+2}]\n")
	golden("fit.txt", func(w io.Writer) error { return report.Fit(w, loop, report.Options{}) })
	golden("fit.json", func(w io.Writer) error { return report.FitJSON(w, loop) })

	entries, err := os.ReadDir("testdata")
	require.NoError(t, err)
	for _, e := range entries {
		if e.Name() == "rapid" || e.Name() == "brief" {
			continue // failures found by chance, kept by the tool
		}
		assert.True(t, known[e.Name()], "%s: no test reads this file", e.Name())
	}
}

// The JSON says the same as its own parts: drift from heads and bars, the
// composite from the attacks of the layers, totals from steps. Nothing here
// shares code with the report.
func TestJSONAgreesWithItself(t *testing.T) {
	for _, name := range sections(t) {
		var out bytes.Buffer
		require.NoError(t, report.JSON(&out, read(t, name)))
		var doc struct {
			Version int
			Layers  []struct {
				Name   string
				Cycles []struct {
					Head, Start string
					Drift       struct {
						Barline *step
						Layers  map[string]step
					}
				}
				Attacks []struct{ Onset string }
			}
			Composite []struct {
				Onset  string
				Layers []string
			}
			AttacksPerBar []struct{ Attacks int }
		}
		require.NoError(t, json.Unmarshal(out.Bytes(), &doc), name)
		assert.Equal(t, 1, doc.Version)

		strikers := map[string][]string{}
		for _, l := range doc.Layers {
			var barline chain
			others := map[string]*chain{}
			for _, c := range l.Cycles {
				barline.add(t, c.Drift.Barline)
				for other, s := range c.Drift.Layers {
					if others[other] == nil {
						others[other] = &chain{}
					}
					others[other].add(t, &s)
				}
			}
			for _, a := range l.Attacks {
				strikers[a.Onset] = append(strikers[a.Onset], l.Name)
			}
		}
		perBar := 0
		for _, b := range doc.AttacksPerBar {
			perBar += b.Attacks
		}
		assert.Equal(t, len(strikers), perBar, name)
		require.Len(t, doc.Composite, len(strikers), name)
		last := rat(t, "-1")
		for _, m := range doc.Composite {
			assert.Equal(t, strikers[m.Onset], m.Layers, name)
			assert.Positive(t, rat(t, m.Onset).Cmp(last), name)
			last = rat(t, m.Onset)
		}
	}
}

type step struct {
	Place, Total string
	Step         *string
}

// chain checks that totals are the sums of steps.
type chain struct{ total *big.Rat }

func (c *chain) add(t *testing.T, s *step) {
	t.Helper()
	if s == nil {
		return
	}
	if s.Step == nil {
		assert.Equal(t, "0", s.Total)
		c.total = new(big.Rat)
		return
	}
	require.NotNil(t, c.total, "the first head has no step")
	c.total.Add(c.total, rat(t, *s.Step))
	assert.Equal(t, c.total.RatString(), s.Total)
}

func rat(t *testing.T, s string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	require.True(t, ok, s)
	return r
}

// The documentation of the keys in help json is what the tables that make the
// JSON say: all of it, in their order.
func TestKeysAreDocumented(t *testing.T) {
	const name = "../../cmd/tieover/help/json.md"
	doc, err := os.ReadFile(name)
	require.NoError(t, err)
	intro, said, found := strings.Cut(string(doc), "\n## ")
	require.True(t, found)
	said, others, found := strings.Cut(said, "\n## find --json\n") // what other commands write
	require.True(t, found)
	var want bytes.Buffer
	require.NoError(t, report.WriteKeys(&want))
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(intro+want.String()+"\n## find --json\n"+others), 0o644))
		return
	}
	assert.Equal(t, want.String(), "\n## "+said, "go test ./export/report -update writes it anew")
}

func TestSameBytes(t *testing.T) {
	for _, name := range sections(t)[:4] {
		var first, second bytes.Buffer
		require.NoError(t, report.JSON(&first, read(t, name)))
		require.NoError(t, report.JSON(&second, read(t, name)))
		assert.Equal(t, first.String(), second.String())
	}
}

// Several specs are sections of one piece, each with the same keys.
func TestSectionsOfAPiece(t *testing.T) {
	names := sections(t)
	p := read(t, names[3], names[5])
	var out bytes.Buffer
	require.NoError(t, report.JSON(&out, p))
	var doc map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &doc))
	list, ok := doc["sections"].([]any)
	require.True(t, ok)
	require.Len(t, list, 2)
	assert.Contains(t, list[1], "layers")
	assert.Contains(t, text(t, p, report.Options{}), strings.Repeat("=", 80))
}

// Memory while writing does not grow with the section: a hundred times longer
// takes no more.
func TestJSONStreams(t *testing.T) {
	if testing.Short() {
		t.Skip("writes a long section")
	}
	spec := func(bars string) *score.Piece {
		return piece(t, "title: T\nmeter: 4/4\nlength: "+bars+" bars\nlayers: [{name: A, groups: 3+2+2}, {name: B, groups: 3+3+2+3}]\n")
	}
	peak := func(p *score.Piece) uint64 {
		high := &high{}
		require.NoError(t, report.JSON(high, p))
		return high.most
	}
	short, long := peak(spec("300")), peak(spec("15000"))
	assert.Less(t, long, 2*short+(8<<20), "%d bytes live against %d", long, short)
}

// high notes the most memory in use while it is written to.
type high struct {
	most   uint64
	writes int
}

func (h *high) Write(p []byte) (int, error) {
	if h.writes++; h.writes%64 == 1 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		h.most = max(h.most, m.HeapAlloc)
	}
	return len(p), nil
}

// Names of any width, and cycles of any length, keep to the paper.
func TestWideWords(t *testing.T) {
	long := strings.Repeat("Schleusenwärter水門", 6)
	p := piece(t, "title: "+long+"\nmeter: 4/4\nlength: 2 bars\nlayers:\n  - {name: "+long+"A, groups: "+strings.Repeat("3+2+", 40)+"3}\n  - {name: "+long+"B, groups: 5}\nplan:\n  - {at: bar 2, mark: "+long+"}\n")
	for _, line := range strings.Split(text(t, p, report.Options{Glossary: true}), "\n") {
		assert.LessOrEqual(t, uniseg.StringWidth(line), 80, line)
	}
}

// Random pieces of several sections, with everything a spec may say, make a
// report that keeps to its paper, and JSON that reads.
func TestRandomPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var files []spec.File
		for _, text := range sample.YAMLs(t) {
			files = append(files, spec.File{Name: "random.yaml", Text: []byte(text)})
		}
		p, problems := spec.Read(files)
		require.Empty(t, problems)
		var out, doc bytes.Buffer
		require.NoError(t, report.Text(&out, p, report.Options{Rows: rapid.IntRange(-1, 6).Draw(t, "rows")}))
		for _, line := range strings.Split(out.String(), "\n") {
			assert.LessOrEqual(t, uniseg.StringWidth(line), 80, line)
		}
		assert.NotContains(t, out.String(), "%!")
		require.NoError(t, report.JSON(&doc, p))
		assert.True(t, json.Valid(doc.Bytes()))
	})
}
