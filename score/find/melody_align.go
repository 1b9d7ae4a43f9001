package find

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"tieover/score/beat"
	"tieover/score/find/align"
)

// melodyWord is a melody written out tone by tone, to be aligned with the list.
type melodyWord struct {
	*melodySearch
	p      playedMelody
	tones  []int // chords
	cycles []int // of each tone
	heads  []int // of each cycle
}

// melodyStep leads from one tone of the list to a later one.
type melodyStep struct {
	attack, tone int // where it begins
	attacks      int // of the list that it takes
	tones        int // of the melody
	kind         melodySlip
	length       int64 // what the attack lasts, where it is not as long as the others
	cost         float64
}

type melodySlip int

const (
	asWritten melodySlip = iota
	otherTone
	leftOut // tones that take no time
	missing // tones whose time the one before has
	besides // an attack more
	swapped
)

// align finds the cheapest way through melody and list: dynamic programming over both.
func (w *melodyWord) align() (steps []melodyStep, bits float64, ok bool) {
	n, m := len(w.chords), len(w.tones)
	where := choice(n)
	type cell struct {
		cost float64
		step melodyStep
	}
	width := 2*mostMoved + 1
	cells := make([]cell, (n+1)*width)
	for i := range cells {
		cells[i].cost = math.Inf(1)
	}
	at := func(i, t int) *cell {
		if off := t - i + mostMoved; off >= 0 && off < width && i <= n && t <= m {
			return &cells[i*width+off]
		}
		return nil
	}
	at(0, 0).cost = 0
	for i := range n {
		for t := max(0, i-mostMoved); t <= min(m, i+mostMoved); t++ {
			here := at(i, t)
			if math.IsInf(here.cost, 1) {
				continue
			}
			offer := func(s melodyStep) {
				if next := at(i+s.attacks, t+s.tones); next != nil && here.cost+s.cost < next.cost {
					s.attack, s.tone = i, t
					next.cost, next.step = here.cost+s.cost, s
				}
			}
			w.steps(i, t, where, offer)
		}
	}
	best := -1
	for t := max(0, n-mostMoved); t <= min(m, n+mostMoved); t++ {
		if best < 0 || at(n, t).cost < at(n, best).cost {
			best = t
		}
	}
	if best < 0 || math.IsInf(at(n, best).cost, 1) {
		return nil, 0, false
	}
	slips := 0
	for i, t := n, best; i > 0 || t > 0; {
		s := at(i, t).step
		steps = append(steps, s)
		bits += s.cost
		for range s.slips() {
			slips++
			bits -= where
		}
		i, t = s.attack, s.tone
	}
	slices.Reverse(steps)
	return steps, bits + align.WhereBits(n, slips), true
}

// slips counts the exceptions of a step.
func (s melodyStep) slips() (n int) {
	if s.kind != asWritten {
		n++
	}
	if s.length > 0 {
		n++
	}
	return n
}

// steps yields the ways on from an attack of the list and a tone of the melody.
func (w *melodyWord) steps(i, t int, where float64, yield func(melodyStep)) {
	length, longer := int64(0), 0.0
	if size := w.l.Hits[i].Length; i+1 < len(w.chords) && size != w.size {
		length, longer = size, where+align.SlipBits+gamma(size-w.size)+align.SignBits
	}
	toneBits := choice(len(w.l.Chords))
	is := func(tone int) bool { return tone < len(w.tones) && w.tones[tone] == w.chords[i] }
	switch {
	case is(t):
		yield(melodyStep{attacks: 1, tones: 1, length: length, cost: longer})
		for k := int64(1); k <= 3 && length == (k+1)*w.size; k++ {
			yield(melodyStep{attacks: 1, tones: 1 + int(k), kind: missing, cost: where + align.SlipBits + gamma(k)})
		}
	case t < len(w.tones):
		yield(melodyStep{attacks: 1, tones: 1, kind: otherTone, length: length, cost: longer + where + align.RareBits + toneBits})
	}
	for k := 1; k <= 3; k++ {
		if is(t + k) { // all before it are left out
			yield(melodyStep{attacks: 1, tones: k + 1, kind: leftOut, length: length, cost: longer + where + align.SlipBits + gamma(int64(k))})
		}
	}
	besidesBits := where + align.RareBits
	if i == 0 || w.chords[i] != w.chords[i-1] {
		besidesBits += toneBits
	}
	yield(melodyStep{attacks: 1, kind: besides, length: length, cost: longer + besidesBits})
	if i+1 < len(w.chords) && t+1 < len(w.tones) && is(t+1) && w.tones[t] == w.chords[i+1] && w.tones[t] != w.tones[t+1] && length == 0 {
		yield(melodyStep{attacks: 2, tones: 2, kind: swapped, cost: where + align.RareBits})
	}
}

