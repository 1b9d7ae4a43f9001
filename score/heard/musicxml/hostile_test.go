package musicxml

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/processor"
)

const hostileDir = "../../../testdata/hostile"

// hostile is every file of testdata/hostile and the error that it must give.
var hostile = map[string]string{
	"chord-first.musicxml":       "line 6: a note joins a chord, but no note stands before it",
	"container-entities.mxl":     "META-INF/container.xml cannot be read: XML syntax error on line 1: invalid character entity &x;",
	"crossed-tags.musicxml":      "line 5: not well-formed XML: <time> is closed by </attributes>",
	"cut-off.musicxml":           "line 5: not well-formed XML: unexpected EOF",
	"cut-off.mxl":                "the .mxl cannot be opened: zip: not a valid zip file",
	"deep-outside.musicxml":      "line 2: elements lie more than 32 deep",
	"deep.musicxml":              "line 6: elements lie more than 32 deep",
	"empty.musicxml":             "the file holds no XML element",
	"encoding.musicxml":          "line 1: the encoding \"EBCDIC-CP-US\" cannot be read; save the file as UTF-8",
	"ending.musicxml":            "line 6: the ending \"all\" is not a list of numbers",
	"entities.musicxml":          "line 13: the document type defines entities; they are not read",
	"entries.mxl":                "the .mxl holds 101 files; at most 100 are read",
	"external-entity.musicxml":   "line 2: the document type defines entities; they are not read",
	"grids.musicxml":             "line 18: the durations of the file have no common measure; 1/68 of a whole note cannot be joined to what came before",
	"long-bar-back.musicxml":     "line 6: a bar lasts more than 1024 whole notes",
	"long-bar.musicxml":          "line 7: a bar lasts more than 1024 whole notes",
	"long-score.musicxml":        "line 5: the score lasts more than 4194304 whole notes",
	"lying-size.mxl":             "\"s.musicxml\" in the .mxl cannot be unpacked: zip: not a valid zip file",
	"meter-banana.musicxml":      "line 6: the signature \"banana/4\" is not one or more of numbers joined by + over a number from 1 to 128",
	"negative-duration.musicxml": "line 6: the duration \"-4\" is not a number from 0 to 999999999",
	"nested.mxl":                 "the score in the .mxl is itself compressed",
	"no-container.mxl":           "the .mxl has no \"META-INF/container.xml\"",
	"no-divisions.musicxml":      "line 6: a duration comes before the <divisions> that it counts",
	"no-duration.musicxml":       "line 6: a <note> has no duration",
	"no-rootfile.mxl":            "META-INF/container.xml names no score",
	"no-such-part.musicxml":      "line 4: the part \"P9\" is not in the part list",
	"not-a-score.musicxml":       "line 2: the root element is <html>; a MusicXML score begins with <score-partwise> or <score-timewise>",
	"octave-99.musicxml":         "line 5: the octave \"99\" is not a number from 0 to 9",
	"outside.mxl":                "the .mxl has no \"../../../etc/passwd\"",
	"ratio.mxl":                  "\"s.musicxml\" in the .mxl unpacks to more than 200 times its size",
	"repeats-empty.musicxml":     "line 5: with its repeats played out the score has more than 1000000 notes or 1000000 bars",
	"repeats.musicxml":           "line 5: with its repeats played out the score has more than 1000000 notes or 1000000 bars",
	"size.mxl":                   "\"s.musicxml\" in the .mxl unpacks to more than 64 MiB",
	"transpose.musicxml":         "line 5: the transposition of \"1000\" semitones is not a whole number from -99 to 99",
	"two-roots.musicxml":         "line 8: something follows the end of the score",
	"unknown-entity.musicxml":    "line 3: not well-formed XML: invalid character entity &lock;",
	"utf16-odd.musicxml":         "the file is cut off inside a UTF-16 character",
	"wide.musicxml":              "line 6: more than 20000 elements in one part of a bar",
	"zeros.musicxml":             "line 1: not well-formed XML: illegal character code U+0000",
}

