package layout

import (
	"tieover/score"
	"tieover/score/beat"
)

// parts splits a cycle's groups into the most equal bars of two groups or more
// each; into one bar when they do not allow it, or it is not asked.
func (b *barring) parts(lengths []beat.Span, whole bool) [][]beat.Span {
	if !b.split || !whole {
		return [][]beat.Span{lengths}
	}
	var sum beat.Span
	for _, l := range lengths {
		sum = sum.Add(l)
	}
	for n := len(lengths) / 2; n > 1; n-- {
		if parts, ok := equalParts(lengths, sum.Mul(beat.Of(1, int64(n)))); ok {
			return parts
		}
	}
	return [][]beat.Span{lengths}
}

// equalParts cuts the groups into parts of the given length and at least two
// groups. ok is false when they do not allow it.
func equalParts(lengths []beat.Span, each beat.Span) (parts [][]beat.Span, ok bool) {
	from := 0
	var sum beat.Span
	for i, l := range lengths {
		sum = sum.Add(l)
		switch {
		case sum.Cmp(each) > 0:
			return nil, false
		case sum == each:
			if i == from {
				return nil, false
			}
			parts = append(parts, lengths[from:i+1])
			from, sum = i+1, beat.Span{}
		}
	}
	return parts, from == len(lengths)
}

// signatureOf writes lengths as one additive signature over their finest value,
// a quarter at the coarsest. Without a binary denominator for the groups the
// whole is tried as a plain signature; no terms when that fails too.
func signatureOf(lengths []beat.Span) score.Signature {
	unit := int64(4)
	if len(lengths) > 1 {
		unit = 8
	}
	var sum beat.Span
	for _, l := range lengths {
		unit = max(unit, l.Den())
		sum = sum.Add(l)
	}
	groups := make([]int, len(lengths))
	for i, l := range lengths {
		n, whole := l.Times(unit).IsWhole()
		if !whole || unit > 128 || unit&(unit-1) != 0 {
			if len(lengths) > 1 {
				return signatureOf([]beat.Span{sum})
			}
			return score.Signature{}
		}
		groups[i] = int(n)
	}
	return score.Signature{Terms: []score.Term{{Groups: groups, Unit: int(unit)}}}
}

// plainBar writes lengths that are no beats as one: as the meter writes its bar
// there if that is as long, so that tuplets stand in it as they do in the score. The
// signature at a pickup is of a whole bar: what counts is its length, not the pickup's.
func (b *barring) plainBar(lengths []beat.Span) score.Signature {
	var sum beat.Span
	for _, l := range lengths {
		sum = sum.Add(l)
	}
	if sig := b.s.BarAt(b.at).Signature; sig.Span() == sum {
		return sig
	}
	return signatureOf([]beat.Span{sum})
}
