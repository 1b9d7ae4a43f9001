package play

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// The sections here have a grid of eighths, 8 to a whole note, so a time is a
// count of eighths. "Lock" is 3+2 against the 5/8 bar.
func lock() *score.Section {
	marimba, _ := instrument.Find("marimba")
	l := &score.Layer{Name: "Lock", Short: "L.", Instrument: marimba, Pulse: beat.Plain(beat.Of(1, 8)),
		Patterns: []score.Pattern{{Groups: []score.Item{{Size: 3}, {Size: 2}}}},
		Series:   [][]score.Chord{{{{Step: 'C', Octave: 4}}}}}
	return &score.Section{
		Name: "A", Meter: score.Meter{score.PlainSignature(5, 8)}, Pulse: l.Pulse, Layers: []*score.Layer{l},
		Tempo:      score.Tempo{Quarters: beat.Of(120, 1), Beat: beat.Of(1, 4), Rate: beat.Of(120, 1)},
		LengthRule: score.LengthRule{Kind: score.Bars, N: 2}, Key: score.Key{None: true},
	}
}

func performed(t *testing.T, countIn int, sections ...*score.Section) *Performance {
	t.Helper()
	p := &score.Piece{Title: "Towpath", Grid: 8, Sections: sections}
	require.Empty(t, p.Settle())
	return Of(p, countIn)
}

func events(v *Voice) []Event {
	var all []Event
	for e := range v.Events() {
		c := *e
		c.Keys = slices.Clone(e.Keys)
		all = append(all, c)
	}
	return all
}

func onsets(v *Voice) (all []beat.Time) {
	for _, e := range events(v) {
		all = append(all, e.At)
	}
	return all
}

func TestEvents(t *testing.T) {
	f := performed(t, 0, lock())
	assert.Equal(t, []Event{
		{At: 0, Length: 3, Keys: []int{60}, Velocity: 81},
		{At: 3, Length: 2, Keys: []int{60}, Velocity: 81},
		{At: 5, Length: 3, Keys: []int{60}, Velocity: 81},
		{At: 8, Length: 2, Keys: []int{60}, Velocity: 81},
	}, events(&f.Voices[0]))
	assert.Equal(t, beat.Time(10), f.Length)
	assert.Equal(t, 4, f.CountUpTo(4))
	assert.Equal(t, 3, f.CountUpTo(2), "counts one more than asked and stops")
}

// A repeated section sounds twice; what follows comes after both.
func TestRepeat(t *testing.T) {
	a, b := lock(), lock()
	a.End, b.Name = score.Repeat, "B"
	f := performed(t, 1, a, b)
	assert.Equal(t, []Pass{{0, 1, 5, 10, 0}, {0, 2, 15, 10, 0}, {1, 1, 25, 10, 0}}, f.Passes)
	assert.Equal(t, []beat.Time{5, 8, 10, 13, 15, 18, 20, 23, 25, 28, 30, 33}, onsets(&f.Voices[0]))
	assert.Equal(t, beat.Time(35), f.Length)
	// one layer that meets every barline carries no labels, only the sections' names
	var texts []Marker
	texts = append(texts, f.Markers...)
	assert.Equal(t, []Marker{{5, "A"}, {15, "A"}, {25, "B"}}, texts)
}

// Landing adds a bar with the head attack alone.
func TestLanding(t *testing.T) {
	s := lock()
	s.End = score.Land
	f := performed(t, 0, s)
	all := events(&f.Voices[0])
	require.Len(t, all, 5)
	assert.Equal(t, beat.Time(10), all[4].At)
	assert.Equal(t, beat.Time(15), f.Length)
}

// Half of three eighths is no whole number of eighths, so the grid doubles.
func TestStaccato(t *testing.T) {
	s := lock()
	s.Layers[0].Touches = []score.Touch{score.Staccato, score.Plain}
	f := performed(t, 0, s)
	assert.Equal(t, beat.Grid(16), f.Grid)
	all := events(&f.Voices[0])
	assert.Equal(t, beat.Time(3), all[0].Length)
	assert.Equal(t, beat.Time(6), all[1].At)
	assert.Equal(t, beat.Time(4), all[1].Length)
}

