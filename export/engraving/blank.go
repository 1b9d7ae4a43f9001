package engraving

import (
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
)

// Blank returns a staff of so many lines to write on, with nothing in it.
func Blank(o Options, lines int) *System {
	width := pen.Unit(o.Width)
	if width == 0 {
		width = DefaultPaper.line()
	}
	s := content.Staff{Lines: lines}
	y := systemEdge + 2*pen.Space + s.Edge()
	var p pen.Path
	for n := range lines {
		p.At('M', 0, y-s.Edge()+pen.Unit(n)*pen.Space)
		p.At('H', width)
	}
	var k pen.Ink
	k.Stroke(p, pen.StaffLine)
	return &System{Width: int(width), Height: int(2 * y), Body: k, Percent: 100}
}
