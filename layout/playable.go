package layout

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

// Unplayable lists where a composite asks too much of one player: more notes at
// once than the instrument gives, a wider span, a pitch out of its range, or one
// pitch again too soon. The limits are those of the instrument's row (common
// practice). These are warnings: the part is written all the same.
func (c Composite) Unplayable(p *score.Piece) source.Problems {
	var problems source.Problems
	layers := c.layers(p, &problems)
	ins := c.instrument(layers, &problems)
	if len(problems) > 0 {
		return problems
	}
	for i, s := range p.Sections {
		cur := compositeFeed(p, c.Layers, ins)(i)
		if cur == nil {
			continue
		}
		d := density{s: s, ins: ins, counts: map[string]int{}, last: map[score.Tone]beat.Time{}, slow: slowEnough(s, ins)}
		for cy := range cur.cycles.While(func(score.Cycle) bool { return true }) {
			d.strike(cy.Start, cy.Attacks[0].Tones, &problems)
		}
		for _, kind := range d.kinds {
			if n := d.counts[kind] - mostExcesses; n > 0 {
				problems.Add(s.Pos, fmt.Sprintf("%d more places with %s", n, kind), "")
			}
		}
	}
	return problems
}

// density follows what one player strikes.
type density struct {
	s      *score.Section
	ins    *instrument.Instrument
	counts map[string]int
	kinds  []string
	last   map[score.Tone]beat.Time // when each was struck last
	slow   beat.Time                // a gap that is no problem at any tempo of the section
}

// slowEnough is how long the instrument needs to repeat at the section's
// fastest tempo, rounded up to ticks.
func slowEnough(s *score.Section, ins *instrument.Instrument) beat.Time {
	fastest := s.Fastest()
	// so many ms are RepeatMS/60,000 of a minute, and a quarter is a fourth of a whole
	need := fastest.Mul(beat.Of(int64(ins.RepeatMS)*int64(s.Grid), 240000))
	return beat.Time(need.Num()/need.Den() + 1)
}

func (d *density) strike(at beat.Time, tones score.Chord, problems *source.Problems) {
	ins := d.ins
	note := func(kind, format string, args ...any) {
		d.counts[kind]++
		if d.counts[kind] == 1 {
			d.kinds = append(d.kinds, kind)
		}
		if d.counts[kind] <= mostExcesses {
			problems.Add(d.s.Pos, fmt.Sprintf("%v: %s", d.s.Where(at), fmt.Sprintf(format, args...)), "")
		}
	}
	if ins.Most > 0 && len(tones) > ins.Most {
		note("too many notes at once", "%d notes at once (%v), a player of the %s has %d", len(tones), tones, ins.Name, ins.Most)
	}
	var keys []int
	for _, t := range tones {
		if t.IsPitched() {
			keys = append(keys, t.Key())
			if ins.High > 0 && (t.Key() < ins.Low || t.Key() > ins.High) {
				note("notes out of range", "%v is out of the range of the %s", t, ins.Name)
			}
		}
	}
	if len(keys) > 1 && ins.Reach > 0 {
		if wide := slices.Max(keys) - slices.Min(keys); wide > ins.Reach {
			note("too wide a span", "a span of %d semitones (%v), the %s reaches %d", wide, tones, ins.Name, ins.Reach)
		}
	}
	for _, t := range tones {
		before, struck := d.last[t]
		d.last[t] = at
		if struck && ins.RepeatMS > 0 && d.faster(before, at) {
			note("repeats that are too fast", "%v again after less than %d ms", t, ins.RepeatMS)
		}
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
