package bar

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/fingering"
)

// full is a bar in which every part of the key has something to say.
func full() *Input {
	return &Input{KeyID: 1, Altered: []byte{1, 'F', 4, 1}, Voices: []VoiceInput{{Unit: 8, Pulse: beat.Pulse{Base: beat.Of(1, 8), Actual: 3, Normal: 2},
		Segments: []Segment{{Length: 8, Tones: score.Chord{{Step: 'C', Octave: 4}}, Lyrics: []score.Lyric{{Text: "ho"}}, Layers: []string{"Winch"}, Spelling: &Transposer{}}},
		Groups:   []GroupPart{{At: 0, End: 24}}, Cycles: []beat.Time{0}}}}
}

// Two bars that differ in anything that is written have different keys, so that
// the one is never taken for the other.
func TestKeysDiffer(t *testing.T) {
	seg := func(in *Input) *Segment { return &in.Voices[0].Segments[0] }
	hand := func(str, fret int8) *fingering.Hand {
		return &fingering.Hand{Struck: []fingering.Stop{{String: str, Fret: fret}}}
	}
	changes := map[string]func(*Input){
		"nothing": func(*Input) {},

		"key or signature": func(in *Input) { in.KeyID = 2 },
		"new system":       func(in *Input) { in.NewSystem = true },
		"tuplet numbers":   func(in *Input) { in.Numbers = true },
		"fermata":          func(in *Input) { in.Fermatas = []beat.Time{8} },
		"fermata later":    func(in *Input) { in.Fermatas = []beat.Time{16} },
		"two fermatas":     func(in *Input) { in.Fermatas = []beat.Time{8, 16} },
		"altered":          func(in *Input) { in.Altered[3] = 0 },
		"nothing altered":  func(in *Input) { in.Altered = nil },
		"another voice":    func(in *Input) { in.Voices = append(in.Voices, VoiceInput{}) },

		"pulse, of how many": func(in *Input) { in.Voices[0].Pulse.Actual = 5 },
		"pulse, in how many": func(in *Input) { in.Voices[0].Pulse.Normal = 4 },
		"unit":               func(in *Input) { in.Voices[0].Unit = 9 },
		"by group":           func(in *Input) { in.Voices[0].ByGroup = true },
		"slashes":            func(in *Input) { in.Voices[0].As = score.AsSlashes },
		"rhythm":             func(in *Input) { in.Voices[0].As = score.AsRhythm },
		"dry":                func(in *Input) { in.Voices[0].Dry = true },
		"beam in":            func(in *Input) { in.Voices[0].BeamIn = true },
		"beam out":           func(in *Input) { in.Voices[0].BeamOut = true },
		"silence":            func(in *Input) { in.Voices[0].Segments = nil },
		"no groups":          func(in *Input) { in.Voices[0].Groups = nil },
		"group's start":      func(in *Input) { in.Voices[0].Groups[0].At = -8 },
		"group's end":        func(in *Input) { in.Voices[0].Groups[0].End = 16 },
		"group of one":       func(in *Input) { in.Voices[0].Groups[0].Lone = true },
		"no cycle":           func(in *Input) { in.Voices[0].Cycles = nil },
		"cycle":              func(in *Input) { in.Voices[0].Cycles[0] = 8 },

		"at":          func(in *Input) { seg(in).At = 8 },
		"length":      func(in *Input) { seg(in).Length = 16 },
		"tied in":     func(in *Input) { seg(in).TieIn = true },
		"tied out":    func(in *Input) { seg(in).TieOut = true },
		"slur begins": func(in *Input) { seg(in).Slur.Starts = true },
		"slur ends":   func(in *Input) { seg(in).Slur.Stops = true },
		"grace note":  func(in *Input) { seg(in).Graces = []score.Chord{{{Step: 'D', Octave: 4}}} },
		"two of them": func(in *Input) { seg(in).Graces = []score.Chord{{{Step: 'D', Octave: 4}}, {{Step: 'D', Octave: 4}}} },
		"a grace chord": func(in *Input) {
			seg(in).Graces = []score.Chord{{{Step: 'D', Octave: 4}, {Step: 'D', Octave: 4}}}
		},
		"accent":     func(in *Input) { seg(in).Accent = true },
		"touch":      func(in *Input) { seg(in).Touch = 1 },
		"high touch": func(in *Input) { seg(in).Touch = 1 << 15 },
		"its low 8":  func(in *Input) { seg(in).Touch = 1<<15 | 1<<7 },
		"group size": func(in *Input) { seg(in).Group = 3 },
		"no tone":    func(in *Input) { seg(in).Tones = nil },
		"letter":     func(in *Input) { seg(in).Tones[0].Step = 'D' },
		"alteration": func(in *Input) { seg(in).Tones[0].Alter = 1 },
		"octave":     func(in *Input) { seg(in).Tones[0].Octave = 5 },
		"drum":       func(in *Input) { seg(in).Tones[0].Drum = 1 },
		"spelling":   func(in *Input) { seg(in).Spelling = nil },
		"its key":    func(in *Input) { seg(in).Spelling.Key.Fifths = 2 },
		"no lyric":   func(in *Input) { seg(in).Lyrics = nil },
		"syllable":   func(in *Input) { seg(in).Lyrics[0].Text = "hoy" },
		"in a word":  func(in *Input) { seg(in).Lyrics[0].Syllabic = 1 },
		"held on":    func(in *Input) { seg(in).Lyrics[0].Extend = true },
		"no layer":   func(in *Input) { seg(in).Layers = nil },
		"layer":      func(in *Input) { seg(in).Layers[0] = "Crane" },
		"ghost head": func(in *Input) { seg(in).Faint = score.Chord{{Drum: 1}} },
		"tablature":  func(in *Input) { seg(in).Hand = hand(0, 0) },
		"string":     func(in *Input) { seg(in).Hand = hand(1, 0) },
		"fret":       func(in *Input) { seg(in).Hand = hand(0, 1) },
		"a grace note's fret": func(in *Input) {
			seg(in).Hand = &fingering.Hand{Struck: []fingering.Stop{{}}, Graces: [][]fingering.Stop{{{Fret: 1}}}}
		},
	}
	seen := map[string]string{}
	for name, change := range changes {
		in := full()
		change(in)
		key := string(in.AppendKey(nil))
		assert.Empty(t, seen[key], "%s has the key of another", name)
		seen[key] = name
	}
	assert.Equal(t, full().AppendKey(nil), full().AppendKey(nil))
}

