package musicxml

import (
	"strconv"

	"tieover/layout/sheet"
	"tieover/score"
)

// event writes the elements of one event: grace notes, a note for each head of a
// chord, or one for a rest.
func (e *encoder) event(l *lines, m *sheet.Measure, voice int, event sheet.Event) {
	v := &m.Voices[voice]
	switch event := event.(type) {
	case *sheet.Note:
		e.graces(l, m, v, event)
		for i := range event.Heads {
			e.note(l, m, v, event, i)
		}
	case *sheet.Rest:
		e.rest(l, m, v, event)
	default:
		panic("musicxml: an event that is neither note nor rest")
	}
}

// voiceEnd writes what follows the last event of a voice: the way back to the
// bar's start when another voice follows.
func (e *encoder) voiceEnd(l *lines, m *sheet.Measure, voice int) {
	if voice < len(m.Voices)-1 {
		back(l, m)
	}
}

// back goes back to the bar's start.
func back(l *lines, m *sheet.Measure) {
	l.open("backup")
	l.number("duration", int64(m.Length))
	l.close("backup")
}

// note writes one head of a chord. Beams, tuplet signs, articulations and
// words stand on the first head only, ties and accidentals on each. A small note
// is a cue, which sounds in another part: it has no sound of its own, and its
// tie is a sign only.
func (e *encoder) note(l *lines, m *sheet.Measure, v *sheet.Voice, n *sheet.Note, index int) {
	head, first, slash := &n.Heads[index], index == 0, v.As != score.AsNotes
	l.open("note")
	if v.Small {
		l.empty("cue")
	}
	if !first {
		l.empty("chord")
	}
	if slash {
		e.slash(l, m, v)
	} else {
		e.headPlace(l, m, head)
	}
	l.number("duration", int64(n.Length))
	if !v.Small {
		ties(l, "tie", n)
		e.soundOf(l, m, head)
	}
	l.number("voice", int64(v.Number))
	noteValue(l, n.Value, v.Small)
	accidental(l, head.Accidental)
	timeModification(l, n.Tuplet, n.Value)
	switch {
	case v.As == score.AsSlashes:
		l.leaf("stem", "none")
	case v.Stem != sheet.StemFree && n.Value.Power > 0:
		l.leaf("stem", v.Stem.String())
	}
	if slash {
		l.leaf("notehead", "slash")
	} else {
		e.notehead(l, m, head)
	}
	e.staff(l, v)
	if first {
		beams(l, n)
	}
	notations(l, v, n, first, sharesStaff(m, v))
	if first {
		e.lyrics(l, n)
	}
	l.close("note")
}

func beams(l *lines, n *sheet.Note) {
	for level, b := range n.Beams {
		if b != sheet.NoBeam {
			l.leaf("beam", beamNames[b], "number", strconv.Itoa(level+1))
		}
	}
}

// lyrics writes what each verse begins at the note.
func (e *encoder) lyrics(l *lines, n *sheet.Note) {
	for verse, y := range n.Lyrics {
		if y.Text == "" {
			continue
		}
		l.open("lyric", "number", strconv.Itoa(verse+1))
		l.leaf("syllabic", syllabicNames[y.Syllabic])
		l.leaf("text", e.text("syllable", y.Text))
		if y.Extend {
			l.empty("extend")
		}
		l.close("lyric")
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

// noteValue writes the written note value.
func noteValue(l *lines, v sheet.Value, small bool) {
	if small {
		l.leaf("type", typeNames[v.Power], "size", "cue")
	} else {
		l.leaf("type", typeNames[v.Power])
	}
	for range v.Dots {
		l.empty("dot")
	}
}

// staff says on which of several staves a note is.
func (e *encoder) staff(l *lines, v *sheet.Voice) {
	if len(e.part.Staves) > 1 {
		l.number("staff", int64(v.Staff))
	}
}