// Every file is refused quickly with a clear error at its line; none is
// expanded, fetched or believed.
func TestReadRefusesHostileFiles(t *testing.T) {
	entries, err := os.ReadDir(hostileDir)
	require.NoError(t, err)
	seen := 0
	for _, e := range entries {
		if ext := filepath.Ext(e.Name()); ext != ".musicxml" && ext != ".mxl" {
			continue
		}
		seen++
		want := hostile[e.Name()]
		t.Run(e.Name(), func(t *testing.T) {
			data, err := os.ReadFile(filepath.Join(hostileDir, e.Name()))
			require.NoError(t, err)
			begun := processor.Time()
			_, err = Read(context.Background(), bytes.NewReader(data))
			if assert.Error(t, err) {
				assert.Equal(t, want, err.Error())
			}
			assert.Less(t, processor.Time()-begun, time.Minute)
		})
	}
	assert.Len(t, hostile, seen, "a file of the table is missing")
}

// A file may be endless in its own way: reading stops when its time is over.
func TestReadStopsWhenTimeIsOver(t *testing.T) {
	ctx, stop := context.WithDeadline(context.Background(), time.Now())
	defer stop()
	bar := "<measure number=\"1\">" + eighths + strings.Repeat(noteOf("C4", 0), 200_000) + "</measure>"
	text := strings.Replace(partwise("Lock", ""), `<measure number="1"></measure>`, bar, 1)
	_, err := Read(ctx, strings.NewReader(text))
	require.Error(t, err)
	assert.Equal(t, "line 1: reading took too long", err.Error())
}

func TestReadCountsNotesAsWritten(t *testing.T) {
	var text strings.Builder
	text.WriteString(`<score-partwise><part-list><score-part id="P1"/></part-list><part id="P1"><measure number="1">` + eighths + "\n")
	text.WriteString(strings.Repeat("<note><rest/><duration>0</duration></note>", maxNotes+1))
	_, err := Read(context.Background(), strings.NewReader(text.String()))
	require.Error(t, err)
	assert.Equal(t, "line 2: more than 1000000 notes", err.Error())
}

func TestReadCountsSignatures(t *testing.T) {
	var text strings.Builder
	text.WriteString(`<score-partwise><part-list><score-part id="P1"/></part-list><part id="P1">`)
	for i := range maxMeters + 1 {
		fmt.Fprintf(&text, `<measure number="%d"><attributes><time><beats>%d+%d</beats><beat-type>4</beat-type></time></attributes></measure>`, i, i%1000+1, i/1000+1)
	}
	_, err := Read(context.Background(), strings.NewReader(text.String()))
	require.Error(t, err)
	assert.Equal(t, "line 1: more than 4096 different signatures", err.Error())
}

func TestReadRefusesALargeFile(t *testing.T) {
	_, err := Read(context.Background(), io.LimitReader(blanks{}, MaxBytes+10))
	require.Error(t, err)
	assert.Equal(t, "the file is larger than 64 MiB", err.Error())
}

type blanks struct{}

func (blanks) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

// FuzzRead holds the reader to two promises whatever the file: no panic, and
// what it returns is in order, inside its limits and finite.
func FuzzRead(f *testing.F) {
	seeds, err := filepath.Glob(hostileDir + "/*")
	require.NoError(f, err)
	for _, name := range seeds {
		if data, err := os.ReadFile(name); err == nil && len(data) < 10_000 {
			f.Add(data)
		}
	}
	for _, bars := range [][]string{
		{eighths + noteOf("C4", 6) + noteOf("D4", 2, ties), noteOf("D4", 2, tied) + noteOf("E4", 6) + again},
		{"!0 " + eighths + noteOf("G4", 2), noteOf("C5", 8, "<voice>1</voice>") + "<backup><duration>8</duration></backup>" + noteOf("C3", 4, "<voice>2</voice>")},
		{`<attributes><divisions>3</divisions><transpose><chromatic>-9</chromatic></transpose></attributes>` + noteOf("C4", 1) + `<direction><direction-type><rehearsal>B1</rehearsal></direction-type><offset>1</offset><sound tempo="132.5" dacapo="yes"/></direction>`},
	} {
		f.Add([]byte(partwise("Lock", bars...)))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		score, err := Read(context.Background(), bytes.NewReader(data))
		if err != nil {
			assert.NotEmpty(t, err.Error())
			return
		}
		require.NotEmpty(t, score.Parts)
		for _, p := range score.Parts {
			for i, a := range p.Attacks { // perhaps a million, and a worker that takes ten seconds counts as hung
				if len(a.Tones) == 0 || a.Onset.Sign() < 0 || a.Length.Sign() < 0 || i > 0 && p.Attacks[i-1].Onset.Cmp(a.Onset) > 0 {
					t.Fatalf("attack %d: %v", i, a)
				}
				if i < 1000 {
					_ = p.Where(a.Onset).String()
				}
			}
		}
	})
}