// p is 63 and f is 90; a crescendo over the 10 eighths adds 27·t/10, rounded
// down: at 3 it is 63+8, at 5 63+13, at 8 63+21.
func TestHairpin(t *testing.T) {
	s := lock()
	s.LengthRule.N = 3
	s.Layers[0].Dynamic = "p"
	s.Plan = []score.PlanEntry{
		{At: score.Place{Kind: score.AtBar, N: 1}, Hairpin: score.Crescendo, To: &score.Place{Kind: score.AtBar, N: 3}},
		{At: score.Place{Kind: score.AtBar, N: 3}, Dynamic: "f"},
	}
	f := performed(t, 0, s)
	var got []int
	for _, e := range events(&f.Voices[0]) {
		got = append(got, e.Velocity)
	}
	assert.Equal(t, []int{63, 71, 76, 84, 90, 90}, got)
}

// A hairpin over a silence is not printed, and what comes after it is as loud as before:
// bars of 5 eighths, a rest in bar 2, a crescendo there.
func TestHairpinOverASilence(t *testing.T) {
	s := lock()
	s.LengthRule.N = 3
	s.Layers[0].Except = []score.Exception{{Bar: 2, Rest: true}}
	s.Plan = []score.PlanEntry{
		{At: score.Place{Kind: score.AtBar, N: 2}, Hairpin: score.Crescendo, To: &score.Place{Kind: score.AtBar, N: 3}},
	}
	var got []int
	for _, e := range events(&performed(t, 0, s).Voices[0]) {
		got = append(got, e.Velocity)
	}
	assert.Equal(t, []int{81, 81, 81, 81}, got)
}

func TestTouches(t *testing.T) {
	s := lock()
	s.Layers[0].Touches = []score.Touch{score.Accented, score.Ghost}
	var got []int
	for _, e := range events(&performed(t, 0, s).Voices[0]) {
		got = append(got, e.Velocity)
	}
	assert.Equal(t, []int{90, 54, 90, 54}, got)
	c := curve{{from: 120, to: 120, struck: 120}}
	assert.Equal(t, 127, c.velocity(0, &score.Attack{Touch: score.Marcato | score.Staccato}))
	c = curve{{from: 8, to: 8, struck: 8}}
	assert.Equal(t, 1, c.velocity(0, &score.Attack{Touch: score.Ghost}))
}

// fp is f (90) once and p (63) after; sf adds 18 once.
func TestStabs(t *testing.T) {
	s := lock()
	s.LengthRule.N = 3
	s.Layers[0].Dynamic = "fp"
	s.Plan = []score.PlanEntry{{At: score.Place{Kind: score.AtBar, N: 2}, Dynamic: "sf"}, {At: score.Place{Kind: score.AtBar, N: 3}, Dynamic: "mp"}}
	var got []int
	for _, e := range events(&performed(t, 0, s).Voices[0]) {
		got = append(got, e.Velocity)
	}
	assert.Equal(t, []int{90, 63, 81, 63, 72, 72}, got)
}

// A sfz inside a crescendo from p (63) to f (90) over 15 eighths accents one
// attack (at 5: 63+27·5/15 = 72, 18 more) and the crescendo goes on: from 72 at 5
// by 18·t/10, 5 at 8, 9 at 10, 14 at 13.
func TestStabInHairpin(t *testing.T) {
	s := lock()
	s.LengthRule.N = 4
	s.Layers[0].Dynamic = "p"
	s.Plan = []score.PlanEntry{
		{At: score.Place{Kind: score.AtBar, N: 1}, Hairpin: score.Crescendo, To: &score.Place{Kind: score.AtBar, N: 4}},
		{At: score.Place{Kind: score.AtBar, N: 2}, Dynamic: "sfz"},
		{At: score.Place{Kind: score.AtBar, N: 4}, Dynamic: "f"},
	}
	var got []int
	for _, e := range events(&performed(t, 0, s).Voices[0]) {
		got = append(got, e.Velocity)
	}
	assert.Equal(t, []int{63, 68, 90, 77, 81, 86, 90, 90}, got)
}

