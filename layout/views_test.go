package layout

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// marksOf lists the marks of one kind of a part as "bar.event text".
func marksOf(p *sheet.Part, kind sheet.MarkKind) []string {
	var all []string
	for b := range p.Bars() {
		for _, m := range b.Marks {
			if m.Kind != kind {
				continue
			}
			at := fmt.Sprintf("%d.%d", b.Number, m.Before)
			if m.Offset > 0 {
				at += "+"
			}
			if m.N > 0 {
				at += fmt.Sprintf(" %d", m.N)
			}
			if m.Text != "" {
				at += " " + m.Text
			}
			all = append(all, at)
		}
	}
	return all
}

// single lays one player's part and holds it to the law.
func single(t *testing.T, o Options, player int, texts ...string) *sheet.Sheet {
	t.Helper()
	s, problems := LayPart(read(t, texts...), o, player)
	require.NoError(t, problems.Err())
	for i := range s.Parts {
		require.NoError(t, sheet.Check(s, &s.Parts[i]))
	}
	return s
}

const lockRound = `title: Lock Keeper's Round
section: B
meter: 5/4
length: 2 realignments
layers:
  - {name: Marimba, short: Mar., instrument: marimba, groups: 3+2+2+3, pitches: E5 B4 G4 D5}
  - {name: Vibraphone, short: Vib., instrument: vibraphone, groups: 3+3+2+2+2, pitches: A4 C5 D5 G4 E4}
`

// 10 against 12 eighths meet after 60: six bars of 5/4 (arithmetic).
func TestRealignmentsOnBarlines(t *testing.T) {
	s := laid(t, Options{}, lockRound)
	assert.Equal(t, 12, s.Bars)
	top := &s.Parts[0]
	assert.Equal(t, []string{"1.0 B", "7.0 B1"}, marksOf(top, sheet.Rehearsal))
	assert.Empty(t, marksOf(top, sheet.Boxed), "none stands at the final barline")
	assert.Empty(t, marksOf(&s.Parts[1], sheet.Rehearsal), "signs for everybody stand on the top part")
	for i := range s.Parts {
		for b := range s.Parts[i].Bars() {
			want := map[int]sheet.Barline{6: sheet.Double, 12: sheet.Final}[b.Number]
			assert.Equal(t, want, b.Barline, "bar %d", b.Number)
			assert.Equal(t, b.Number%3 == 1 && b.Number > 1, b.Break == sheet.NewSystem, "bar %d: a period is two systems of three bars", b.Number)
			assert.Equal(t, b.Number == 1 || b.Number == 7, b.Realigned, "bar %d", b.Number)
		}
	}
	assert.Equal(t, []string{"1.0 3+3+2+2+2", "7.0 3+3+2+2+2"}, marksOf(&s.Parts[1], sheet.Grouping), "first cycle and after the realignment")
	assert.Equal(t, []string{"1.0 1", "2.1 2", "3.2 3", "4.3 4", "5.4 5", "7.0 1", "8.1 2", "9.2 3", "10.3 4", "11.4 5"},
		marksOf(&s.Parts[1], sheet.CycleNumber))
	assert.Equal(t, []string{"2.1", "3.2", "4.3", "5.4", "8.1", "9.2", "10.3", "11.4"}, marksOf(&s.Parts[1], sheet.Stroke))
	assert.Equal(t, []string{"2.0", "3.1", "4.2", "5.3", "6.4", "8.0", "9.1", "10.2", "11.3", "12.4"}, marksOf(&s.Parts[1], sheet.CycleStop))
}

// Shorter than four bars between realignments: a box each, and a double bar only
// four bars or more after the last: with the second, six bars after the start.
func TestNoDoubleBarAtShortPeriods(t *testing.T) {
	s := laid(t, Options{}, `title: Weir
meter: 4/4
length: 3 realignments
layers:
  - {name: A, groups: 3+3}
  - {name: B, groups: 8}
`)
	assert.Equal(t, []string{"4.0 A1", "7.0 A2"}, marksOf(&s.Parts[0], sheet.Rehearsal), "24 eighths are three bars")
	assert.Equal(t, []string{"1.0 3+3", "4.0 3+3", "7.0 3+3"}, marksOf(&s.Parts[0], sheet.Grouping))
	for b := range s.Parts[0].Bars() {
		assert.Equal(t, b.Number == 6, b.Barline == sheet.Double, "bar %d", b.Number)
	}
}

// Each marked realignment prints the groupings again, also one that begins the
// last bar: 9 against 6 eighths of 6/8 meet every 18, three bars.
func TestGroupingsAfterEveryRealignment(t *testing.T) {
	s := laid(t, Options{}, `title: Weir
section: A
meter: 6/8
length: 7 bars
layers:
  - {name: A, groups: 5+4}
  - {name: B, groups: 3+3}
`)
	assert.Equal(t, []string{"1.0 5+4", "4.0 5+4", "7.0 5+4"}, marksOf(&s.Parts[0], sheet.Grouping))
}

