package edit

import (
	"fmt"

	"tieover/layout/sheet"
	"tieover/score/beat"
	"tieover/score/source"
)

// Compare puts two writings of the same music on one page: the bars of a, then
// on a new system the bars of b that cover the same time, each under its
// heading. Both sheets come from one piece and have the same parts. The bars
// of b carry no printed numbers, since bars of a have them already.
func Compare(a, b *sheet.Sheet, headings [2]string) (*sheet.Sheet, source.Problems) {
	_, _, last := extentOf(&a.Parts[0])
	first, end := Covering(b, a)
	var names []string
	for _, p := range a.Parts {
		names = append(names, p.Name)
	}
	below, problems := Excerpt(b, first, end, names)
	if len(problems) > 0 {
		return nil, problems
	}
	if len(below.Parts) != len(a.Parts) {
		problems.Add(source.Pos{}, fmt.Sprintf("the two writings have %d and %d parts", len(a.Parts), len(below.Parts)), "compare writings of the same layers")
		return nil, problems
	}
	out := *a
	out.Bars = a.Bars + below.Bars
	out.Parts = nil
	for i, p := range a.Parts {
		out.Parts = append(out.Parts, stack(p, below.Parts[i], last, end, headings, i == 0))
	}
	return &out, nil
}

// Covering returns the numbers of the first and the last bar of a sheet that share
// time with what another shows, whatever bars that has.
func Covering(s, shown *sheet.Sheet) (first, last int) {
	from, to, _ := extentOf(&shown.Parts[0])
	found := false
	for bar := range s.Parts[0].Bars() {
		if bar.Start+bar.Measure.Length > from && bar.Start < to {
			if !found {
				first, found = bar.Number, true
			}
			last = bar.Number
		}
	}
	return first, last
}

// extentOf returns the time that a part's bars cover and its last number.
func extentOf(p *sheet.Part) (from, to beat.Time, last int) {
	from = -1
	for bar := range p.Bars() {
		if from < 0 {
			from = bar.Start
		}
		to, last = bar.Start+bar.Measure.Length, bar.Number
	}
	return from, to, last
}

// stack joins two writings of one part, of which the first ends with bar last and the
// second with bar end. Only the top part has the headings.
func stack(p, below sheet.Part, last, end int, headings [2]string, top bool) sheet.Part {
	whole := p.Walk
	return sheet.NewPart(p, func(yield func(*sheet.Bar) bool) {
		n := 0
		for bar := range whole {
			b := *bar
			if n++; n == 1 && top {
				b.Marks = headed(&b, headings[0])
			}
			if bar.Number == last {
				finish(&b)
			}
			if !yield(&b) {
				return
			}
		}
		n = 0
		for bar := range below.Walk {
			b := *bar
			n++
			b.Number, b.Implicit = last+n, true
			if n == 1 {
				b.NewMeter, b.NewKey, b.NewClef, b.NewInstrument, b.Break = true, true, true, p.Doubles(), sheet.NewSystem
				if top {
					b.Marks = headed(&b, headings[1])
				}
			}
			if bar.Number == end {
				finish(&b)
			}
			if !yield(&b) {
				return
			}
		}
	})
}

// finish gives a bar the final barline, unless a repeat ends there.
func finish(b *sheet.Bar) {
	if b.Barline != sheet.RepeatEnd {
		b.Barline = sheet.Final
	}
}

// headed puts a heading before the marks of a bar.
func headed(b *sheet.Bar, text string) []sheet.Mark {
	return append([]sheet.Mark{{Kind: sheet.Words, Text: text}}, b.Marks...)
}