// A layer enters with its own dynamic; without one, with the last that the plan
// has for all.
func TestDynamicBeforeEntry(t *testing.T) {
	s := lock()
	s.LengthRule.N = 3
	s.Layers[0].Dynamic, s.Layers[0].EnterAt = "p", &score.Place{Kind: score.AtBar, N: 2}
	s.Plan = []score.PlanEntry{{At: score.Place{Kind: score.AtBar, N: 3}, Dynamic: "mp"}}
	velocities := func() (got []int) {
		for _, e := range events(&performed(t, 0, s).Voices[0]) {
			got = append(got, e.Velocity)
		}
		return got
	}
	assert.Equal(t, []int{63, 63, 72, 72}, velocities())
	s.Plan = append(s.Plan, score.PlanEntry{At: score.Place{Kind: score.AtBar, N: 1}, Dynamic: "f"})
	assert.Equal(t, []int{63, 63, 72, 72}, velocities())
	s.Layers[0].Dynamic = ""
	assert.Equal(t, []int{90, 90, 72, 72}, velocities())
}

// Tempo changes keep their place; one that changes nothing is no change.
func TestTemposAndMeters(t *testing.T) {
	s, next := lock(), lock()
	next.Name = "B"
	next.Meter = score.Meter{score.Signature{Terms: []score.Term{{Groups: []int{3, 2}, Unit: 8}}}}
	slow := score.Tempo{Quarters: beat.Of(60, 1), Beat: beat.Of(1, 4), Rate: beat.Of(60, 1)}
	s.Plan = []score.PlanEntry{{At: score.Place{Kind: score.AtBar, N: 2}, Tempo: &slow}}
	next.Tempo = slow
	f := performed(t, 2, s, next)
	assert.Equal(t, []Tempo{{0, beat.Of(120, 1)}, {15, beat.Of(60, 1)}}, f.Tempos)
	var meters []Meter
	for m := range f.Meters() {
		meters = append(meters, m)
	}
	// 5/8 has five beats of an eighth; 3+2/8 has beats of two lengths
	assert.Equal(t, []Meter{{0, 5, 8, beat.Of(1, 8)}, {20, 5, 8, beat.Span{}}}, meters)
}

func TestClicks(t *testing.T) {
	s := lock()
	s.Meter = score.Meter{score.Signature{Terms: []score.Term{{Groups: []int{3, 2}, Unit: 8}}}}
	f := performed(t, 1, s)
	var got []Click
	for c := range f.Clicks(true) {
		got = append(got, c)
	}
	assert.Equal(t, []Click{{0, 1, true}, {3, 1, false}, {5, 1, true}, {8, 1, false}, {10, 1, true}, {13, 1, false}}, got)
	got = nil
	for c := range f.Clicks(false) {
		got = append(got, c)
	}
	assert.Len(t, got, 2)
}

// Layers without an instrument get drum sounds of their own; the middle is the
// place of a single layer, and a pan of the spec wins.
func TestSoundsAndPlaces(t *testing.T) {
	s := lock()
	second := *s.Layers[0]
	second.Name, second.Instrument, second.Series = "Gate", instrument.Rhythm, nil
	third := second
	third.Name = "Weir"
	right := 80
	third.Pan = &right
	s.Layers = append(s.Layers, &second, &third)
	f := performed(t, 0, s)
	assert.Equal(t, []Setting{{0, 13, Struck, -60}}, f.Voices[0].Settings) // marimba: 13 in General MIDI
	assert.Equal(t, []Setting{{0, 0, Drums, 0}}, f.Voices[1].Settings)
	assert.Equal(t, []Setting{{0, 0, Drums, 80}}, f.Voices[2].Settings)
	assert.NotEqual(t, events(&f.Voices[1])[0].Keys, events(&f.Voices[2])[0].Keys)
	assert.Equal(t, 0, panOf(0, 1))
	assert.Equal(t, -45, panOf(0, 2))
	assert.Equal(t, 70, panOf(7, 8))
}

// A layer that enters later with its own mf has that, whatever the plan said to
// others before: 81 (MIDI velocity of mf).
func TestAnEntryHasItsOwnDynamic(t *testing.T) {
	s := lock()
	late := *s.Layers[0]
	late.Name, late.Dynamic, late.EnterAt = "Oboe", "mf", &score.Place{Kind: score.AtBar, N: 2}
	s.Layers = append(s.Layers, &late)
	s.Plan = []score.PlanEntry{{At: score.Place{Kind: score.AtBar, N: 1}, Dynamic: "ff"}}
	f := performed(t, 0, s)
	assert.Equal(t, 99, events(&f.Voices[0])[0].Velocity, "ff")
	assert.Equal(t, 81, events(&f.Voices[1])[0].Velocity)
}

