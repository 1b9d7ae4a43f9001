package layout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// struckOn writes for each bar what is struck: the staff, the layer, and the heads after
// those of their grace notes.
func struckOn(s *sheet.Sheet) (bars []string) {
	text := func(n *sheet.Note) (all string) {
		for _, h := range n.Heads {
			all += h.String()
		}
		return all
	}
	for b := range s.Parts[0].Bars() {
		var all []string
		for _, v := range b.Measure.Voices {
			for _, e := range v.Events {
				n, ok := e.(*sheet.Note)
				if !ok || n.TieIn {
					continue
				}
				layer, heads := v.Layer, text(n)
				if n.Layers != nil {
					layer = strings.Join(n.Layers, "&")
				}
				for i := len(n.Graces) - 1; i >= 0; i-- {
					heads = text(n.Graces[i]) + "/" + heads
				}
				all = append(all, fmt.Sprint(v.Staff, " ", layer, " ", heads))
			}
		}
		bars = append(bars, strings.Join(all, ", "))
	}
	return bars
}

// keys writes a section of one bar of a pianist, whose layers are "name: pitches".
func keys(section int, layers ...string) string {
	text := fmt.Sprintf("title: Weir\nsection: S%d\nmeter: 4/4\nlength: 1 bar\nlayers:\n", section)
	for _, l := range layers {
		name, pitches, _ := strings.Cut(l, ": ")
		text += fmt.Sprintf("  - {name: %s, player: P, instrument: piano, groups: 8, pitches: %s}\n", name, pitches)
	}
	return text
}

// The other hands of layers that are never in one section share a voice, and each is named
// by its notes; of six layers the first three are on the upper staff. A layer is divided in
// the sections that it has to itself. By hand.
func TestOtherHandsShareAVoice(t *testing.T) {
	s := laid(t, Options{}, keys(1, "Keys1: C2+E5"), keys(2, "Keys2: C2+E5"), keys(3, "Keys3: C2+E5"), keys(4, "Keys4: C2+E5"),
		keys(5, "Keys5: C2+E5"), keys(6, "Keys1: C2+E5", "Left: C3"), keys(7, "Keys1: C4"))
	assert.Equal(t, []string{"1 Keys1 E5, 2 Keys1 C2", "1 Keys2 E5, 2 Keys2 C2", "1 Keys3 E5, 2 Keys3 C2", "1 Keys4 E5, 2 Keys4 C2",
		"1 Keys5 E5, 2 Keys5 C2", "1 Keys1 C2E5, 2 Left C3", "1 Keys1 C4"}, struckOn(s))
	assert.Equal(t, []string{"Keys1", "Keys2", "Keys3", "Keys4", "Keys5", "Left"}, s.Parts[0].Layers)
}

// A staff that has four layers has room for another hand while they are silent. Layers
// a to d are above, e to h below. By hand.
func TestAnotherHandOnAFullStaff(t *testing.T) {
	var eight []string
	for _, name := range "abcdefgh" {
		eight = append(eight, string(name)+": C4")
	}
	s := laid(t, Options{}, keys(1, eight...), keys(2, "a: C2+E5"), keys(3, "h: C2+E5"))
	assert.Equal(t, []string{"1 a C4, 1 b C4, 1 c C4, 1 d C4, 2 e C4, 2 f C4, 2 g C4, 2 h C4", "1 a E5, 2 a C2", "1 h E5, 2 h C2"}, struckOn(s))
}

// A grace chord goes to the hand that it lies nearer to, whatever the order in which its
// tones are written. C2 to F2 is 5 half steps, A3 to E5 19; C2 to A3 21, E4 to E5 12; C2 to
// C3 and E4 to E5 both 12. By hand.
func TestGraceChordsGoToTheNearerHand(t *testing.T) {
	for pitches, want := range map[string]string{
		"F2+A3/C2+E5":    "1 K E5, 2 K F2A3/C2",
		"A3+F2/C2+E5":    "1 K E5, 2 K A3F2/C2",
		"A3+E4/C2+E5":    "1 K A3E4/E5, 2 K C2",
		"E4+A3/C2+E5":    "1 K E4A3/E5, 2 K C2",
		"C3+E4/C2+E5":    "1 K E5, 2 K C3E4/C2",
		"E4+C3/C2+E5":    "1 K E5, 2 K E4C3/C2",
		"E5+C2/G4/C2+E5": "1 K E5/G4/E5, 2 K C2/C2",
	} {
		assert.Equal(t, []string{want}, struckOn(laid(t, Options{}, keys(1, "K: "+pitches))), pitches)
	}
}

