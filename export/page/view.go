package page

import (
	"cmp"
	"slices"
	"sort"
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

// view is one section gathered for drawing. Times are the section's.
type view struct {
	title        string // the piece's
	s            *score.Section
	index        int
	rows         []row
	marks        []score.Signpost    // but for the section's start
	realignments []score.Realignment // after the start, marked or not
	notes        []note              // what is said above the figure
	end          beat.Time
	readings     []reading // as it is written, then as it is felt
	drawn        []int     // indexes of the rows that a figure has, from above
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

// cycle is one pass through the groups, with how it is shown.
type cycle struct {
	*score.Cycle
	shown []score.Group // its groups, where they are worth saying
	face  int           // which clock shows it, see faces
	over  beat.Time     // when it and all before it have ended, their last sounds included
}

type note struct {
	at   beat.Time
	text string
}

func gather(p *score.Piece, index int, felt []Felt) *view {
	return gatherSection(p, p.Sections[index], index, felt)
}

func gatherSection(p *score.Piece, s *score.Section, index int, felt []Felt) *view {
	v := &view{title: p.Title, s: s, index: index, end: s.Extent()}
	for i, l := range s.Layers {
		r := row{layer: l, index: i, letter: score.LayerLetter(i), look: lookOf(i), unit: l.Unit}
		over := s.Opening()
		for c := range s.Cycles(i) {
			whole := *c
			over = max(over, c.End())
			if n := len(c.Attacks); n > 0 {
				over = max(over, c.Start+c.Attacks[n-1].At+c.Attacks[n-1].Length)
			}
			r.cycles = append(r.cycles, cycle{Cycle: &whole, over: over})
		}
		v.rows = append(v.rows, r)
		v.drawn = append(v.drawn, i)
	}
	v.addReading(reading{s: s})
	for _, f := range felt {
		v.addReading(reading{s: f.Section, name: f.Name, note: f.Note, chart: f.Chart})
	}
	v.addMarks()
	v.addNotes()
	return v
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
			v.notes = append(v.notes, note{e.Time, e.TempoInWords(beat.American)})
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

// finest is the shortest pulse of all rows.
func (v *view) finest() beat.Time {
	least := v.rows[0].unit
	for _, r := range v.rows {
		least = min(least, r.unit)
	}
	return least
}

// inWindow returns those of a list in time order that are in [from, to).
func inWindow[T any](list []T, from, to beat.Time, at func(T) beat.Time) []T {
	list = list[sort.Search(len(list), func(i int) bool { return at(list[i]) >= from }):]
	return list[:sort.Search(len(list), func(i int) bool { return at(list[i]) >= to })]
}
