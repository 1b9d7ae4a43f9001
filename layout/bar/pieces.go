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

// restEdgesOf returns where silences are cut, in order: where a cycle starts and, in
// spelling by group, at the edges of groups.
func restEdgesOf(v *VoiceInput, edges []beat.Time) []beat.Time {
	all := slices.Clone(v.Cycles)
	if v.ByGroup {
		all = append(all, edges...)
	}
	slices.Sort(all)
	return all
}

// signEnds returns where the signs end that a piece of one container is cut into.
func signEnds(sp *speller, pk *packer, tile container, pc piece) ([]beat.Time, bool) {
	switch {
	case tile.tuplet == nil && pc.segment < 0:
		return sp.restEnds(pc, sp.rests)
	case tile.tuplet == nil:
		return sp.sounds(pc.from, pc.to)
	case pc.segment < 0:
		return sp.restEnds(pc, func(from, to beat.Time) ([]beat.Time, bool) {
			return pk.tupletEnds(tile, piece{from, to, -1}, nil)
		})
	}
	ends, ok := pk.tupletEnds(tile, pc, sp.edges)
	if !ok { // a group starts where the tuplet has no part
		return pk.tupletEnds(tile, pc, nil)
	}
	return ends, true
}

// restEnds cuts a silence at the rest edges; rests then cuts each piece into signs.
func (sp *speller) restEnds(pc piece, rests func(from, to beat.Time) ([]beat.Time, bool)) (ends []beat.Time, ok bool) {
	at := pc.from
	for _, edge := range sp.restEdges {
		if edge <= at || edge >= pc.to {
			continue
		}
		if inner, ok := rests(at, edge); ok { // else it is a moment where nothing can be cut
			ends = append(ends, inner...)
			at = edge
		}
	}
	inner, ok := rests(at, pc.to)
	return append(ends, inner...), ok
}

// appendSigns writes a piece as signs with the given ends.
func (wr *Writer) appendSigns(events []written, v *VoiceInput, tile container, pc piece, ends []beat.Time) ([]written, *Unwritable) {
	from := pc.from
	for _, to := range ends {
		value, ok := wr.valueIn(tile.tuplet, to-from)
		if !ok {
			return nil, &Unwritable{Reason: fmt.Sprintf("a length of %v whole notes has no sign there", wr.Grid.Span(to-from))}
		}
		w := written{segment: pc.segment, group: groupAt(v, from), tile: tile}
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
		t := events[i].tile.tuplet
		if t == nil {
			continue
		}
		first := i == 0 || events[i-1].tile.tuplet != t
		last := i == len(events)-1 || events[i+1].tile.tuplet != t
		if n := events[i].note; n != nil {
			n.TupletStart, n.TupletStop = first, last
		} else {
			events[i].rest.TupletStart, events[i].rest.TupletStop = first, last
		}
	}
}