// requireHands compares what is written on two staves with the layers, section by section:
// each attack is struck once with all its tones, or by both hands of a layer that is alone,
// each of which reaches its tones, and which have them all between them.
func requireHands(t *rapid.T, p *score.Piece, player score.Player, part *sheet.Part, text string) {
	voices, _ := voicesOf(part)
	var staves []int // by voice
	for b := range part.Bars() {
		for v := len(staves); v < len(b.Measure.Voices); v++ {
			staves = append(staves, b.Measure.Voices[v].Staff)
		}
	}
	sounds := make([][]sheet.Sound, len(p.Sections))
	for s := range sheet.Sounds(part) {
		i := len(p.Sections) - 1
		for i > 0 && s.At < p.Sections[i].Start+p.Sections[i].Opening() {
			i--
		}
		sounds[i] = append(sounds[i], s)
	}
	for i, s := range p.Sections {
		heard := 0
		for _, j := range player.Layers[i] {
			l := s.Layers[j]
			tones := map[beat.Time]score.Chord{}
			for at, a := range s.Attacks(j) {
				tones[s.Start+at] = a.Tones
			}
			var got []strikeLength
			want := layerStrikes(s, j)
			for _, w := range want {
				struck := slices.Clone(sounds[i])
				struck = slices.DeleteFunc(struck, func(o sheet.Sound) bool { return o.At != w.At || !slices.Contains(voices[o.Voice], l.Name) })
				require.NotEmpty(t, struck, text)
				heard += len(struck)
				got = append(got, strikeLength{w.At, struck[0].Length})
				at := w.At - s.Start
				if s.EverWritten(l) && onPaper(s.WrittenAt(l, s.BarAt(at).Start)) != score.AsNotes {
					require.Len(t, struck, 1, text)
					continue
				}
				slices.SortFunc(struck, func(a, b sheet.Sound) int { return cmp.Compare(staves[a.Voice], staves[b.Voice]) })
				requireReach(t, tones[w.At], struck, len(player.Layers[i]) == 1, text)
				for _, o := range struck {
					if isDry(p, l.Name) { // each hand has the first sign that its own rests leave
						require.LessOrEqual(t, o.Length, w.Length, text)
					} else {
						require.Equal(t, struck[0].Length, o.Length, text)
					}
				}
				if len(struck) > 1 {
					require.Equal(t, []int{1, 2}, []int{staves[struck[0].Voice], staves[struck[1].Voice]}, text)
				}
			}
			requireStruck(t, want, got, isDry(p, l.Name), fmt.Sprint(l.Name, " of section ", i)+"\n"+text)
		}
		require.Len(t, sounds[i], heard, text)
	}
}

// requireReach holds what is struck together, the upper staff first, to the tones of an
// attack, and to hands that reach a tenth: 16 half steps.
func requireReach(t *rapid.T, tones score.Chord, struck []sheet.Sound, alone bool, text string) {
	var keys, wanted []int
	var names, all []string
	reach := true
	for k := len(struck) - 1; k >= 0; k-- { // from below
		var hand []int
		for _, h := range struck[k].Heads {
			tone := score.Tone{Step: h.Step, Alter: int8(h.Alter), Octave: int8(h.Octave)}
			hand, names = append(hand, tone.Key()), append(names, tone.String())
		}
		slices.Sort(hand)
		reach = reach && hand[len(hand)-1]-hand[0] <= 16
		keys = append(keys, hand...)
	}
	for _, tone := range tones {
		wanted, all = append(wanted, tone.Key()), append(all, tone.String())
	}
	slices.Sort(wanted)
	require.Equal(t, wanted, keys, text) // in order: the lower hand has the lower tones
	require.ElementsMatch(t, all, names, text)
	low, high := wanted[0], wanted[len(wanted)-1]
	inTwo := !slices.ContainsFunc(wanted, func(key int) bool { return key-low > 16 && high-key > 16 })
	switch {
	case alone && high-low > 16 && inTwo:
		require.Len(t, struck, 2, text)
		require.True(t, reach, text)
	default:
		require.Len(t, struck, 1, text)
	}
}