// Realignments that come with every bar, or several in one, are not marked; the
// grouping stands at the beginning.
func TestNoMarksInEveryBar(t *testing.T) {
	for _, text := range []string{"{name: A, groups: 2+1}\n  - {name: B, groups: 3}", "{name: A, groups: 4+2, loop: cut every bar}\n  - {name: B, groups: 6}"} {
		s := laid(t, Options{}, "title: Weir\nsection: A\nmeter: 6/8\nlength: 9 bars\nlayers:\n  - "+text+"\n")
		assert.Equal(t, []string{"1.0 A"}, marksOf(&s.Parts[0], sheet.Rehearsal))
		assert.Empty(t, marksOf(&s.Parts[0], sheet.Boxed))
		assert.Len(t, marksOf(&s.Parts[0], sheet.Grouping), 1)
		for b := range s.Parts[0].Bars() {
			assert.NotEqual(t, sheet.Double, b.Barline, "bar %d", b.Number)
		}
	}
}

// Loops of nine, cut every ten bars of 5/4, against ten, by hand: see
// score.TestACutLoopRealigns. Only the cut has a double bar and begins a system.
func TestForcedRealignments(t *testing.T) {
	s := laid(t, Options{}, `title: Weir
section: C
meter: 5/4
length: 20 bars
layers:
  - {name: Crane, groups: 4+3+2, loop: cut every 10 bars}
  - {name: Winch, groups: 6+4}
`)
	assert.Equal(t, []string{"1.0 C", "10.0 C1", "11.0 C2 cut", "20.0 C3"}, marksOf(&s.Parts[0], sheet.Rehearsal))
	assert.Empty(t, marksOf(&s.Parts[0], sheet.Boxed))
	for i := range s.Parts {
		for b := range s.Parts[i].Bars() {
			assert.Equal(t, b.Number == 10, b.Barline == sheet.Double, "bar %d", b.Number)
			if b.Number == 11 {
				assert.Equal(t, sheet.NewSystem, b.Break)
			}
			assert.Equal(t, b.Number == 11, b.Forced)
		}
	}
}

// Loops of 6 and 8 meet every 24 eighths; in 5/4 that is bar 3 beat 3.
func TestRealignmentInsideABar(t *testing.T) {
	text := `title: Weir
section: C
meter: 5/4
length: 2 realignments
layers:
  - {name: A, groups: 6}
  - {name: B, groups: 8}
`
	s := laid(t, Options{}, text)
	assert.Equal(t, []string{"1.0 C"}, marksOf(&s.Parts[0], sheet.Rehearsal))
	assert.Equal(t, []string{"3.1 C1"}, marksOf(&s.Parts[0], sheet.Boxed), "24 eighths; 48 are the end")
	assert.Equal(t, []string{"3.1 beat 3"}, marksOf(&s.Parts[0], sheet.Words))
	for b := range s.Parts[0].Bars() {
		assert.NotEqual(t, sheet.Double, b.Barline)
		assert.Equal(t, sheet.NoBreak, b.Break)
	}
	part := single(t, Options{Edition: sheet.Play}, 1, text)
	assert.Equal(t, []string{"3.1 C1"}, marksOf(&part.Parts[0], sheet.Boxed), "in every part")
	assert.Empty(t, marksOf(&part.Parts[0], sheet.Stroke), "strokes are for study")
	assert.Empty(t, marksOf(&part.Parts[0], sheet.CycleStart), "and so are brackets")
	assert.Contains(t, marksOf(&part.Parts[0], sheet.CycleNumber), "3.1 1 ()")
}

// A bracket begins where its cycle does, in a rest too. Cycles of rest 6+3+3 begin
// every 12 eighths, at the start of bars 1 and 4 and at the half rest of bars 2 and
// 5 (~e q. rh). Of rest 8+4+rest 8 bar 3 is empty: the first cycle ends, and the
// second begins, 4 eighths into its one rest (by hand).
func TestBracketsBeginAtTheHead(t *testing.T) {
	s := laid(t, Options{}, one("4/4", "1/8", "6", "groups: rest 6+3+3"))
	assert.Equal(t, []string{"1.0", "2.2", "4.0", "5.2"}, marksOf(&s.Parts[0], sheet.CycleStart))
	s = laid(t, Options{}, one("4/4", "1/8", "4", "groups: rest 8+4+rest 8"))
	assert.Equal(t, []string{"1.0", "3.0+"}, marksOf(&s.Parts[0], sheet.CycleStart))
	assert.Equal(t, []string{"3.0", "4.1"}, marksOf(&s.Parts[0], sheet.CycleStop))
	for b := range s.Parts[0].Bars() {
		for _, m := range b.Marks {
			if b.Number == 3 && m.Kind == sheet.CycleStart {
				assert.Equal(t, b.Measure.Length/2, m.Offset)
			}
		}
	}
}

