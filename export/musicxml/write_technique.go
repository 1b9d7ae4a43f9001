package musicxml

import (
	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score/instrument"
)

// mutes are the standard's words for mutes, by those that players read.
var mutes = map[string]string{
	"con sord.": "on", "senza sord.": "off", "open": "off",
	"straight mute": "straight", "cup mute": "cup", "harmon mute": "harmon-no-stem",
	"plunger": "plunger", "plunger mute": "plunger", "practice mute": "practice",
}

// technique returns the words of a way of playing, upright, and how it sounds
// where the standard has a word for that.
func (e *encoder) technique(mark *sheet.Mark, v voicePlace) *etree.Element {
	d := e.direction("above", with(e.words(mark.Text), "font-style", "normal"), mark.Offset, v.staff)
	switch t := mark.Technique; t.Matter {
	case instrument.Bowing:
		pizzicato := "yes"
		if t.Usual {
			pizzicato = "no"
		}
		d.AddChild(with(elem("sound"), "pizzicato", pizzicato))
	case instrument.Muting:
		d.AddChild(elem("sound", elem("play", leaf("mute", mutes[t.Words]))))
	}
	return d
}
