package musicxml

import (
	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score"
)

// chordSymbol writes a chord symbol as harmony if it can be read as one, and
// else as words. Either way it prints as the spec has it.
func (e *encoder) chordSymbol(mark *sheet.Mark, v voicePlace) *etree.Element {
	c, ok := score.ParseHarmony(mark.Text)
	if !ok {
		words := with(e.words(mark.Text), "font-style", "normal")
		return e.direction("above", words, mark.Offset, v.staff)
	}
	step := leaf("root-step", c.Root.Step)
	if c.Root.Step == "" { // N.C.: the element is needed, but prints nothing
		step = with(leaf("root-step", "C"), "text", "")
	}
	h := elem("harmony",
		elem("root", step, when(c.Root.Alter != 0, number("root-alter", c.Root.Alter))),
		with(leaf("kind", c.Kind), "text", c.Text))
	if c.Bass.Step != "" {
		h.AddChild(elem("bass", leaf("bass-step", c.Bass.Step), when(c.Bass.Alter != 0, number("bass-alter", c.Bass.Alter))))
	}
	for _, d := range c.Degrees {
		// The text of the kind already prints it.
		h.AddChild(with(elem("degree", number("degree-value", d.Value), number("degree-alter", d.Alter),
			leaf("degree-type", d.Change)), "print-object", "no"))
	}
	if mark.Offset != 0 {
		h.AddChild(ticks("offset", mark.Offset))
	}
	h.AddChild(number("staff", v.staff))
	return with(h, "placement", "above")
}
