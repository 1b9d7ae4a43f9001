package cyclebars

import (
	"tieover/score"
	"tieover/score/beat"
)

func total(lengths []beat.Span) (sum beat.Span) {
	for _, l := range lengths {
		sum = sum.Add(l)
	}
	return sum
}

// split divides a cycle's groups into the most equal bars of two groups or more each;
// into one bar where that cannot be done.
func split(lengths []beat.Span) [][]beat.Span {
	whole := total(lengths)
	for n := len(lengths) / 2; n > 1; n-- {
		if parts, ok := equalParts(lengths, whole.Mul(beat.Of(1, int64(n)))); ok {
			return parts
		}
	}
	return [][]beat.Span{lengths}
}

// equalParts cuts the groups into parts of the given length and at least two groups. ok
// is false where that cannot be done.
func equalParts(lengths []beat.Span, each beat.Span) (parts [][]beat.Span, ok bool) {
	from := 0
	var sum beat.Span
	for i, l := range lengths {
		sum = sum.Add(l)
		switch {
		case sum.Cmp(each) > 0, sum == each && i == from:
			return nil, false
		case sum == each:
			parts = append(parts, lengths[from:i+1])
			from, sum = i+1, beat.Span{}
		}
	}
	return parts, from == len(lengths)
}

// signatureOf writes lengths as one additive signature over their finest value, a
// single length over a quarter at the coarsest, several over an eighth. Where they have
// no unit of a time signature, a power of two up to 128, their sum is tried as a plain
// signature; no terms where that fails too.
func signatureOf(lengths ...beat.Span) score.Signature {
	unit := int64(4)
	if len(lengths) > 1 {
		unit = 8
	}
	for _, l := range lengths {
		unit = max(unit, l.Den())
	}
	groups := make([]int, len(lengths))
	for i, l := range lengths {
		n, whole := l.Times(unit).IsWhole()
		if !whole || unit > 128 || unit&(unit-1) != 0 {
			if len(lengths) > 1 {
				return signatureOf(total(lengths))
			}
			return score.Signature{}
		}
		groups[i] = int(n)
	}
	return score.Signature{Terms: []score.Term{{Groups: groups, Unit: int(unit)}}}
}
