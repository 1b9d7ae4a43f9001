package edit

import (
	"fmt"
	"slices"

	"tieover/layout/sheet"
	"tieover/score/instrument"
	"tieover/score/source"
)

// Excerpt keeps the bars numbered from..to and the named parts (all when nil)
// of a sheet. What reaches over its edges is cut: ties, brackets, hairpins and
// beams end with it, and a repeat with one of its signs outside is left out. The first
// bar states meter, key and tempo again, and each voice its dynamic. A part that there
// is not, or an excerpt without bars, is a problem without a position.
func Excerpt(s *sheet.Sheet, from, to int, parts []string) (*sheet.Sheet, source.Problems) {
	var problems source.Problems
	out := *s
	out.Parts, out.Bars = nil, 0
	for _, name := range parts {
		if !slices.ContainsFunc(s.Parts, func(p sheet.Part) bool { return isNamed(&p, name) }) {
			problems.Add(source.Pos{}, fmt.Sprintf("there is no part %q to excerpt", name), "name parts or layers of the spec")
		}
	}
	kept := slices.DeleteFunc(slices.Clone(s.Parts), func(p sheet.Part) bool {
		return parts != nil && !slices.ContainsFunc(parts, func(name string) bool { return isNamed(&p, name) })
	})
	top, chords := &s.Parts[0], &s.Parts[sheet.ChordsOn(s.Parts)]
	for i, p := range kept {
		var lost signs
		if i == 0 && p.Name != top.Name {
			lost.system = top
		}
		if i == sheet.ChordsOn(kept) && p.Name != chords.Name && (p.Pitched() || !chords.Pitched()) {
			lost.chords = chords
		}
		cut := excerptOf(p, from, to, lost)
		bars := 0
		var on []*instrument.Instrument
		for b := range cut.Bars() {
			bars++
			if !slices.Contains(on, b.Measure.Instrument) {
				on = append(on, b.Measure.Instrument)
			}
		}
		if p.Doubles() && bars > 0 {
			cut.Instrument, cut.Instruments = on[0], on
		}
		out.Bars = max(out.Bars, bars)
		out.Parts = append(out.Parts, cut)
	}
	if out.Bars == 0 && len(problems) == 0 {
		problems.Add(source.Pos{}, fmt.Sprintf("bars %d to %d are not in the piece, which has %d", from, to, s.Bars), "choose bars of the piece")
	}
	if len(problems) > 0 {
		return nil, problems
	}
	return &out, nil
}

// isNamed reports whether a name is the part's or one of its layers'.
func isNamed(p *sheet.Part, name string) bool {
	return p.Name == name || slices.Contains(p.Layers, name)
}

// signs are the parts left out whose signs for everybody, and whose chord symbols,
// a part takes over; nil for none.
type signs struct{ system, chords *sheet.Part }

// excerptOf cuts one part, which takes over the lost signs.
func excerptOf(p sheet.Part, from, to int, lost signs) sheet.Part {
	parts := []sheet.Part{p}
	for _, other := range []*sheet.Part{lost.system, lost.chords} {
		if other != nil {
			parts = append(parts, *other)
		}
	}
	kept := repeatsWithin(&p, from, to)
	return sheet.NewPart(p, func(yield func(*sheet.Bar) bool) {
		cut := cutter{open: map[line]bool{}, slurs: openSlurs{}}
		force := reminders{dynamics: map[int]string{}}
		for row := range sheet.Together(parts) {
			bar := row[0]
			if bar.Number > to {
				break
			}
			b := *bar
			b.Marks = slices.Clone(bar.Marks)
			others := row[1:]
			if lost.system != nil {
				b.Marks = append(marksOf(others[0], sheet.Rehearsal, sheet.Boxed, sheet.TempoMark, sheet.GradualStart, sheet.GradualStop, sheet.TempoStep, sheet.Words, sheet.ScoreBar), b.Marks...)
				others = others[1:]
			}
			if lost.chords != nil {
				for _, m := range marksOf(others[0], sheet.ChordSymbol) {
					if m.Text = m.Sounding; p.Chord != nil {
						m.Text = p.Chord(&b, m.Sounding)
					}
					b.Marks = append(b.Marks, m)
				}
			}
			if bar.Number < from {
				force.read(&b)
				cut.before(&b, from)
				cut.slurs.read(b.Measure)
				continue
			}
			cut.rest(&b, to)
			cut.system(&b, to)
			if !kept[b.Number] {
				withoutRepeat(&b)
			}
			if p.Doubles() {
				force.instrument(&b)
			}
			force.restate(&b)
			cut.repeats(&b)
			cut.left(&b)
			cut.right(&b, to)
			sheet.SortMarks(b.Marks)
			if !yield(&b) {
				return
			}
		}
	})
}

// repeatsWithin lists the bars with a repeat sign whose other one is in the
// excerpt as well.
func repeatsWithin(p *sheet.Part, from, to int) map[int]bool {
	kept := map[int]bool{}
	start := -1
	for b := range p.Bars() {
		if b.Left == sheet.RepeatStart {
			start = b.Number
		}
		if b.Barline != sheet.RepeatEnd {
			continue
		}
		if start >= from && b.Number <= to {
			kept[start], kept[b.Number] = true, true
		}
	}
	return kept
}

// withoutRepeat takes the repeat signs off a bar.
func withoutRepeat(b *sheet.Bar) {
	if b.Left == sheet.RepeatStart {
		b.Left, b.Times = sheet.Plain, 0
	}
	if b.Barline == sheet.RepeatEnd {
		b.Barline, b.Times = sheet.Double, 0
	}
}

// marksOf copies the marks of some kinds; their places count from the start of the bar's
// first event, which every part has.
func marksOf(b *sheet.Bar, kinds ...sheet.MarkKind) []sheet.Mark {
	var marks []sheet.Mark
	for _, m := range b.Marks {
		if slices.Contains(kinds, m.Kind) {
			events := b.Measure.Voices[m.Voice].Events
			at := b.Measure.Length
			if m.Before < len(events) {
				at = events[m.Before].At()
			}
			m.Offset += at
			m.Voice, m.Before = 0, 0
			marks = append(marks, m)
		}
	}
	return marks
}
