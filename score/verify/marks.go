package verify

import (
	"fmt"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

// label is a signpost that the score must have.
type label struct {
	text     string
	at       beat.Time
	realigns bool
}

// labels lists the signposts of all sections, in order.
func (w *whole) labels() []label {
	var all []label
	for _, p := range w.piece.Passes() {
		if p.Time > 1 {
			continue
		}
		s := w.piece.Sections[p.Section]
		finer := beat.Time(w.grid / s.Grid)
		for sign := range s.Signposts() {
			all = append(all, label{text: sign.Text, at: (p.At + sign.At) * finer, realigns: sign.Kind == score.Realigns})
		}
	}
	return all
}

// marks compares the labels with the signs in the score, in whichever part
// they are. A label that is somewhere else is moved, one that is nowhere is lost. A score
// that has none of them never had any: remark says so, and nothing is lost.
func (w *whole) marks() (found []Difference, remark string) {
	var asked []label
	for _, l := range w.labels() {
		if at, ok := w.edits.place(l.at); ok { // none is asked for in a bar that is missing
			asked = append(asked, label{l.text, at, l.realigns})
		}
	}
	places, has := map[string][]beat.Time{}, map[string]bool{}
	for _, m := range w.score.Marks {
		text := strings.TrimSuffix(m.Text, " = beginning")
		at := w.grid.Must(m.At)
		places[text] = append(places[text], at)
		first, _, _ := strings.Cut(text, "–")
		has[first] = true
		for _, l := range passes(text, at, asked) {
			places[l] = append(places[l], at)
		}
	}
	none := !slices.ContainsFunc(asked, func(l label) bool { return has[l.text] })
	if renamed := len(asked) == 1 && len(w.score.Marks) > 0; len(asked) > 0 && none && !renamed {
		return nil, "labels are not compared: the score has none of the spec's"
	}
	old, reported := w.oldLabels(asked), false
	for _, l := range asked {
		nearest, ok := closest(places[l.text], l.at)
		if ok && nearest == l.at {
			continue
		}
		where := w.where(l.at)
		d := Difference{Kind: LostMark, At: w.grid.Span(l.at), Where: where, Want: l.text, text: fmt.Sprintf("%v: the mark %s is missing", where, l.text)}
		if ok {
			got := w.where(nearest)
			d.Kind, d.Got, d.text = MovedMark, got.String(), fmt.Sprintf("%v: the mark %s stands at %v instead", where, l.text, got)
		}
		if old && l.realigns {
			d.Kind, d.Got, d.text = LostMark, "", "labels are of an older build"
			if reported {
				continue
			}
			reported = true
		}
		found = append(found, d)
	}
	return found, ""
}

// oldLabels reports whether the score is the spec's music with realignments named
// as builds did that had no cut ones: it has a number of a section's that none has now.
func (w *whole) oldLabels(asked []label) bool {
	if len(w.found) > 0 || slices.ContainsFunc(w.parts, func(c *comparison) bool { return len(c.found) > 0 }) {
		return false
	}
	const digits = "0123456789"
	for _, m := range w.score.Marks {
		stem := strings.TrimRight(m.Text, digits)
		numbers := func(l label) bool {
			return l.realigns && stem == strings.TrimRight(strings.TrimSuffix(l.text, " cut"), digits)
		}
		if stem != m.Text && slices.ContainsFunc(asked, numbers) && !slices.ContainsFunc(asked, func(l label) bool { return l.text == m.Text }) {
			return true
		}
	}
	return false
}

func closest(places []beat.Time, to beat.Time) (nearest beat.Time, ok bool) {
	for _, at := range places {
		if !ok || max(at-to, to-at) < max(nearest-to, to-nearest) {
			nearest, ok = at, true
		}
	}
	return nearest, ok
}

// passes returns the labels at a moment for which a box such as "B–B3" stands
// there: it is over a repeated period and names its first and its last pass.
func passes(box string, at beat.Time, asked []label) []string {
	i := strings.LastIndex(box, "–")
	if i < 0 {
		return nil
	}
	last := strings.TrimPrefix(box[i:], "–")
	reaches := false
	var here []string
	for _, l := range asked {
		reaches = reaches || l.text == last && at <= l.at
		if l.at == at {
			here = append(here, l.text)
		}
	}
	if !reaches {
		return nil
	}
	return here
}