// What fills whole bars need not be counted, and a grouping stands once until it
// changes.
func TestPlayEditionSaysNothingTwice(t *testing.T) {
	s := single(t, Options{Edition: sheet.Play}, 0, one("4/4", "1/8", "16", "groups: 3+3+2"))
	assert.Equal(t, []string{"1.0 3+3+2"}, marksOf(&s.Parts[0], sheet.Grouping))
	assert.Empty(t, marksOf(&s.Parts[0], sheet.CycleNumber))
	s = single(t, Options{Edition: sheet.Play}, 0, one("4/4", "1/8", "4", "groups: 3+2+2, except: [{cycle: 3, groups: 4+3}]"))
	assert.Equal(t, []string{"1.0 3+2+2", "2.3 4+3", "3.2 3+2+2"}, marksOf(&s.Parts[0], sheet.Grouping))
	assert.Equal(t, []string{"1.0 1 ()", "1.3 2 ()", "2.3 3 ()", "3.2 4 ()", "4.2 5 ()"}, marksOf(&s.Parts[0], sheet.CycleNumber))
}

func TestEnds(t *testing.T) {
	land := laid(t, Options{}, strings.Replace(lockRound, "meter:", "end: land\nmeter:", 1))
	assert.Equal(t, 13, land.Bars)
	assert.Equal(t, []string{"1.0 B", "7.0 B1", "13.0 B2"}, marksOf(&land.Parts[0], sheet.Rehearsal))
	again := laid(t, Options{}, strings.Replace(lockRound, "meter:", "end: repeat\nmeter:", 1))
	assert.Equal(t, []string{"12.4 B2 = beginning"}, marksOf(&again.Parts[0], sheet.Boxed))
	for b := range again.Parts[1].Bars() {
		assert.Equal(t, b.Number == 1, b.Left == sheet.RepeatStart)
		assert.Equal(t, b.Number == 12, b.Barline == sheet.RepeatEnd && b.Times == 2)
	}
}

const nightLocks = `title: Night Locks
section: E
meter: 4/4
length: 21 bars
realign: [Marimba, Vibraphone]
layers:
  - {name: Marimba, short: Mar., instrument: marimba, groups: 3+3+2, pitches: E5, dynamic: mf}
  - {name: Vibraphone, short: Vib., instrument: vibraphone, groups: 3+2+2, pitches: A4, dynamic: p}
  - {name: Clarinet, short: Cl., instrument: clarinet, groups: 4+4, pitches: E4, dynamic: mf, enters: bar 11}
plan:
  - {at: bar 5, text: watch the gate}
`

// A part's rests: gathered, broken at texts, boxes and double bars (8 against 7
// eighths meet every 7 bars), the last bar outside with the cue in words.
func TestRestsOfAPart(t *testing.T) {
	s := single(t, Options{Edition: sheet.Play}, 2, nightLocks)
	p := &s.Parts[0]
	rests := map[int]int{}
	for b := range p.Bars() {
		if b.Rest > 0 {
			rests[b.Number] = b.Rest
		}
	}
	assert.Equal(t, map[int]int{1: 4, 5: 3, 8: 2}, rests)
	assert.Equal(t, []string{"10.0 Vib. at bar 10"}, marksOf(p, sheet.Cue), "the vibraphone's cycle 11 starts 70 eighths in: bar 9, its 12th 77 in: bar 10")
	assert.Equal(t, []string{"11.0 mf"}, marksOf(p, sheet.DynamicMark))
	assert.Equal(t, []string{"5.0 watch the gate"}, marksOf(p, sheet.Words))

	none := single(t, Options{Cues: CueNone}, 2, nightLocks)
	assert.Empty(t, marksOf(&none.Parts[0], sheet.Cue))

	notes := single(t, Options{Cues: CueNotes}, 2, nightLocks)
	for b := range notes.Parts[0].Bars() {
		voices := len(b.Measure.Voices)
		assert.Equal(t, b.Number == 9 || b.Number == 10, voices == 2, "bar %d", b.Number)
		if b.Number == 10 { // bar 10 starts at eighth 72, two into the cycle at 70
			assert.Equal(t, "e q q q.", unbeamed(sheet.Rhythm(&b.Measure.Voices[1])))
			assert.True(t, b.Measure.Voices[1].Small)
			assert.Equal(t, sheet.Head{Step: 'B', Octave: 4}, b.Measure.Voices[1].Events[0].(*sheet.Note).Heads[0], "A4 as a clarinet reads it")
		}
	}
	assert.Len(t, struck(read(t, nightLocks), 2), len(heard(&notes.Parts[0])), "cues are not the player's own notes")
}

// After four bars or more of rest the dynamic stands again.
func TestDynamicsAgain(t *testing.T) {
	s := laid(t, Options{}, one("4/4", "1/8", "12", "groups: 8+rest 32+4, dynamic: mp"))
	assert.Equal(t, []string{"1.0 mp", "6.0 mp", "11.1 mp"}, marksOf(&s.Parts[0], sheet.DynamicMark))
}

