package score

import (
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/source"
)

// groups makes a pattern of sounding groups.
func groups(sizes ...int) Pattern {
	var p Pattern
	for _, n := range sizes {
		p.Groups = append(p.Groups, Item{Size: n})
	}
	return p
}

// layer makes a bare rhythm layer in eighths.
func layer(name string, patterns ...Pattern) *Layer {
	return &Layer{Name: name, Short: name, Instrument: instrument.Rhythm, Pulse: beat.Plain(beat.Of(1, 8)), Patterns: patterns}
}

// in makes a section of layers in one plain meter.
func in(meter Signature, length LengthRule, layers ...*Layer) *Section {
	return &Section{
		Name: "B", Meter: Meter{meter}, Pulse: beat.Plain(beat.Of(1, 8)), Layers: layers, LengthRule: length,
		Tempo: Tempo{Quarters: beat.Of(132, 1), Beat: beat.Of(1, 4), Rate: beat.Of(132, 1)}, Key: Key{None: true},
	}
}

// settle makes a piece of the sections on a grid of 48 ticks, 6 an eighth.
func settle(t *testing.T, sections ...*Section) *Piece {
	t.Helper()
	p := &Piece{Title: "Lock Keeper's Round", Grid: 48, Sections: sections}
	require.Empty(t, p.Settle())
	return p
}

// refused settles a piece that cannot be.
func refused(sections ...*Section) source.Problems {
	p := &Piece{Grid: 48, Sections: sections}
	return p.Settle()
}

// eighths turns ticks into eighths; they must be whole.
func eighths(t *testing.T, ticks beat.Time) int {
	t.Helper()
	require.Zero(t, ticks%6, "%d ticks are no whole eighths", ticks)
	return int(ticks / 6)
}

// onsets lists the onsets of a layer in eighths.
func onsets(t *testing.T, s *Section, layer int) []int {
	t.Helper()
	var out []int
	for at := range s.Attacks(layer) {
		out = append(out, eighths(t, at))
	}
	return out
}

// lengths lists the lengths of a layer's attacks in eighths.
func lengths(t *testing.T, s *Section, layer int) []int {
	t.Helper()
	var out []int
	for _, a := range s.Attacks(layer) {
		out = append(out, eighths(t, a.Length))
	}
	return out
}

// sizesOf lists the group sizes of each cycle.
func sizesOf(s *Section, layer int) [][]int {
	var out [][]int
	for c := range s.Cycles(layer) {
		var sizes []int
		for _, g := range c.Groups {
			sizes = append(sizes, g.Size)
		}
		out = append(out, sizes)
	}
	return out
}

// together lists the realignments, in eighths.
func together(t *testing.T, s *Section) []int {
	t.Helper()
	var out []int
	for r := range s.Realignments() {
		out = append(out, eighths(t, r.Time))
	}
	return out
}
