package layout

import (
	"encoding/binary"

	"tieover/score"
	"tieover/score/beat"
)

// barInput is everything that the content of one bar depends on. Its key is
// the memo's: two bars with equal input bytes are one Measure.
type barInput struct {
	signature score.Signature
	metre     *metre
	key       score.Key // as written in the part
	keyID     int       // tells keys and signatures apart in the memo key
	newSystem bool      // tied-in accidentals are repeated
	numbers   bool      // tuplet numbers are shown
	altered   []byte    // what the bar before altered: see accidentals
	voices    []voiceInput
}

// voiceInput is one voice of a bar. Times count from the bar's start.
type voiceInput struct {
	voice   *voicePlan
	pulse   beat.Pulse
	unit    beat.Time
	byGroup bool
	slices  []slice
	groups  []groupPart
	cycles  []beat.Time // starts of cycles inside the bar: rests are cut there
	beamIn  bool
	beamOut bool
}

// slice is the part of a sound that lies in the bar.
type slice struct {
	at, length beat.Time
	tieIn      bool
	tieOut     bool
	accent     bool
	touch      score.Touch
	tones      score.Chord
	group      int    // size of the group that begins with it, 0 if none does
	syllable   string // spoken at its start
}

func (s *slice) end() beat.Time { return s.at + s.length }

// groupPart is the part of a group that lies in the bar.
type groupPart struct {
	at, end beat.Time // may reach out of the bar at either side
	lone    bool      // the whole group has a single attack, or none
}

// appendKey writes the input as bytes. Every field that the passes read is in
// it; the constants of the part are not.
func (in *barInput) appendKey(b []byte) []byte {
	b = binary.AppendUvarint(b, uint64(in.keyID))
	b = append(b, bits(in.newSystem, in.numbers), byte(len(in.altered)))
	b = append(b, in.altered...)
	for i := range in.voices {
		b = in.voices[i].appendKey(b)
	}
	return b
}

func (v *voiceInput) appendKey(b []byte) []byte {
	b = append(b, bits(v.byGroup, v.beamIn, v.beamOut))
	b = binary.AppendUvarint(b, uint64(v.unit))
	b = append(b, byte(v.pulse.Actual), byte(v.pulse.Normal))
	b = binary.AppendUvarint(b, uint64(len(v.slices)))
	for i := range v.slices {
		s := &v.slices[i]
		b = binary.AppendUvarint(b, uint64(s.at))
		b = binary.AppendUvarint(b, uint64(s.length))
		b = append(b, bits(s.tieIn, s.tieOut, s.accent), byte(s.touch), byte(len(s.tones)))
		for _, t := range s.tones {
			b = append(b, t.Step, byte(t.Alter), byte(t.Octave), t.Drum)
		}
		b = binary.AppendUvarint(b, uint64(s.group))
		b = binary.AppendUvarint(b, uint64(len(s.syllable)))
		b = append(b, s.syllable...)
	}
	b = binary.AppendUvarint(b, uint64(len(v.groups)))
	for _, g := range v.groups {
		b = binary.AppendVarint(b, int64(g.at))
		b = binary.AppendVarint(b, int64(g.end))
		b = append(b, bits(g.lone))
	}
	b = binary.AppendUvarint(b, uint64(len(v.cycles)))
	for _, c := range v.cycles {
		b = binary.AppendUvarint(b, uint64(c))
	}
	return b
}

func bits(flags ...bool) byte {
	var b byte
	for i, f := range flags {
		if f {
			b |= 1 << i
		}
	}
	return b
}
