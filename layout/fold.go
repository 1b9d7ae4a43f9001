package layout

import (
	"slices"
	"strings"
)

// longestFold bounds the bars of a period that Fold compares.
const longestFold = 4096

// Fold writes exact repetitions of whole realignment periods as one period
// with repeat barlines and a count. A period is folded only if every part has
// the same bars in it and no tie or beam crosses its edges; texts, tempi and
// dynamics must agree too, only the labels may differ: the first and the last
// of them are kept. Bar numbers stay those of the piece written out.
func Fold(s *Sheet) *Sheet {
	folds := findFolds(s)
	if len(folds) == 0 {
		return s
	}
	out := *s
	out.Parts = make([]Part, len(s.Parts))
	for _, f := range folds {
		out.Bars -= f.length * (f.times - 1)
	}
	for i := range s.Parts {
		whole := s.Parts[i].bars
		out.Parts[i] = NewPart(s.Parts[i], func(yield func(*Bar) bool) { folded(whole, folds, yield) })
	}
	return &out
}

// fold is a period of length bars from bar index at (from 0) that is played
// several times. Labels are those of its first and last pass.
type fold struct {
	at, length, times int
	label             string
}

// passage is what is compared of one period, bar by bar and part by part.
type passage struct {
	at       int
	measures []*Measure
	marks    []string
	label    string
	ok       bool // it begins at a realignment and nothing leads into it
}

func findFolds(s *Sheet) []fold {
	var folds []fold
	var before, now passage
	index := 0
	tied := false // something leads over the barline before
	finish := func(clean bool) {
		now.ok = now.ok && clean
		same := before.ok && now.ok && slices.Equal(before.measures, now.measures) && slices.Equal(before.marks, now.marks)
		last := len(folds) - 1
		switch {
		case !same:
		case last >= 0 && folds[last].at+folds[last].length*folds[last].times == now.at:
			folds[last].times++
			folds[last].label = joinLabels(folds[last].label, now.label)
		default:
			folds = append(folds, fold{before.at, now.at - before.at, 2, joinLabels(before.label, now.label)})
		}
		before = now
	}
	for row := range Together(s.Parts) {
		if row[0].Realigned {
			finish(!tied)
			now = passage{at: index, ok: !tied}
		}
		if len(now.measures) > longestFold*len(row) {
			now.ok = false
		}
		tied = false
		for i, b := range row {
			tied = tied || leadsOut(b.Measure)
			if now.ok {
				now.measures = append(now.measures, b.Measure)
				now.marks = append(now.marks, now.marksOf(b, i == 0)...)
			}
			now.ok = now.ok && b.Left == Plain && b.Barline != RepeatEnd && (index == now.at || !b.NewMeter && !b.NewKey)
		}
		index++
	}
	finish(!tied)
	return folds
}

// marksOf lists what must agree; the label at the start is remembered instead.
func (p *passage) marksOf(b *Bar, top bool) []string {
	var all []string
	for _, m := range b.Marks {
		first := len(p.measures) <= 1 || p.label == ""
		if m.Kind == Rehearsal && m.Before == 0 && top && first {
			p.label = m.Text
			continue
		}
		if m.Kind == TempoMark && p.at == 0 || m.Kind == DynamicMark && p.at == 0 {
			continue // stands at the piece's start and holds on
		}
		if m.Kind == Boxed && m.Before == len(b.Measure.Voices[m.Voice].Events) {
			continue // the closing label
		}
		all = append(all, strings.TrimSpace(m.String()))
	}
	return append(all, "|")
}

// leadsOut reports whether a tie or beam goes on over the bar's right edge.
func leadsOut(m *Measure) bool {
	for i := range m.Voices {
		n, ok := m.Voices[i].Events[len(m.Voices[i].Events)-1].(*Note)
		if ok && (n.TieOut || n.BeamOut) {
			return true
		}
	}
	return false
}

// joinLabels writes "B–B2" of "B" and "B2", or of "B–B1" and "B2".
func joinLabels(first, last string) string {
	first, _, _ = strings.Cut(first, "–")
	switch {
	case first == "":
		return last
	case last == "":
		return first
	}
	return first + "–" + last
}

// folded walks the bars of a part, the repetitions left out.
func folded(whole func(func(*Bar) bool), folds []fold, yield func(*Bar) bool) {
	index, next := 0, 0
	for b := range whole {
		for next < len(folds) && index >= folds[next].at+folds[next].length*folds[next].times {
			next++
		}
		at := index
		index++
		if next == len(folds) || at < folds[next].at {
			if !yield(b) {
				return
			}
			continue
		}
		f := folds[next]
		if at >= f.at+f.length {
			continue
		}
		bar := *b
		bar.Marks = slices.Clone(b.Marks)
		if at == f.at {
			bar.Left = RepeatStart
			for i := range bar.Marks {
				if bar.Marks[i].Kind == Rehearsal {
					bar.Marks[i].Text = f.label
				}
			}
		}
		if at == f.at+f.length-1 {
			bar.Barline, bar.Times = RepeatEnd, f.times
		}
		bar.Rest = min(bar.Rest, f.at+f.length-at)
		if !yield(&bar) {
			return
		}
	}
}
