package musicxml

import (
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// voicePlace is where a voice stands, as far as its marks depend on it.
type voicePlace struct {
	staff, number int
	below         bool // the lower of two voices on a staff
}

func placeOf(v *sheet.Voice) voicePlace {
	return voicePlace{v.Staff, v.Number, v.Stem == sheet.StemDown}
}

// markElements returns what a mark is written as; n is its number in digits,
// or what stands for them in a template.
func (e *encoder) markElements(m *sheet.Measure, mark *sheet.Mark, n string) []*etree.Element {
	v := placeOf(&m.Voices[mark.Voice])
	side := "above"
	if v.below {
		side = "below"
	}
	one := func(placement string, sign *etree.Element) []*etree.Element {
		return []*etree.Element{e.direction(placement, sign, mark.Offset, v.staff)}
	}
	switch mark.Kind {
	case sheet.Rehearsal:
		sign := with(leaf("rehearsal", e.text("rehearsal mark", mark.Text)), "font-weight", "bold", "enclosure", "rectangle")
		return []*etree.Element{e.onTop(one("above", sign)[0])}
	case sheet.Boxed:
		return one("above", with(e.words(mark.Text), "font-style", "normal", "font-weight", "bold", "enclosure", "rectangle"))
	case sheet.TempoMark:
		return e.tempo(mark, v)
	case sheet.GradualStart:
		return []*etree.Element{e.gradual(mark, v)}
	case sheet.GradualStop:
		return []*etree.Element{e.onTop(one("above", dashes("stop"))[0])}
	case sheet.TempoStep:
		return []*etree.Element{playedAt(mark.Tempo, mark.Offset)}
	case sheet.Words:
		return one("above", with(e.words(mark.Text), "font-style", "italic"))
	case sheet.TechniqueMark:
		return []*etree.Element{e.technique(mark, v)}
	case sheet.InstrumentMark:
		return []*etree.Element{e.takeUp(mark, v)}
	case sheet.Cue, sheet.ScoreBar:
		return one("above", with(e.words(mark.Text), "font-style", "normal", "font-size", "8"))
	case sheet.Grouping:
		return one(side, with(e.words(mark.Text), "font-style", "normal", "font-size", "8"))
	case sheet.GroupSize:
		return one(side, with(leaf("words", cornered(n, mark.Text)), "font-style", "normal", "font-size", "8"))
	case sheet.CycleNumber:
		if mark.Text == "()" {
			return one(side, with(leaf("words", "("+n+")"), "font-style", "normal", "font-size", "8"))
		}
		// Bold, for the grouping stands beside it.
		return one(side, with(leaf("words", n), "font-style", "normal", "font-size", "8", "font-weight", "bold"))
	case sheet.RepeatCount:
		return one("above", with(leaf("words", "("+n+")"), "font-style", "normal", "font-size", "8"))
	case sheet.CycleStart:
		return one(side, bracket("start", v))
	case sheet.CycleStop:
		return one(side, bracket("stop", v))
	case sheet.DynamicMark:
		return []*etree.Element{e.dynamic(mark, v)}
	case sheet.HairpinStart, sheet.HairpinStop:
		return one("below", wedge(mark, v))
	case sheet.ChordSymbol:
		return []*etree.Element{e.chordSymbol(mark, v)}
	case sheet.Stroke:
		return stroke(mark.Offset)
	}
	panic("musicxml: a mark of unknown kind " + strconv.Itoa(int(mark.Kind)))
}

// cornered writes the size of a group, with a corner where a barline cuts it: on
// the left of its first half, on the right of its second.
func cornered(n, half string) string {
	switch half {
	case sheet.GoesOn:
		return "⌜" + n
	case sheet.GoneOn:
		return n + "⌝"
	}
	return n
}

func (e *encoder) words(text string) *etree.Element { return leaf("words", e.text("words", text)) }

// direction wraps one sign: each has a direction of its own, since readers mix
// up signs that share one. The offset is from where the direction stands.
func (e *encoder) direction(placement string, sign *etree.Element, offset beat.Time, staff int) *etree.Element {
	return with(elem("direction", elem("direction-type", sign),
		when(offset != 0, ticks("offset", offset)), number("staff", staff)), "placement", placement)
}

// onTop says that a sign in the first of several parts stands for all of them.
func (e *encoder) onTop(direction *etree.Element) *etree.Element {
	if e.index == 0 && len(e.sheet.Parts) > 1 {
		direction.CreateAttr("system", "only-top")
	}
	return direction
}

// bracket is one end of the line over a cycle. Its number is the voice's, so
// lines of different voices never mix.
func bracket(end string, v voicePlace) *etree.Element {
	hook := "down"
	if v.below {
		hook = "up"
	}
	return with(elem("bracket"), "type", end, "number", strconv.Itoa(v.number), "line-end", hook, "line-type", "solid")
}

func wedge(mark *sheet.Mark, v voicePlace) *etree.Element {
	kind := "stop"
	if mark.Kind == sheet.HairpinStart {
		kind = map[int]string{1: "crescendo", 2: "diminuendo"}[mark.N]
	}
	return with(elem("wedge"), "type", kind, "number", strconv.Itoa(v.number))
}

// stroke is a dashed barline inside the bar. A barline has no offset, so time
// is moved to its moment and back when that is inside a note.
func stroke(offset beat.Time) []*etree.Element {
	line := with(elem("barline", leaf("bar-style", "dashed")), "location", "middle")
	if offset == 0 {
		return []*etree.Element{line}
	}
	return []*etree.Element{
		elem("forward", ticks("duration", offset)),
		line,
		elem("backup", ticks("duration", offset)),
	}
}

// dynamics are those that the standard has an element for.
var dynamics = map[string]bool{
	"p": true, "pp": true, "ppp": true, "pppp": true, "ppppp": true, "pppppp": true,
	"f": true, "ff": true, "fff": true, "ffff": true, "fffff": true, "ffffff": true,
	"mp": true, "mf": true, "sf": true, "sfp": true, "sfpp": true, "fp": true, "rf": true,
	"rfz": true, "sfz": true, "sffz": true, "fz": true, "n": true, "pf": true, "sfzp": true,
}

func (e *encoder) dynamic(mark *sheet.Mark, v voicePlace) *etree.Element {
	sign := leaf("other-dynamics", e.text("dynamic", mark.Text))
	if dynamics[mark.Text] {
		sign = elem(mark.Text)
	}
	d := e.direction("below", elem("dynamics", sign), mark.Offset, v.staff)
	if v, ok := score.Velocity(mark.Text); ok {
		d.AddChild(with(elem("sound"), "dynamics", beat.Of(100*int64(v), score.Forte).Rounded(2)))
	}
	return d
}