// Lists that follow each other are told apart by their lengths: what is moved from the
// end of one to the beginning of the next makes another bar, though the bytes of what
// they hold are the same.
func TestListsAreToldApart(t *testing.T) {
	voice := func(change func(*VoiceInput)) string {
		in := &Input{Voices: []VoiceInput{{Segments: []Segment{{Length: 8}}}}}
		change(&in.Voices[0])
		return string(in.AppendKey(nil))
	}
	seg := func(change func(*Segment)) string { return voice(func(v *VoiceInput) { change(&v.Segments[0]) }) }
	layers := func(names ...string) string { return seg(func(s *Segment) { s.Layers = names }) }
	verses := func(texts ...string) string {
		return seg(func(s *Segment) {
			for _, text := range texts {
				s.Lyrics = append(s.Lyrics, score.Lyric{Text: text})
			}
		})
	}
	c, d := score.Tone{Step: 'C'}, score.Tone{Step: 'D'}
	for why, pair := range map[string][2]string{
		"layers":          {layers("ab", "c"), layers("a", "bc")},
		"a layer less":    {layers("\x02ab"), layers("", "ab")},
		"verses":          {verses("ho\x00\x00", ""), verses("ho", "\x00\x00")},
		"ghosts of tones": {seg(func(s *Segment) { s.Faint, s.Tones = score.Chord{c}, score.Chord{d} }), seg(func(s *Segment) { s.Tones = score.Chord{c, d} })},
		"grace notes": {seg(func(s *Segment) { s.Graces = []score.Chord{{c, d}} }),
			seg(func(s *Segment) { s.Graces = []score.Chord{{c}, {d}} })},
		"cycles of groups": {voice(func(v *VoiceInput) { v.Groups, v.Cycles = []GroupPart{{}}, nil }), voice(func(v *VoiceInput) { v.Cycles = []beat.Time{0, 0, 0} })},
		"no group but one": {voice(func(v *VoiceInput) { v.Cycles = []beat.Time{0} }), voice(func(v *VoiceInput) { v.Cycles = []beat.Time{0, 0} })},
	} {
		assert.NotEqual(t, pair[0], pair[1], why)
	}
}