// play writes a melody out, a few tones further than the list.
func (s *melodySearch) play(p playedMelody) *melodyWord {
	w := &melodyWord{melodySearch: s, p: p}
	for cycle := 0; len(w.tones) < len(s.chords)+mostMoved && p.Tones(cycle) > 0; cycle++ {
		w.heads = append(w.heads, len(w.tones))
		for tone := range p.Tones(cycle) {
			k := p.place(cycle, tone)
			if k >= len(p.series) {
				return w
			}
			w.tones, w.cycles = append(w.tones, p.series[k]), append(w.cycles, cycle)
		}
	}
	return w
}

// stretch cuts the list where the melody's cycles begin.
func (w *melodyWord) stretch(steps []melodyStep) Stretch {
	s := w.p.stretch(w.size, w.l.Hits[0].At)
	s.Until, s.Next, s.ByCycle = w.l.End, len(w.chords), true
	until := 0
	for _, step := range steps {
		tone := min(step.tone, len(w.tones)-1)
		if step.kind == leftOut {
			tone = min(step.tone+step.tones-1, len(w.tones)-1) // the one that sounds
		}
		cycle := w.cycles[tone]
		if step.kind == besides && step.tone > 0 {
			cycle = w.cycles[step.tone-1]
		}
		if n := len(s.Turns); n == 0 || s.Turns[n-1].Cycle != cycle {
			s.Turns = append(s.Turns, Turn{Cycle: cycle, First: step.attack, At: w.l.Hits[step.attack].At})
		}
		last := &s.Turns[len(s.Turns)-1]
		last.Slips = append(last.Slips, w.words(step)...)
		until = step.tone + step.tones
	}
	s.endTurns(w.l.Hits, len(w.l.Hits))
	for _, t := range s.Turns {
		if len(t.Slips) > 0 {
			s.Exceptions = append(s.Exceptions, t)
		}
	}
	if until < len(w.tones) && !slices.Contains(w.heads, until) {
		s.Rest = s.Until - s.Turns[len(s.Turns)-1].At
	}
	return s
}

// words says in what a step differs from the melody; nil if in nothing.
func (w *melodyWord) words(s melodyStep) (words []string) {
	number := func(tone int) string { return strconv.Itoa(tone - w.heads[w.cycles[min(tone, len(w.cycles)-1)]] + 1) }
	sounds := chordText(w.l.Chords[w.chords[s.attack]])
	switch s.kind {
	case otherTone:
		words = append(words, fmt.Sprintf("tone %s another: %s", number(s.tone), sounds))
	case leftOut:
		words = append(words, beat.Counted(s.tones-1, "tone")+" before "+sounds+" left out")
	case missing:
		words = append(words, beat.Counted(s.tones-1, "tone")+" after "+sounds+" missing")
	case besides:
		words = append(words, sounds+" too many")
	case swapped:
		words = append(words, "tones "+number(s.tone)+" and "+number(s.tone+1)+" swapped")
	}
	if s.length > 0 {
		words = append(words, "tone "+number(s.tone)+" "+resizedText(int(s.length-w.size)))
	}
	return words
}