func TestOwnBars(t *testing.T) {
	text := `title: Weir
section: G
meter: 5/4
length: 4 bars
layers:
  - {name: A, groups: 10}
  - {name: B, groups: 2+3+2+3, strike: all}
`
	own := single(t, Options{Barring: Barring{View: Own}}, 1, text)
	bars := signatures(&own.Parts[0])
	assert.Equal(t, []string{"2+3+2+3/8", "2+3+2+3/8", "2+3+2+3/8", "2+3+2+3/8"}, bars)
	split := single(t, Options{Barring: Barring{View: Own, Split: true}}, 1, text)
	assert.Equal(t, []string{"2+3/8", "2+3/8", "2+3/8", "2+3/8", "2+3/8", "2+3/8", "2+3/8", "2+3/8"}, signatures(&split.Parts[0]))
	assert.Equal(t, "(e e) (e e e) | (e e) (e e e)", strings.Join(strings.Split(rhythm(split), " | ")[:2], " | "))
	assert.Equal(t, heard(&own.Parts[0]), heard(&split.Parts[0]))

	byLayer := laid(t, Options{Barring: Barring{View: ByLayer, Layer: "B"}}, text)
	assert.Equal(t, signatures(&own.Parts[0]), signatures(&byLayer.Parts[0]))
	assert.Equal(t, struck(read(t, text), 0), heard(&byLayer.Parts[0]), "A in B's bars sounds the same")

	_, problems := Lay(read(t, text), Options{Barring: Barring{View: ByLayer, Layer: "Z"}})
	assert.ErrorContains(t, problems.Err(), `no section has a layer "Z"`)
}

func signatures(p *sheet.Part) []string {
	var all []string
	for b := range p.Bars() {
		all = append(all, b.Measure.Signature.String())
	}
	return all
}

// In its own bars a part says which bar of the score it is in.
func TestOwnBarsNameTheScoresBars(t *testing.T) {
	s := single(t, Options{Barring: Barring{View: Own}}, 1, lockRound)
	assert.Equal(t, []string{"1.0 score bar 1", "6.0 score bar 7"}, marksOf(&s.Parts[0], sheet.ScoreBar), "60 eighths are five own bars, six of the score")
	assert.Equal(t, []string{"1.0 B", "6.0 B1"}, marksOf(&s.Parts[0], sheet.Rehearsal))
}

func TestBeamsOverBarlines(t *testing.T) {
	text := one("7/8", "1/8", "3", "groups: 3+3+2, strike: all")
	assert.Equal(t, "(e e e) (e e e) e | e (e e e) (e e e) | (e e) (e e e) (e e", strings.TrimSuffix(rhythm(laid(t, Options{}, text)), ")"))
	var states []string
	for b := range laid(t, Options{BeamOverBarlines: true}, text).Parts[0].Bars() {
		events := b.Measure.Voices[0].Events
		first, last := events[0].(*sheet.Note), events[len(events)-1].(*sheet.Note)
		states = append(states, fmt.Sprint(first.BeamIn, first.Beams, last.BeamOut, last.Beams))
	}
	begin, end := []sheet.Beam{sheet.BeamBegin}, []sheet.Beam{sheet.BeamEnd}
	assert.Equal(t, []string{
		fmt.Sprint(false, begin, true, begin),
		fmt.Sprint(true, end, false, end),
		fmt.Sprint(false, begin, false, end),
	}, states)
}

// Sections: the first stops inside a bar, the next has its own meter.
func TestSections(t *testing.T) {
	first := one("4/4", "1/8", "2", "groups: 3+2+2, instrument: marimba, pitches: C4 D4 E4")
	first = strings.Replace(first, "length: 2 bars", "length: 14 pulses\nsection: A", 1)
	second := strings.Replace(one("3/4", "1/8", "2", "groups: 3+3, instrument: marimba, pitches: G4"), "meter:", "section: Q\nmeter:", 1)
	s := laid(t, Options{}, first, second)
	assert.Equal(t, []string{"4/4", "3/4", "3/4", "3/4"}, signatures(&s.Parts[0]), "14 eighths: a full bar and one of three quarters")
	assert.Equal(t, "q. q q e | ~q q q | q. q. | q. q.", rhythm(s))
	assert.Equal(t, []string{"1.0 A", "3.0 Q"}, marksOf(&s.Parts[0], sheet.Rehearsal))
	for b := range s.Parts[0].Bars() {
		assert.Equal(t, b.Number == 2, b.Barline == sheet.Double)
		assert.Equal(t, b.Number == 1 || b.Number == 2, b.NewMeter, "bar %d", b.Number)
	}
}

func TestSpellingDefaults(t *testing.T) {
	o := &Options{}
	l := func(pulse string) *score.Layer {
		return read(t, one("4/4", pulse, "1", "groups: 1")).Sections[0].Layers[0]
	}
	sig := score.PlainSignature(4, 4)
	assert.True(t, o.spellsByGroup(l("1/8"), sig), "half a beat")
	assert.False(t, o.spellsByGroup(l("1/16"), sig), "finer")
	for _, n := range []int{6, 9, 12} {
		assert.False(t, o.spellsByGroup(l("1/8"), score.PlainSignature(n, 8)), "every dotted beat shows")
		assert.False(t, o.spellsByGroup(l("3/8"), score.PlainSignature(n, 8)), "whatever the pulse")
	}
	assert.True(t, (&Options{Barring: Barring{View: ByLayer}}).spellsByGroup(l("1/8"), score.PlainSignature(6, 8)), "a cycle of 3+3 is its own bar")
	assert.True(t, o.spellsByGroup(l("1/16"), score.PlainSignature(11, 16)))
}

