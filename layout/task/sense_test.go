package task

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/rows"
	"tieover/score/spec/spectest"
)

// one makes one exercise of a section written in short form.
func one(t *testing.T, kind Kind, level int, text string) (Exercise, string) {
	t.Helper()
	made, left := Make(spectest.Read(t, "title: T\ntempo: 60\n"+text), Options{Level: level, Only: []Kind{kind}})
	if len(left) > 0 {
		return Exercise{}, left[0].Why
	}
	require.Len(t, made, 1)
	return made[0], ""
}

// The process of A starts over with its fourth cycle, at 21 eighths, which three
// cycles cannot tell; 35 eighths in, it is still at work.
func TestANextCycleFollowsFromThoseBefore(t *testing.T) {
	text := "meter: 7/8\nlength: 15 bars\nlayers:\n  - {name: A, groups: 3+2+2, process: {grow: {group: 1, by: 1, from: 2}, until: realignment}}\n  - {name: B, groups: "
	_, why := one(t, Next, 1, text+"21}\n")
	assert.Equal(t, "A starts its process over before its rule can be told; a realignment that comes later, or a process that no realignment starts over, would serve", why)

	e, why := one(t, Next, 1, text+"5}\n")
	require.Empty(t, why)
	assert.Equal(t, []string{"groups of cycle 4: 6+1"}, e.Answer)
	require.NotNil(t, e.Solution.Sheet)
	for bar, signs := range []string{"X 2 3 x 2 x 2", "X 2 3 4 x x 2", "X 2 3 4 5 x 2", "X 2 3 4 5 6 x"} {
		assert.Equal(t, strings.Fields(signs), e.Solution.Rows[bar].Signs)
		struck := strings.Count(strings.ToLower(signs), "x")
		assert.Equal(t, struck, attacksIn(e.Solution.Sheet, bar+1), "the notation of cycle %d is that of its row", bar+1)
	}
}

// Two patterns in turn that also turn round are no rule to find in three cycles.
func TestPatternsInTurnAreNotAskedFor(t *testing.T) {
	_, why := one(t, Next, 1, "meter: 7/8\nlength: 9 bars\nlayers:\n  - {name: A, groups: [3+2+2, 4+3], process: {rotate: {by: 1}}}\n")
	assert.Equal(t, "A takes several groupings in turn and changes as well; one grouping would serve", why)
}

// A layer whose cycles cannot be asked for leaves the others.
func TestAnotherLayerIsAskedFor(t *testing.T) {
	text := "meter: 4/4\nlength: 10 bars\nlayers:\n  - {name: A, groups: 3+2+3, process: {rotate: {by: 1, after: 9}}}\n  - {name: B, groups: 3+3+2, process: {rotate: {by: 1}}}\n"
	for seed := range uint64(8) {
		made, left := Make(spectest.Read(t, "title: T\ntempo: 60\n"+text), Options{Level: 1, Seed: seed, Only: []Kind{Next}})
		require.Empty(t, left)
		assert.Contains(t, made[0].Prompt, "cycles of B, ")
	}
	for seed := range uint64(8) { // A alone or with C would run out of pulses to give
		_, left := Make(spectest.Read(t, "title: T\nmeter: 5/8\ntempo: 60\nlength: 14 bars\nrealign: [A, B]\nlayers:\n"+
			"  - {name: A, groups: 3+2+2, process: {grow: {group: 1, by: 1, from: 2}, until: realignment}}\n"+
			"  - {name: B, groups: 3+2}\n  - {name: C, groups: 3+2+2+1, process: {rotate: {by: 1}}}\n"), Options{Level: 1, Seed: seed, Only: []Kind{Composite}})
		require.Empty(t, left, "seed %d", seed)
	}
}

// A meter that changes after the excerpt does not forbid it; one that changes
// inside it is kept.
func TestExcerptsBeforeAChangeOfMeter(t *testing.T) {
	text := "meter: 4/4\nlength: 12 bars\nlayers:\n  - {name: A, groups: 3+2+5}\nplan:\n  - {at: bar 3, meter: 3/4}\n  - {at: bar 9, meter: 6/8}\n"
	for _, kind := range []Kind{Groups, Beam, Cut} {
		_, why := one(t, kind, 1, text)
		assert.Empty(t, why, kind)
	}
	e, why := one(t, Beam, 3, text)
	require.Empty(t, why)
	var meters []string
	for b := range e.Solution.Sheet.Parts[0].Bars() {
		meters = append(meters, b.Measure.Signature.String())
	}
	assert.Equal(t, []string{"4/4", "4/4", "3/4", "3/4"}, meters)
}