// A side that a section gives a layer stays in the next, which says none.
func TestASideStays(t *testing.T) {
	first, second := lock(), lock()
	first.Name, second.Name = "A", "B"
	left := -40
	first.Layers[0].Pan = &left
	assert.Equal(t, []Setting{{0, 13, Struck, -40}}, performed(t, 0, first, second).Voices[0].Settings)
}

// F sharp and G flat are one key and sound once.
func TestKeys(t *testing.T) {
	s := lock()
	s.Layers[0].Series = [][]score.Chord{{{{Step: 'F', Alter: 1, Octave: 4}, {Step: 'G', Alter: -1, Octave: 4}}}}
	assert.Equal(t, []int{66}, events(&performed(t, 0, s).Voices[0])[0].Keys)
}

// A key holds until another: none before the first that is given, and a section
// without one takes it away. Each section is 10 eighths, after one bar of 5.
func TestKeySignatures(t *testing.T) {
	assert.Empty(t, performed(t, 0, lock()).Keys)
	keys := []score.Key{{None: true}, {Fifths: 1, Mode: "minor"}, {Fifths: 1, Mode: "minor"}, {None: true}, {Fifths: -3, Mode: "dorian"}, {Fifths: 0, Mode: "aeolian"}}
	var sections []*score.Section
	for i, key := range keys {
		s := lock()
		s.Name, s.Key = string(rune('A'+i)), key
		sections = append(sections, s)
	}
	assert.Equal(t, []Key{{15, 1, true}, {35, 0, false}, {45, -3, false}, {55, 0, true}}, performed(t, 1, sections...).Keys)
	assert.Equal(t, []Key{{0, 1, true}}, performed(t, 1, sections[1]).Keys, "from the count-in on")
}

// A key changes inside a section, and again at its repeat; D minor is 1 flat.
func TestKeysOfThePlan(t *testing.T) {
	s := lock()
	s.Key, s.End = score.Key{Fifths: 3, Mode: "major"}, score.Repeat
	s.Plan = []score.PlanEntry{{At: score.Place{Kind: score.AtBar, N: 2}, Key: &score.Key{Fifths: -1, Mode: "minor"}}}
	f := performed(t, 0, s) // bars of 5 ticks, 10 in all
	assert.Equal(t, []Key{{0, 3, false}, {5, -1, true}, {10, 3, false}, {15, -1, true}}, f.Keys)
}

// A cello plays pizzicato with program 46 of General MIDI and goes back to its own,
// 43, with arco; a muted trumpet has program 60, a muted horn its own, 61, and is 8
// softer (mf is 81). Programs from memory.
func TestTechniquesSound(t *testing.T) {
	plays := func(name string, words ...string) *Voice {
		s := lock()
		s.LengthRule.N = 3
		s.Layers[0].Instrument, _ = instrument.Find(name)
		for i, text := range words {
			s.Plan = append(s.Plan, score.PlanEntry{At: score.Place{Kind: score.AtBar, N: int64(i + 1)}, Text: text})
		}
		return &performed(t, 0, s).Voices[0]
	}
	velocities := func(v *Voice) (all []int) {
		for e := range v.Events() {
			all = append(all, e.Velocity)
		}
		return all
	}
	cello := plays("cello", "bow it", "pizz.", "arco")
	assert.Equal(t, []Setting{{0, 43, Held, 0}, {5, 46, Plucked, 0}, {10, 43, Held, 0}}, cello.Settings)
	assert.Equal(t, []int{81, 81, 81, 81, 81, 81}, velocities(cello))
	trumpet := plays("trumpet", "harmon mute", "open")
	assert.Equal(t, []Setting{{0, 60, Held, 0}, {5, 57, Held, 0}}, trumpet.Settings)
	assert.Equal(t, []int{81, 81, 81, 81, 81, 81}, velocities(trumpet))
	horn := plays("horn", "open", "con sord.", "senza sord.")
	assert.Equal(t, []Setting{{0, 61, Held, 0}}, horn.Settings)
	assert.Equal(t, []int{81, 81, 73, 73, 81, 81}, velocities(horn))
}
