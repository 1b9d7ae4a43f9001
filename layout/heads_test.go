package layout

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// heads returns the heads of a sheet's first part as text, bar by bar.
func heads(s *sheet.Sheet) string {
	var bars []string
	for b := range s.Parts[0].Bars() {
		var notes []string
		for _, e := range b.Measure.Voices[0].Events {
			if n, ok := e.(*sheet.Note); ok {
				text := ""
				if n.TieIn {
					text = "~"
				}
				for _, h := range n.Heads {
					text += h.String()
				}
				notes = append(notes, text)
			}
		}
		bars = append(bars, strings.Join(notes, " "))
	}
	return strings.Join(bars, " | ")
}

func melody(key, pitches, groups, bars string) string {
	return "title: Weir\nmeter: 4/4\nkey: " + key + "\nlength: " + bars + " bars\nlayers:\n" +
		"  - {name: M, instrument: marimba, groups: " + groups + ", pitches: " + pitches + "}\n"
}

// The rule: a sign holds for its staff, letter and octave to the bar's end; a
// tied-in note prints none and sets nothing; courtesy signs after a bar that
// altered the note, and where another octave is altered. Common practice.
func TestAccidentals(t *testing.T) {
	cases := []struct{ key, pitches, groups, bars, want string }{
		{"none", "F#4 F#4 F4 F4", "2+2+2+2", "1", "F(#)4 F#4 F(n)4 F4"},
		{"none", "F#4 F5 F5", "2+3+3", "1", "F(#)4 F(n?)5 F5"},
		{"none", "C#5 D5 C#5 E5", "3+3+4+6", "2", "C(#)5 D5 C#5 | ~C#5 E5"},
		{"none", "C5 D5 C#5 C#5 C5", "3+3+4+2+4", "2", "C5 D5 C(#)5 | ~C#5 C(#)5 C(n)5"},
		{"2 sharps", "F#4 F4 C#5 G4", "2+2+2+2", "1", "F#4 F(n)4 C#5 G4"},
		{"D dorian", "B4 Bb4 B4 F4", "2+2+2+2", "1", "B4 B(b)4 B(n)4 F4"},
		{"3 flats", "E4 Eb4 Ab4 Bb4", "2+2+2+2", "1", "E(n)4 E(b)4 Ab4 Bb4"},
		{"none", "F##4 Ebb4 F##4 E4", "2+2+2+2", "1", "F(##)4 E(bb)4 F##4 E(n)4"},
		{"none", "F#4+A4 F4+A#4", "4+4", "1", "F(#)4A4 F(n)4A(#)4"},
	}
	for _, c := range cases {
		s := laid(t, Options{Breaks: BreakNone}, melody(c.key, c.pitches, c.groups, c.bars))
		assert.Equal(t, c.want, heads(s), "%s %s", c.key, c.pitches)
	}
}

func TestCourtesyAfterABar(t *testing.T) {
	text := strings.Replace(melody("none", "F#4 G4 F4 F4", "8", "4"), "pitches:", "restart: never, pitches:", 1)
	assert.Equal(t, "F(#)4 | G4 | F4 | F4", heads(laid(t, Options{Breaks: BreakNone}, text)), "only the bar before")
	text = strings.Replace(melody("none", "F#4 F4 F4", "8", "3"), "pitches:", "restart: never, pitches:", 1)
	assert.Equal(t, "F(#)4 | F(n?)4 | F4", heads(laid(t, Options{Breaks: BreakNone}, text)))
}

// A note tied over a new system shows its sign again, in parentheses.
func TestCourtesyOverABreak(t *testing.T) {
	text := `title: Weir
meter: 4/4
length: 14 bars
realign: [B, C]
layers:
  - {name: M, instrument: marimba, groups: 5+5, pitches: F#4 G4}
  - {name: B, groups: 8}
  - {name: C, groups: 7, strike: hold}
`
	s := laid(t, Options{}, text)
	for b := range s.Parts[0].Bars() {
		n, ok := b.Measure.Voices[0].Events[0].(*sheet.Note)
		if ok && n.TieIn && n.Heads[0].Alter == 1 {
			assert.Equal(t, b.Break == sheet.NewSystem, n.Heads[0].Accidental == sheet.Sharp|sheet.Courtesy, "bar %d", b.Number)
		}
	}
	for b := range s.Parts[0].Bars() { // 56 eighths: 5+5 is six into its sixth cycle, G since 55
		if b.Number == 8 {
			assert.Equal(t, sheet.NewSystem, b.Break)
		}
	}
}

