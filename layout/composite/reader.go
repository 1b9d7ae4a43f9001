package composite

import (
	"slices"

	"tieover/score"
	"tieover/score/instrument"
)

// Reader reads the attacks of several layers as one rhythm: each is a cycle of its own
// that lasts to the next, of a single attack in no group, with the tones of all who strike
// together, lowest first. The last lasts to the end of the section, or, where the section
// ends with it, as long as the longest.
type Reader struct {
	s       *score.Section
	ins     *instrument.Instrument
	moments *score.MomentReader
	held    score.Cycle // until it is known when the next one begins
	more    bool        // there is one
	chord   score.Chord // being made
	chords  slab[score.Tone]
	attacks slab[score.Attack]
}

// NewReader reads the layers of these indexes, of which there must be at least one, as far
// as the instrument can write what they strike: sounds of another drum set have no place on
// it, nor have pitches on drums.
func NewReader(s *score.Section, layers []int, ins *instrument.Instrument) *Reader {
	r := &Reader{s: s, ins: ins, moments: s.ReadMoments(layers)}
	r.held, r.more = r.cycle()
	return r
}

// Next returns the next cycle; ok is false after the last.
func (r *Reader) Next() (c score.Cycle, ok bool) {
	if !r.more {
		return score.Cycle{}, false
	}
	c = r.held
	r.held, r.more = r.cycle()
	length := c.Attacks[0].Length
	switch {
	case r.more:
		length = r.held.Start - c.Start
	case c.Start < r.s.Length:
		length = r.s.Length - c.Start
	}
	c.Length, c.Sounds, c.Attacks[0].Length = length, length, length
	return c, true
}

// cycle makes a cycle of the next moment, not yet as long as it will be.
func (r *Reader) cycle() (c score.Cycle, ok bool) {
	now, ok := r.moments.Next()
	if !ok {
		return score.Cycle{}, false
	}
	a := score.Attack{Length: 1, Group: -1}
	r.chord = r.chord[:0]
	for i, struck := range now.Attacks {
		a.Accent = a.Accent || struck.Accent
		a.Length = max(a.Length, struck.Length)
		for _, t := range tonesFor(r.ins, r.s.Layers[now.Layers[i]].Instrument, struck.Tones) {
			if slices.Contains(r.chord, t) {
				continue // most are known, which needs no search
			}
			if place, known := slices.BinarySearchFunc(r.chord, t, score.Tone.Compare); !known {
				r.chord = slices.Insert(r.chord, place, t)
			}
		}
	}
	a.Tones = r.chords.keep(r.chord...)
	return score.Cycle{Start: now.Time, Attacks: r.attacks.keep(a)}, true
}

// slab keeps short lists in long arrays, for there are many.
type slab[T any] struct{ room []T }

func (s *slab[T]) keep(list ...T) []T {
	n := len(list)
	if n > len(s.room) {
		s.room = make([]T, max(n, 128))
	}
	kept := s.room[:n:n]
	copy(kept, list)
	s.room = s.room[n:]
	return kept
}

// tonesFor returns the tones that an instrument can write: sounds of another
// drum set have no place on it.
func tonesFor(ins, from *instrument.Instrument, tones score.Chord) score.Chord {
	if ins.IsUnpitched() != from.IsUnpitched() || ins.IsUnpitched() && ins != from {
		return nil
	}
	return tones
}
