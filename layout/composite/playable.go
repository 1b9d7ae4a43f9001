package composite

import (
	"fmt"
	"math/big"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/source"
)

// mostExcesses bounds the list of one kind of excess in one section.
const mostExcesses = 20

// Unplayable lists where the layers of these indexes ask too much of one player: more
// notes at once than the instrument gives, a wider span, a pitch out of its range, or one
// pitch again too soon. The limits are those of the instrument's row (common practice).
// Of each kind of excess the first 20 places are listed, and how many more there are.
// There must be at least one layer.
func Unplayable(s *score.Section, layers []int, ins *instrument.Instrument) (problems source.Problems) {
	d := density{s: s, ins: ins, problems: &problems, counts: map[string]int{}, last: map[score.Tone]beat.Time{}, slow: slowEnough(s, ins)}
	r := NewReader(s, layers, ins)
	for c, ok := r.Next(); ok; c, ok = r.Next() {
		d.strike(c.Start, c.Attacks[0].Tones)
	}
	for _, kind := range d.kinds {
		if n := d.counts[kind] - mostExcesses; n > 0 {
			problems.Add(s.Pos, fmt.Sprintf("%d more places with %s", n, kind), "")
		}
	}
	return problems
}

// density follows what one player strikes.
type density struct {
	s        *score.Section
	ins      *instrument.Instrument
	problems *source.Problems
	counts   map[string]int           // by kind of excess
	kinds    []string                 // in order of first appearance
	last     map[score.Tone]beat.Time // when each was struck last
	slow     beat.Time                // a gap that is no problem at any tempo of the section
}

// slowEnough is how long the instrument needs to repeat at the section's
// fastest tempo, rounded up to ticks.
func slowEnough(s *score.Section, ins *instrument.Instrument) beat.Time {
	// so many ms are RepeatMS/60,000 of a minute, and a quarter is a fourth of a whole
	need := s.Fastest().Mul(beat.Of(int64(ins.RepeatMS)*int64(s.Grid), 240000))
	return beat.Time(need.Num()/need.Den() + 1)
}

func (d *density) strike(at beat.Time, tones score.Chord) {
	ins := d.ins
	if ins.Most > 0 && len(tones) > ins.Most {
		d.note(at, "too many notes at once", "%d notes at once (%v), a player of the %s has %d", len(tones), tones, ins.Name, ins.Most)
	}
	var keys []int
	for _, t := range tones {
		if t.IsPitched() {
			keys = append(keys, t.Key())
			if ins.High > 0 && (t.Key() < ins.Low || t.Key() > ins.High) {
				d.note(at, "notes out of range", "%v is out of the range of the %s", t, ins.Name)
			}
		}
	}
	if len(keys) > 1 && ins.Reach > 0 {
		if wide := slices.Max(keys) - slices.Min(keys); wide > ins.Reach {
			d.note(at, "too wide a span", "a span of %d semitones (%v), the %s reaches %d", wide, tones, ins.Name, ins.Reach)
		}
	}
	for _, t := range tones {
		before, struck := d.last[t]
		d.last[t] = at
		if struck && ins.RepeatMS > 0 && d.faster(before, at) {
			d.note(at, "repeats that are too fast", "%v again after less than %d ms", t, ins.RepeatMS)
		}
	}
}

// note lists an excess, unless its kind has been listed often enough.
func (d *density) note(at beat.Time, kind, format string, args ...any) {
	d.counts[kind]++
	if d.counts[kind] == 1 {
		d.kinds = append(d.kinds, kind)
	}
	if d.counts[kind] <= mostExcesses {
		d.problems.Add(d.s.Pos, fmt.Sprintf("%v: %s", d.s.Where(at), fmt.Sprintf(format, args...)), "")
	}
}

// faster reports whether less time lies between than the instrument repeats in.
func (d *density) faster(from, to beat.Time) bool {
	if to-from >= d.slow {
		return false
	}
	gap := new(big.Rat).Sub(d.s.Seconds(to), d.s.Seconds(from))
	return gap.Cmp(big.NewRat(int64(d.ins.RepeatMS), 1000)) < 0
}