// The loop that a spec itself cuts is the natural one to ask for, and it plays
// along in a composite.
func TestLoopsThatAreCut(t *testing.T) {
	text := "meter: 5/4\nlength: 16 bars\nlayers:\n  - {name: A, groups: 2+2+2+3, loop: cut every 6 bars}\n  - {name: B, groups: 4+6}\n"
	e, why := one(t, Cut, 1, text)
	require.Empty(t, why)
	assert.Contains(t, e.Prompt, "A repeats a loop of 9 eighths in 5/4; every attack begins a group.")
	e, why = one(t, Composite, 1, text)
	require.Empty(t, why)
	assert.Equal(t, []string{"A", "B"}, names(e.Given))
}

// What is said of the start is true of it: B begins a pulse late, so the two
// begin together first after 8 eighths: 1, 4, 7 … and 0, 8, 16 ….
func TestRealignmentsWithoutAStart(t *testing.T) {
	e, why := one(t, Realign, 1, "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+5}\n  - {name: B, groups: 3, strike: all, offset: 2}\n")
	require.Empty(t, why)
	assert.Contains(t, e.Prompt, "Mark every place where all players begin their loops together.")
	assert.NotContains(t, e.Prompt, "at the start")
	assert.Equal(t, "1. bar 2 beat 1, after 8 eighths: a begins its cycle 2, b begins its cycle 3", e.Answer[0])

	e, why = one(t, Realign, 1, "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+2, offset: 3}\n")
	require.Empty(t, why)
	assert.Contains(t, e.Prompt, "Mark every place where the loop begins on a barline.")
}

// Without X a student counts cycles, which only works while they are all alike.
func TestCycleStartsAreShownWhereCyclesChange(t *testing.T) {
	text := "meter: 4/4\nlength: 30 bars\nlayers:\n  - {name: A, groups: 3+3}\n  - {name: B, groups: "
	e, why := one(t, Realign, 2, text+"3+5}\n")
	require.Empty(t, why)
	assert.True(t, e.Given.Hide.Has(rows.HideCycles))
	e, why = one(t, Realign, 2, text+"3+5, process: {rotate: {by: 1, after: 2}}}\n")
	require.Empty(t, why)
	assert.False(t, e.Given.Hide.Has(rows.HideCycles))
	assert.True(t, e.Given.Hide.Has(rows.HideStarts))
}

// What a kind of exercise lacks is said of each layer, and nothing that is not so.
func TestWhyAnExerciseIsLeftOut(t *testing.T) {
	const layers = "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: \"3\"}\n  - {name: B, groups: 3+2, loop: cut every 2 bars}\n  - {name: C, groups: 3+2, offset: 1}\n"
	_, why := one(t, Groups, 1, layers)
	assert.Equal(t, "it needs a layer that keeps one grouping of two groups or more and strikes each once; A has a single group, B is cut, C has an offset", why)
	_, why = one(t, Cut, 1, "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+3+2}\n")
	assert.Equal(t, "no loop goes round within 4 bars and is cut by a barline after that; --level 2 looks further, and a loop that does not fill whole bars would serve", why)
	_, why = one(t, Groups, 1, "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+2, figures: {3: x.x}}\n  - {name: B, box: x..x.}\n  - {name: C, groups: 3+2, strike: all}\n  - {name: D, groups: [3+2, 2+3]}\n")
	assert.Equal(t, "it needs a layer that keeps one grouping of two groups or more and strikes each once; A has figures, B is written as a box, C strikes every pulse …", why)
}