// What repeats is made once: equal bars are one Measure.
func TestEqualBarsAreOneMeasure(t *testing.T) {
	s := laid(t, Options{}, one("4/4", "1/8", "70", "groups: 3+2+2"))
	seen := map[*sheet.Measure]int{}
	for b := range s.Parts[0].Bars() {
		seen[b.Measure]++
	}
	assert.Len(t, seen, 7, "7 against 8 eighths: seven different bars")
	for _, n := range seen {
		assert.Equal(t, 10, n)
	}
}

func TestHairpins(t *testing.T) {
	s := laid(t, Options{}, one("4/4", "1/8", "4", "groups: 4+4")+`plan:
  - {at: bar 1, hairpin: crescendo, to: bar 3}
  - {at: bar 3, dynamic: f}
`)
	assert.Equal(t, []string{"1.0 1"}, marksOf(&s.Parts[0], sheet.HairpinStart))
	assert.Equal(t, []string{"2.2"}, marksOf(&s.Parts[0], sheet.HairpinStop), "at the barline before bar 3")
	assert.Equal(t, []string{"3.0 f"}, marksOf(&s.Parts[0], sheet.DynamicMark))
}

// A hairpin over one short sound is printed too, for it sounds; of a longer one that a
// rest has divided, a piece of one short sound is not. In 4/16, groups 3+2 of 1/32 and a
// hairpin over bar 2, pulses 8 to 15: attacks at 8, 10, 13, 15. In 2/16 bar 2 has pulses 4 to 7: the
// sound of 3 goes on there, and 5 is struck.
func TestShortHairpins(t *testing.T) {
	const text = "title: Weir\nmeter: %s\npulse: 1/32\nlength: 8 bars\nlayers:\n  - {name: A, instrument: flute, groups: %s, pitches: C5}\nplan:\n" +
		"  - {at: bar 2, hairpin: crescendo, to: bar %d}\n"
	for _, c := range []struct {
		meter, groups string
		to            int
		start, stop   []string
	}{
		{"4/16", "3+2", 3, []string{"2.0 1"}, []string{"2.4"}},
		{"2/16", "3+2", 3, []string{"2.0 1"}, []string{"2.2"}},
		// 20 pulses, struck at 0 and 12 for 2: in bars 2 to 5, pulses 4 to 19, a lone sixteenth
		{"2/16", "2+rest 10+2+rest 6", 6, []string{"4.0 1"}, []string{"4.1"}},
	} {
		s := laid(t, Options{}, fmt.Sprintf(text, c.meter, c.groups, c.to))
		assert.Equal(t, c.start, marksOf(&s.Parts[0], sheet.HairpinStart), c)
		assert.Equal(t, c.stop, marksOf(&s.Parts[0], sheet.HairpinStop), c)
	}
}

// A dynamic belongs to what is played: an entry has its own, none stands at a
// rest, a hairpin reaches from the first attack to the last sound and breaks at a
// bar of rest. By hand.
func TestDynamicsBelongToThePlayer(t *testing.T) {
	const two = "title: Weir\nmeter: 4/4\nlength: 14 bars\nlayers:\n  - {name: Viola, instrument: viola, groups: 4+4, pitches: C4%s}\n" +
		"  - {name: Oboe, instrument: oboe, groups: 4+4, pitches: C5, enters: bar 13, dynamic: mf}\nplan:\n%s"
	s := laid(t, Options{}, fmt.Sprintf(two, "", "  - {at: bar 3, hairpin: crescendo, to: bar 6}\n  - {at: bar 6, dynamic: f}\n"))
	assert.Equal(t, []string{"3.0 1"}, marksOf(&s.Parts[0], sheet.HairpinStart))
	assert.Equal(t, []string{"5.2"}, marksOf(&s.Parts[0], sheet.HairpinStop))
	assert.Equal(t, []string{"6.0 f"}, marksOf(&s.Parts[0], sheet.DynamicMark))
	assert.Empty(t, marksOf(&s.Parts[1], sheet.HairpinStart))
	assert.Equal(t, []string{"13.0 mf"}, marksOf(&s.Parts[1], sheet.DynamicMark))

	// The Oboe's p at 10 and ff at 11 fall into its silence, and its own mf is later.
	s = laid(t, Options{}, fmt.Sprintf(two, "", "  - {at: bar 11, dynamic: ff}\n  - {at: bar 13 beat 2, dynamic: p}\n"))
	assert.Equal(t, []string{"11.0 ff", "13.0+ p"}, marksOf(&s.Parts[0], sheet.DynamicMark))
	assert.Equal(t, []string{"13.0 mf", "13.0+ p"}, marksOf(&s.Parts[1], sheet.DynamicMark))

	// Bars 3 and 4 are rest, and the second half of 6: a dynamic there waits for bar 5 or 7, a hairpin from 2 to 7 has two pieces.
	s = laid(t, Options{}, fmt.Sprintf(two, ", except: [{bar: 3, rest: yes}, {bar: 4, rest: yes}, {bar: 6, groups: 4+rest 4}]",
		"  - {at: bar 2, hairpin: crescendo, to: bar 7}\n  - {at: bar 3 beat 2, dynamic: p}\n  - {at: bar 4, dynamic: f}\n  - {at: bar 6 beat 4, dynamic: mp}\n"))
	assert.Equal(t, []string{"2.0 1", "5.0 1"}, marksOf(&s.Parts[0], sheet.HairpinStart))
	assert.Equal(t, []string{"2.2", "6.1"}, marksOf(&s.Parts[0], sheet.HairpinStop))
	assert.Equal(t, []string{"5.0 f", "7.0 mp"}, marksOf(&s.Parts[0], sheet.DynamicMark))
}

