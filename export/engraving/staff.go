package engraving

import "tieover/layout/sheet"

// staff is one staff of the sheet, counted through all parts.
type staff struct {
	part, number int // number from 1 in the part
	lines        int
	tab          bool // its lines are strings
}

// between is the distance of its lines.
func (s *staff) between() unit {
	if s.tab {
		return stringGap
	}
	return space
}

// edge is how far the outer lines are from the middle.
func (s *staff) edge() unit { return s.between() * unit(s.lines-1) / 2 }

// reach is how far barlines go, which cross the line of a staff that has one.
func (s *staff) reach() unit { return max(s.edge(), space) }

// reader reads the bars of a sheet as rows.
type reader struct {
	sheet  *sheet.Sheet
	staves []staff
	tops   []int // the first staff of each part
	known  map[barKey]*content
}

// newReader returns the reader of a sheet.
func newReader(s *sheet.Sheet) *reader {
	d := &reader{sheet: s, known: map[barKey]*content{}}
	for p := range s.Parts {
		d.tops = append(d.tops, len(d.staves))
		for n, st := range s.Parts[p].Staves {
			d.staves = append(d.staves, staff{part: p, number: n + 1, lines: st.Lines, tab: st.Tuning != nil})
		}
	}
	return d
}
