package layout

import (
	"fmt"
	"slices"
	"sort"

	"tieover/score/beat"
)

// written is an event with what the passes after spelling need to know of it.
type written struct {
	note   *Note // nil for a rest
	rest   *Rest
	slice  int // index into the voice's slices; -1 for a rest
	group  int // index into the voice's groups; -1 outside all groups
	tuplet *Tuplet
	within container
}

func (w *written) event() Event {
	if w.note != nil {
		return w.note
	}
	return w.rest
}

func (w *written) at() beat.Time {
	if w.note != nil {
		return w.note.Start
	}
	return w.rest.Start
}

// unwritable says why a bar cannot be written in common notation.
type unwritable struct {
	voice  int
	reason string
}

func (u *unwritable) Error() string { return u.reason }

// maker writes bars of one part. It holds what never changes within the part.
type maker struct {
	signs
	part    *partPlan
	strict  bool
	byMeter bool       // beams
	wanted  transposer // for the key of the section at hand
	respelt []Respelling
}

// measure runs the passes over one bar: pieces, containers, signs, heads,
// beams, accidentals. The result is never changed afterwards. altered is what
// the next bar's accidentals must know.
func (mk *maker) measure(in *barInput) (m *Measure, altered []byte, err error) {
	m = &Measure{Signature: in.signature, Key: in.key, Length: in.metre.length}
	for i := range in.voices {
		v := &in.voices[i]
		events, err := mk.events(in, v)
		if err != nil {
			err.voice = i
			return nil, nil, err
		}
		mk.heads(v, events)
		mk.beams(in, v, events)
		out := Voice{Staff: v.voice.staff, Number: v.voice.number, Stem: v.voice.stem, Small: v.voice.small}
		out.Events = make([]Event, len(events))
		for j := range events {
			out.Events[j] = events[j].event()
		}
		m.Voices = append(m.Voices, out)
	}
	quiet(m)
	thin(m)
	altered = mk.accidentals(in, m)
	return m, altered, nil
}

// events writes one voice: what sounds and what is silent, in signs.
func (mk *maker) events(in *barInput, v *voiceInput) ([]written, *unwritable) {
	pieces := piecesOf(v, in.metre.length)
	if len(pieces) == 1 && pieces[0].slice < 0 {
		rest := &Rest{Length: in.metre.length, Whole: true}
		return []written{{rest: rest, slice: -1, group: -1}}, nil
	}
	sp := &speller{signs: mk.signs, metre: in.metre, byGroup: v.byGroup, strict: mk.strict, edges: edgesOf(v)}
	pk := &packer{signs: mk.signs, metre: in.metre, numbers: in.numbers, pulse: v.pulse, pieces: pieces}
	pk.length = mk.containerOf(in.metre, v.pulse)
	for _, pc := range pieces[1:] {
		pk.inside = append(pk.inside, pc.from)
		pk.hasOdd = pk.hasOdd || mk.odd(pc.from) > 1
	}
	tiles, ok := pk.containers()
	if !ok {
		return nil, &unwritable{reason: "its attacks need one tuplet inside another, or notes shorter than a 128th"}
	}
	var events []written
	for _, tile := range tiles {
		for _, pc := range pk.within(tile.from, tile.to) {
			cuts, ok := mk.cutsOf(v, sp, pk, tile, pc)
			if !ok {
				return nil, &unwritable{reason: "it needs a note shorter than a 128th"}
			}
			var bad *unwritable
			if events, bad = mk.appendSigns(events, v, tile, pc, cuts); bad != nil {
				return nil, bad
			}
		}
	}
	bracketEdges(events)
	return events, nil
}

// containerOf is the room of one tuplet of the voice: that of its pulse, or
// for a plain pulse a quarter or the dotted beat.
func (mk *maker) containerOf(m *metre, p beat.Pulse) beat.Time {
	if p.IsTuplet() {
		return mk.grid.Must(p.Container())
	}
	if m.compound {
		return m.beats[1]
	}
	return beat.Time(mk.grid / 4)
}

// piecesOf tiles the bar with the voice's sounds and the silences between.
func piecesOf(v *voiceInput, length beat.Time) []piece {
	var pieces []piece
	at := beat.Time(0)
	for i := range v.slices {
		s := &v.slices[i]
		if s.at > at {
			pieces = append(pieces, piece{at, s.at, -1})
		}
		pieces = append(pieces, piece{s.at, s.end(), i})
		at = s.end()
	}
	if at < length {
		pieces = append(pieces, piece{at, length, -1})
	}
	return pieces
}

