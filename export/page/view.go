package page

import (
	"cmp"
	"fmt"
	"slices"
	"sort"
	"strings"

	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// view is one section gathered for drawing. Times are the section's.
type view struct {
	title        string // the piece's
	s            *score.Section
	index        int
	rows         []row
	bars         []score.Bar
	marks        []score.Signpost    // but for the section's start
	realignments []score.Realignment // after the start, marked or not
	notes        []note              // what is said above the figure
	end          beat.Time
}

// row is one layer.
type row struct {
	layer  *score.Layer
	index  int
	letter string
	look   look
	unit   beat.Time
	cycles []cycle
}

// cycle is one pass through the groups, with where it stands.
type cycle struct {
	*score.Cycle
	late   rows.Lateness
	shown  []score.Group // its groups, where they are worth saying
	states int           // which clock shows it, see clocks
	over   beat.Time     // when it and all before it have ended, their last sounds included
}

type note struct {
	at   beat.Time
	text string
}

func gather(p *score.Piece, index int) *view {
	s := p.Sections[index]
	v := &view{title: p.Title, s: s, index: index, end: s.Extent()}
	for b := range s.Bars() {
		v.bars = append(v.bars, b)
	}
	for i, l := range s.Layers {
		r := row{layer: l, index: i, letter: score.LayerLetter(i), look: lookOf(i), unit: l.Unit}
		over := beat.Time(0)
		for c := range s.Cycles(i) {
			whole := *c
			over = max(over, c.End())
			if n := len(c.Attacks); n > 0 {
				over = max(over, c.Start+c.Attacks[n-1].At+c.Attacks[n-1].Length)
			}
			r.cycles = append(r.cycles, cycle{Cycle: &whole, over: over})
		}
		v.rows = append(v.rows, r)
	}
	v.addStarts()
	v.addMarks()
	v.addNotes()
	return v
}

// addStarts takes lateness and changed groupings from the chart's rows, so that
// chart and figure say the same.
func (v *view) addStarts() {
	next := make([]int, len(v.rows))
	for b := range rows.Of(v.s, nil).Bars() {
		for i, r := range b.Rows {
			for _, start := range r.Starts {
				if start.Number == 0 {
					continue
				}
				at := b.Start + start.At
				cycles := v.rows[i].cycles
				for next[i] < len(cycles) && max(cycles[next[i]].Start, v.rows[i].layer.Enters, 0) < at {
					next[i]++
				}
				if next[i] < len(cycles) {
					cycles[next[i]].late = start.Lateness
					cycles[next[i]].shown = start.Groups
				}
			}
		}
	}
}

func (v *view) addMarks() {
	for sign := range v.s.Signposts() {
		if sign.Kind != score.Opens {
			v.marks = append(v.marks, sign)
		}
	}
	for r := range v.s.RealignmentTimes() {
		if r.Index > 0 {
			v.realignments = append(v.realignments, r)
		}
	}
}

// named is what a realignment is called: its label, or its number in words.
func named(r score.Realignment) string {
	return cmp.Or(r.Label, fmt.Sprintf("realignment %d", r.Index))
}

func (v *view) addNotes() {
	for _, r := range v.rows {
		if r.layer.Enters > 0 {
			v.notes = append(v.notes, note{r.layer.Enters, isolated(r.layer.Name) + " enters"})
		}
		if r.layer.Leaves < v.s.Length {
			v.notes = append(v.notes, note{r.layer.Leaves, isolated(r.layer.Name) + " leaves"})
		}
	}
	for _, e := range v.s.Plan {
		if e.Text != "" {
			text := e.Text
			if names := e.Whose(); names != nil {
				text = isolated(strings.Join(names, ", ")) + ": " + text
			}
			v.notes = append(v.notes, note{e.Time, text})
		}
		if e.Tempo != nil {
			v.notes = append(v.notes, note{e.Time, tempoWords(*e.Tempo)})
		}
		if e.Fermata {
			v.notes = append(v.notes, note{e.Time, "hold"})
		}
		if e.Key != nil {
			v.notes = append(v.notes, note{e.Time, e.Key.String()})
		}
	}
	slices.SortStableFunc(v.notes, func(a, b note) int { return cmp.Compare(a.at, b.at) })
}

// tempoWords says a tempo: "quarter = 132", "Lively, quarter = 132", "rit.".
func tempoWords(t score.Tempo) string {
	switch {
	case t.Kind != score.Steady:
		return t.Words
	case t.Words != "":
		words := t.Words
		t.Words = ""
		return words + ", " + tempoWords(t)
	}
	name, ok := beat.NoteName(t.Beat, beat.American)
	if !ok {
		return fmt.Sprintf("quarter = %v", t.Quarters)
	}
	return fmt.Sprintf("%s = %s", name, decimal(t.Rate))
}

// decimal writes a rate with up to two decimals.
func decimal(s beat.Span) string {
	hundredths := (s.Num()*200 + s.Den()) / (2 * s.Den())
	return unit(hundredths).String()
}

// where says where a moment falls; what stands at the end has no bar after it.
func (v *view) where(t beat.Time) string {
	if t >= v.end {
		return fmt.Sprintf("the end of bar %d", v.bars[len(v.bars)-1].Number)
	}
	return v.s.Where(t).String()
}

// finest is the shortest pulse of all rows.
func (v *view) finest() beat.Time {
	least := v.rows[0].unit
	for _, r := range v.rows {
		least = min(least, r.unit)
	}
	return least
}

// within returns those of a list in time order that are in [from, to).
func within[T any](list []T, from, to beat.Time, at func(T) beat.Time) []T {
	list = list[sort.Search(len(list), func(i int) bool { return at(list[i]) >= from }):]
	return list[:sort.Search(len(list), func(i int) bool { return at(list[i]) >= to })]
}
