package grammar

import (
	"strings"
	"testing"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

func seed(f *testing.F, texts ...string) {
	for _, t := range texts {
		f.Add(t)
	}
}

// inText fails when a slip points outside the text or says nothing.
func inText(t *testing.T, text string, bad *Slip) {
	t.Helper()
	if bad.At < 0 || bad.At > len(text) || bad.Text == "" || bad.Hint == "" {
		t.Errorf("%q: %+v", text, *bad)
	}
}

// FuzzGroups: what is accepted stays in its bounds and is read again alike
// from its own writing.
func FuzzGroups(f *testing.F) {
	seed(f, "3+2+2", "3 + rest 2", "((3+2)x2+3)x2", "3x4", "3++2", "(3", "1e3", "0", "rest", "x", "3_2", "99999999999999999999x99999999999999999999")
	f.Fuzz(func(t *testing.T, text string) {
		items, bad := Groups(text)
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
		again, bad := Groups(strings.Join(written, "+"))
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
		signs, bad := Box(text)
		if bad != nil {
			inText(t, text, bad)
			return
		}
		sum := 0
		for _, group := range BoxGroups(signs) {
			sum += group.Size
		}
		if sum != len(signs) || len(signs) > MaxPulses {
			t.Fatalf("%q: %v", text, BoxGroups(signs))
		}
		for i, s := range signs[1:] {
			if s == score.SignHold && signs[i] == score.SignRest {
				t.Fatalf("%q holds a rest", text)
			}
		}
		for size := 1; size < 9; size++ {
			if _, bad := Figure(text, size); bad != nil {
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
			chords, bad := Series(text, on)
			for _, b := range bad {
				inText(t, text, b)
			}
			if len(bad) == 0 && len(chords) == 0 {
				t.Fatalf("%q is nothing and no mistake", text)
			}
			if _, bad := Note(text, on, beat.Plain(beat.Of(1, 8))); bad != nil {
				inText(t, text, bad)
			}
		}
	})
}

// FuzzMeter: an accepted signature writes itself so that it is read alike.
func FuzzMeter(f *testing.F) {
	seed(f, "5/4", "3+2+2/8", "2/4+3/8", "4/5", "3", "/", "+", "64/128", "65/1", "3+/8")
	f.Fuzz(func(t *testing.T, text string) {
		sig, bad := Signature(text)
		if bad != nil {
			inText(t, text, bad)
			return
		}
		again, bad := Signature(sig.String())
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
		check := func(bad *Slip) {
			if bad != nil {
				inText(t, text, bad)
			}
		}
		tempo, bad := Tempo(text)
		check(bad)
		if bad == nil && tempo.Old == nil && (tempo.Quarters.Cmp(beat.Of(slowest, 1)) < 0 || tempo.Quarters.Cmp(beat.Of(fastest, 1)) > 0) {
			t.Fatalf("%q is %v", text, tempo.Quarters)
		}
		pulse, bad := Pulse(text)
		check(bad)
		if bad == nil {
			if again, bad := Pulse(pulse.String()); bad != nil || again != pulse {
				t.Fatalf("%q became %v", text, pulse)
			}
		}
		_, bad = Key(text)
		check(bad)
		for _, plan := range []bool{true, false} {
			_, bad = Place(text, plan)
			check(bad)
		}
		_, bad = Length(text)
		check(bad)
		_, _, bad = Loop(text)
		check(bad)
	})
}
