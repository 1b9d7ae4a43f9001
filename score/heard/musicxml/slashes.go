package musicxml

// slashes is how the notes of a staff are printed from a bar on, whatever their heads.
type slashes int

const (
	noSlashes slashes = iota
	beats             // slashes without stems: what is played is left to the player
	rhythm            // slashes with stems: the rhythm is given, and nothing else
)

// slashStyle reads where slashes begin or end; without use-stems they have none
// (MusicXML 4.0, attribute use-stems of slash).
func (b *barReading) slashStyle(style *element) {
	e := style.kid("slash")
	if e == nil {
		return
	}
	state := &b.part.state
	staff := staffNumber(style.get("number"), 0)
	switch {
	case e.get("type") == "stop" && staff == 0:
		clear(state.slashes)
	case e.get("type") == "stop":
		delete(state.slashes, staff)
	case e.get("use-stems") == "yes":
		state.slashes[staff] = rhythm
	default:
		state.slashes[staff] = beats
	}
}

// slashed reports whether a note is a slash, by its own head or by the style of its staff,
// and whether that says a beat only.
func (s *readState) slashed(note *element, staff int) (slash, beat bool) {
	style := max(s.slashes[0], s.slashes[staff])
	if note.kidText("notehead") == "slash" {
		return true, style == beats || note.kidText("stem") == "none"
	}
	return style != noSlashes, style == beats
}
