package find

import (
	"slices"

	"tieover/score/find/align"
)

// nearlyBits is how many bits longer than the bare list the nearest loop may be.
const nearlyBits = 12

// findImperfect returns descriptions with exceptions and of several segments that pay for
// themselves. The nearest of the others becomes the Nearest of the literal description.
func (l *List) findImperfect(literal *Description, o Options) []*Description {
	all, otherwise, base := l.readings(literal, o)
	base += l.seriesBits(l.literalSeries())
	most := max(o.Exceptions, 0)
	var found []*Description
	for _, d := range all {
		d.Saved = base - d.Bits()
		few := o.Exceptions == 0 || d.Exceptions() <= most
		least := float64(leastBits)
		if d.isLoopWithOneSlip() {
			least = 0
		}
		if few && (most > 0 || l.tapped != nil || d.Saved > least) { // a loop of taps has already saved bits, moments included
			found = append(found, d)
		} else {
			otherwise = append(otherwise, d)
		}
	}
	for _, d := range otherwise {
		if d.Saved > -nearlyBits && d.isMostlyPlain() && (literal.Nearest == nil || d.Saved > literal.Nearest.Saved) {
			literal.Nearest = d
		}
	}
	return found
}

// readings reads every line. otherwise counts the taps in other pulses, and so does not
// describe the list; base is what the attacks cost without loops.
func (l *List) readings(literal *Description, o Options) (all, otherwise []*Description, base float64) {
	base = literal.RhythmBits
	for _, ln := range l.attackLines() {
		res := l.readLine(ln, o)
		if res.Free == nil {
			continue
		}
		accents, bareLengths := l.accentBits(ln.strike), 0.0
		if ln.hasSilences() {
			bareLengths = soundBits(ln.items)
		}
		for _, r := range append(slices.Clone(res.Readings), res.Nearest) {
			if r == nil {
				continue
			}
			if r == res.Nearest && l.tapped != nil {
				own := readingList(r, l.Hits[0].At)
				d := newLine(own, own.gaps(), Hold, 0).describe(r)
				d.Saved = r.Saved
				otherwise = append(otherwise, d)
				continue
			}
			base = min(base, r.BareBits()+ln.strike.bits()+accents+bareLengths)
			if r.Process() != nil && ln.hasSilences() {
				continue // how long the groups of a process sound is not looked for
			}
			d := ln.describe(r)
			if len(d.Stretches) == 1 && d.Exceptions() == 0 {
				continue // the exact search has it, or it was not heard twice
			}
			d.RhythmBits += accents + ln.lengthBits(d)
			d.settle(l)
			d.allowOtherPitches(l, o)
			all = append(all, d)
		}
	}
	return all, otherwise, base
}

// readLine aligns the line's attacks; those of taps were read when the list was made.
func (l *List) readLine(ln *line, o Options) align.Result {
	if l.tapped != nil {
		return *l.tapped
	}
	places := make([]int64, len(ln.attacks))
	for i, a := range ln.attacks {
		places[i] = a.At
	}
	return align.Numbers(places, align.Options{Exceptions: o.Exceptions})
}

// attackLines are the ways to look at the list that differ in their attacks, or in
// how these are struck; without the silence at the start.
func (l *List) attackLines() []*line {
	return slices.DeleteFunc(lines(l), func(ln *line) bool {
		return ln.items[0].Blank || ln.strike == Hold && l.isShort()
	})
}

// hasSilences reports whether not all attacks sound until the next.
func (ln *line) hasSilences() bool {
	return slices.ContainsFunc(ln.items, func(i Item) bool { return i.Blank })
}

// soundBits is what the sounding lengths of items cost, as values that do not follow from
// the attacks.
func soundBits(items []Item) float64 {
	sounds := slices.DeleteFunc(slices.Clone(items), func(i Item) bool { return i.Blank })
	if len(sounds) == 0 {
		return 0
	}
	return valuesBits(sounds)
}

// lengthBits is what the lengths cost in a description: those of its loops, those
// of the cycles that differ, and those without a loop.
func (ln *line) lengthBits(d *Description) (cost float64) {
	if !ln.hasSilences() {
		return 0
	}
	for _, s := range d.Stretches {
		if s.Groups == nil {
			cost += soundBits(itemsBetween(ln.attacks[s.First:s.Next], s.At, s.Until, false))
			continue
		}
		cost += soundBits(s.Groups)
		for _, e := range s.Exceptions {
			cost += soundBits(e.Groups)
			if len(e.Slips) == 0 {
				cost += choice(len(ln.attacks))
			}
		}
	}
	return cost
}
