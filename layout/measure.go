package layout

import "tieover/score/beat"

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
	player  string // whose part: for respellings
	pitched bool
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
