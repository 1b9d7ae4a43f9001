package bar

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/fingering"
)

// VoicePlan is where one layer of the part is written, the layers on one side of a
// percussion staff, or the other hands of layers.
type VoicePlan struct {
	Layer  string
	Layers []string // where several share the voice, Layer the first; else nil
	Staff  int
	Number int
	Stem   sheet.Stem
	Small  bool
	Bare   bool // rhythm only, whatever sounds
	Other  bool // the other hand of the layers, which has what is too wide for one
}

// heads gives the notes their heads, and the signs that stand only where a
// sound begins.
func (wr *Writer) heads(v *VoiceInput, events []written) {
	for i := range events {
		n := events[i].note
		if n == nil {
			continue
		}
		s := &v.Segments[events[i].segment]
		n.Heads, n.Layers = wr.Heads(s, v.Voice.Bare || v.As != score.AsNotes), s.Layers
		if v.As == score.AsRhythm && !wr.Pitched { // it sounds as what is struck
			n.Heads = wr.Heads(s, v.Voice.Bare)[:1]
		}
		n.Slur.Stops = s.Slur.Stops && !v.Voice.Bare && n.Start+n.Length == s.end() && !s.TieOut
		first := n.Start == s.At && !s.TieIn
		if first {
			n.Group = s.Group
		}
		switch {
		case v.Voice.Bare:
		case first:
			n.Accent, n.Touch, n.Lyrics, n.Slur.Starts = s.Accent, s.Touch&^score.Ghost, s.Lyrics, s.Slur.Starts
			for k := range n.Heads {
				n.Heads[k].Ghost = s.faint(&n.Heads[k])
			}
			if v.As == score.AsNotes {
				n.Graces = wr.graces(s)
			}
		default: // a tied piece
			n.Touch = s.Touch & sheet.Stroked
		}
	}
}

// faint reports whether a head is a ghost note. Only drums share a sound of which
// some are.
func (s *Segment) faint(h *sheet.Head) bool {
	return s.Touch.Has(score.Ghost) || slices.ContainsFunc(s.Faint, func(t score.Tone) bool { return t.Drum > 0 && int(t.Drum) == h.Drum })
}

// graces writes the grace notes before a sound: one as an eighth, several as 16ths
// under two beams (common practice).
func (wr *Writer) graces(s *Segment) []*sheet.Note {
	var notes []*sheet.Note
	last := len(s.Graces) - 1
	for i, tones := range s.Graces {
		n := &sheet.Note{Start: s.At, Value: sheet.Value{Power: 3}, Heads: wr.headsOf(tones, s.Spelling, false)}
		if s.Hand != nil && i < len(s.Hand.Graces) {
			stop(n.Heads, s.Hand.Graces[i])
		} else if s.Hand != nil { // a touch repeats the sound itself
			stop(n.Heads, s.Hand.Struck)
		}
		if last > 0 {
			beam := sheet.BeamContinue
			switch i {
			case 0:
				beam = sheet.BeamBegin
			case last:
				beam = sheet.BeamEnd
			}
			n.Value.Power, n.Beams = 4, []sheet.Beam{beam, beam}
		}
		notes = append(notes, n)
	}
	return notes
}

// Heads turns the tones of an attack into heads.
func (wr *Writer) Heads(s *Segment, bare bool) []sheet.Head {
	heads := wr.headsOf(s.Tones, s.Spelling, bare)
	if s.Hand != nil && !bare {
		stop(heads, s.Hand.Struck)
	}
	return heads
}

// stop says where heads are stopped.
func stop(heads []sheet.Head, stops []fingering.Stop) {
	for i := range heads {
		heads[i].Stop = stops[i]
	}
}

// headsOf gives heads to tones, lowest first as given; spelling replaces the
// writer's. Repeats of one head (two layers of a composite on one pitch) become one.
func (wr *Writer) headsOf(tones score.Chord, spelling *Transposer, bare bool) []sheet.Head {
	wanted := wr.Wanted
	if spelling != nil {
		wanted = *spelling
	}
	var heads []sheet.Head
	for _, t := range tones {
		if bare || !wr.Pitched && t.Drum == 0 || wr.Pitched && t.Drum > 0 {
			continue
		}
		w, instead, respelt := wanted.Written(t)
		if respelt {
			wr.respell(sheet.Respelling{Part: wr.Player, Sounding: t, Instead: instead, Written: w})
		}
		h := sheet.Head{Step: w.Step, Alter: w.Alter, Octave: w.Octave, Drum: int(t.Drum)}
		if !slices.Contains(heads, h) {
			heads = append(heads, h)
		}
	}
	if heads == nil {
		return []sheet.Head{{}}
	}
	return heads
}

func (wr *Writer) respell(r sheet.Respelling) {
	if !slices.Contains(wr.Respelt, r) {
		wr.Respelt = append(wr.Respelt, r)
	}
}
