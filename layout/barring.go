package layout

import (
	"fmt"
	"iter"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/source"
)

// barsOf returns the bars of a part where they are not the section's own; nil
// where they are.
func barsOf(p *score.Piece, o *Options, player score.Player, problems *source.Problems) func(section int) iter.Seq[score.Bar] {
	if o.Barring.View == Common {
		return nil
	}
	leaders := make([]int, len(p.Sections)) // the layer whose cycles are bars; -1: the meter's own bars
	found := false
	for i, s := range p.Sections {
		leaders[i] = -1
		for j, l := range s.Layers {
			if o.Barring.View == ByLayer && l.Name == o.Barring.Layer {
				leaders[i] = j
			}
		}
		for _, j := range player.Layers[i] {
			if o.Barring.View == Own && leaders[i] < 0 && s.Layers[j].Line == nil {
				leaders[i] = j // a free line has no cycles: it keeps the meter's bars
			}
		}
		if j := leaders[i]; j >= 0 {
			found = true
			checkCycleBars(s, j, o, problems)
		}
	}
	if !found && o.Barring.View == ByLayer {
		problems.Add(source.Pos{}, fmt.Sprintf("no section has a layer %q whose cycles could be the bars", o.Barring.Layer),
			"name one of the layers")
	}
	return func(section int) iter.Seq[score.Bar] {
		s := p.Sections[section]
		if leaders[section] < 0 {
			return s.Bars()
		}
		return cycleBars(s, leaders[section], o.Barring.Split)
	}
}

// checkCycleBars reports cycles that cannot be bars: of no binary length, or of
// more than 64 units. It stops at the first, walking no more than it must.
func checkCycleBars(s *score.Section, layer int, o *Options, problems *source.Problems) {
	l := s.Layers[layer]
	if l.Line != nil {
		problems.Add(l.Pos, fmt.Sprintf("layer %q is a free line and has no cycles that could be bars", l.Name), "name another layer")
		return
	}
	again := s.Opening() == 0 || s.End != score.Repeat // nothing is played again, or from the first bar on
	for bar := range cycleBars(s, layer, o.Barring.Split) {
		again = again || bar.Start == 0
		switch {
		case !again && bar.Start > 0:
			problems.Add(l.Pos, fmt.Sprintf("the repeat goes back to bar 1, but a bar of %s's own lies over its beginning", l.Name),
				"use the common barring")
			return
		case len(bar.Signature.Terms) == 0:
			problems.Add(l.Pos, fmt.Sprintf("bar %d, layer %q: a cycle of %v whole notes is no bar of any meter", bar.N, l.Name, s.Grid.Span(bar.Length)),
				"use the common barring, or give the layer a cycle that ends where plain notes do")
			return
		case units(bar.Signature) > 64:
			problems.Add(l.Pos, fmt.Sprintf("bar %d, layer %q: a cycle of %s is too long for one bar", bar.N, l.Name, bar.Signature),
				"split it into equal bars (--split), or use the common barring")
			return
		}
	}
}

func units(sig score.Signature) int {
	n := 0
	for _, t := range sig.Terms {
		for _, g := range t.Groups {
			n += g
		}
	}
	return n
}

// cycleBars makes a bar of each cycle of a layer. Before its first cycle, and
// after it left, the meter's bars stand; the last of them is as short as need be.
func cycleBars(s *score.Section, layer int, split bool) iter.Seq[score.Bar] {
	return func(yield func(score.Bar) bool) {
		b := barring{s: s, at: s.Opening(), split: split, tuplets: s.Layers[layer].Pulse.IsTuplet(), yield: yield,
			signatures: map[*score.Group][]score.Signature{}}
		for c := range s.Cycles(layer) {
			if c.Landing {
				break
			}
			if c.End() <= s.Layers[layer].Enters {
				continue
			}
			if !b.meterBars(max(c.Start, s.Layers[layer].Enters)) || !b.cycle(c) {
				return
			}
		}
		if b.meterBars(s.Length) && s.End == score.Land { // others land even if this layer has left
			bar := s.BarAt(s.Length)
			b.emit(bar.Length, bar.Signature)
		}
	}
}

// barring makes the bars of one section in order.
type barring struct {
	s          *score.Section
	split      bool
	tuplets    bool // the layer's pulse is written in tuplets: its groups are no beats
	yield      func(score.Bar) bool
	at         beat.Time
	n          int
	signatures map[*score.Group][]score.Signature // of whole cycles
	stopped    bool
}

func (b *barring) emit(length beat.Time, sig score.Signature) bool {
	b.n++
	return b.give(score.Bar{N: b.n, Number: b.n, Start: b.at, Length: length, Filled: length, Signature: sig})
}

// give yields a bar that begins where the one before ends.
func (b *barring) give(bar score.Bar) bool {
	if !b.stopped && !b.yield(bar) {
		b.stopped = true
	}
	b.at += bar.Length
	return !b.stopped
}

// meterBars fills the time until a moment with bars of the meter.
func (b *barring) meterBars(until beat.Time) bool {
	for b.at < until && !b.stopped {
		bar := b.s.BarAt(b.at)
		length := min(bar.End(), until) - b.at
		if bar.Skipped > 0 && length == bar.Length {
			b.give(bar)
			continue
		}
		sig := bar.Signature
		if length != bar.Length {
			sig = signatureOf([]beat.Span{b.s.Grid.Span(length)})
		}
		b.emit(length, sig)
	}
	return !b.stopped
}

// cycle makes the bar, or the equal bars, of one cycle.
func (b *barring) cycle(c *score.Cycle) bool {
	whole := b.at == c.Start && c.Sounds == c.Length
	if whole && len(c.Groups) > 0 {
		if sigs, ok := b.signatures[&c.Groups[0]]; ok {
			return b.emitAll(sigs, c)
		}
	}
	var lengths []beat.Span
	for _, g := range c.Groups {
		from, to := max(c.Start+g.At, b.at), min(c.Start+g.At+g.Length, c.End())
		if from < to {
			lengths = append(lengths, b.s.Grid.Span(to-from))
		}
	}
	var sigs []score.Signature
	for _, part := range b.parts(lengths, whole) {
		if b.tuplets {
			sigs = append(sigs, b.plainBar(part))
		} else {
			sigs = append(sigs, signatureOf(part))
		}
	}
	if whole && !b.tuplets && len(c.Groups) > 0 && len(b.signatures) < memoSize {
		b.signatures[&c.Groups[0]] = sigs
	}
	return b.emitAll(sigs, c)
}

func (b *barring) emitAll(sigs []score.Signature, c *score.Cycle) bool {
	if len(sigs) == 1 {
		return b.emit(c.End()-b.at, sigs[0])
	}
	for _, sig := range sigs {
		if !b.emit((c.Length)/beat.Time(len(sigs)), sig) {
			return false
		}
	}
	return true
}
