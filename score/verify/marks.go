package verify

import (
	"fmt"
	"strings"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
)

// label is a mark of form that the spec asks for.
type label struct {
	text string
	at   beat.Span
}

// labels lists the labels of realignments and the plan's marks, in order.
func labels(p *score.Piece) []label {
	var all []label
	start := beat.Time(0)
	for _, s := range p.Sections {
		known := map[string]bool{}
		for r := range s.Moments() {
			if r.Label != "" {
				known[r.Label] = true
				all = append(all, label{text: r.Label, at: s.Grid.Span(start + r.Time)})
			}
		}
		for _, e := range s.Plan {
			if e.Mark != "" && !known[e.Mark] {
				all = append(all, label{text: e.Mark, at: s.Grid.Span(start + e.Time)})
			}
		}
		start += s.Extent()
		if s.End == score.Repeat {
			start += s.Extent()
		}
	}
	return all
}

// marks compares the labels with the signs in the score, whichever part they
// stand in. A label that stands somewhere else is moved, one that stands
// nowhere is lost.
func marks(p *score.Piece, s *heard.Score) []Difference {
	asked := labels(p)
	places := map[string][]beat.Span{}
	for _, m := range s.Marks {
		text := strings.TrimSuffix(m.Text, " = beginning")
		places[text] = append(places[text], m.At)
		for _, l := range passes(text, m.At, asked) {
			places[l] = append(places[l], m.At)
		}
	}
	var found []Difference
	for _, l := range asked {
		where := s.Parts[0].Where(l.at)
		there, nearest := false, beat.Span{}
		for k, at := range places[l.text] {
			there = there || at == l.at
			if k == 0 || distance(at, l.at).Cmp(distance(nearest, l.at)) < 0 {
				nearest = at
			}
		}
		d := Difference{At: l.at, Where: where, Want: l.text}
		switch {
		case there:
			continue
		case len(places[l.text]) == 0:
			d.Kind, d.text = LostMark, fmt.Sprintf("%v: the mark %s is missing", where, l.text)
		default:
			got := s.Parts[0].Where(nearest)
			d.Kind, d.Got, d.text = MovedMark, got.String(), fmt.Sprintf("%v: the mark %s stands at %v instead", where, l.text, got)
		}
		found = append(found, d)
	}
	return found
}

// passes returns the labels at a moment for which a box such as "B–B3" stands
// there: it is over a repeated period and names its first and its last pass.
func passes(box string, at beat.Span, asked []label) []string {
	i := strings.LastIndex(box, "–")
	if i < 0 {
		return nil
	}
	last := strings.TrimPrefix(box[i:], "–")
	reaches := false
	var here []string
	for _, l := range asked {
		reaches = reaches || l.text == last && at.Cmp(l.at) <= 0
		if l.at == at {
			here = append(here, l.text)
		}
	}
	if !reaches {
		return nil
	}
	return here
}

func distance(a, b beat.Span) beat.Span {
	if a.Cmp(b) < 0 {
		return b.Sub(a)
	}
	return a.Sub(b)
}