// Both hands of a piano read one sign below the upper staff, unless they differ.
func TestDynamicsOfAGrandStaff(t *testing.T) {
	s := laid(t, Options{}, `title: Weir
meter: 4/4
length: 6 bars
layers:
  - {name: Right, player: Piano, instrument: piano, groups: 4+4, pitches: C5, dynamic: p}
  - {name: Left, player: Piano, instrument: piano, groups: 2+2+4, pitches: C3, dynamic: p}
plan:
  - {at: bar 2, hairpin: crescendo, to: bar 3}
  - {at: bar 3, dynamic: f}
  - {at: bar 4, dynamic: mp, for: [Left]}
  - {at: bar 5, hairpin: diminuendo, to: bar 6, for: [Left]}
`)
	var signs []string
	for b := range s.Parts[0].Bars() {
		for _, m := range b.Marks {
			if m.Kind == sheet.DynamicMark || m.Kind == sheet.HairpinStart || m.Kind == sheet.HairpinStop {
				signs = append(signs, fmt.Sprint(b.Number, " staff ", b.Measure.Voices[m.Voice].Staff, " ", m.String()))
			}
		}
	}
	assert.Equal(t, []string{`1 staff 1 dynamic "p"`, `2 staff 1 hairpin( 1`, `2 staff 1 hairpin)`, `3 staff 1 dynamic "f"`,
		`4 staff 2 dynamic "mp"`, `5 staff 2 hairpin( 2`, `5 staff 2 hairpin)`}, signs)
}

// Several goroutines may walk one sheet: the output files are written at once.
func TestWalksAtOnce(t *testing.T) {
	s := laid(t, Options{}, strings.Replace(lockRound, "marimba", "clarinet", 1))
	want := sheet.Dump(s)
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() { assert.Equal(t, want, sheet.Dump(s)) })
	}
	group.Wait()
}

// A mark inside an own bar says where the score has it.
func TestOwnBarsNameTheScoresPlaces(t *testing.T) {
	text := "title: Weir\nmeter: 5/4\nlength: 2 realignments\nlayers:\n  - {name: A, groups: 3+3}\n  - {name: B, groups: 4+4}\n  - {name: C, groups: 5+5, offset: 1, enters: bar 2}\n"
	s := single(t, Options{Barring: Barring{View: Own}}, 2, text)
	assert.Equal(t, []string{"4.1 score bar 3 beat 3"}, marksOf(&s.Parts[0], sheet.ScoreBar), "24 eighths: three into C's bar that began at 21, where its 5 splits 3+2")
}

// A layer that begins inside its first cycle shows its grouping where its first
// whole cycle begins: the seven of a layer two eighths early starts after five.
func TestGroupingOfALayerBegunBefore(t *testing.T) {
	s := laid(t, Options{}, `title: Half-Tide
section: H
meter: 7/8
length: 3 bars
layers:
  - {name: Pole, instrument: flute, groups: 3+2+2, pitches: E5 G5 B5, offset: -2}
  - {name: Stake, instrument: cello, groups: 4+3+4, pitches: E2}
`)
	assert.Equal(t, []string{"1.3 2", "2.3 3", "3.3 4"}, marksOf(&s.Parts[0], sheet.CycleNumber))
	assert.Equal(t, []string{"1.3 3+2+2"}, marksOf(&s.Parts[0], sheet.Grouping))
}