// A B flat clarinet sounds a major second lower than written, an E flat
// instrument a major sixth: the intervals are the standard ones.
func TestTransposition(t *testing.T) {
	clarinet := &instrument.Instrument{Diatonic: -1, Chromatic: -2}
	tones := func(s string) score.Tone {
		tone := score.Tone{Step: s[0], Octave: int8(s[len(s)-1] - '0')}
		tone.Alter = int8(strings.Count(s, "#") - strings.Count(s, "b"))
		return tone
	}
	cases := []struct {
		sounding, want string
		respelt        bool
	}{
		{"C4", "D4", false}, {"Bb3", "C4", false}, {"F4", "G4", false}, {"E4", "F#4", false}, {"B4", "C#5", false},
		{"D#4", "F4", true},  // E sharp by the interval
		{"A#4", "C5", true},  // B sharp
		{"Ebb4", "E4", true}, // F flat
		{"Bbb4", "B4", true}, // C flat
		{"C#4", "D#4", false},
		{"F##4", "A4", true}, // G double sharp
	}
	for _, c := range cases {
		w, _, respelt := bar.NewTransposer(clarinet, false).Written(tones(c.sounding))
		assert.Equal(t, c.want, w.String(), c.sounding)
		assert.Equal(t, c.respelt, respelt, c.sounding)
		same, _, _ := bar.NewTransposer(clarinet, true).Written(tones(c.sounding))
		assert.Equal(t, c.sounding, same.String(), "at concert pitch the spec's own spelling stays")
	}
	piccolo := &instrument.Instrument{Octave: 1}
	for _, concert := range []bool{false, true} {
		w, _, _ := bar.NewTransposer(piccolo, concert).Written(tones("C#6"))
		assert.Equal(t, "C#5", w.String(), "octaves stay transposed in a concert score")
	}
}

// Keys move along the circle of fifths: two sharps more for B flat instruments,
// one for F; past seven signs the enharmonic key, which pitches follow.
func TestTransposedKeys(t *testing.T) {
	clarinet := &instrument.Instrument{Diatonic: -1, Chromatic: -2}
	horn := &instrument.Instrument{Diatonic: -4, Chromatic: -7}
	for fifths, want := range map[int]int{0: 2, -2: 0, 3: 5, 5: 7, 6: -4} {
		tr := bar.NewTransposer(clarinet, false)
		assert.Equal(t, want, tr.KeyOf(score.Key{Fifths: fifths}).Fifths, "clarinet, %d", fifths)
	}
	tr := bar.NewTransposer(horn, false)
	assert.Equal(t, 1, tr.KeyOf(score.Key{}).Fifths)
	tr = bar.NewTransposer(clarinet, false)
	tr.KeyOf(score.Key{Fifths: 6}) // F sharp major is read in A flat
	w, _, respelt := tr.Written(score.Tone{Step: 'F', Alter: 1, Octave: 4})
	assert.Equal(t, "Ab4", w.String())
	assert.False(t, respelt)
	assert.True(t, tr.KeyOf(score.Key{None: true}).None)
}

// Each section is transposed in its own key.
func TestSectionsTransposeInTheirKeys(t *testing.T) {
	sharp := strings.Replace(melody("6 sharps", "F#4", "8", "1"), "marimba", "clarinet", 1)
	plain := strings.Replace(melody("none", "F#4", "8", "1"), "marimba", "clarinet", 1)
	s := laid(t, Options{}, strings.Replace(sharp, "key:", "section: A\nkey:", 1), strings.Replace(plain, "key:", "section: B\nkey:", 1))
	assert.Equal(t, "Ab4 | G(#)4", heads(s), "four flats in the first, none in the second")
	assert.Equal(t, -4, firstBar(&s.Parts[0]).Measure.Key.Fifths)
}