// A line whose groups no longer begin with the cycle cannot be grouped by their
// sizes, so it is not asked for; one that is spelled to show beats says so.
func TestLinesToBeam(t *testing.T) {
	_, why := one(t, Beam, 1, "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+3+2, process: {shift: {by: 1}}}\n")
	assert.Equal(t, "it needs a layer of plain pulses that nothing cuts; A is shifted by a process", why)

	e, why := one(t, Beam, 1, "meter: 3/2\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+1+5+1+1+1}\n")
	require.Empty(t, why)
	assert.Contains(t, e.Answer[1], "q. e h~(e e e e)")
	assert.Contains(t, e.Prompt, "Where one note would hide a beat, or has no single sign, tie two.")
	e, why = one(t, Beam, 1, "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+3+2}\n")
	require.Empty(t, why)
	assert.NotContains(t, e.Prompt, "hide a beat")
}

// A pulse of its own is named with the groups that count it.
func TestPulsesAreNamed(t *testing.T) {
	e, why := one(t, Realign, 1, "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+3+2+4}\n  - {name: B, groups: 2+2+2, pulse: 1/8 in 3:2}\n")
	require.Empty(t, why)
	assert.Contains(t, e.Prompt, " a plays a loop of 12 eighths. b plays a loop of 6 triplet eighths.")
}

// Nine eighths in 5/4, cut every two bars, against ten: by hand, the cut at 20 is
// two into the nine; the next, at 40, is the exercise's end or after it.
func TestForcedRealignmentsAreAskedFor(t *testing.T) {
	e, why := one(t, Realign, 1, "meter: 5/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 4+3+2, loop: cut every 2 bars}\n  - {name: B, groups: 6+4}\n")
	require.Empty(t, why)
	assert.Contains(t, e.Prompt, " a plays a loop of 9 eighths and starts over every 2 bars. b plays a loop of 10 eighths.")
	assert.Equal(t, "1. bar 3 beat 1, after 20 eighths: a begins its cycle 4, b begins its cycle 3, for a is cut", e.Answer[0])
}

// Layers outside the realigning set stay outside: R turns alone, and A, which
// would run out of pulses to give, starts over where A and B meet.
func TestExcerptsKeepTheRealigningSet(t *testing.T) {
	text := "meter: 5/8\nlength: 14 bars\nrealign: [A, B]\nlayers:\n" +
		"  - {name: A, groups: 3+2+2, process: {grow: {group: 1, by: 1, from: 2}, until: realignment}}\n" +
		"  - {name: B, groups: 3+2}\n  - {name: R, groups: 3+2+2+1, process: {rotate: {by: 1}}}\n"
	e, why := one(t, Composite, 2, text)
	require.Empty(t, why)
	assert.Equal(t, []string{"A", "B", "R"}, names(e.Given))
}

// Exceptions are kept inside an excerpt and dropped after it.
func TestExcerptsBeforeAnException(t *testing.T) {
	text := "meter: 3/4\nlength: 12 bars\nlayers:\n  - {name: A, groups: 2+3, except: [{bar: 2, rest: yes}, {bar: 11, rest: yes}, {cycle: 9, groups: 3+2}]}\n  - {name: B, groups: 4+4}\n"
	e, why := one(t, Realign, 1, text)
	require.Empty(t, why)
	assert.Equal(t, "1. bar 7 beat 3, after 40 eighths: a begins its cycle 9, b begins its cycle 6", e.Answer[0])
	_, why = one(t, Composite, 1, text)
	assert.Empty(t, why)
}

// A key and a clef that the plan sets at the pickup hold from bar 1 in an excerpt that has
// none, and forbid no exercise; those at bar 1 come after them. Who begins in the pickup is
// not late. D major has 2 sharps, E major 4.
func TestExcerptsWithoutThePickup(t *testing.T) {
	text := "meter: 4/4\npickup: 1/4\nlength: 12 bars\nlayers:\n  - {name: A, groups: 3+2+5, pitches: C4, instrument: flute}\n  - {name: C, groups: 3+3+2, pitches: C4, instrument: flute}\n" +
		"  - {name: B, groups: 3+2, enters: pickup, pitches: C4, instrument: flute}\nplan:\n  - {at: pickup, key: D major, clef: alto}\n"
	for more, sharps := range map[string]int{"": 2, "  - {at: bar 1, key: E major, clef: treble}\n": 4} {
		for _, kind := range []Kind{Groups, Composite, Beam, Cut} {
			e, why := one(t, kind, 1, text+more)
			require.Empty(t, why, kind)
			if kind == Groups || kind == Composite { // bars from further on, without signatures
				continue
			}
			for b := range e.Solution.Sheet.Parts[0].Bars() {
				assert.Equal(t, []int{1, sharps}, []int{b.Number, b.Measure.Key.Fifths}, kind)
				break
			}
		}
	}
}

