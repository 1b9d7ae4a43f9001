package edit

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"tieover/layout/sheet"
)

// longestFold bounds the bars of a period that Fold compares.
const longestFold = 4096

// Folds are the repetitions of whole realignment periods that a sheet holds.
type Folds []fold

// fold is a period of length bars from bar index at (from 0) that is played
// several times. Labels are those of its first and last pass; closing is the
// label at its very end, where the piece ends there.
type fold struct {
	at, length, times    int
	section              int
	first, last, closing string
}

// Fold writes exact repetitions of whole realignment periods as one period
// with repeat barlines and a count: FindFolds, applied to the sheet itself.
func Fold(s *sheet.Sheet) *sheet.Sheet { return FindFolds(s).Apply(s) }

// FindFolds finds what can be folded. A period is folded only if every part has the
// same bars in it, no tie, beam, slur, hairpin or gradual tempo crosses its edges, all
// passes are in one section and begin with realignments of one kind, natural or forced,
// and the tempo, the dynamics, the groupings and the ways of playing in force are the same
// when each of them begins. Only the labels may differ. A section that is repeated as a
// whole is left as it is: repeats are not nested.
func FindFolds(s *sheet.Sheet) Folds {
	f := finder{force: map[inForce]string{}, repeated: map[int]bool{}}
	for range s.Parts {
		f.slurs = append(f.slurs, openSlurs{})
	}
	for row := range sheet.Together(s.Parts) {
		if row[0].Realigned {
			f.finish()
			f.begin(row)
		}
		f.take(row)
	}
	f.finish()
	return slices.DeleteFunc(f.folds, func(one fold) bool { return f.repeated[one.section] })
}

// inForce names what holds until it is replaced: the tempo, or the dynamics, the
// grouping or a technique of one voice of a part.
type inForce struct {
	kind        sheet.MarkKind
	part, voice int
	matter      int // of a technique
}

// finder compares each period with the one before.
type finder struct {
	folds       Folds
	before, now passage
	index       int          // of the current bar, from 0
	tied        bool         // something leads over the barline before
	lasting     int          // hairpins and gradual tempos that are open
	slurs       []openSlurs  // of each part
	repeated    map[int]bool // sections that end with a repeat
	force       map[inForce]string
}

// passage is what is compared of one period, bar by bar and part by part.
type passage struct {
	at, section    int
	measures       []*sheet.Measure
	marks          []string
	force          map[inForce]string // as it begins
	label, closing string
	ok             bool // it begins at a realignment and nothing leads into it
	forced         bool // that a cut makes
	opens          bool // it begins its section, which is a realignment of either kind
}

func (p *passage) equal(q *passage) bool {
	return p.ok && q.ok && p.section == q.section && (p.opens || p.forced == q.forced) && maps.Equal(p.force, q.force) &&
		slices.EqualFunc(p.measures, q.measures, sheet.SameMeasure) && slices.Equal(p.marks, q.marks)
}

// begin starts a passage with the current row of bars; what is printed at its
// first moment is compared as what is in force there.
func (f *finder) begin(row []*sheet.Bar) {
	f.now = passage{at: f.index, section: row[0].Section, ok: !f.tied && f.lasting == 0, forced: row[0].Forced}
	f.now.opens = f.index == 0 || f.before.section != f.now.section
	for i, b := range row {
		for _, m := range b.Marks {
			switch {
			case !isAtStart(&m):
			case m.Kind == sheet.Rehearsal && i == 0:
				f.now.label = m.Text
			default:
				f.hold(i, &m)
			}
		}
	}
	f.now.force = maps.Clone(f.force)
}

// isAtStart reports whether a mark is at the bar's first moment.
func isAtStart(m *sheet.Mark) bool { return m.Before == 0 && m.Offset == 0 }

// hold remembers what a mark puts in force and reports whether it did.
func (f *finder) hold(part int, m *sheet.Mark) bool {
	switch m.Kind {
	case sheet.TempoMark, sheet.TempoStep:
		f.force[inForce{kind: sheet.TempoMark}] = m.String()
	case sheet.DynamicMark, sheet.Grouping:
		f.force[inForce{kind: m.Kind, part: part, voice: m.Voice}] = m.Text
	case sheet.TechniqueMark:
		f.force[inForce{m.Kind, part, m.Voice, int(m.Technique.Matter)}] = m.Technique.InForce()
	default:
		return false
	}
	return true
}

// take adds a row of bars, one a part, to the current passage.
func (f *finder) take(row []*sheet.Bar) {
	p := &f.now
	first := f.index == p.at
	f.tied = false
	for i, b := range row {
		f.slurs[i].read(b.Measure)
		f.tied = f.tied || sheet.LeadsOut(b.Measure) || len(f.slurs[i]) > 0
		if b.Barline == sheet.RepeatEnd {
			f.repeated[b.Section] = true
		}
		p.ok = p.ok && b.Section == p.section && b.Left == sheet.Plain && b.Barline != sheet.RepeatEnd && (first || !b.NewMeter && !b.NewKey && !b.NewClef && !b.NewInstrument)
		p.measures = append(p.measures, b.Measure)
		for k := range b.Marks {
			f.mark(i, b, &b.Marks[k], first)
		}
		if !first {
			p.marks = append(p.marks, fmt.Sprint(b.Repeats))
		}
		p.marks = append(p.marks, "|")
	}
	if len(p.measures) > longestFold*len(row) {
		p.ok, p.measures, p.marks = false, p.measures[:0], p.marks[:0]
	}
	f.index++
}

