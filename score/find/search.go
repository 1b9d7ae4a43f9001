package find

import (
	"cmp"
	"slices"

	"tieover/score/find/align"
	"tieover/score/process"
)

// Options says how far the search may go.
type Options struct {
	// Exceptions is how many exceptions a loop may have; the shortest such loop is
	// returned even if it saves nothing. 0: as many as pay for themselves. align.None:
	// none.
	Exceptions int
}

// longestCycle bounds the groups of a cycle that changes; a plain loop may have any
// number.
const longestCycle = 4096

// Search returns descriptions of the list, the shortest first; among equally short ones
// the one with the shorter cycle. The last is always the bare list, which is the only one
// when there is no pattern; its Nearest is then the loop that comes nearest.
func Search(l *List, o Options) []*Description {
	found, literal := l.findExact()
	for _, d := range found {
		d.allowOtherPitches(l, o)
	}
	plain := shortestLoop(found)
	if plain == nil || plain.mayHideSlips() {
		for _, d := range l.findImperfect(literal, o) {
			if plain == nil || d.Saved > plain.Saved+leastBits && !d.hasLongerEnd() {
				found = append(found, d)
			}
		}
	}
	if !slices.ContainsFunc(found, func(d *Description) bool { return d.additive }) && o.Exceptions != align.None {
		found = append(found, l.slippedMelodies(literal)...)
	}
	slices.SortStableFunc(found, (*Description).compare)
	found = slices.CompactFunc(found, isSameText)
	return append(loopsFirst(found), literal)
}

// shortestLoop returns the plain loop among descriptions that takes the fewest bits,
// nil if there is none.
func shortestLoop(found []*Description) (plain *Description) {
	for _, d := range found {
		if d.IsPlainLoop() && (plain == nil || d.Saved > plain.Saved) {
			plain = d
		}
	}
	return plain
}

// mayHideSlips reports whether a shorter loop with exceptions might take clearly fewer
// bits than a plain loop: the same slip again after a few cycles makes a long loop. The
// shorter one has at least one exception in each cycle of the plain one, and even as a
// single group of 1 takes a few bits.
func (d *Description) mayHideSlips() bool {
	full, attacks := d.Loop().wholeCycles(), 0
	for _, item := range d.Loop().Groups {
		if !item.Blank {
			attacks += full
		}
	}
	return d.RhythmBits > kind+valuesBits([]Item{{Size: 1}})+gamma(int64(attacks))+align.WhereBits(attacks, full)+float64(full)*(align.SlipBits+gamma(1))+leastBits
}

// hasLongerEnd reports whether the last attack is longer than in its loop, which costs no
// bits although it is a difference.
func (d *Description) hasLongerEnd() bool { return d.Stretches[len(d.Stretches)-1].last > 0 }

// bestExact returns the best description that fits exactly, nil if there is none.
func (l *List) bestExact() *Description {
	found, _ := l.findExact()
	if len(found) == 0 {
		return nil
	}
	return slices.MinFunc(found, (*Description).compare)
}

// compare orders descriptions, the better first.
func (d *Description) compare(other *Description) int {
	return cmp.Or(cmp.Compare(other.Saved, d.Saved), cmp.Compare(d.rank(), other.rank()),
		cmp.Compare(len(d.Loop().Groups), len(other.Loop().Groups)), cmp.Compare(d.Loop().Length(), other.Loop().Length()))
}

// findExact returns every worthwhile description that fits the list exactly, and the bare
// list.
func (l *List) findExact() (found []*Description, literal *Description) {
	literal = shortestLiteral(l)
	all := lines(l)
	for _, ln := range all {
		for _, d := range ln.candidates() {
			found = append(found, d)
			for _, s := range append(l.severalRounds(d), ln.retrogradeInPitches(d)...) {
				if other := ln.weigh(&s); other.Bits() < d.Bits() {
					found = append(found, other)
				}
			}
		}
	}
	for _, ln := range all {
		found = append(found, ln.additive()...)
	}
	literal.settle(l)
	base := l.bareBits(literal)
	literal.Saved = base - literal.Bits()
	for _, d := range found {
		d.Saved = base - d.Bits()
	}
	found = slices.DeleteFunc(found, func(d *Description) bool { return !d.isWorthwhile() })
	return found, literal
}