func TestRespellingsAreReported(t *testing.T) {
	s := laid(t, Options{}, strings.Replace(melody("none", "D#4 C4 D#4 C4", "2+2+2+2", "2"), "marimba", "clarinet", 1))
	require.Len(t, s.Respelled, 1, "each once")
	assert.Equal(t, "F4", s.Respelled[0].Written.String())
	assert.Equal(t, "E#4", s.Respelled[0].Instead.String())
}

// Two hands on two staves, a kit's feet under its hands, clefs by the median.
func TestStavesAndVoices(t *testing.T) {
	s := laid(t, Options{}, `title: Kit
meter: 4/4
length: 7 bars
layers:
  - {name: Hands, player: Kit, instrument: drum set, groups: 3+3+2, strike: all, pitches: closed hi-hat snare}
  - {name: Feet, player: Kit, instrument: drum set, groups: 3+4, pitches: kick}
  - {name: Right, player: Keys, instrument: piano, groups: 3+3+2+2, pitches: E5 C5 G4 A4}
  - {name: Left, player: Keys, instrument: piano, groups: 2+3, pitches: C3+G3 D3+A3}
  - {name: Deep, instrument: marimba, groups: 8, pitches: C2}
  - {name: High, instrument: marimba, groups: 8, pitches: C5}
`)
	require.Len(t, s.Parts, 4)
	kit, keys := firstBar(&s.Parts[0]).Measure, firstBar(&s.Parts[1]).Measure
	assert.Equal(t, []sheet.Stem{sheet.StemUp, sheet.StemDown}, []sheet.Stem{kit.Voices[0].Stem, kit.Voices[1].Stem})
	assert.Equal(t, []int{1, 1}, []int{kit.Voices[0].Staff, kit.Voices[1].Staff})
	assert.Equal(t, []int{1, 5}, []int{keys.Voices[0].Number, keys.Voices[1].Number})
	assert.Equal(t, []int{1, 2}, []int{keys.Voices[0].Staff, keys.Voices[1].Staff})
	assert.Equal(t, "GF", string([]byte{s.Parts[1].Staves[0].Clef.Sign, s.Parts[1].Staves[1].Clef.Sign}))
	assert.Equal(t, byte('F'), s.Parts[2].Staves[0].Clef.Sign, "C2 lies five ledger lines under a treble staff and more")
	assert.Equal(t, byte('G'), s.Parts[3].Staves[0].Clef.Sign)
}

func firstBar(p *sheet.Part) *sheet.Bar {
	for b := range p.Bars() {
		return b
	}
	return nil
}

// Accents and syllables stand where a sound begins, never on a tied-in note.
func TestWordsAndAccents(t *testing.T) {
	s := laid(t, Options{Marks: MarkSizes}, one("4/4", "1/8", "2", "groups: 3+2+2, accent: group, syllables: {3: ta ka di, 2: ta ka}"))
	var got []string
	for b := range s.Parts[0].Bars() {
		for _, e := range b.Measure.Voices[0].Events {
			n := e.(*sheet.Note)
			text := ""
			if n.Lyrics != nil {
				text = n.Lyrics[0].Text
			}
			got = append(got, text+map[bool]string{true: "^"}[n.Accent])
		}
	}
	assert.Equal(t, []string{"ta^", "ta^", "ta^", "ta^", "", "ta^", "ta^", "ta^"}, got)
	assert.Equal(t, []string{"1.0 3", "1.1 2", "1.2 2", "1.3 3 goes on", "2.0 3 gone on", "2.1 2", "2.2 2", "2.3 3"}, marksOf(&s.Parts[0], sheet.GroupSize))
	play := laid(t, Options{Marks: MarkSizes, Edition: sheet.Play}, one("4/4", "1/8", "2", "groups: 3+2+2"))
	assert.Equal(t, []string{"1.0 3", "1.1 2", "1.2 2", "1.3 3", "2.1 2", "2.2 2", "2.3 3"}, marksOf(&play.Parts[0], sheet.GroupSize), "corners are analysis")
}