// edgesOf returns the group edges of the voice, in order, without repeats.
func edgesOf(v *voiceInput) []beat.Time {
	var edges []beat.Time
	for _, g := range v.groups {
		edges = append(edges, g.at, g.end)
	}
	slices.Sort(edges)
	return slices.Compact(edges)
}

// cutsOf returns the places where a piece of one container is cut into signs.
func (mk *maker) cutsOf(v *voiceInput, sp *speller, pk *packer, tile container, pc piece) ([]beat.Time, bool) {
	if tile.tuplet != nil {
		edges := sp.edges
		if pc.slice < 0 {
			return mk.restCuts(v, sp, pc, func(from, to beat.Time) ([]beat.Time, bool) {
				return pk.tupletCuts(piece{from, to, -1}, tile.from, tile.to, tile.tuplet.Actual, tile.tuplet.Normal, nil)
			})
		}
		cuts, ok := pk.tupletCuts(pc, tile.from, tile.to, tile.tuplet.Actual, tile.tuplet.Normal, edges)
		if !ok { // a group starts where the tuplet has no part
			return pk.tupletCuts(pc, tile.from, tile.to, tile.tuplet.Actual, tile.tuplet.Normal, nil)
		}
		return cuts, true
	}
	if pc.slice < 0 {
		return mk.restCuts(v, sp, pc, func(from, to beat.Time) ([]beat.Time, bool) {
			ends, ok := sp.rests(from, to, nil)
			if !ok || len(ends) == 0 {
				return nil, false
			}
			return ends[:len(ends)-1], true
		})
	}
	return sp.cuts(pc.from, pc.to)
}

// restCuts cuts a silence where a cycle starts and, in spelling by group, at
// the edges of groups; each piece is then written by fill.
func (mk *maker) restCuts(v *voiceInput, sp *speller, pc piece, fill func(from, to beat.Time) ([]beat.Time, bool)) ([]beat.Time, bool) {
	stops := slices.Clone(v.cycles)
	if v.byGroup {
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
func (mk *maker) appendSigns(events []written, v *voiceInput, tile container, pc piece, cuts []beat.Time) ([]written, *unwritable) {
	from := pc.from
	for _, to := range append(slices.Clone(cuts), pc.to) {
		num, den := 1, 1
		if tile.tuplet != nil {
			num, den = tile.tuplet.Actual, tile.tuplet.Normal
		}
		value, ok := mk.value(to-from, num, den)
		if !ok {
			return nil, &unwritable{reason: fmt.Sprintf("a length of %v whole notes has no sign there", mk.grid.Span(to-from))}
		}
		w := written{slice: pc.slice, group: groupAt(v, from), tuplet: tile.tuplet, within: tile}
		if pc.slice < 0 {
			w.rest = &Rest{Start: from, Length: to - from, Value: value, Tuplet: tile.tuplet}
		} else {
			s := &v.slices[pc.slice]
			w.note = &Note{Start: from, Length: to - from, Value: value, Tuplet: tile.tuplet}
			w.note.TieIn = from > s.at || s.tieIn
			w.note.TieOut = to < s.end() || s.tieOut
		}
		events = append(events, w)
		from = to
	}
	return events, nil
}

// groupAt returns the index of the group that holds t, or -1.
func groupAt(v *voiceInput, t beat.Time) int {
	i := sort.Search(len(v.groups), func(i int) bool { return v.groups[i].at > t }) - 1
	if i < 0 || t >= v.groups[i].end {
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

// heads gives the notes their heads, and the signs that stand only where a
// sound begins.
func (mk *maker) heads(v *voiceInput, events []written) {
	for i := range events {
		n := events[i].note
		if n == nil {
			continue
		}
		s := &v.slices[events[i].slice]
		n.Heads = mk.written(s.tones, v.voice.bare)
		if n.Start == s.at && !s.tieIn {
			n.Group = s.group
			if !v.voice.bare {
				n.Accent, n.Touch, n.Syllable = s.accent, s.touch, s.syllable
			}
		}
	}
}
