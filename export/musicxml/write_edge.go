package musicxml

import (
	"slices"
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// edgeElements returns the signs at the left of a bar (print, barline,
// attributes) or at its right.
func (e *encoder) edgeElements(k edgeKey) []*etree.Element {
	var made []*etree.Element
	add := func(x *etree.Element) {
		if x != nil {
			made = append(made, x)
		}
	}
	if k.right {
		add(barline(k.barline, k.times))
		return made
	}
	add(e.print(k))
	add(barline(k.barline, 0))
	add(e.attributes(k))
	if k.times > 2 && e.index == 0 {
		add(e.timesWords(k.times))
	}
	return made
}

// print returns the break before a bar. The first bar of the first part also
// makes room for the title and says where bar numbers stand.
func (e *encoder) print(k edgeKey) *etree.Element {
	top := k.first && e.index == 0
	if k.newBreak == sheet.NoBreak && !top {
		return nil
	}
	p := elem("print")
	switch k.newBreak {
	case sheet.NewSystem:
		p.CreateAttr("new-system", "yes")
	case sheet.NewPage:
		p.CreateAttr("new-page", "yes")
	}
	if top {
		p.AddChild(elem("system-layout", leaf("top-system-distance", e.options.tenths(e.titleHeight()))))
		p.AddChild(with(leaf("measure-numbering", "system"), "system", "only-top"))
	}
	return p
}

func barline(b sheet.Barline, times int) *etree.Element {
	switch b {
	case sheet.Double:
		return with(elem("barline", leaf("bar-style", "light-light")), "location", "right")
	case sheet.Final:
		return with(elem("barline", leaf("bar-style", "light-heavy")), "location", "right")
	case sheet.Dashed:
		return with(elem("barline", leaf("bar-style", "dashed")), "location", "right")
	case sheet.RepeatStart:
		return with(elem("barline", leaf("bar-style", "heavy-light"),
			with(elem("repeat"), "direction", "forward")), "location", "left")
	case sheet.RepeatEnd:
		repeat := with(elem("repeat"), "direction", "backward")
		if times > 2 {
			repeat.CreateAttr("times", strconv.Itoa(times))
		}
		return with(elem("barline", leaf("bar-style", "light-heavy"), repeat), "location", "right")
	}
	return nil // a plain barline is not written
}

// timesWords says how often a repeat is played; readers do not print the
// number that the barline itself carries.
func (e *encoder) timesWords(times int) *etree.Element {
	words := with(leaf("words", strconv.Itoa(times)+" times"), "font-style", "normal")
	return e.direction("above", words, 0, 1)
}

// attributes returns what stands at a bar's start: in the first bar all of it,
// later what changes.
func (e *encoder) attributes(k edgeKey) *etree.Element {
	a := elem("attributes")
	if k.first {
		a.AddChild(ticks("divisions", e.divisions()))
	}
	if k.key {
		a.AddChild(keyElement(k.signature.Key))
	}
	if k.meter {
		t := timeElement(k.signature.Signature)
		if k.unprinted {
			t.CreateAttr("print-object", "no")
		}
		a.AddChild(t)
	}
	if k.first && len(e.part.Staves) > 1 {
		a.AddChild(number("staves", len(e.part.Staves)))
		symbol := "brace"
		if e.part.Tablature() {
			symbol = "bracket"
		}
		a.AddChild(with(leaf("part-symbol", symbol), "top-staff", "1", "bottom-staff", strconv.Itoa(len(e.part.Staves))))
	}
	if k.clef {
		e.addClefs(a, k.signature)
	}
	if k.first {
		e.addStaves(a)
	}
	if t := e.transpose(k.signature); t != nil && (k.first || k.instrument) {
		if e.part.Tablature() { // of the staff of notes
			t.CreateAttr("number", "1")
		}
		a.AddChild(t)
	}
	if k.rest > 1 {
		a.AddChild(elem("measure-style", number("multiple-rest", k.rest)))
	}
	e.addStyles(a, k)
	if len(a.Child) == 0 {
		return nil
	}
	return a
}

// addClefs adds the clef of each staff.
func (e *encoder) addClefs(a *etree.Element, m *sheet.Measure) {
	for i := range e.part.Staves {
		c := clefElement(e.part.ClefIn(m, i+1))
		if len(e.part.Staves) > 1 {
			c.CreateAttr("number", strconv.Itoa(i+1))
		}
		a.AddChild(c)
	}
}

// addStaves adds what holds for the whole part.
func (e *encoder) addStaves(a *etree.Element) {
	n := len(e.part.Staves)
	for i, s := range e.part.Staves {
		if s.Lines == 5 && !s.Small && s.Tuning == nil {
			continue
		}
		d := elem("staff-details",
			when(s.Small, leaf("staff-type", "cue")),
			when(s.Lines != 5 || s.Tuning != nil, number("staff-lines", s.Lines)),
			when(s.Small, leaf("staff-size", smallStaff)))
		addStrings(d, s.Tuning)
		if n > 1 {
			d.CreateAttr("number", strconv.Itoa(i+1))
		}
		a.AddChild(d)
	}
}

// smallStaff is the size of a staff that shows another player's rhythm, in
// percent.
const smallStaff = "60"

// transpose says how written pitches become sounding ones in a bar; nil when they
// are the same, and so throughout the part. A part at concert pitch keeps its octaves.
func (e *encoder) transpose(m *sheet.Measure) *etree.Element {
	if m == nil || !slices.ContainsFunc(e.part.All(), func(i *instrument.Instrument) bool { return i.Octave != 0 || i.Chromatic != 0 && !e.part.Concert }) {
		return nil
	}
	i := e.part.InstrumentIn(m)
	diatonic, chromatic := i.Diatonic, i.Chromatic
	if e.part.Concert {
		diatonic, chromatic = 0, 0
	}
	return elem("transpose", number("diatonic", diatonic), number("chromatic", chromatic),
		when(i.Octave != 0, number("octave-change", i.Octave)))
}

// keyElement writes a piece without a key as no sharps and the mode "none", so
// that a reader that transposes invents no signature.
func keyElement(k score.Key) *etree.Element {
	if k.None {
		return elem("key", number("fifths", 0), leaf("mode", "none"))
	}
	return elem("key", number("fifths", k.Fifths), when(k.Mode != "", leaf("mode", k.Mode)))
}

// timeElement writes groups over one note value as one sum, as 3+2+2 over 8,
// and different note values as several fractions.
func timeElement(s score.Signature) *etree.Element {
	t := elem("time")
	for _, term := range s.Terms {
		t.AddChild(leaf("beats", beat.Sum(term.Groups)))
		t.AddChild(number("beat-type", term.Unit))
	}
	return t
}

func clefElement(c instrument.Clef) *etree.Element {
	if c.Sign == 'P' {
		return elem("clef", leaf("sign", "percussion"))
	}
	if c.Sign == instrument.Tab {
		return elem("clef", leaf("sign", "TAB"), number("line", c.Line))
	}
	return elem("clef", leaf("sign", string(rune(c.Sign))), number("line", c.Line),
		when(c.Octave != 0, number("clef-octave-change", c.Octave)))
}