// The groups of a layer in quadruplets are no beats: a cycle that is as long as
// the meter's bar (eight of 3/32, 6/8) is written as that bar, and its tuplets
// are the score's. Any other is a plain bar: twelve of 3/32 are 9/8.
func TestOwnBarsOfTuplets(t *testing.T) {
	s := single(t, Options{Barring: Barring{View: Own}}, 0, one("6/8", "1/8 in 4:3", "1", "groups: 3+2+3"))
	b := firstBar(&s.Parts[0])
	assert.Equal(t, "6/8", b.Measure.Signature.String())
	assert.Equal(t, rhythm(laid(t, Options{}, one("6/8", "1/8 in 4:3", "1", "groups: 3+2+3"))), rhythm(s))
	s = single(t, Options{Barring: Barring{View: Own}}, 0, one("6/8", "1/8 in 4:3", "3", "groups: 3+3+2+4"))
	assert.Equal(t, "9/8", firstBar(&s.Parts[0]).Measure.Signature.String())
}

// A pickup of 1/4 and a bar of 4/4 are five quarters: five cycles of three triplet
// eighths, each a bar of 1/4 of two heads. In a pickup of 1/2, six triplet eighths
// are 2/4: with the bar, three of them. No bar is the whole one the pickup ends.
func TestOwnBarsOfTupletsInAPickup(t *testing.T) {
	for _, c := range []struct {
		pickup, groups, bar string
		n                   int
	}{{"1/4", "2+1", "1/4", 5}, {"1/2", "4+2", "2/4", 3}} {
		text := fmt.Sprintf("title: Ferry\nmeter: 4/4\npickup: %s\nlength: 1 bars\nlayers:\n  - {name: A, pulse: triplet eighth, groups: %s, enters: pickup}\n", c.pickup, c.groups)
		for _, view := range []Barring{{View: Own}, {View: ByLayer, Layer: "A"}} {
			p := &single(t, Options{Barring: view}, 0, text).Parts[0]
			n := 0
			for b := range p.Bars() {
				n++
				assert.Equal(t, c.bar, b.Measure.Signature.String(), "bar %d", b.Number)
				assert.Zero(t, b.Measure.Skipped, "bar %d", b.Number)
			}
			assert.Equal(t, c.n, n)
		}
	}
}

// A repeat goes back to bar 1, past what the pickup said: there stands again how loud
// to go on, the p of fp, and no sf; where a hairpin has led elsewhere no sign can.
func TestDynamicsAgainAfterAPickup(t *testing.T) {
	for plan, want := range map[string][]string{
		"{at: pickup, dynamic: fp}":                                             {"0.0 fp", "1.0 p", "3.0 f"},
		"{at: pickup, dynamic: mp}, {at: pickup beat 4, dynamic: sf}":           {"0.0 mp", "0.1 sf", "1.0 mp", "3.0 f"},
		"{at: pickup, dynamic: p, hairpin: crescendo, to: bar 2}":               {"0.0 p", "3.0 f"},
		"{at: pickup, dynamic: f}":                                              {"0.0 f", "3.0 f"},
		"{at: pickup, dynamic: f}, {at: bar 4, hairpin: diminuendo, to: bar 5}": {"0.0 f", "1.0 f", "3.0 f"},
	} {
		s := laid(t, Options{}, "title: Weir\nmeter: 4/4\npickup: 2/4\nlength: 4 bars\nend: repeat\nlayers:\n"+
			"  - {name: A, instrument: flute, groups: 2+2, pitches: C5, enters: pickup}\nplan: ["+plan+", {at: bar 3, dynamic: f}]\n")
		assert.Equal(t, want, marksOf(&s.Parts[0], sheet.DynamicMark), plan)
	}
}

// The play edition counts the cycles of a loop from the first on where any begins
// inside a bar (by hand: eighths at 0 8 16 24 over bars at 0 8 14 22), and none that
// are whole bars throughout.
func TestCountsOfThePlayEdition(t *testing.T) {
	for meter, want := range map[string][]string{"[4/4, 3/4]": {"1(1)", "2(2)", "3(3)", "4(4)"}, "4/4": nil, "[4/4, 4/4, 3/4]": {"1(1)", "2(2)", "3(3)", "4(4)"}} {
		s := laid(t, Options{Edition: sheet.Play}, `title: Count
meter: `+meter+`
length: 4 bars
layers:
  - {name: A, instrument: flute, groups: 4+4, pitches: C5 D5}
`)
		var got []string
		for b := range s.Parts[0].Bars() {
			for _, m := range b.Marks {
				if m.Kind == sheet.CycleNumber {
					got = append(got, fmt.Sprintf("%d(%d)", b.Number, m.N))
				}
			}
		}
		assert.Equal(t, want, got, meter)
	}
}

// Under a drum that strikes once in it no hairpin stands, for nothing can grow, nor
// under one of two voices of a kit that have the other's; under a held note it does. By hand.
func TestHairpinsOverDrums(t *testing.T) {
	s := laid(t, Options{}, `title: Weir
meter: 4/4
length: 4 bars
layers:
  - {name: Gong, instrument: claves, groups: 8}
  - {name: Bell, instrument: claves, groups: 4+4}
  - {name: Horn, instrument: horn, groups: 8, pitches: F4}
  - {name: Hands, player: Kit, instrument: drum set, groups: 4+4, pitches: snare}
  - {name: Feet, player: Kit, instrument: drum set, groups: 8, pitches: kick}
plan:
  - {at: bar 2, hairpin: crescendo, to: bar 3}
`)
	var starts [][]string
	for i := range s.Parts {
		starts = append(starts, marksOf(&s.Parts[i], sheet.HairpinStart))
	}
	assert.Equal(t, [][]string{nil, {"2.0 1"}, {"2.0 1"}, {"2.0 1"}}, starts)
}

