package grammar

import (
	"strings"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// LineNote is a note of a free line before the grid is known.
type LineNote struct {
	Length beat.Span
	Tones  score.Chord
}

// Note reads one entry of a free line.
func Note(entry string, on *instrument.Instrument, pulse beat.Pulse) (LineNote, *Slip) {
	const hint = "write what sounds and how long, as in D5 3, rest 1/4 or E5+G5 dotted quarter"
	all := Split(entry, "+")
	if len(all) == 0 {
		return LineNote{}, Wrong(0, hint, "an entry of the line is empty")
	}
	length, used := lineLength(all, pulse)
	if used == 0 || used == len(all) {
		return LineNote{}, Wrong(all[0].At, hint, "%q does not say what sounds and how long", Shortened(strings.TrimSpace(entry)))
	}
	if length.Sign() <= 0 || length.Cmp(beat.Of(MaxPulses, 1)) > 0 {
		return LineNote{}, Wrong(all[len(all)-used].At, "use a length above 0 and at most 4096 whole notes", "a note of the line is too short or too long")
	}
	what := entry[:all[len(all)-used].At]
	switch s := strings.TrimSpace(what); s {
	case "rest":
		return LineNote{Length: length}, nil
	case "r", "R", "-", ".":
		return LineNote{}, Wrong(all[0].At, "write rest, as in rest 1/4", "%q is no note", s)
	case "x":
		if on.IsUnpitched() {
			return LineNote{length, score.Chord{score.Tone{}}}, nil
		}
	}
	for _, w := range all[1 : len(all)-used] {
		if _, n := lineLength([]Word{w}, pulse); n > 0 {
			return LineNote{}, Wrong(w.At, "write a comma behind each length", "two notes without a comma between them")
		}
	}
	chords, bad := Series(what, on)
	switch {
	case len(bad) > 0:
		if len(on.Drums) == 1 {
			bad[0].Hint = "write x"
		}
		return LineNote{}, bad[0]
	case len(chords) > 1:
		return LineNote{}, Wrong(all[0].At, "separate notes by commas, and join chords by +", "%q has more than one note", Shortened(strings.TrimSpace(what)))
	}
	return LineNote{length, chords[0]}, nil
}

// lineLength reads a length from the end of the words: pulses, a fraction of a
// whole note, or the name of a value. used is how many words it takes.
func lineLength(all []Word, pulse beat.Pulse) (length beat.Span, used int) {
	last := all[len(all)-1].Text
	if n, ok := Whole(last); ok {
		return pulse.Span().Times(min(n, 1<<20)), 1
	}
	if s, ok := beat.ParseSpan(last); ok && s.Den() <= 1024 && s.Num() < 1<<20 {
		return s, 1
	}
	for used := 2; used > 0; used-- {
		if len(all) < used {
			continue
		}
		name := last
		if used == 2 {
			name = all[len(all)-2].Text + " " + last
		}
		if p, bad := Pulse(name); bad == nil {
			return p.Span(), used
		}
	}
	return beat.Span{}, 0
}
