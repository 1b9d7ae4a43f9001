package bar

import (
	"encoding/binary"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/fingering"
	"tieover/score/instrument"
)

// Input is everything that the content of one bar depends on. Its key is
// the memo's: two bars with equal input bytes are one Measure.
type Input struct {
	Signature  score.Signature
	MetricGrid *MetricGrid
	Key        score.Key              // as written in the part
	Clefs      []instrument.Clef      // of the staves
	Instrument *instrument.Instrument // nil where the player has one
	KeyID      int                    // tells keys, clefs, instruments and signatures apart in the memo key
	NewSystem  bool                   // tied-in accidentals are repeated
	Numbers    bool                   // tuplet numbers are shown
	Altered    []byte                 // what the bar before altered: see accidentals
	Fermatas   []beat.Time
	Voices     []VoiceInput
}

// VoiceInput is one voice of a bar. Times count from the bar's start.
type VoiceInput struct {
	Voice    *VoicePlan
	Pulse    beat.Pulse
	Unit     beat.Time
	ByGroup  bool
	As       score.Written // heads of their own, or slashes on the middle line
	Yields   bool          // another voice of its staff has the slashes
	Dry      bool          // nothing is tied: the first sign of each sound, then rests
	Segments []Segment
	Groups   []GroupPart
	Cycles   []beat.Time // starts of cycles inside the bar: rests are cut there
	BeamIn   bool
	BeamOut  bool
}

// Segment is the part of a sound that lies in the bar.
type Segment struct {
	At, Length beat.Time
	TieIn      bool
	TieOut     bool
	Accent     bool
	Touch      score.Touch // where it is tied in only what is Stroked
	Faint      score.Chord // of Tones those that are ghost notes, where it is not all of them
	Tones      score.Chord
	Graces     []score.Chord   // before its start
	Hand       *fingering.Hand // where tones and grace notes are stopped; nil where no tablature shows it
	Group      int             // size of the group that begins with it, 0 if none does
	Lyrics     []score.Lyric   // sung or spoken at its start, by verse
	Slur       score.Slur      // that begins with the sound's first sign, or ends with its last
	Layers     []string        // that strike it, where several share the voice
	Spelling   *Transposer     // of a note tied in from another key; nil: the writer's
}

func (s *Segment) end() beat.Time { return s.At + s.Length }

// GroupPart is the part of a group that lies in the bar.
type GroupPart struct {
	At, End beat.Time // may reach out of the bar at either side
	Lone    bool      // the whole group has a single attack, or none
}

// AppendKey writes the input as bytes. Every field that the passes read is in
// it; the constants of the part are not.
func (in *Input) AppendKey(b []byte) []byte {
	b = binary.AppendUvarint(b, uint64(in.KeyID))
	b = append(b, bits(in.NewSystem, in.Numbers), byte(len(in.Altered)))
	b = append(b, in.Altered...)
	b = append(b, byte(len(in.Fermatas)))
	for _, at := range in.Fermatas {
		b = binary.AppendUvarint(b, uint64(at))
	}
	for i := range in.Voices {
		b = in.Voices[i].appendKey(b)
	}
	return b
}

func (v *VoiceInput) appendKey(b []byte) []byte {
	b = append(b, bits(v.ByGroup, v.BeamIn, v.BeamOut, v.Dry), byte(v.As))
	b = binary.AppendUvarint(b, uint64(v.Unit))
	b = append(b, byte(v.Pulse.Actual), byte(v.Pulse.Normal))
	b = binary.AppendUvarint(b, uint64(len(v.Segments)))
	for i := range v.Segments {
		s := &v.Segments[i]
		b = binary.AppendUvarint(b, uint64(s.At))
		b = binary.AppendUvarint(b, uint64(s.Length))
		b = append(b, bits(s.TieIn, s.TieOut, s.Accent, s.Spelling != nil, s.Slur.Starts, s.Slur.Stops), byte(s.Touch), byte(s.Touch>>8), byte(len(s.Faint)), byte(len(s.Tones)))
		if s.Spelling != nil {
			b = append(b, byte(s.Spelling.Key.Fifths)) // a part has one for each signature
		}
		b = appendTones(appendTones(b, s.Faint), s.Tones)
		b = append(b, byte(len(s.Graces)))
		for _, chord := range s.Graces {
			b = appendTones(append(b, byte(len(chord))), chord)
		}
		b = appendHand(b, s.Hand)
		b = binary.AppendUvarint(b, uint64(s.Group))
		b = append(b, byte(len(s.Lyrics)))
		for _, y := range s.Lyrics {
			b = binary.AppendUvarint(b, uint64(len(y.Text)))
			b = append(b, y.Text...)
			b = append(b, byte(y.Syllabic), bits(y.Extend))
		}
		b = append(b, byte(len(s.Layers)))
		for _, name := range s.Layers {
			b = binary.AppendUvarint(b, uint64(len(name)))
			b = append(b, name...)
		}
	}
	b = binary.AppendUvarint(b, uint64(len(v.Groups)))
	for _, g := range v.Groups {
		b = binary.AppendVarint(b, int64(g.At))
		b = binary.AppendVarint(b, int64(g.End))
		b = append(b, bits(g.Lone))
	}
	b = binary.AppendUvarint(b, uint64(len(v.Cycles)))
	for _, c := range v.Cycles {
		b = binary.AppendUvarint(b, uint64(c))
	}
	return b
}

func appendTones(b []byte, tones score.Chord) []byte {
	for _, t := range tones {
		b = append(b, t.Step, byte(t.Alter), byte(t.Octave), t.Drum)
	}
	return b
}

func appendHand(b []byte, h *fingering.Hand) []byte {
	if h == nil {
		return append(b, 0)
	}
	b = append(b, 1)
	for _, stops := range append(h.Graces[:len(h.Graces):len(h.Graces)], h.Struck) {
		for _, s := range stops {
			b = append(b, byte(s.String), byte(s.Fret))
		}
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
