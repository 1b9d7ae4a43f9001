package sheet

import (
	"fmt"
	"strings"

	"tieover/score"
)

// Dump writes every bar of the sheet as text, for eyes and goldens: w h q e s
// are whole to 16th, 32 64 128 what is shorter; a dot, "r" before a rest, "~" for
// a tie into a note, ( ) around a beam with "," where its inner levels break
// and < > for hooks, [3:2 ] around a tuplet, then heads with printed signs
// ("?" courtesy), accents, { and } where a slur begins and ends, and marks; grace
// notes before a /, %1 before a bar whose staff 1 has a sign in their place.
func Dump(s *Sheet) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %d bars\n", s.Title, s.Bars)
	for i := range s.Parts {
		p := &s.Parts[i]
		fmt.Fprintf(&b, "\n%s (%s)", p.Name, p.Short)
		for _, staff := range p.Staves {
			fmt.Fprintf(&b, " %c%d", staff.Clef.Sign, staff.Clef.Line)
			if staff.Tuning != nil {
				fmt.Fprintf(&b, " %v", staff.Tuning)
			}
		}
		b.WriteByte('\n')
		for bar := range p.Bars() {
			dumpBar(&b, bar)
		}
	}
	return b.String()
}

func dumpBar(b *strings.Builder, bar *Bar) {
	if bar.Break != NoBreak {
		b.WriteString("  -- new system\n")
	}
	fmt.Fprintf(b, "%4d ", bar.Number)
	if bar.Left == RepeatStart {
		b.WriteString("|: ")
	}
	if bar.NewKey && !bar.Measure.Key.None {
		fmt.Fprintf(b, "key %+d ", bar.Measure.Key.Fifths)
	}
	if bar.NewClef {
		b.WriteString("clef")
		for _, c := range bar.Measure.Clefs {
			fmt.Fprintf(b, " %c%d", c.Sign, c.Line)
		}
		b.WriteByte(' ')
	}
	if bar.NewMeter {
		fmt.Fprintf(b, "%v ", bar.Measure.Signature)
	}
	for k, n := range bar.Repeats {
		if n > 0 {
			fmt.Fprintf(b, "%%%d ", k+1)
		}
	}
	for i := range bar.Measure.Voices {
		if i > 0 {
			b.WriteString("\n        / ")
		}
		b.WriteString(VoiceText(&bar.Measure.Voices[i], true))
	}
	b.WriteString([]string{" |", " ||", " |]", " |:", " :|", " ¦"}[bar.Barline])
	if bar.Rest > 1 {
		fmt.Fprintf(b, " rest for %d", bar.Rest)
	}
	b.WriteByte('\n')
	for _, m := range bar.Marks {
		fmt.Fprintf(b, "       %d.%d", m.Voice+1, m.Before)
		if m.Offset != 0 {
			fmt.Fprintf(b, "+%d", m.Offset)
		}
		fmt.Fprintf(b, " %s\n", m)
	}
}

var markNames = map[MarkKind]string{Rehearsal: "rehearsal", Boxed: "boxed", TempoMark: "tempo", Words: "words", Cue: "cue",
	CycleStart: "bracket(", CycleStop: "bracket)", CycleNumber: "cycle", Grouping: "grouping", GroupSize: "size",
	DynamicMark: "dynamic", HairpinStart: "hairpin(", HairpinStop: "hairpin)", ChordSymbol: "chord", Stroke: "stroke", ScoreBar: "score bar",
	GradualStart: "gradual(", GradualStop: "gradual)", TempoStep: "step", TechniqueMark: "technique",
	RepeatCount: "repeat", InstrumentMark: "instrument"}

// String says what the mark prints.
func (m Mark) String() string {
	text := markNames[m.Kind]
	if m.N != 0 {
		text += fmt.Sprintf(" %d", m.N)
	}
	if m.Text != "" {
		text += fmt.Sprintf(" %q", m.Text)
	}
	if m.Tempo != nil {
		if m.Tempo.Words != "" {
			text += fmt.Sprintf(" %q", m.Tempo.Words)
		}
		text += fmt.Sprintf(" %v=%v", m.Tempo.Beat, m.Tempo.Rate)
	}
	return text
}

