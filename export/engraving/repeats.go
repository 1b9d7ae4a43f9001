package engraving

import (
	"slices"
	"strconv"

	"tieover/layout/sheet"
)

// written is what is drawn of a bar: a staff that has a sign in place of its notes
// is empty.
func written(b *sheet.Bar) *sheet.Measure {
	if b.Repeats == [2]int{} {
		return b.Measure
	}
	m := *b.Measure
	m.Voices = slices.Clone(m.Voices)
	for i := range m.Voices {
		if v := &m.Voices[i]; v.Staff <= len(b.Repeats) && b.Repeats[v.Staff-1] > 0 {
			v.Events = []sheet.Event{&sheet.Rest{Length: m.Length, Whole: true, Hidden: true}}
		}
	}
	return &m
}

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

// repeatCount writes how many equal bars there have been.
func (w *marker) repeatCount(m *marked) {
	f := smallFace
	f.anchor = atMiddle
	w.hanging.add(wordLane, upwards, w.l.words(w.staff, w.l.middle(m.bar), "("+strconv.Itoa(m.N)+")", f))
}
