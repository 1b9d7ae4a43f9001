package spec

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score/spec/grammar"
)

// readLine reads a free line: entries separated by commas (or a list), each
// what sounds and how long. "D5 3" lasts three pulses, "rest 1/4" and
// "E5+G5 dotted quarter" a note value; "x 2" is a bare stroke.
func (r *reader) readLine(n *yaml.Node, v *voice) {
	for _, other := range []string{"groups", "box", "figures", "strike", "restart", "process", "loop", "except", "syllables"} {
		if m := v.keys[other]; m != nil {
			r.wrong(r.at(m), "remove it, or remove line:", "%s means nothing beside line", other)
		}
	}
	if v.Instrument == nil || !r.notEmpty(n, "line") {
		return
	}
	for _, item := range items(n) {
		s, ok := r.text(item, "line")
		if !ok {
			continue
		}
		at := 0
		v.notes = slices.Grow(v.notes, strings.Count(s, ",")+1)
		for entry := range strings.SplitSeq(s, ",") {
			note, bad := grammar.Note(entry, v.Instrument, v.Pulse)
			if bad != nil {
				bad.At += at
				r.slip(item, bad)
			} else {
				v.section.need(r, item, "", note.Length)
				r.needGraces(item, v, note.Tones)
				if isPlaced(v.Instrument) {
					r.placeChord(item, v, note.Tones, at+len(entry)-len(strings.TrimLeft(entry, " \t\n")))
				}
				v.notes = append(v.notes, note)
			}
			at += len(entry) + 1
		}
	}
}
