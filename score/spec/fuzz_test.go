package spec

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/source"
)

func seed(f *testing.F, texts ...string) {
	for _, t := range texts {
		f.Add(t)
	}
}

// inText fails when a slip points outside the text or says nothing.
func inText(t *testing.T, text string, bad *slip) {
	t.Helper()
	if bad.at < 0 || bad.at > len(text) || bad.text == "" || bad.hint == "" {
		t.Errorf("%q: %+v", text, *bad)
	}
}

// FuzzGroups: what is accepted stays in its bounds and is read again alike
// from its own writing.
func FuzzGroups(f *testing.F) {
	seed(f, "3+2+2", "3 + rest 2", "((3+2)x2+3)x2", "3x4", "3++2", "(3", "1e3", "0", "rest", "x", "3_2", "99999999999999999999x99999999999999999999")
	f.Fuzz(func(t *testing.T, text string) {
		items, bad := parseGroups(text)
		if bad != nil {
			inText(t, text, bad)
			return
		}
		var written []string
		sounds := false
		for _, i := range items {
			if i.Size < 1 || i.Size > MaxPulses {
				t.Fatalf("%q: a size of %d", text, i.Size)
			}
			sounds = sounds || !i.Blank
			written = append(written, map[bool]string{true: "rest ", false: ""}[i.Blank]+itoa(i.Size))
		}
		again, bad := parseGroups(strings.Join(written, "+"))
		if bad != nil || !sounds || len(items) > MaxGroups || len(again) != len(items) {
			t.Fatalf("%q became %v", text, written)
		}
		for k := range items {
			if items[k] != again[k] {
				t.Fatalf("%q became %v", text, again)
			}
		}
	})
}

func itoa(n int) string { return beat.Of(int64(n), 1).String() }

// FuzzBox: groups made of a box add up to it, and never hold a rest.
func FuzzBox(f *testing.F) {
	seed(f, "x==x=x..", "..x", "=x", "x.=", "xX", " x x ", "-")
	f.Fuzz(func(t *testing.T, text string) {
		signs, bad := parseBox(text)
		if bad != nil {
			inText(t, text, bad)
			return
		}
		if pulses(boxGroups(signs)) != len(signs) || len(signs) > MaxPulses {
			t.Fatalf("%q: %v", text, boxGroups(signs))
		}
		for i, s := range signs[1:] {
			if s == score.SignHold && signs[i] == score.SignRest {
				t.Fatalf("%q holds a rest", text)
			}
		}
		for size := 1; size < 9; size++ {
			if _, bad := parseFigure(text, size); bad != nil {
				inText(t, text, bad)
			}
		}
	})
}

// FuzzPitch: an accepted pitch is in MIDI's range and is read again alike.
func FuzzPitch(f *testing.F) {
	seed(f, "E5", "F#4", "Bb3", "C##5", "F♯4", "H4", "e5", "C-1", "G9", "Cbb-1", "kick", "closed hi-hat", "E4+G4 A4", "+", "C4+C4")
	marimba, _ := instrument.Find("marimba")
	kit, _ := instrument.Find("drum set")
	f.Fuzz(func(t *testing.T, text string) {
		if tone, bad := parsePitch(text); bad != nil {
			inText(t, text, bad)
		} else if again, bad := parsePitch(tone.String()); bad != nil || again != tone || tone.Key() < 0 || tone.Key() > 127 {
			t.Fatalf("%q became %v", text, tone)
		}
		for _, on := range []*instrument.Instrument{marimba, kit, instrument.Rhythm} {
			chords, bad := parseSeries(text, on)
			for _, b := range bad {
				inText(t, text, b)
			}
			if len(bad) == 0 && len(chords) == 0 {
				t.Fatalf("%q is nothing and no mistake", text)
			}
			if _, bad := parseLineNote(text, on, beat.Plain(beat.Of(1, 8))); bad != nil {
				inText(t, text, bad)
			}
		}
	})
}

// FuzzMeter: an accepted signature writes itself so that it is read alike.
func FuzzMeter(f *testing.F) {
	seed(f, "5/4", "3+2+2/8", "2/4+3/8", "4/5", "3", "/", "+", "64/128", "65/1", "3+/8")
	f.Fuzz(func(t *testing.T, text string) {
		sig, bad := parseSignature(text)
		if bad != nil {
			inText(t, text, bad)
			return
		}
		again, bad := parseSignature(sig.String())
		if bad != nil || !again.Equal(sig) || sig.Span().Sign() <= 0 {
			t.Fatalf("%q became %v", text, sig)
		}
	})
}

// FuzzTempo covers the words of time: tempo, pulse, key, places, lengths.
func FuzzTempo(f *testing.F) {
	seed(f, "132", "132.5", "dotted quarter = 88", "triplet quarter = quarter", "quarter+sixteenth = quarter", "=", "1/8 in 3:2", "1/12",
		"sextuplet eighth", "triplet", "D dorian", "2 sharps", "bar 5 beat 3", "cycle 3 of", "x cycle 2", "2 realignments", "cut every 6 bars", "0.0001")
	f.Fuzz(func(t *testing.T, text string) {
		check := func(bad *slip) {
			if bad != nil {
				inText(t, text, bad)
			}
		}
		tempo, bad := parseTempo(text)
		check(bad)
		if bad == nil && tempo.Old == nil && (tempo.Quarters.Cmp(beat.Of(slowest, 1)) < 0 || tempo.Quarters.Cmp(beat.Of(fastest, 1)) > 0) {
			t.Fatalf("%q is %v", text, tempo.Quarters)
		}
		pulse, bad := parsePulse(text)
		check(bad)
		if bad == nil {
			if again, bad := parsePulse(pulse.String()); bad != nil || again != pulse {
				t.Fatalf("%q became %v", text, pulse)
			}
		}
		_, bad = parseKey(text)
		check(bad)
		for _, plan := range []bool{true, false} {
			_, bad = parsePlace(text, plan)
			check(bad)
		}
		_, bad = parseLength(text)
		check(bad)
		_, _, bad = parseLoop(text)
		check(bad)
	})
}

// FuzzRead: whatever the file, there is no panic, and every problem stands
// inside it and says something.
func FuzzRead(f *testing.F) {
	for _, pattern := range []string{brokenDir + "/*.yaml", "../../templates/*.yaml", "../../testdata/sections/*/section.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(text)
		}
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		if len(text) > 1<<14 {
			t.Skip("long files only take long")
		}
		piece, problems, warnings := read([]File{{"fuzz.yaml", text}})
		if (piece == nil) == (len(problems) == 0) {
			t.Fatal("a piece and problems, or neither")
		}
		lines := splitLines(strings.TrimPrefix(string(text), "\uFEFF"))
		for _, p := range append(append(source.Problems{}, problems...), warnings...) {
			if p.Text == "" || p.Pos.Line < 0 || p.Pos.Line > len(lines) {
				t.Fatalf("%v", p)
			}
			if p.Pos.Line > 0 && p.Pos.Column > len([]rune(lines[p.Pos.Line-1]))+1 {
				t.Fatalf("%v points behind its line %q", p, lines[p.Pos.Line-1])
			}
		}
	})
}