// Rhythm writes a voice's values, ties, tuplets and beams.
func Rhythm(v *Voice) string { return VoiceText(v, false) }

// VoiceText writes a voice as Dump does, with or without its heads.
func VoiceText(v *Voice, heads bool) string {
	var b strings.Builder
	if heads && v.As != score.AsNotes {
		fmt.Fprintf(&b, "%s: ", score.WrittenNames()[v.As])
	}
	for i, e := range v.Events {
		n, isNote := e.(*Note)
		tied := isNote && n.TieIn
		if i > 0 && !tied {
			b.WriteByte(' ')
		}
		if tied {
			b.WriteByte('~')
		}
		start, stop, tuplet := TupletEdges(e)
		if start {
			fmt.Fprintf(&b, "[%d:%d ", tuplet.Actual, tuplet.Normal)
		}
		if isNote {
			noteText(&b, v.Events, i, n, heads)
		} else {
			restText(&b, e.(*Rest))
		}
		if stop {
			b.WriteByte(']')
		}
	}
	return b.String()
}

// TupletEdges returns the tuplet that an event is in, nil for none, and whether it is
// the first or the last in it.
func TupletEdges(e Event) (start, stop bool, t *Tuplet) {
	switch e := e.(type) {
	case *Note:
		return e.TupletStart, e.TupletStop, e.Tuplet
	case *Rest:
		return e.TupletStart, e.TupletStop, e.Tuplet
	}
	panic(fmt.Sprintf("sheet: no edges for %T", e))
}

func restText(b *strings.Builder, r *Rest) {
	b.WriteByte('r')
	if r.Hidden {
		b.WriteByte('*')
	}
	if r.Whole {
		b.WriteString("bar")
	} else {
		b.WriteString(r.Value.String())
	}
	if r.Fermata {
		b.WriteByte('@')
	}
}

func noteText(b *strings.Builder, events []Event, i int, n *Note, heads bool) {
	if len(n.Beams) > 0 && (n.Beams[0] == BeamBegin) {
		b.WriteByte('(')
	}
	if heads {
		for _, g := range n.Graces {
			for j := range g.Heads {
				b.WriteString("+"[:min(j, 1)] + g.Heads[j].String())
			}
			b.WriteByte('/')
		}
	}
	b.WriteString(n.Value.String())
	if heads {
		for j := range n.Heads {
			b.WriteByte(":+"[min(j, 1)])
			b.WriteString(n.Heads[j].String())
		}
		if n.Accent {
			b.WriteByte('^')
		}
		if n.Fermata {
			b.WriteByte('@')
		}
		if n.Touch != score.Plain {
			fmt.Fprintf(b, "'%d", n.Touch)
		}
		if n.Slur.Stops {
			b.WriteByte('}')
		}
		if n.Slur.Starts {
			b.WriteByte('{')
		}
		for _, y := range n.Lyrics {
			b.WriteString(lyricText(y))
		}
	}
	for level, beam := range n.Beams {
		switch {
		case beam == HookForward:
			b.WriteByte('>')
		case beam == HookBackward:
			b.WriteByte('<')
		case level > 0 && beam == BeamEnd && n.Beams[0] != BeamEnd:
			b.WriteByte(',')
		}
	}
	if len(n.Beams) > 0 && n.Beams[0] == BeamEnd {
		b.WriteByte(')')
	}
}

// lyricText writes a syllable with the hyphens of its word, and _ where it is
// held on; what holds is "".
func lyricText(y score.Lyric) string {
	text := fmt.Sprintf("%q", y.Text)
	if y.Syllabic == score.WordGoesOn || y.Syllabic == score.WordEnds {
		text = "-" + text
	}
	if y.Syllabic == score.WordBegins || y.Syllabic == score.WordGoesOn {
		text += "-"
	}
	if y.Extend {
		text += "_"
	}
	return text
}
