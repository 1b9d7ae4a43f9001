package content

import (
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// Staff is one staff of the sheet, counted through all parts.
type Staff struct {
	Part, Number int // number from 1 in the part
	Lines        int
	Tab          bool // its lines are strings
}

// Between is the distance of its lines.
func (s *Staff) Between() pen.Unit {
	if s.Tab {
		return StringGap
	}
	return pen.Space
}

// Edge is how far the outer lines are from the middle.
func (s *Staff) Edge() pen.Unit { return s.Between() * pen.Unit(s.Lines-1) / 2 }

// Reach is how far barlines go, which cross the line of a staff that has one.
func (s *Staff) Reach() pen.Unit { return max(s.Edge(), pen.Space) }

// Reader reads the bars of a sheet as rows.
type Reader struct {
	Sheet  *sheet.Sheet
	Staves []Staff
	Tops   []int // the first staff of each part
	known  map[barKey]*Bar
}

// NewReader returns the reader of a sheet.
func NewReader(s *sheet.Sheet) *Reader {
	d := &Reader{Sheet: s, known: map[barKey]*Bar{}}
	for p := range s.Parts {
		d.Tops = append(d.Tops, len(d.Staves))
		for n, st := range s.Parts[p].Staves {
			d.Staves = append(d.Staves, Staff{Part: p, Number: n + 1, Lines: st.Lines, Tab: st.Tuning != nil})
		}
	}
	return d
}