// bareBits is what the list takes without a pattern in its rhythm or its pitches.
func (l *List) bareBits(literal *Description) float64 {
	return literal.RhythmBits + l.seriesBits(l.literalSeries())
}

// loopsFirst puts a loop before the first cut that is not heard as one: a single group cut
// to the loop's length (3+3+2 as threes that start over), or a cut heard once, where the
// loop with exceptions takes hardly more bits or has a single exception.
func loopsFirst(found []*Description) []*Description {
	for i, cut := range found {
		if cut.Loop().CutEvery == 0 {
			continue
		}
		k := slices.IndexFunc(found, func(d *Description) bool {
			if cut.IsCutOf(d) || len(d.Stretches) > 1 || d.IsExact() {
				return cut.IsCutOf(d)
			}
			hardly := d.Exceptions() == 1 || cut.Saved-d.Saved <= leastBits
			return cut.hasSingleCut(d.Loop().Until) && hardly && slices.Equal(d.Loop().Groups, cut.Loop().Groups)
		})
		if k > i {
			loop := found[k]
			return slices.Insert(slices.Delete(found, k, k+1), i, loop)
		}
	}
	return found
}

// hasSingleCut reports whether the cycle is cut a single time before the end.
func (d *Description) hasSingleCut(end int64) bool {
	every := d.Loop().CutEvery
	return every > 0 && 2*every > end
}

// hasSingleTurn reports whether the only change is that one cycle, not the second, is
// turned round: that is rather an exception.
func (d *Description) hasSingleTurn() bool {
	s := d.Loop()
	return len(s.Process) == 1 && s.Process[0].Kind == process.Retrograde && s.Process[0].After > 2 && 2*s.Process[0].After > s.Cycles
}

// accentBits is what accents that mark groups cost in a description that does not explain
// them: a bit for each attack.
func (l *List) accentBits(s Strike) float64 {
	if s == All || l.groupsByAccent() == nil {
		return 0
	}
	return float64(len(l.Hits))
}

// shortestLiteral returns the shortest way to write the list out.
func shortestLiteral(l *List) *Description {
	var best *Description
	for _, ln := range lines(l) {
		if ln.lead > 0 {
			continue
		}
		if bits := kind + valuesBits(ln.items) + ln.strike.bits() + l.accentBits(ln.strike); best == nil || bits < best.RhythmBits {
			best = &Description{Literal: true, Stretches: []Stretch{{Groups: ln.items, Strike: ln.strike, Cycles: 1}}, RhythmBits: bits}
		}
	}
	if l.hasOpenEnd() {
		best.RhythmBits = min(best.RhythmBits, l.tapped.Free.BareBits())
	}
	return best
}

// rank orders descriptions that are equally short: first plain loops, then
// those that keep the cycle's length in pulses.
func (d *Description) rank() int {
	switch s := d.Loop(); {
	case !d.IsExact():
		return 3
	case s.Melody != nil:
		return 2
	case len(s.Process) == 0:
		return 0
	case !s.Has(process.Grow) && !s.Has(process.Append) && !s.Has(process.Rotate):
		return 1
	}
	return 2
}

// isSameText reports whether two descriptions read the same.
func isSameText(a, b *Description) bool { return a.Bits() == b.Bits() && a.String() == b.String() }

// isWorthwhile reports whether a description is more than a coincidence. A plain loop
// heard twice in full is a fact whatever it saves; everything else must save some bits.
func (d *Description) isWorthwhile() bool {
	return d.additive || d.Loop().isPlain() || d.Saved > leastBits
}

// leastBits is what a description with a cut, a process or several exceptions must
// save. Savings of more than 4 bits turn up in at most 0.3 % of chance lists.
const leastBits = 4
