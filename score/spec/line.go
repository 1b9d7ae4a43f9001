package spec

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// lineNote is a note of a free line before the grid is known.
type lineNote struct {
	length beat.Span
	tones  score.Chord
}

// readLine reads a free line: entries separated by commas (or a list), each
// what sounds and how long. "D5 3" lasts three pulses, "rest 1/4" and
// "E5+G5 dotted quarter" a note value; "x 2" is a bare stroke.
func (r *reader) readLine(n *yaml.Node, v *voice) {
	for _, other := range []string{"groups", "box", "figures", "strike", "restart", "process", "loop", "except", "syllables"} {
		if m := v.keys[other]; m != nil {
			r.wrong(r.at(m), "remove it, or remove line:", "%s means nothing beside line", other)
		}
	}
	if isNull(n) || v.Instrument == nil || !r.notEmpty(n, "line") {
		return
	}
	var notes []lineNote
	for _, item := range items(n) {
		s, ok := r.text(item, "line")
		if !ok {
			continue
		}
		at := 0
		for _, entry := range strings.Split(s, ",") {
			note, bad := parseLineNote(entry, v.Instrument, v.Pulse)
			if bad != nil {
				bad.at += at
				r.slip(item, bad)
			} else {
				v.section.need(r, item, "", note.length)
				r.needGraces(item, v, note.tones)
				r.placeChord(item, v, note.tones, at+len(entry)-len(strings.TrimLeft(entry, " \t\n")))
				notes = append(notes, note)
			}
			at += len(entry) + 1
		}
	}
	v.section.lines[v.Layer] = notes
}

// parseLineNote reads one entry of a free line.
func parseLineNote(entry string, on *instrument.Instrument, pulse beat.Pulse) (lineNote, *slip) {
	const hint = "write what sounds and how long, as in D5 3, rest 1/4 or E5+G5 dotted quarter"
	all := split(entry, "+")
	if len(all) == 0 {
		return lineNote{}, wrong(0, hint, "an entry of the line is empty")
	}
	length, used := lineLength(all, pulse)
	if used == 0 || used == len(all) {
		return lineNote{}, wrong(all[0].at, hint, "%q does not say what sounds and how long", shortened(strings.TrimSpace(entry)))
	}
	if length.Sign() <= 0 || length.Cmp(beat.Of(MaxPulses, 1)) > 0 {
		return lineNote{}, wrong(all[len(all)-used].at, "use a length above 0 and at most 4096 whole notes", "a note of the line is too short or too long")
	}
	what := entry[:all[len(all)-used].at]
	switch s := strings.TrimSpace(what); s {
	case "rest":
		return lineNote{length: length}, nil
	case "r", "R", "-", ".":
		return lineNote{}, wrong(all[0].at, "write rest, as in rest 1/4", "%q is no note", s)
	case "x":
		if on.IsUnpitched() {
			return lineNote{length, score.Chord{score.Tone{}}}, nil
		}
	}
	for _, w := range all[1 : len(all)-used] {
		if _, n := lineLength([]word{w}, pulse); n > 0 {
			return lineNote{}, wrong(w.at, "write a comma behind each length", "two notes without a comma between them")
		}
	}
	chords, bad := parseSeries(what, on)
	switch {
	case len(bad) > 0:
		return lineNote{}, bad[0]
	case len(chords) > 1:
		return lineNote{}, wrong(all[0].at, "separate notes by commas, and join chords by +", "%q has more than one note", shortened(strings.TrimSpace(what)))
	}
	return lineNote{length, chords[0]}, nil
}

// lineLength reads a length from the end of the words: pulses, a fraction of a
// whole note, or the name of a value. used is how many words it takes.
func lineLength(all []word, pulse beat.Pulse) (length beat.Span, used int) {
	last := all[len(all)-1].text
	if n, ok := whole(last); ok {
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
			name = all[len(all)-2].text + " " + last
		}
		if p, bad := parsePulse(name); bad == nil {
			return p.Span(), used
		}
	}
	return beat.Span{}, 0
}
