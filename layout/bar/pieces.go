package bar

import (
	"fmt"
	"slices"
	"sort"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// piecesOf tiles the bar with the voice's sounds and the silences between.
func piecesOf(v *VoiceInput, length beat.Time) []piece {
	pieces := make([]piece, 0, 2*len(v.Segments)+1)
	at := beat.Time(0)
	for i := range v.Segments {
		s := &v.Segments[i]
		if s.At > at {
			pieces = append(pieces, piece{at, s.At, -1})
		}
		pieces = append(pieces, piece{s.At, s.end(), i})
		at = s.end()
	}
	if at < length {
		pieces = append(pieces, piece{at, length, -1})
	}
	return pieces
}

// edgesOf returns the group edges of the voice, in order, without repeats.
func edgesOf(v *VoiceInput) []beat.Time {
	edges := make([]beat.Time, 0, 2*len(v.Groups))
	for _, g := range v.Groups {
		edges = append(edges, g.At, g.End)
	}
	slices.Sort(edges)
	return slices.Compact(edges)
}

// cutsOf returns the places where a piece of one container is cut into signs.
func (wr *Writer) cutsOf(v *VoiceInput, sp *speller, pk *packer, tile container, pc piece) ([]beat.Time, bool) {
	if tile.tuplet != nil {
		edges := sp.edges
		if pc.segment < 0 {
			return wr.restCuts(v, sp, pc, func(from, to beat.Time) ([]beat.Time, bool) {
				return pk.tupletCuts(piece{from, to, -1}, tile.from, tile.to, tile.tuplet.Actual, tile.tuplet.Normal, nil)
			})
		}
		cuts, ok := pk.tupletCuts(pc, tile.from, tile.to, tile.tuplet.Actual, tile.tuplet.Normal, edges)
		if !ok { // a group starts where the tuplet has no part
			return pk.tupletCuts(pc, tile.from, tile.to, tile.tuplet.Actual, tile.tuplet.Normal, nil)
		}
		return cuts, true
	}
	if pc.segment < 0 {
		return wr.restCuts(v, sp, pc, func(from, to beat.Time) ([]beat.Time, bool) {
			ends, ok := sp.rests(from, to)
			if !ok {
				return nil, false
			}
			return ends[:len(ends)-1], true
		})
	}
	return sp.cuts(pc.from, pc.to)
}

// restCuts cuts a silence where a cycle starts and, in spelling by group, at
// the edges of groups; each piece is then written by fill.
func (wr *Writer) restCuts(v *VoiceInput, sp *speller, pc piece, fill func(from, to beat.Time) ([]beat.Time, bool)) ([]beat.Time, bool) {
	stops := slices.Clone(v.Cycles)
	if v.ByGroup {
		stops = append(stops, sp.edges...)
	}
	stops = append(stops, pc.to)
	slices.Sort(stops)
	var cuts []beat.Time
	at := pc.from
	for _, stop := range slices.Compact(stops) {
		if stop <= at || stop > pc.to {
			continue
		}
		inner, ok := fill(at, stop)
		if !ok && stop < pc.to {
			continue // a silent moment where nothing can be cut
		}
		if !ok {
			return nil, false
		}
		cuts = append(cuts, inner...)
		if stop < pc.to {
			cuts = append(cuts, stop)
		}
		at = stop
	}
	return cuts, true
}

// appendSigns writes a piece that is cut at the given places.
func (wr *Writer) appendSigns(events []written, v *VoiceInput, tile container, pc piece, cuts []beat.Time) ([]written, *Unwritable) {
	from := pc.from
	for i := range len(cuts) + 1 {
		to := pc.to
		if i < len(cuts) {
			to = cuts[i]
		}
		num, den := 1, 1
		if tile.tuplet != nil {
			num, den = tile.tuplet.Actual, tile.tuplet.Normal
		}
		value, ok := wr.value(to-from, num, den)
		if !ok {
			return nil, &Unwritable{Reason: fmt.Sprintf("a length of %v whole notes has no sign there", wr.Grid.Span(to-from))}
		}
		w := written{segment: pc.segment, group: groupAt(v, from), tuplet: tile.tuplet, within: tile}
		if pc.segment < 0 {
			w.rest = &sheet.Rest{Start: from, Length: to - from, Value: value, Tuplet: tile.tuplet}
		} else {
			s := &v.Segments[pc.segment]
			w.note = wr.note()
			*w.note = sheet.Note{Start: from, Length: to - from, Value: value, Tuplet: tile.tuplet,
				TieIn: from > s.At || s.TieIn, TieOut: to < s.end() || s.TieOut}
		}
		events = append(events, w)
		from = to
	}
	return events, nil
}

// groupAt returns the index of the group that holds t, or -1.
func groupAt(v *VoiceInput, t beat.Time) int {
	i := sort.Search(len(v.Groups), func(i int) bool { return v.Groups[i].At > t }) - 1
	if i < 0 || t >= v.Groups[i].End {
		return -1
	}
	return i
}

// bracketEdges marks the first and last event of each tuplet.
func bracketEdges(events []written) {
	for i := range events {
		t := events[i].tuplet
		if t == nil {
			continue
		}
		first := i == 0 || events[i-1].tuplet != t
		last := i == len(events)-1 || events[i+1].tuplet != t
		if n := events[i].note; n != nil {
			n.TupletStart, n.TupletStop = first, last
		} else {
			events[i].rest.TupletStart, events[i].rest.TupletStop = first, last
		}
	}
}