// mark adds one mark to the passage; labels at its edges may differ.
func (f *finder) mark(part int, b *sheet.Bar, m *sheet.Mark, first bool) {
	switch {
	case m.Kind == sheet.HairpinStart: // the loudness after it is another
		f.lasting++
		f.force[inForce{kind: sheet.DynamicMark, part: part, voice: m.Voice}] += "<"
	case m.Kind == sheet.GradualStart:
		f.lasting++
	case m.Kind == sheet.HairpinStop || m.Kind == sheet.GradualStop:
		f.lasting--
	case first && isAtStart(m) && (f.hold(part, m) || m.Kind == sheet.Rehearsal && part == 0):
		return
	case m.Kind == sheet.Boxed && m.Before == len(b.Measure.Voices[m.Voice].Events):
		f.now.closing = m.Text
		return
	}
	f.hold(part, m)
	f.now.marks = append(f.now.marks, place(m)+m.String())
}

// place is where in the bar a mark is.
func place(m *sheet.Mark) string { return fmt.Sprintf("%d.%d+%d ", m.Voice, m.Before, m.Offset) }

// finish ends the current passage and compares it.
func (f *finder) finish() {
	f.now.ok = f.now.ok && !f.tied && f.lasting == 0
	last := len(f.folds) - 1
	switch {
	case !f.before.equal(&f.now):
	case last >= 0 && f.folds[last].end() == f.now.at:
		f.folds[last].times++
		f.folds[last].last, f.folds[last].closing = f.now.label, f.now.closing
	default:
		f.folds = append(f.folds, fold{f.before.at, f.now.at - f.before.at, 2, f.before.section, f.before.label, f.now.label, f.now.closing})
	}
	f.before = f.now
}

// end is the index of the first bar after all passes.
func (f *fold) end() int { return f.at + f.length*f.times }

// label is the box over a folded period: "B–B2", "B1–B3 cut", and "start–A2"
// where its first pass has no label of its own.
func (f *fold) label() string {
	first := f.first
	switch {
	case f.last == "":
		return first
	case first == "":
		first = "start"
	}
	if strings.HasSuffix(f.last, cut) {
		first = strings.TrimSuffix(first, cut)
	}
	return first + "–" + f.last
}

// cut ends the label of a forced realignment.
const cut = " cut"

// Apply writes a sheet with the same bars as the one that the folds were found
// in, the repetitions left out. Bar numbers stay those of the piece written out.
func (f Folds) Apply(s *sheet.Sheet) *sheet.Sheet {
	if len(f) == 0 {
		return s
	}
	out := *s
	out.Parts = make([]sheet.Part, len(s.Parts))
	for _, fold := range f {
		out.Bars -= fold.length * (fold.times - 1)
	}
	for i := range s.Parts {
		whole := s.Parts[i].Walk
		out.Parts[i] = sheet.NewPart(s.Parts[i], func(yield func(*sheet.Bar) bool) { f.walk(whole, i == 0, yield) })
	}
	return &out
}

// walk yields the bars of a part, the repetitions left out. The top part has
// the labels.
func (f Folds) walk(whole func(func(*sheet.Bar) bool), top bool, yield func(*sheet.Bar) bool) {
	index, next := -1, 0
	for b := range whole {
		index++
		for next < len(f) && index >= f[next].end() {
			next++
		}
		switch {
		case next == len(f) || index < f[next].at:
			if !yield(b) {
				return
			}
		case index < f[next].at+f[next].length:
			if !yield(f[next].bar(b, index, top)) {
				return
			}
		}
	}
}

// bar is a bar of the pass that is written.
func (f *fold) bar(b *sheet.Bar, index int, top bool) *sheet.Bar {
	bar := *b
	bar.Marks = slices.Clone(b.Marks)
	left := f.at + f.length - index // bars up to the repeat
	bar.Rest = min(bar.Rest, left)
	if index == f.at {
		bar.Left, bar.Times = sheet.RepeatStart, f.times
		if top && f.label() != "" {
			bar.Marks = slices.DeleteFunc(bar.Marks, func(m sheet.Mark) bool { return m.Kind == sheet.Rehearsal })
			bar.Marks = slices.Insert(bar.Marks, 0, sheet.Mark{Kind: sheet.Rehearsal, Text: f.label()})
		}
	}
	if left == 1 {
		bar.Barline, bar.Times = sheet.RepeatEnd, f.times
		if top && f.closing != "" {
			bar.Marks = append(bar.Marks, sheet.Mark{Kind: sheet.Boxed, Before: len(bar.Measure.Voices[0].Events), Text: f.closing})
			sheet.SortMarks(bar.Marks)
		}
	}
	return &bar
}
