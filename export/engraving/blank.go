package engraving

// Blank returns a staff of so many lines to write on, with nothing in it.
func Blank(o Options, lines int) *System {
	width := unit(o.Width)
	if width == 0 {
		width = DefaultPaper.line()
	}
	s := staff{lines: lines}
	y := systemEdge + 2*space + s.edge()
	var p path
	for n := range lines {
		p.at('M', 0, y-s.edge()+unit(n)*space)
		p.at('H', width)
	}
	var k ink
	k.stroke(p, staffLine)
	return &System{Width: int(width), Height: int(2 * y), Body: k, Percent: 100}
}
