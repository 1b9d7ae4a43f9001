package layout

import (
	"fmt"

	"tieover/score/beat"
	"tieover/score/source"
)

// Compare puts two writings of the same music on one page: the bars of a, then
// on a new system the bars of b that cover the same time, each under its
// heading. Both sheets come from one piece and have the same parts. The bars
// of b carry no printed numbers, since bars of a have them already.
func Compare(a, b *Sheet, headings [2]string) (*Sheet, source.Problems) {
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
		out.Parts = append(out.Parts, above(p, below.Parts[i], last, headings, i == 0))
	}
	return &out, nil
}

// Covering returns the numbers of the first and the last bar of a sheet that share
// time with what another shows, whatever bars that has.
func Covering(s, shown *Sheet) (first, last int) {
	from, to, _ := extentOf(&shown.Parts[0])
	for bar := range s.Parts[0].Bars() {
		if bar.Start+bar.Measure.Length > from && bar.Start < to {
			if first == 0 {
				first = bar.Number
			}
			last = bar.Number
		}
	}
	return first, last
}

// extentOf returns the time that a part's bars cover and its last number.
func extentOf(p *Part) (from, to beat.Time, last int) {
	from = -1
	for bar := range p.Bars() {
		if from < 0 {
			from = bar.Start
		}
		to, last = bar.Start+bar.Measure.Length, bar.Number
	}
	return from, to, last
}

// above joins two writings of one part. Only the top part has the headings.
func above(p, below Part, last int, headings [2]string, top bool) Part {
	first, second := p.bars, below.bars
	return NewPart(p, func(yield func(*Bar) bool) {
		n := 0
		for bar := range first {
			b := *bar
			n++
			if top && n == 1 {
				b.Marks = headed(&b, headings[0])
			}
			if b.Number == last && b.Barline != RepeatEnd {
				b.Barline = Final
			}
			if !yield(&b) {
				return
			}
		}
		n = 0
		var held *Bar
		give := func(more bool) bool {
			if held == nil {
				return true
			}
			if !more && held.Barline != RepeatEnd {
				held.Barline = Final
			}
			return yield(held)
		}
		for bar := range second {
			if !give(true) {
				return
			}
			b := *bar
			n++
			b.Number, b.Implicit = last+n, true
			if n == 1 {
				b.NewMeter, b.NewKey, b.Break = true, true, NewSystem
				if top {
					b.Marks = headed(&b, headings[1])
				}
			}
			held = &b
		}
		give(false)
	})
}

// headed puts a heading before the marks of a bar.
func headed(b *Bar, text string) []Mark {
	return append([]Mark{{Kind: Words, Text: text}}, b.Marks...)
}