// B plays in bars 3 to 8 alone, or from the pickup on; its exercises have it from bar 1.
// 1+1+3+5 in bars of eight: struck at 0 1 2 5 and 10 11 12 15; at 16, the barline of bar
// 3, once round and 6 more, at 24 twice and 4, at 32 three times and 2.
func TestLayersThatComeAndGoAreGivenFromBar1(t *testing.T) {
	for _, when := range []string{"enters: bar 3, leaves: bar 9", "enters: pickup", "enters: bar 2 beat 3"} {
		layers := "meter: 4/4\npickup: 1/4\nlength: 12 bars\nlayers:\n  - {name: B, groups: 1+1+3+5, " + when + "}\n"
		e, why := one(t, Groups, 1, layers)
		require.Empty(t, why)
		assert.Equal(t, []string{"a: 1+1+3+5"}, e.Answer)
		assert.Equal(t, []int{1, 0}, []int{e.Given.From, int(e.Given.Piece.Sections[0].Layers[0].Enters)})
		e, why = one(t, Beam, 1, layers)
		require.Empty(t, why)
		assert.Equal(t, []int{4, 4}, []int{attacksIn(e.Solution.Sheet, 1), attacksIn(e.Solution.Sheet, 2)})
		e, why = one(t, Cut, 1, layers)
		require.Empty(t, why)
		assert.Equal(t, map[int][]string{
			3: {"whole cycles: 1", "pulses of the cut cycle that sound: 6 of 10", "the cut falls: in group 4, after 1 of its 5 pulses"},
			4: {"whole cycles: 2", "pulses of the cut cycle that sound: 4 of 10", "the cut falls: in group 3, after 2 of its 3 pulses"},
			5: {"whole cycles: 3", "pulses of the cut cycle that sound: 2 of 10", "the cut falls: after group 2"},
		}[e.Given.To], e.Answer)

		e, why = one(t, Next, 1, strings.Replace(layers, "1+1+3+5", "3+2, process: {grow: {group: 1, by: 1, from: none}}", 1)) // 5, 6, 7 and 8 eighths
		require.Empty(t, why)
		assert.Equal(t, []string{"groups of cycle 4: 6+2"}, e.Answer)
		require.NotNil(t, e.Solution.Sheet)
		for cycle := 1; cycle <= 4; cycle++ {
			assert.Equal(t, 2, attacksIn(e.Solution.Sheet, cycle), cycle)
		}
		assert.Zero(t, attacksIn(e.Given.Sheet, 4))
	}
}

// Both begin two eighths before bar 1 and hold a sound into it, so the excerpt of two
// bars is bars 2 and 3, eighths 8 to 23: A strikes at 8 10 12 15 17 19 22, B at 8 11 13 16
// 18 21 23.
func TestLayersOfThePickupServe(t *testing.T) {
	const layers = "layers:\n  - {name: A, groups: 3+2+2, enters: pickup}\n  - {name: B, groups: 3+2, enters: pickup}\n"
	e, why := one(t, Composite, 1, "meter: 4/4\npickup: 1/4\nlength: 3 bars\n"+layers)
	require.Empty(t, why)
	assert.Equal(t, []int{2, 3}, []int{e.Given.From, e.Given.To})
	assert.Equal(t, []string{"attacks of the composite: 13", "of these struck together: 1"}, e.Answer)
	require.NotNil(t, e.Solution.Sheet)
	assert.Equal(t, 7, attacksIn(e.Solution.Sheet, 2)+attacksIn(e.Solution.Sheet, 3))
	_, why = one(t, Composite, 1, "meter: 4/4\npickup: 1/4\nlength: 2 bars\n"+layers)
	assert.Equal(t, heldInto, why)
}
