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
	most := max(o.Tolerance, 0)
	var found []*Description
	for _, d := range all {
		d.Saved = base - d.Bits()
		few := o.Tolerance == 0 || d.Exceptions() <= most
		if few && (most > 0 || l.tapped != nil || d.Saved > leastBits) { // a loop of taps has already saved bits, moments included
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
		accents := l.accentBits(ln.strike)
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
			base = min(base, r.BareBits()+ln.strike.bits()+accents+lengthsBits(ln.lengths()))
			if r.Process() != nil && ln.lengths() != nil {
				continue // how long the groups of a process sound is not looked for
			}
			d := ln.describe(r)
			if len(d.Stretches) == 1 && d.Exceptions() == 0 {
				continue // the exact search has it, or it was not heard twice
			}
			d.RhythmBits += accents + ln.lengthBits(d)
			d.settle(l)
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
	attacks := ln.attacks()
	places := make([]int64, len(attacks))
	for i, a := range attacks {
		places[i] = a.At
	}
	return align.Numbers(places, align.Options{Exceptions: o.Tolerance})
}

// attackLines are the ways to look at the list that differ in their attacks, or in
// how these are struck; without the silence at the start.
func (l *List) attackLines() []*line {
	return slices.DeleteFunc(lines(l), func(ln *line) bool {
		return ln.items[0].Blank || ln.strike == Hold && l.isShort()
	})
}

// lengths returns how long the attacks sound, nil if all sound until the next.
func (ln *line) lengths() []int64 {
	if !slices.ContainsFunc(ln.items, func(i Item) bool { return i.Blank }) {
		return nil
	}
	var all []int64
	for _, a := range ln.attacks() {
		all = append(all, a.Length)
	}
	return all
}

// lengthsBits is what sounding lengths cost where they do not follow from the
// attacks: as a list of values.
func lengthsBits(lengths []int64) float64 {
	if len(lengths) == 0 {
		return 0
	}
	items := make([]Item, len(lengths))
	for i, n := range lengths {
		items[i].Size = n
	}
	return valuesBits(items)
}

// lengthBits is what the lengths cost in a description: those of its loops, those
// of the cycles that differ, and those without a loop.
func (ln *line) lengthBits(d *Description) float64 {
	if ln.lengths() == nil {
		return 0
	}
	cost := 0.0
	sounding := func(items []Item) (lengths []int64) {
		for _, item := range items {
			if !item.Blank {
				lengths = append(lengths, item.Size)
			}
		}
		return lengths
	}
	attacks := ln.attacks()
	for k, s := range d.Stretches {
		if s.Groups == nil {
			until := len(attacks)
			if k+1 < len(d.Stretches) {
				until = d.Stretches[k+1].First
			}
			var lengths []int64
			for _, a := range attacks[s.First:until] {
				lengths = append(lengths, a.Length)
			}
			cost += lengthsBits(lengths)
			continue
		}
		cost += lengthsBits(sounding(s.Groups))
		for _, e := range s.Exceptions {
			cost += lengthsBits(sounding(e.Played))
			if len(e.Slips) == 0 {
				cost += choice(len(attacks))
			}
		}
	}
	return cost
}
