package task

import (
	"fmt"
	"slices"
	"strings"

	"tieover/layout"
	"tieover/layout/rows"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// notUnbarred says why a layer cannot be given as a line without barlines.
func notUnbarred(l *score.Layer) string {
	switch {
	case l.Pulse.IsTuplet():
		return "counts tuplets"
	case l.Offset != 0:
		return "has an offset"
	case isShifted(l):
		// its groups come away from the starts of its cycles, so that their sizes no longer say where they begin
		return "is shifted by a process"
	}
	return ""
}

// beam gives a line without barlines, ties or beams, and asks for these.
func (m *setter) beam(s *score.Section) (Exercise, string) {
	needs := slices.Concat(steady, []lack{notUnbarred})
	able := serving(s, needs...)
	if len(able) == 0 {
		return Exercise{}, reasonsFor(s, "it needs a layer of plain pulses that nothing cuts", needs...)
	}
	piece, bars, filled, why := m.lineToBeam(s, able)
	if piece == nil {
		return Exercise{}, why
	}
	section := piece.Sections[0]
	l := section.Layers[0]
	e := Exercise{Title: "Bar and beam the line"}
	e.Solution = View{Piece: piece, From: 1, To: bars, Hide: rows.HideLabels}
	e.Solution.Sheet = withoutHints(layOut(piece, unmarkedOptions))
	work := "draw the barlines and"
	if hasTiesOver(e.Solution.Sheet) {
		work = "draw the barlines, tie what is held over them, and"
	}
	e.Prompt = fmt.Sprintf("This is %s without barlines%s Write it in %s, %d bars: %s beam by the groups.", l.Name, filled, section.Meter, bars, work)
	e.Given.Legend, e.Given.Rows = unbarred(section)
	if needsGroupNames(l) {
		e.Prompt = strings.Replace(e.Prompt, " Write it", " "+ofGroups(section)+" Write it", 1)
	}
	if hasTies(e.Solution.Sheet) {
		e.Prompt += " Where one note would hide a beat, or has no single sign, tie two."
	}
	if joinsGroups(e.Solution.Sheet) {
		e.Prompt += " Flags that stand alone in their groups are beamed to each other within a beat."
	}
	e.Answer = append(e.Answer, "values (w h q e s t: whole to thirty-second, ~ tied, ( ) beamed, r rest):")
	for b := range e.Solution.Sheet.Parts[0].Bars() {
		e.Answer = append(e.Answer, fmt.Sprintf("bar %d: %s", b.Number, sheet.Rhythm(&b.Measure.Voices[0])))
	}
	for n := range bars {
		e.Blanks = append(e.Blanks, fmt.Sprintf("bar %d: ________________________", n+1))
	}
	e.Staves = (bars + 1) / 2 // two bars a staff leave room for a hand
	e.Given.Sheet = m.oneBar(section)
	return e, ""
}

// fewestBeams is the least work of a line: some beam.
const fewestBeams = 2

// lineToBeam chooses the line that gives most to do, of a layer that is not
// printed with its barlines elsewhere. Where nothing is beamed, or every layer is
// printed, every pulse is struck instead: that line is printed nowhere.
func (m *setter) lineToBeam(s *score.Section, able []int) (best *score.Piece, bars int, words, why string) {
	most := fewestBeams - 1
	why = "no line of 2 to 7 bars has notes to beam; a pulse of eighths or shorter would serve"
	var order, last []int // of the printed ones none gives more to do than another layer
	isPrinted := func(k int) bool { return m.printed.barred[s.Layers[able[k]]] }
	for _, k := range m.random.Perm(len(able)) {
		if isPrinted(k) {
			last = append(last, k)
		} else {
			order = append(order, k)
		}
	}
	order = append(order, last...)
	for more := 0; more < 4 && best == nil; more++ { // a few bars more if nothing is beamed so far
		n := 1 + m.level + more
		for _, k := range order {
			l := s.Layers[able[k]]
			for _, fill := range []bool{false, true} {
				switch {
				case fill && (l.Strike == score.StrikeAll || needsGroupNames(l)):
					continue
				case !fill && isPrinted(k):
					why = l.Name + " is printed with its barlines in another exercise; " + hintOnly(Beam)
					continue
				}
				p := m.excerptOf(s, []int{able[k]}, score.LengthRule{Kind: score.Bars, N: int64(n)}, func(l *score.Layer) {
					fromBar1(l)
					if fill {
						l.Strike = score.StrikeAll
					}
				})
				switch {
				case p == nil:
					why = m.cannot()
					continue
				case m.printed.givesAway(s, []int{able[k]}, p.Sections[0], 0, p.Sections[0].Length):
					why = "it prints the cycle of " + l.Name + " that is to be written; " + hintOnly(Beam)
					continue
				}
				if w := beamingWork(layOut(p, unmarkedOptions)); w > most {
					best, most, bars, words = p, w, n, "."
					if fill {
						words = ", every pulse struck."
					}
				}
			}
		}
	}
	return best, bars, words, why
}

// ofGroups says the groups of a section's one layer: once if every cycle has
// the same, else cycle by cycle.
func ofGroups(s *score.Section) string {
	var cycles []string
	same := true
	for c := range s.Cycles(0) {
		cycles = append(cycles, groupsOf(c, s.Layers[0]))
		same = same && cycles[len(cycles)-1] == cycles[0]
	}
	if same {
		return "Its groups are " + cycles[0] + "."
	}
	return "Its groups, cycle by cycle, are " + strings.Join(cycles, ", ") + "."
}

// hasTies reports whether some sound inside a bar is written as tied notes.
func hasTies(laid *sheet.Sheet) bool {
	return anyNote(laid, func(n *sheet.Note) bool { return n.TieIn && n.Start > 0 })
}

// hasTiesOver reports whether some sound is held over a barline.
func hasTiesOver(laid *sheet.Sheet) bool {
	return anyNote(laid, func(n *sheet.Note) bool { return n.TieIn && n.Start == 0 })
}

// joinsGroups reports whether some beam joins notes of two groups.
func joinsGroups(laid *sheet.Sheet) bool {
	return anyNote(laid, func(n *sheet.Note) bool {
		return n.Group > 0 && len(n.Beams) > 0 && n.Beams[0] != sheet.BeamBegin
	})
}

func anyNote(laid *sheet.Sheet, is func(*sheet.Note) bool) bool {
	for b := range laid.Parts[0].Bars() {
		for _, v := range b.Measure.Voices {
			for _, e := range v.Events {
				if n, ok := e.(*sheet.Note); ok && is(n) {
					return true
				}
			}
		}
	}
	return false
}

// beamingWork says how much a line gives to do: 2 for beams and 1 for ties over
// barlines, added; 0 when it is a row of plain notes, -1 when it cannot be
// written.
func beamingWork(laid *sheet.Sheet) int {
	if laid == nil {
		return -1
	}
	n := 0
	if hasTiesOver(laid) {
		n++
	}
	if anyNote(laid, func(n *sheet.Note) bool { return len(n.Beams) > 0 }) {
		n += 2
	}
	return n
}

// unbarred writes the section's one layer as attacks, held pulses and silence.
func unbarred(s *score.Section) (legend []string, lines []Row) {
	st := rows.Of(s, nil)
	step := st.Finest(0)
	var cells []string
	inner := false // some attack does not begin a group
	after := "."   // what goes on between two cells
	for b := range st.Bars() {
		for _, c := range b.Rows[0].Cells {
			for beat.Time(len(cells))*step < b.Start+c.At {
				cells = append(cells, after)
			}
			sign := "."
			switch {
			case c.Sign.Struck():
				sign, after = "x", "="
				if c.Sign == rows.Inner {
					sign, inner = "o", true
				}
			case c.Sign == rows.Sounding:
				sign, after = "=", "="
			default:
				after = "."
			}
			cells = append(cells, sign)
		}
	}
	for beat.Time(len(cells))*step < s.Length {
		cells = append(cells, after)
	}
	name := s.Grid.Span(step)
	unit, ok := beat.NoteName(name, beat.American)
	if !ok {
		unit = name.String()
	}
	legend = []string{"one sign = one " + unit + ":", "x struck: a group begins", "= held", ". silent"}
	if inner {
		legend = slices.Insert(legend, 2, "o struck inside a group")
	}
	return legend, []Row{{Signs: cells}}
}

// oneBar writes the section's layer as one bar without signature or beams; nil
// when so long a bar cannot be written.
func (m *setter) oneBar(s *score.Section) *sheet.Sheet {
	count, unit := counts(s.Grid.Span(s.Length), 4) // every grid has quarters
	if count > 256 {
		return nil
	}
	c := withoutLayers(s)
	c.Plan = nil
	c.Meter = score.Meter{score.PlainSignature(count, unit)}
	c.LengthRule = score.LengthRule{Kind: score.Bars, N: 1}
	l := *s.Layers[0]
	c.Layers = []*score.Layer{&l}
	laid := layOut(m.settled(c), layout.Options{Marks: layout.MarkNone, Edition: sheet.Play, Spelling: layout.SpellGroup})
	return withoutHints(unbeamed(mapBars(laid, func(_ int, b *sheet.Bar) bool {
		b.NewMeter = false
		return true
	})))
}

// counts says a bar's length in so many parts of a whole note, or in finer ones
// if these do not measure it.
func counts(span beat.Span, parts int) (count, unit int) {
	den := max(span.Den(), int64(parts))
	return int(span.Num() * den / span.Den()), int(den)
}
