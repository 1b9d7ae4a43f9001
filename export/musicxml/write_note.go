package musicxml

import (
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// event returns the elements of one event: grace notes, a note for each head of a
// chord, or one for a rest.
func (e *encoder) event(m *sheet.Measure, voice int, event sheet.Event) []*etree.Element {
	v := &m.Voices[voice]
	switch event := event.(type) {
	case *sheet.Note:
		notes := e.graces(v, event)
		for i := range event.Heads {
			notes = append(notes, e.note(m, v, event, i))
		}
		return notes
	case *sheet.Rest:
		return []*etree.Element{e.rest(m, v, event)}
	}
	panic("musicxml: an event that is neither note nor rest")
}

// voiceEnd returns what follows the last event of a voice: the way back to the
// bar's start when another voice follows.
func (e *encoder) voiceEnd(m *sheet.Measure, voice int) []*etree.Element {
	if voice == len(m.Voices)-1 {
		return nil
	}
	return []*etree.Element{elem("backup", ticks("duration", m.Length))}
}

// note returns one head of a chord. Beams, tuplet signs, articulations and
// words stand on the first head only, ties and accidentals on each. A small note
// is a cue, which sounds in another part: it has no sound of its own, and its
// tie is a sign only.
func (e *encoder) note(m *sheet.Measure, v *sheet.Voice, n *sheet.Note, index int) *etree.Element {
	head, first, slash := &n.Heads[index], index == 0, v.As != score.AsNotes
	place := e.headPlace
	if slash {
		place = func(*sheet.Head) *etree.Element { return e.slash(m, v) }
	}
	note := elem("note", when(v.Small, elem("cue")), when(!first, elem("chord")), place(head), ticks("duration", n.Length))
	if n.TieIn && !v.Small {
		note.AddChild(with(elem("tie"), "type", "stop"))
	}
	if n.TieOut && !v.Small {
		note.AddChild(with(elem("tie"), "type", "start"))
	}
	if head.Step == 0 && !v.Small {
		note.AddChild(with(elem("instrument"), "id", instrumentID(e.index, max(1, head.Drum))))
	}
	note.AddChild(number("voice", v.Number))
	addValue(note, n.Value, v.Small)
	if a := accidental(head.Accidental); a != nil {
		note.AddChild(a)
	}
	if n.Tuplet != nil {
		note.AddChild(timeModification(n.Tuplet, n.Value))
	}
	switch {
	case v.As == score.AsSlashes:
		note.AddChild(leaf("stem", "none"))
	case v.Stem != sheet.StemFree && n.Value.Power > 0:
		note.AddChild(leaf("stem", v.Stem.String()))
	}
	if slash {
		note.AddChild(leaf("notehead", "slash"))
	} else if h := e.notehead(head, n.Touch); h != nil {
		note.AddChild(h)
	}
	e.addStaff(note, v)
	if first {
		addBeams(note, n)
	}
	if notations := e.notations(v, n, first, sharesStaff(m, v)); len(notations.Child) > 0 {
		note.AddChild(notations)
	}
	if first {
		e.addLyrics(note, n)
	}
	return note
}

func addBeams(note *etree.Element, n *sheet.Note) {
	for level, b := range n.Beams {
		if b != sheet.NoBeam {
			note.AddChild(with(leaf("beam", beamNames[b]), "number", strconv.Itoa(level+1)))
		}
	}
}

// addLyrics adds what each verse begins at the note.
func (e *encoder) addLyrics(note *etree.Element, n *sheet.Note) {
	for verse, y := range n.Lyrics {
		if y.Text == "" {
			continue
		}
		lyric := elem("lyric", leaf("syllabic", syllabicNames[y.Syllabic]), leaf("text", e.text("syllable", y.Text)), when(y.Extend, elem("extend")))
		note.AddChild(with(lyric, "number", strconv.Itoa(verse+1)))
	}
}

var syllabicNames = [...]string{
	score.WholeWord:  "single",
	score.WordBegins: "begin",
	score.WordGoesOn: "middle",
	score.WordEnds:   "end",
}

var beamNames = [...]string{
	sheet.BeamBegin:    "begin",
	sheet.BeamContinue: "continue",
	sheet.BeamEnd:      "end",
	sheet.HookForward:  "forward hook",
	sheet.HookBackward: "backward hook",
}

// headPlace returns the pitch of a head, or where an unpitched one stands.
func (e *encoder) headPlace(head *sheet.Head) *etree.Element {
	if head.Step != 0 {
		return elem("pitch",
			leaf("step", string(rune(head.Step))),
			when(head.Alter != 0, number("alter", int(head.Alter))),
			number("octave", int(head.Octave)))
	}
	drum := e.drum(head)
	return elem("unpitched", leaf("display-step", string(rune(drum.Step))), number("display-octave", drum.Octave))
}

// drum returns the sound of an unpitched head; a bare one has the
// instrument's first.
func (e *encoder) drum(head *sheet.Head) *instrument.Drum {
	return &e.part.Instrument.Drums[max(1, head.Drum)-1]
}

// notehead returns the shape of a head; nil for the ordinary one.
func (e *encoder) notehead(head *sheet.Head, touch score.Touch) *etree.Element {
	shape := instrument.Normal
	if head.Step == 0 {
		shape = e.drum(head).Head
	}
	if shape == instrument.Normal && !touch.Has(score.Ghost) {
		return nil
	}
	h := leaf("notehead", headNames[shape])
	if touch.Has(score.Ghost) {
		h.CreateAttr("parentheses", "yes")
	}
	return h
}

var headNames = [...]string{
	instrument.Normal:      "normal",
	instrument.Cross:       "x",
	instrument.Diamond:     "diamond",
	instrument.Triangle:    "triangle",
	instrument.CircleCross: "circle-x",
}

// strokes are those of a roll through a stem.
const strokes = 3

// notations returns ties, tuplet signs, ornaments and articulations; without
// children if there are none.
func (e *encoder) notations(v *sheet.Voice, n *sheet.Note, first, shared bool) *etree.Element {
	notations := elem("notations")
	if n.TieIn {
		notations.AddChild(with(elem("tied"), "type", "stop"))
	}
	if n.TieOut {
		notations.AddChild(with(elem("tied"), "type", "start"))
	}
	if !first {
		return notations
	}
	addSlurs(notations, v, n, shared)
	addTuplet(notations, n.Tuplet, n.TupletStart, n.TupletStop)
	if len(n.Graces) > 0 && n.Heads[0].Step != 0 {
		notations.AddChild(graceSlur("stop"))
	}
	if n.Touch.Has(score.Rolled) {
		notations.AddChild(elem("ornaments", when(n.Touch.Has(sheet.Stroked), with(number("tremolo", strokes), "type", "single")),
			when(n.Touch.Has(score.Trill), with(elem("trill-mark"), "placement", outside(v)))))
	}
	if signs := articulated(v, n, shared); len(signs.Child) > 0 {
		notations.AddChild(signs)
	}
	addFermata(notations, v, n.Fermata)
	return notations
}

// addFermata adds the sign, upside down in the lower voice of a staff.
func addFermata(notations *etree.Element, v *sheet.Voice, held bool) {
	if held {
		kind := "upright"
		if v.Stem == sheet.StemDown {
			kind = "inverted"
		}
		notations.AddChild(with(elem("fermata"), "type", kind))
	}
}

// articulated returns the accent and the touches. Accents stand above, in a voice
// with stems down below; dots and dashes at the head, which the reader finds, but
// at the stem where voices share the staff, and beside an accent where that is.
func articulated(v *sheet.Voice, n *sheet.Note, shared bool) *etree.Element {
	side, kind := outside(v), "up"
	if v.Stem == sheet.StemDown {
		kind = "down"
	}
	signs := elem("articulations")
	touch := n.Touch
	if n.Accent {
		touch |= score.Accented
	}
	for _, one := range touch.Each() {
		name := articulationNames[one]
		switch {
		case name == "":
		case one == score.Marcato:
			signs.AddChild(with(elem(name), "placement", side, "type", kind))
		case touch.Has(score.Accented|score.Marcato) || shared:
			signs.AddChild(with(elem(name), "placement", side))
		default:
			signs.AddChild(elem(name))
		}
	}
	return signs
}

// outside is the side of a voice: above, or below where its stems go down.
func outside(v *sheet.Voice) string {
	if v.Stem == sheet.StemDown {
		return "below"
	}
	return "above"
}

// articulationNames are those of touches that are articulations.
var articulationNames = map[score.Touch]string{
	score.Accented: "accent",
	score.Marcato:  "strong-accent",
	score.Staccato: "staccato",
	score.Tenuto:   "tenuto",
}

// addValue adds the written note value.
func addValue(note *etree.Element, v sheet.Value, small bool) {
	t := leaf("type", typeNames[v.Power])
	if small {
		t.CreateAttr("size", "cue")
	}
	note.AddChild(t)
	for range v.Dots {
		note.AddChild(elem("dot"))
	}
}

func (e *encoder) addStaff(note *etree.Element, v *sheet.Voice) {
	if len(e.part.Staves) > 1 {
		note.AddChild(number("staff", v.Staff))
	}
}

func accidental(a sheet.Accidental) *etree.Element {
	sign := a &^ sheet.Courtesy
	if sign == sheet.NoSign {
		return nil
	}
	made := leaf("accidental", accidentalNames[sign])
	if a&sheet.Courtesy != 0 {
		with(made, "cautionary", "yes", "parentheses", "yes")
	}
	return made
}

var accidentalNames = [...]string{
	sheet.DoubleFlat:  "flat-flat",
	sheet.Flat:        "flat",
	sheet.Natural:     "natural",
	sheet.Sharp:       "sharp",
	sheet.DoubleSharp: "double-sharp",
}
