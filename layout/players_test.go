package layout

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
)

// told lists a part's texts and chord symbols with bar and staff.
func told(p *sheet.Part) []string {
	var all []string
	for b := range p.Bars() {
		for _, m := range b.Marks {
			if m.Kind == sheet.ChordSymbol || m.Kind == sheet.Words {
				all = append(all, string(rune('0'+b.Number))+string(rune('a'+b.Measure.Voices[m.Voice].Staff-1))+" "+m.Text)
			}
		}
	}
	return all
}

// What is for some stands over their staves, and in their parts only; what is
// for all over the top staff and in every part (by hand).
func TestSignsForSome(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 4 bars
layers:
  - {name: Block, instrument: woodblock, groups: 4+4}
  - {name: Clarinet, instrument: clarinet, groups: 4+4, pitches: C5 D5}
  - {name: Over, player: Keys, instrument: piano, groups: 4+4, pitches: C5}
  - {name: Under, player: Keys, instrument: piano, groups: 4+4, pitches: C3}
plan:
  - {at: bar 1, text: together}
  - {at: bar 1, text: apart, chord: Eb, for: [Clarinet, Block]}
  - {at: Clarinet cycle 2, text: breathe}
  - {at: Clarinet cycle 2, text: look, for: all}
  - {at: bar 3, text: pedal, for: Keys}
  - {at: bar 4, text: low, chord: C, for: Under}
`
	whole := laid(t, Options{}, text)
	want := [][]string{
		{"1a together", "1a apart", "2a look"},
		{"1a apart", "1a F", "2a breathe"},
		{"3a pedal", "3b pedal", "4b low", "4b C"},
	}
	for i := range want {
		assert.Equal(t, want[i], told(&whole.Parts[i]), "score, part %d", i)
	}
	want[1] = []string{"1a together", "1a apart", "1a F", "2a look", "2a breathe"}
	want[2] = []string{"1a together", "2a look", "3a pedal", "3b pedal", "4b low", "4b C"}
	for i := range want {
		part, problems := LayPart(read(t, text), Options{}, i)
		require.NoError(t, problems.Err())
		assert.Equal(t, want[i], told(&part.Parts[0]), "part %d", i)
	}
}

// Of a keyboard with one low layer both staves are written: rests above, and with
// them what is for all (by hand). In the score below another part too.
func TestSignsForAllOnTheUpperStaff(t *testing.T) {
	const low = `  - {name: Pump, instrument: piano, groups: 4+4, pitches: C3 D3}
`
	const text = `title: Low Lock
section: W
meter: 4/4
tempo: 90
length: 3 bars
layers:
` + low + `plan:
  - {at: bar 2, mark: gate, text: watch, chord: Am}
`
	score := laid(t, Options{}, text)
	part, problems := LayPart(read(t, text), Options{}, 0)
	require.NoError(t, problems.Err())
	for _, s := range []*sheet.Sheet{score, part} {
		p := &s.Parts[0]
		assert.Equal(t, []string{"Pump"}, p.Layers)
		for b := range p.Bars() {
			require.Len(t, b.Measure.Voices, 2)
			assert.Equal(t, "1 1 rbar", places(&b.Measure.Voices[0]))
			assert.Equal(t, "2 5 h h", places(&b.Measure.Voices[1]))
			for _, m := range b.Marks {
				staff := b.Measure.Voices[m.Voice].Staff
				switch m.Kind {
				case sheet.TempoMark, sheet.Rehearsal, sheet.Words, sheet.ChordSymbol:
					assert.Equal(t, 1, staff, m.String())
				default:
					assert.Equal(t, 2, staff, m.String())
				}
			}
		}
		assert.Equal(t, []string{"1.0 W", "2.0 gate"}, marksOf(p, sheet.Rehearsal))
		assert.Equal(t, []string{"2a Am", "2a watch"}, slices.Sorted(slices.Values(told(p))))
	}
	below := laid(t, Options{}, "title: Weir\nmeter: 4/4\nlength: 1 bars\nlayers:\n  - {name: Block, instrument: woodblock, groups: 4+4}\n"+low)
	for b := range below.Parts[1].Bars() {
		assert.Equal(t, "1 1 rbar", places(&b.Measure.Voices[0]))
		assert.Equal(t, "2 5 h h", places(&b.Measure.Voices[1]))
	}
}

// A realignment inside a bar has its stroke on the first voice that plays: 5 and 10
// eighths meet after 10, where the pump's cycle of 8 has none of its own (arithmetic).
func TestStrokesBelowAnEmptyStaff(t *testing.T) {
	s := laid(t, Options{}, `title: Weir
meter: 4/4
length: 3 bars
realign: [Low, Clock]
layers:
  - {name: Pump, instrument: piano, groups: 8, pitches: C3}
  - {name: Low, instrument: bass clarinet, groups: 5, pitches: C3}
  - {name: Clock, instrument: claves, groups: 10}
`)
	require.Equal(t, []string{"2.0+ A1", "3.0+ A2"}, marksOf(&s.Parts[0], sheet.Boxed), "after 10 and 20 eighths")
	assert.Equal(t, []string{"2.0+", "3.0+"}, marksOf(&s.Parts[0], sheet.Stroke))
}

// places writes a voice's staff and number before its rhythm.
func places(v *sheet.Voice) string {
	return fmt.Sprintf("%d %d %s", v.Staff, v.Number, sheet.Rhythm(v))
}

// stemsOf lists, bar by bar, how the stems of each voice of a part go.
func stemsOf(p *sheet.Part) (bars []string) {
	for b := range p.Bars() {
		text := ""
		for _, v := range b.Measure.Voices {
			text += fmt.Sprint(v.Number) + v.Stem.String() + " "
		}
		bars = append(bars, text)
	}
	return bars
}

// Layers of a player that are never there in one bar are one voice with free stems,
// in one section or in several; those that share a bar are two; a keyboard's and a
// kit's keep their places.
func TestLayersThatNeverMeet(t *testing.T) {
	const never = `title: T
length: 4 bars
layers:
  - {name: G, player: V, instrument: violin, groups: 3+2, pitches: A4 B4, leaves: bar 3}
  - {name: H, player: V, instrument: violin, groups: 3+2, pitches: G4 A4, enters: bar 3}
plan:
  - {at: bar 1, text: pizz.}
  - {at: bar 2, text: lightly, for: H}
  - {at: bar 4, text: arco}
`
	s := laid(t, Options{}, never)
	assert.Equal(t, []string{"1 ", "1 ", "1 ", "1 "}, stemsOf(&s.Parts[0]))
	var words []string
	for b := range s.Parts[0].Bars() {
		for _, m := range b.Marks {
			if m.Kind == sheet.TechniqueMark || m.Kind == sheet.Words {
				words = append(words, fmt.Sprint(b.Number, m.Text))
			}
		}
	}
	assert.Equal(t, []string{"1pizz.", "2lightly", "4arco"}, words, "each once, also that for whom is not there yet")
	meet := laid(t, Options{}, strings.Replace(never, "leaves: bar 3", "leaves: bar 3 beat 2", 1))
	assert.Equal(t, []string{"1up 2down ", "1up 2down ", "1up 2down ", "1up 2down "}, stemsOf(&meet.Parts[0]))
	kit := laid(t, Options{}, `title: T
length: 2 bars
layers:
  - {name: Hat, player: K, instrument: drum set, groups: 4+4, pitches: closed hi-hat, leaves: bar 2}
  - {name: Kick, player: K, instrument: drum set, groups: 4+4, pitches: kick, enters: bar 2}
  - {name: R, player: P, instrument: piano, groups: 4+4, pitches: C5, leaves: bar 2}
  - {name: L, player: P, instrument: piano, groups: 4+4, pitches: C3, enters: bar 2}
`)
	assert.Equal(t, []string{"1up 2down ", "1up 2down "}, stemsOf(&kit.Parts[0]))
	assert.Equal(t, []string{"1 5 ", "1 5 "}, stemsOf(&kit.Parts[1]))
}

// In another section, too; what the marimba reads has one clef in all.
func TestLayersOfSeveralSections(t *testing.T) {
	const text = `
length: 2 bars
layers:
  - {name: %s, player: M, instrument: marimba, groups: 3+2, pitches: %s}
`
	s := laid(t, Options{}, "title: A"+fmt.Sprintf(text, "G", "C3 E3"), "section: B"+fmt.Sprintf(text, "H", "E5 G5"))
	assert.Equal(t, []string{"1 ", "1 ", "1 ", "1 "}, stemsOf(&s.Parts[0]))
	for b := range s.Parts[0].Bars() {
		assert.False(t, b.NewClef, b.Number)
	}
}

// bothStaves writes what is struck on the two staves of each bar, above and below.
func bothStaves(s *sheet.Sheet) (bars []string) {
	for b := range s.Parts[0].Bars() {
		var both []string
		for staff := 1; staff <= 2; staff++ {
			for _, v := range b.Measure.Voices {
				if v.Staff == staff {
					one := sheet.Measure{Length: b.Measure.Length, Voices: []sheet.Voice{v}}
					both = append(both, heads(&sheet.Sheet{Parts: []sheet.Part{{Walk: func(yield func(*sheet.Bar) bool) { yield(&sheet.Bar{Measure: &one}) }}}}))
				}
			}
		}
		bars = append(bars, strings.Join(both, " / "))
	}
	return bars
}

// A chord that is too wide for one hand is divided at its widest gap, between the staves
// of a layer that has both; its other notes keep their staff, grace notes go where they are
// nearest, and marks stand once. Where
// another layer has the other staff, and where two hands reach no more, it stays whole. By hand.
func TestAWideChordTakesBothHands(t *testing.T) {
	const one = "title: Weir\nmeter: 4/4\nlength: 2 bars\nlayers:\n  - {name: Keys, instrument: piano, dynamic: f, slurs: cycle, lyrics: la la, groups: 3+5+5+3, pitches: %s}\n"
	for _, c := range []struct {
		pitches string
		want    []string
		signs   []string // staff and sign
	}{
		{"C2+G2+E4+G4 E4 B3/C3+E5 C4+E5", []string{"E4G4 E4 ~E4 / C2G2", "E5 ~E5 C4E5 / C3 ~C3"}, []string{"1 la", "1 la", `1 dynamic "f"`, "1 cycle 1", "2 grace"}},
		{"C2 C2+E5 G2 G2", []string{"E5 ~E5 / C2 C2 ~C2", " / G2 ~G2 G2"}, []string{"2 la", "2 la", `2 dynamic "f"`, "2 cycle 1"}},
		{"E5 C2/D3/C3+E5 C4/C2+C5 C5", []string{"E5 E5 ~E5 / C3 ~C3", "C5 ~C5 C5 / C2 ~C2"}, []string{"1 la", "1 la", "2 grace", `1 dynamic "f"`, "1 cycle 1", "1 grace"}},
		{"C2+C4+C6 C4 C4 C4", []string{"C2C4C6 C4 ~C4", "C4 ~C4 C4"}, []string{"1 la", "1 la", `1 dynamic "f"`, "1 cycle 1"}},
	} {
		s := laid(t, Options{}, fmt.Sprintf(one, c.pitches))
		assert.Equal(t, c.want, bothStaves(s))
		var signs []string
		for b := range s.Parts[0].Bars() {
			for _, v := range b.Measure.Voices {
				for _, e := range v.Events {
					if n, ok := e.(*sheet.Note); ok && len(n.Graces) > 0 {
						signs = append(signs, fmt.Sprint(v.Staff, " grace"))
					}
					if n, ok := e.(*sheet.Note); ok && len(n.Lyrics) > 0 {
						signs = append(signs, fmt.Sprint(v.Staff, " ", n.Lyrics[0].Text))
					}
				}
			}
			for _, m := range b.Marks {
				if m.Kind == sheet.DynamicMark || m.Kind == sheet.CycleNumber {
					signs = append(signs, fmt.Sprint(b.Measure.Voices[m.Voice].Staff, " ", m.String()))
				}
			}
		}
		assert.Equal(t, c.signs, signs)
	}
	s := laid(t, Options{}, "title: Weir\nmeter: 4/4\nlength: 1 bar\nlayers:\n  - {name: Right, player: P, instrument: piano, groups: 8, pitches: C3+G4}\n  - {name: Left, player: P, instrument: piano, groups: 8, pitches: C2}\n")
	assert.Equal(t, []string{"C3G4 / C2"}, bothStaves(s))
}
