package bar

import (
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// written is an event with what the passes after spelling need to know of it.
type written struct {
	note    *sheet.Note // nil for a rest
	rest    *sheet.Rest
	segment int       // index into the voice's segments; -1 for a rest
	group   int       // index into the voice's groups; -1 outside all groups
	tile    container // that it is in
}

func (w *written) event() sheet.Event {
	if w.note != nil {
		return w.note
	}
	return w.rest
}

func (w *written) at() beat.Time { return w.event().At() }

// Unwritable says why a bar cannot be written in common notation.
type Unwritable struct {
	Voice  int
	Reason string
}

func (u *Unwritable) Error() string { return u.Reason }

// Writer writes bars of one part. It holds what never changes within the part.
type Writer struct {
	NoteValues
	Player  string // whose part: for respellings
	Pitched bool
	Strict  bool
	ByMeter bool       // beams
	Wanted  Transposer // for the key of the section at hand
	Respelt []sheet.Respelling
	known   map[stretch]spelling // most sounds of a part are cut alike

	events []written    // of the voice at hand
	order  []staffNote  // of the bar at hand
	notes  []sheet.Note // made, and not yet taken
}

// note takes a new note. They are made many at once.
func (wr *Writer) note() *sheet.Note {
	const atOnce = 32
	if len(wr.notes) == 0 {
		wr.notes = make([]sheet.Note, atOnce)
	}
	n := &wr.notes[0]
	wr.notes = wr.notes[1:]
	return n
}

// Write makes one bar in passes: pieces, containers, signs, heads, beams,
// accidentals. The result is never changed afterwards. altered is what the next
// bar's accidentals must know. The error is an *Unwritable.
func (wr *Writer) Write(in *Input) (m *sheet.Measure, altered []byte, err error) {
	m = &sheet.Measure{Signature: in.Signature, Key: in.Key, Clefs: in.Clefs, Instrument: in.Instrument, Length: in.MetricGrid.Length, Skipped: in.MetricGrid.Skipped}
	for i := range in.Voices {
		v := &in.Voices[i]
		events, err := wr.signs(in, v)
		if err != nil {
			err.Voice = i
			return nil, nil, err
		}
		wr.heads(v, events)
		if v.As != score.AsSlashes {
			wr.beams(in, v, events)
		}
		out := sheet.Voice{Staff: v.Voice.Staff, Number: v.Voice.Number, Stem: v.Voice.Stem, Small: v.Voice.Small, As: v.As, Layer: v.Voice.Layer}
		out.Events = make([]sheet.Event, len(events))
		for j := range events {
			out.Events[j] = events[j].event()
		}
		m.Voices = append(m.Voices, out)
	}
	hideRests(m)
	dropRests(m)
	addFermatas(m, in.Fermatas)
	altered = wr.accidentals(in, m)
	return m, altered, nil
}

// signs writes one voice: what sounds and what is silent, good until the next is
// written. Of a dry voice only the first sign of each sound is kept, but for rolls,
// and the rests are written anew.
func (wr *Writer) signs(in *Input, v *VoiceInput) ([]written, *Unwritable) {
	events, bad := wr.asItSounds(in, v)
	for v.Dry && cutTails(v, events) {
		events, bad = wr.asItSounds(in, v)
	}
	return events, bad
}

// cutTails ends each sound that is tied inside the bar with its first sign, and
// reports whether there was one. A roll lasts as long as it sounds.
func cutTails(v *VoiceInput, events []written) bool {
	any := false
	for i := range events {
		n := events[i].note
		if n == nil {
			continue
		}
		if s := &v.Segments[events[i].segment]; n.Start+n.Length < s.end() && !s.Touch.Has(score.Rolled) {
			s.Length, s.TieOut, any = n.Length, false, true
		}
	}
	return any
}

// asItSounds writes all signs of one voice.
func (wr *Writer) asItSounds(in *Input, v *VoiceInput) ([]written, *Unwritable) {
	pieces := piecesOf(v, in.MetricGrid.Length)
	if len(pieces) == 1 && pieces[0].segment < 0 && in.MetricGrid.Skipped == 0 { // a pickup has rests of its length
		rest := &sheet.Rest{Length: in.MetricGrid.Length, Whole: true}
		return []written{{rest: rest, segment: -1, group: -1}}, nil
	}
	if wr.known == nil {
		wr.known = map[stretch]spelling{}
	}
	sp := &speller{NoteValues: wr.NoteValues, MetricGrid: in.MetricGrid, byGroup: v.ByGroup, strict: wr.Strict, edges: edgesOf(v), known: wr.known}
	sp.restEdges = restEdgesOf(v, sp.edges)
	pk := wr.packer(in, v, pieces)
	tiles, ok := pk.containers()
	if !ok {
		return nil, &Unwritable{Reason: "its attacks need one tuplet inside another, or notes shorter than a 128th"}
	}
	events := wr.events[:0]
	for _, tile := range tiles {
		for pc := range pk.within(tile.from, tile.to) {
			ends, ok := signEnds(sp, pk, tile, pc)
			if !ok {
				return nil, &Unwritable{Reason: "it needs a note shorter than a 128th"}
			}
			var bad *Unwritable
			if events, bad = wr.appendSigns(events, v, tile, pc, ends); bad != nil {
				return nil, bad
			}
		}
	}
	wr.events = events
	bracketEdges(events)
	return events, nil
}

func (wr *Writer) packer(in *Input, v *VoiceInput, pieces []piece) *packer {
	pk := &packer{NoteValues: wr.NoteValues, MetricGrid: in.MetricGrid, numbers: in.Numbers, pulse: v.Pulse, pieces: pieces}
	pk.length = wr.containerOf(in.MetricGrid, v.Pulse)
	for _, pc := range pieces[1:] {
		pk.inside = append(pk.inside, pc.from)
		pk.hasOdd = pk.hasOdd || wr.odd(pc.from) > 1
	}
	return pk
}

// containerOf is the room of one tuplet of the voice: that of its pulse, or
// for a plain pulse a quarter or the dotted beat.
func (wr *Writer) containerOf(m *MetricGrid, p beat.Pulse) beat.Time {
	if p.IsTuplet() {
		return wr.Grid.Must(p.Container())
	}
	if m.compound {
		return m.beats[1] - m.beats[0]
	}
	return beat.Time(wr.Grid / 4)
}
