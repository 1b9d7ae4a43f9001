package analysis

import (
	"math/big"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Alone is what one player can do of all that is struck in a section. What an
// instrument can do is in its row of the table of instruments (common practice).
type Alone struct {
	Can    []int // layers whose instrument could play everything, each instrument once
	Rhythm bool  // a player with two hands could strike the rhythm, without its sounds

	Closest beat.Time // least time by the clock between two attacks of the composite; 0 for fewer than two
	Seconds *big.Rat  // how long that is; nil for fewer than two
}

// strokesMS is how soon two hands can follow each other, in milliseconds, as
// the table of instruments has it for pairs of drums (common practice).
const strokesMS = 60

// soloist follows what one player would have to strike.
type soloist struct {
	s     *score.Section
	clock *score.Clock
	able  []int                    // layers whose instrument has managed so far
	last  map[score.Tone]beat.Time // when each sound was struck last
	least map[beat.Span]beat.Time  // by speed: the least distance, all within it
	Alone
	before beat.Time
	any    bool
	speeds []score.Speed
}

func newSoloist(s *score.Section) *soloist {
	p := &soloist{s: s, clock: s.Clock(), last: map[score.Tone]beat.Time{}, least: map[beat.Span]beat.Time{}, speeds: s.Speeds()}
	for i, l := range s.Layers {
		if p.suits(i) && !slices.ContainsFunc(p.able, func(k int) bool { return s.Layers[k].Instrument == l.Instrument }) {
			p.able = append(p.able, i)
		}
	}
	return p
}

// suits reports whether the instrument of a layer has the sounds of all layers
// at all: pitches, or the same drums.
func (p *soloist) suits(layer int) bool {
	ins := p.s.Layers[layer].Instrument
	for _, l := range p.s.Layers {
		if l.Instrument.IsUnpitched() != ins.IsUnpitched() || ins.IsUnpitched() && l.Instrument != ins {
			return false
		}
	}
	return true
}

// add takes the next moment of the composite and all its sounds.
func (p *soloist) add(at beat.Time, sounds score.Chord) {
	if p.any {
		p.apart(p.before, at)
	}
	p.before, p.any = at, true
	if len(p.able) == 0 {
		return
	}
	sounds = distinct(sounds)
	p.able = slices.DeleteFunc(p.able, func(layer int) bool { return !p.manages(layer, sounds, at) })
	for _, t := range sounds {
		p.last[t] = at
	}
}

// apart notes a distance between two attacks. Only the least at each speed is
// kept; one across a change of it is looked at by itself.
func (p *soloist) apart(from, to beat.Time) {
	changed := false
	for len(p.speeds) > 1 && p.speeds[1].Time < to {
		changed = changed || p.speeds[1].Time > from
		p.speeds = p.speeds[1:]
	}
	speed := p.speeds[0].Quarters
	if least, known := p.least[speed]; !changed && known && least <= to-from {
		return
	}
	if !changed {
		p.least[speed] = to - from
	}
	lasts := new(big.Rat).Sub(p.clock.At(to), p.clock.At(from))
	if p.Seconds == nil || lasts.Cmp(p.Seconds) < 0 {
		p.Closest, p.Seconds = to-from, lasts
	}
}

// manages reports whether a layer's instrument can strike these sounds now.
func (p *soloist) manages(layer int, sounds score.Chord, now beat.Time) bool {
	ins := p.s.Layers[layer].Instrument
	if ins.Most > 0 && len(sounds) > ins.Most {
		return false
	}
	var low, high int
	for i, t := range sounds {
		if before, again := p.last[t]; again && p.clock.Sooner(before, now, ins.RepeatMS) {
			return false
		}
		if !t.IsPitched() {
			continue
		}
		if key := t.Key(); i == 0 {
			low, high = key, key
		} else {
			low, high = min(low, key), max(high, key)
		}
	}
	return ins.High == 0 || len(sounds) == 0 ||
		low >= ins.Low && high <= ins.High && (ins.Reach == 0 || high-low <= ins.Reach)
}

// done returns what was found.
func (p *soloist) done() Alone {
	p.Can = p.able
	p.Rhythm = p.Seconds == nil || p.Seconds.Cmp(big.NewRat(strokesMS, 1000)) >= 0
	if !p.any {
		p.Can, p.Rhythm = nil, false
	}
	return p.Alone
}

// distinct returns the sounds in order of the layers, each once.
func distinct(sounds score.Chord) score.Chord {
	var once score.Chord
	for _, t := range sounds {
		if !slices.Contains(once, t) {
			once = append(once, t)
		}
	}
	return once
}
