package engraving

// drawRepeat draws the sign of a bar that is equal to the one before: a slanted
// stroke between two dots.
func (l *line) drawRepeat(i, b int) {
	st := &l.staves[i]
	bar := &l.rows[b].bars[st.part]
	if l.e.sheet.Parts[st.part].RepeatsIn(bar, st.number) == 0 {
		return
	}
	x := l.middle(b)
	p := &st.fills
	p.at('M', x-110, 100)
	p.at('L', x+60, -100)
	p.at('L', x+110, -100)
	p.at('L', x-60, 100)
	*p = append(*p, 'z')
	p.sign(augmentationDot, x-110, -50, fullSize)
	p.sign(augmentationDot, x+70, 50, fullSize)
	l.watched("repeat", i, x-110, -100, x+110, 100)
}
