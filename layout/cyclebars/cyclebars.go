package cyclebars

import (
	"fmt"
	"iter"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/source"
)

// Of makes a bar of each cycle of a layer, or with split the most equal bars of two
// groups or more that its groups allow. Before the first cycle of the layer and after
// it has left come the meter's bars; the last of them is shortened where a cycle begins
// inside it. A bar that no meter can write has a signature without terms (see Check).
func Of(s *score.Section, layer int, split bool) iter.Seq[score.Bar] {
	return func(yield func(score.Bar) bool) {
		l := s.Layers[layer]
		m := maker{s: s, at: s.Opening(), split: split, tuplets: l.Pulse.IsTuplet(), yield: yield,
			known: map[*score.Group][]score.Signature{}}
		for c := range s.Cycles(layer) {
			if c.Landing {
				break
			}
			if c.End() <= l.Enters {
				continue
			}
			if !m.meterBars(max(c.Start, l.Enters)) || !m.cycle(c) {
				return
			}
		}
		if m.meterBars(s.Length) && s.End == score.Land { // others land even if this layer has left
			bar := s.BarAt(s.Length)
			m.bar(bar.Length, bar.Signature)
		}
	}
}

// mostUnits is how many units a bar may have.
const mostUnits = 64

// Check adds a problem for the first cycle of a layer that Of cannot make a bar of: no
// meter can write it, or it has more than 64 units. A free line, which has no cycles,
// is a problem too, and so is a bar that lies over the moment where a repeat begins.
func Check(s *score.Section, layer int, split bool, problems *source.Problems) {
	l := s.Layers[layer]
	if l.Line != nil {
		problems.Add(l.Pos, fmt.Sprintf("layer %q is a free line and has no cycles that could be bars", l.Name), "name another layer")
		return
	}
	repeats := s.Opening() != 0 && s.End == score.Repeat // from a barline after the pickup
	for bar := range Of(s, layer, split) {
		repeats = repeats && bar.Start != 0
		switch {
		case repeats && bar.Start > 0:
			problems.Add(l.Pos, fmt.Sprintf("the repeat goes back to bar 1, but a bar of %s's own lies over its beginning", l.Name),
				"use the common barring")
			return
		case len(bar.Signature.Terms) == 0:
			problems.Add(l.Pos, fmt.Sprintf("bar %d, layer %q: a cycle of %v whole notes is no bar of any meter", bar.N, l.Name, s.Grid.Span(bar.Length)),
				"use the common barring, or give the layer a cycle that ends where plain notes do")
			return
		case units(bar.Signature) > mostUnits:
			problems.Add(l.Pos, fmt.Sprintf("bar %d, layer %q: a cycle of %s is too long for one bar", bar.N, l.Name, bar.Signature),
				"split it into equal bars (--split), or use the common barring")
			return
		}
	}
}

func units(sig score.Signature) (n int) {
	for _, t := range sig.Terms {
		for _, g := range t.Groups {
			n += g
		}
	}
	return n
}

// maker makes the bars of one section in order. Its methods report false when no more
// bars are wanted.
type maker struct {
	s       *score.Section
	split   bool
	tuplets bool // the layer's pulse is written in tuplets: its groups are no beats
	yield   func(score.Bar) bool
	at      beat.Time                          // where the next bar begins
	n       int                                // bars made; pickups do not count
	known   map[*score.Group][]score.Signature // of whole cycles
}

// mostKnown bounds the cycles whose signatures are kept.
const mostKnown = 4096

func (m *maker) bar(length beat.Time, sig score.Signature) bool {
	m.n++
	bar := score.Bar{N: m.n, Number: m.n, Start: m.at, Length: length, Filled: length, Signature: sig}
	m.at += length
	return m.yield(bar)
}

// meterBars fills the time until a moment with bars of the meter.
func (m *maker) meterBars(until beat.Time) bool {
	for m.at < until {
		bar := m.s.BarAt(m.at)
		length, sig, more := min(bar.End(), until)-m.at, bar.Signature, false
		switch whole := length == bar.Length; {
		case whole && bar.Skipped > 0:
			m.at = bar.End()
			more = m.yield(bar)
		case whole:
			more = m.bar(length, sig)
		default:
			more = m.bar(length, signatureOf(m.s.Grid.Span(length)))
		}
		if !more {
			return false
		}
	}
	return true
}

// cycle makes the bar, or the equal bars, of one cycle.
func (m *maker) cycle(c *score.Cycle) bool {
	whole := m.at == c.Start && c.Sounds == c.Length
	sigs, known := m.known[&c.Groups[0]]
	if !whole || !known {
		sigs = m.signatures(c, whole)
	}
	if whole && !m.tuplets && len(m.known) < mostKnown {
		m.known[&c.Groups[0]] = sigs
	}
	length := (c.End() - m.at) / beat.Time(len(sigs))
	for _, sig := range sigs {
		if !m.bar(length, sig) {
			return false
		}
	}
	return true
}

// signatures are those of the bars of a cycle, or of what is left of it.
func (m *maker) signatures(c *score.Cycle, whole bool) (sigs []score.Signature) {
	var lengths []beat.Span
	for _, g := range c.Groups {
		from, to := max(c.Start+g.At, m.at), min(c.Start+g.At+g.Length, c.End())
		if from < to {
			lengths = append(lengths, m.s.Grid.Span(to-from))
		}
	}
	parts := [][]beat.Span{lengths}
	if m.split && whole {
		parts = split(lengths)
	}
	for _, part := range parts {
		if m.tuplets {
			sigs = append(sigs, m.plain(total(part)))
		} else {
			sigs = append(sigs, signatureOf(part...))
		}
	}
	return sigs
}

// plain is the signature of a bar whose groups are no beats: the meter's own if its bar
// there is as long, so that tuplets have the same places in it as in the score. At a
// pickup the meter's signature is of a whole bar: what counts is that length.
func (m *maker) plain(length beat.Span) score.Signature {
	if sig := m.s.BarAt(m.at).Signature; sig.Span() == length {
		return sig
	}
	return signatureOf(length)
}
