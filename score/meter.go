package score

import (
	"strconv"
	"strings"

	"tieover/score/beat"
)

// Signature is one time signature: a sum of terms, nearly always one.
type Signature struct{ Terms []Term }

// Term is one fraction of a time signature: 3+2+2 over 8, or 4 over 4.
type Term struct {
	Groups []int // summands, each at least 1; a single one for a plain signature
	Unit   int   // the note value they count: 1, 2, 4 … 128
}

// Meter is a list of signatures taken in turn, one a bar.
type Meter []Signature

// PlainSignature returns the signature count/unit.
func PlainSignature(count, unit int) Signature {
	return Signature{[]Term{{[]int{count}, unit}}}
}

// Span returns the length of one bar.
func (s Signature) Span() beat.Span {
	var sum beat.Span
	for _, t := range s.Terms {
		sum = sum.Add(beat.Of(int64(t.count()), int64(t.Unit)))
	}
	return sum
}

func (t Term) count() int {
	n := 0
	for _, g := range t.Groups {
		n += g
	}
	return n
}

// IsAdditive reports whether the signature states groups: 3+2/8, 2/4+3/8.
func (s Signature) IsAdditive() bool { return len(s.Terms) > 1 || len(s.Terms[0].Groups) > 1 }

// IsCompound reports whether the beats are dotted: 6, 9, 12 … over 8 or a
// shorter value, without stated groups.
func (s Signature) IsCompound() bool {
	if s.IsAdditive() {
		return false
	}
	n, unit := s.Terms[0].Groups[0], s.Terms[0].Unit
	return unit >= 8 && n%3 == 0 && n > 3
}

// Beats returns the lengths of the beats in order: the summands of an additive
// signature, dotted beats of a compound one, else the denominator's value.
func (s Signature) Beats() []beat.Span {
	var beats []beat.Span
	if s.IsAdditive() {
		for _, t := range s.Terms {
			for _, g := range t.Groups {
				beats = append(beats, beat.Of(int64(g), int64(t.Unit)))
			}
		}
		return beats
	}
	t := s.Terms[0]
	per := 1
	if s.IsCompound() {
		per = 3
	}
	beats = make([]beat.Span, 0, t.Groups[0]/per)
	for range t.Groups[0] / per {
		beats = append(beats, beat.Of(int64(per), int64(t.Unit)))
	}
	return beats
}

// String writes the signature as a spec does: "5/4", "3+2+2/8", "2/4+3/8".
func (s Signature) String() string {
	terms := make([]string, len(s.Terms))
	for i, t := range s.Terms {
		terms[i] = beat.Sum(t.Groups) + "/" + strconv.Itoa(t.Unit)
	}
	return strings.Join(terms, "+")
}

// Equal reports whether both signatures are written alike.
func (s Signature) Equal(t Signature) bool { return s.String() == t.String() }

// String writes the meter as a spec does; a rotation in brackets.
func (m Meter) String() string {
	if len(m) == 1 {
		return m[0].String()
	}
	parts := make([]string, len(m))
	for i, s := range m {
		parts[i] = s.String()
	}
	return "[" + strings.Join(parts, ", ") + "]"
}