// hairpinsAt writes each hairpin of a part by the eighths of its beginning and end.
func hairpinsAt(s *sheet.Sheet, p *sheet.Part) []string {
	var all []string
	begun := map[int]string{} // by voice
	for b := range p.Bars() {
		for _, m := range b.Marks {
			if m.Kind != sheet.HairpinStart && m.Kind != sheet.HairpinStop {
				continue
			}
			at, events := b.Start+m.Offset, b.Measure.Voices[m.Voice].Events
			for _, e := range events[:m.Before] {
				at += e.Span()
			}
			eighth := fmt.Sprint(at / s.Grid.Must(beat.Of(1, 8)))
			if m.Kind == sheet.HairpinStart {
				begun[m.Voice] = map[int]string{1: "< ", 2: "> "}[m.N] + eighth
				continue
			}
			all = append(all, begun[m.Voice]+"-"+eighth)
		}
	}
	slices.Sort(all)
	return all
}

// Under a staff of a kit stands one hairpin, whichever of its voices is first in it: over
// the kick at beats 1 and 3 and a snare at 1 or 3; over one at 2 and 4 and the other at 1
// and 3; over two strokes with silence between; for one of them, over that alone; and
// broken by a bar in which both rest. By hand.
func TestOneHairpinUnderAKit(t *testing.T) {
	for _, c := range []struct {
		hands, feet, plan string
		want              []string
	}{
		{"groups: 8, offset: 4", "groups: 4+4", "to: bar 3", []string{"< 8-16"}},
		{"groups: 4+4", "groups: 8", "to: bar 3", []string{"< 8-16"}},
		{"groups: 8, offset: 4", "groups: 8", "to: bar 3", []string{"< 8-16"}},
		{"groups: 4+4, offset: 2", "groups: 4+4", "to: bar 3", []string{"< 8-16"}},
		{"groups: 8, strike: short, offset: 4", "groups: 8, strike: short", "to: bar 3", []string{"< 8-13"}},
		{"groups: 4+4, offset: 2", "groups: 4+4", "to: bar 3, for: Hands", []string{"< 10-16"}},
		{"groups: 4+4, except: [{bar: 3, rest: yes}]", "groups: 8, except: [{bar: 3, rest: yes}]", "to: bar 5", []string{"< 24-32", "< 8-16"}},
		{"groups: 4+4, except: [{bar: 3, rest: yes}]", "groups: 8", "to: bar 5", []string{"< 8-32"}},
		{"groups: 4+4, offset: 2", "groups: 4+4", "to: bar 3}, {at: bar 2, hairpin: diminuendo, to: bar 3, for: Feet", []string{"< 10-16", "> 8-16"}},
	} {
		s := laid(t, Options{}, "title: Weir\nmeter: 4/4\nlength: 5 bars\nlayers:\n"+
			"  - {name: Hands, player: Kit, instrument: drum set, pitches: snare, "+c.hands+"}\n"+
			"  - {name: Feet, player: Kit, instrument: drum set, pitches: kick, "+c.feet+"}\n"+
			"plan: [{at: bar 2, hairpin: crescendo, "+c.plan+"}]\n")
		assert.Equal(t, c.want, hairpinsAt(s, &s.Parts[0]), c)
	}
}

// A composite has a hairpin where one of its layers has: of two claves that strike once
// each in it none; of a third that strikes twice, or in it alone, one. By hand.
func TestHairpinsOfAComposite(t *testing.T) {
	for _, c := range []struct {
		third  string
		layers []string
		want   []string
	}{
		{"", nil, nil},
		{"  - {name: C, instrument: claves, groups: 4+4, offset: 2}\n", nil, []string{"< 8-16"}},
		{"  - {name: C, instrument: claves, groups: 4+4, offset: 2}\n", []string{"A", "B"}, nil},
		{"  - {name: C, instrument: claves, groups: 4+4, offset: 2}\n", []string{"C"}, []string{"< 10-16"}},
		{"  - {name: Composite, instrument: claves, groups: 8}\n", nil, nil},
	} {
		p := read(t, "title: Weir\nmeter: 4/4\nlength: 4 bars\nlayers:\n  - {name: A, instrument: claves, groups: 8}\n"+
			"  - {name: B, instrument: claves, groups: 8, offset: 4}\n"+c.third+"plan: [{at: bar 2, hairpin: crescendo, to: bar 3}]\n")
		s, problems := LayComposite(p, Options{}, Composite{Layers: c.layers})
		require.Empty(t, problems)
		assert.Equal(t, c.want, hairpinsAt(s, &s.Parts[0]), c)
	}
}
