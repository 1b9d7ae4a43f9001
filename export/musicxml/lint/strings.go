package lint

import "strings"

// tune reads what the strings of tablature sound.
func (r *reading) tune(a *node) {
	for _, d := range a.all("staff-details") {
		var tuning []int
		for _, t := range d.all("staff-tuning") {
			tuning = append(tuning, semitones(t, "tuning-"))
		}
		if lines, _ := d.whole("staff-lines"); len(tuning) > 0 && int(lines) != len(tuning) {
			r.report("%d lines for %d strings", lines, len(tuning))
		}
		if len(tuning) > 0 {
			r.strings[d.attr("number")] = tuning
		}
	}
}

// stopped checks a note of tablature: its string sounds the pitch at that fret.
func (r *reading) stopped(n *node) {
	tuning := r.strings[n.text("staff")]
	s, ok := n.whole("notations", "technical", "string")
	fret, is := n.whole("notations", "technical", "fret")
	switch {
	case !ok || !is || s < 1 || int(s) > len(tuning):
		r.report("%s has no place on the strings", pitchOf(n))
	case tuning[len(tuning)-int(s)]+int(fret) != semitones(n.at("pitch"), ""):
		r.report("%s is not at fret %d of string %d", pitchOf(n), fret, s)
	case n.text("stem") != "none":
		r.report("%s has a stem in tablature", pitchOf(n))
	}
}

// semitones counts from C0 to a pitch.
func semitones(p *node, prefix string) int {
	alter, _ := p.whole(prefix + "alter")
	octave, _ := p.whole(prefix + "octave")
	return 12*int(octave) + strings.Index("C D EF G A B", p.text(prefix+"step")) + int(alter)
}
