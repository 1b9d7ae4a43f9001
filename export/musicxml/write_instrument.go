package musicxml

import (
	"github.com/beevik/etree"

	"tieover/layout/sheet"
)

// takeUp names the instrument that the player takes up, in bold and for programs too,
// or the one that comes next.
func (e *encoder) takeUp(mark *sheet.Mark, v voicePlace) *etree.Element {
	words := with(e.words(mark.Text), "font-style", "normal")
	if mark.Instrument == nil {
		return e.direction("above", words, mark.Offset, v.staff)
	}
	d := e.direction("above", with(words, "font-weight", "bold"), mark.Offset, v.staff)
	if sound := soundsOf(mark.Instrument)[0].id; sound != "" {
		change := with(elem("instrument-change", leaf("instrument-sound", sound)), "id", e.soundID(mark.Instrument, 1))
		d.AddChild(elem("sound", change))
	}
	return d
}
