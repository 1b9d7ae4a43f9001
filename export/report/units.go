package report

import (
	"fmt"
	"math/big"
	"strings"

	"tieover/score/beat"
)

// length says how long t is: "2 eighths" in the given pulse where it is a whole
// number of them, else a part of a whole note.
func (w words) length(t beat.Time, p beat.Pulse) string {
	span := w.s.Grid.Span(t)
	if n, ok := span.Over(p.Span()).IsWhole(); ok {
		return w.counted(n, p)
	}
	return w.part(span)
}

// counted says "1 eighth", "1,009 eighths", "3 triplet eighths".
func (w words) counted(n int64, p beat.Pulse) string {
	return beat.Thousands(big.NewInt(n)) + " " + p.Name(n, w.terms)
}

// part says a length as a note or as a part of a whole note.
func (w words) part(span beat.Span) string {
	if name, ok := beat.NoteName(span, w.terms); ok {
		return article(name)
	}
	if p, ok := triplet(span); ok {
		return article(p.Name(1, w.terms))
	}
	if n, ok := span.IsWhole(); ok {
		return count(int(n), w.whole())
	}
	return fmt.Sprintf("%v of a %s", span, w.whole())
}

func (w words) whole() string {
	if w.terms == beat.British {
		return "semibreve"
	}
	return "whole note"
}

// triplet returns the triplet value of that length, if there is one: two thirds
// of a plain note.
func triplet(span beat.Span) (p beat.Pulse, ok bool) {
	p = beat.Pulse{Base: span.Mul(beat.Of(3, 2)), Actual: 3, Normal: 2}
	_, dots, ok := beat.NoteValue(p.Base)
	return p, ok && dots == 0
}

// unitName names what lengths are counted in, in the plural: "eighths", "triplet
// sixteenths", "20ths of a whole note".
func (w words) unitName(unit beat.Span) string {
	if unit == w.s.Pulse.Span() {
		return w.pulses(w.s.Pulse)
	}
	if _, ok := beat.NoteName(unit, w.terms); ok {
		return w.pulses(beat.Plain(unit))
	}
	if p, ok := triplet(unit); ok {
		return w.pulses(p)
	}
	if unit.Num() == 1 {
		return fmt.Sprintf("%ss of a %s", beat.Ordinal(unit.Den()), w.whole())
	}
	return fmt.Sprintf("units of %v of a %s", unit, w.whole())
}

// both says a length in pulses and, if one sign has it, as a note:
// "2 eighths (a quarter)", "an eighth".
func (w words) both(t beat.Time, p beat.Pulse) string {
	span := w.s.Grid.Span(t)
	name, single := beat.NoteName(span, w.terms)
	n, whole := span.Over(p.Span()).IsWhole()
	switch {
	case single && whole && n == 1 && !p.IsTuplet():
		return article(name)
	case single && whole:
		return fmt.Sprintf("%s (%s)", w.counted(n, p), article(name))
	}
	return w.length(t, p)
}

func article(name string) string {
	switch {
	case strings.HasPrefix(name, "eighth"):
		return "an " + name
	case strings.HasSuffix(name, "half"), strings.HasSuffix(name, "whole"):
		return "a " + name + " note"
	}
	return "a " + name
}

// signed writes a number of pulses with its sign: "+2", "-1", "0".
func (w words) signed(t beat.Time, p beat.Pulse) string {
	s := w.number(t, p)
	if t > 0 {
		return "+" + s
	}
	return s
}

// number writes a length as a bare number of pulses, a mixed one if need be.
func (w words) number(t beat.Time, p beat.Pulse) string {
	return w.s.Grid.Span(t).Over(p.Span()).Mixed()
}

// pulses names the pulse in the plural: "eighths", "triplet eighths".
func (w words) pulses(p beat.Pulse) string { return p.Name(2, w.terms) }
