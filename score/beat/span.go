// Package beat holds exact musical time: rationals of a whole note for what is
// read and printed, whole ticks of one grid for what is computed. No float
// ever holds a time, a length or a place.
package beat

import (
	"cmp"
	"fmt"
	"math/bits"
	"strconv"
	"strings"
)

// Span is a length of musical time in whole notes, always in lowest terms, so
// == means equal. The zero value is no time at all. Spans are what a spec
// says and what a report prints; arithmetic over a whole piece uses Time.
//
// Numerators stay below 2^42 and denominators below 2^17 for every spec that
// the reader accepts, so no operation here can overflow; outside those bounds
// an operation panics rather than wrap round.
type Span struct{ num, extraDen int64 } // num/(1+extraDen): the zero value is 0/1

// Of returns num/den whole notes. It panics when den is not positive.
func Of(num, den int64) Span {
	if den <= 0 {
		panic(fmt.Sprintf("beat: denominator %d", den))
	}
	if num == 0 {
		return Span{}
	}
	g := GCD(num, den)
	return Span{num / g, den/g - 1}
}

// Num returns the numerator in lowest terms; it carries the sign.
func (a Span) Num() int64 { return a.num }

// Den returns the denominator in lowest terms, at least 1.
func (a Span) Den() int64 { return a.extraDen + 1 }

// Add returns a+b.
func (a Span) Add(b Span) Span {
	g := GCD(a.Den(), b.Den())
	left := mul(a.num, b.Den()/g)
	right := mul(b.num, a.Den()/g)
	return Of(left+right, mul(a.Den()/g, b.Den()))
}

// Sub returns a-b.
func (a Span) Sub(b Span) Span { return a.Add(Span{-b.num, b.extraDen}) }

// Times returns n·a.
func (a Span) Times(n int64) Span { return a.Mul(Of(n, 1)) }

// Mul returns a·b.
func (a Span) Mul(b Span) Span {
	g, h := GCD(a.num, b.Den()), GCD(b.num, a.Den())
	return Of(mul(a.num/g, b.num/h), mul(a.Den()/h, b.Den()/g))
}

// Over returns a/b as a plain ratio. It panics when b is zero.
func (a Span) Over(b Span) Span {
	if b.num == 0 {
		panic("beat: division by no time")
	}
	inverse := Of(b.Den(), magnitude(b.num))
	if b.num < 0 {
		inverse.num = -inverse.num
	}
	return a.Mul(inverse)
}

// Cmp returns -1, 0 or 1 as a is shorter than, equal to or longer than b.
func (a Span) Cmp(b Span) int {
	return cmp.Compare(mul(a.num, b.Den()), mul(b.num, a.Den()))
}

// Sign returns -1, 0 or 1.
func (a Span) Sign() int { return cmp.Compare(a.num, 0) }

// IsWhole reports whether a is a whole number, and which.
func (a Span) IsWhole() (int64, bool) { return a.num, a.extraDen == 0 }

// String writes the span as a fraction: "7/8", "-1/4", "0", "2".
func (a Span) String() string {
	if a.extraDen == 0 {
		return strconv.FormatInt(a.num, 10)
	}
	return strconv.FormatInt(a.num, 10) + "/" + strconv.FormatInt(a.Den(), 10)
}

// Mixed writes the span as a mixed number: "2", "1 1/2", "1/3", "-2 1/2".
func (a Span) Mixed() string {
	whole, rest := a.num/a.Den(), a.num%a.Den()
	if whole == 0 || rest == 0 {
		return a.String()
	}
	return fmt.Sprintf("%d %v", whole, Of(max(rest, -rest), a.Den()))
}

// ParseSpan reads what String writes: an optional sign, digits, and
// optionally a slash and more digits. Anything else is not ok.
func ParseSpan(s string) (a Span, ok bool) {
	sign := int64(1)
	if rest, found := strings.CutPrefix(s, "-"); found {
		sign, s = -1, rest
	}
	top, bottom, slashed := strings.Cut(s, "/")
	num, ok := digits(top)
	if !ok {
		return Span{}, false
	}
	den := int64(1)
	if slashed {
		if den, ok = digits(bottom); !ok || den == 0 {
			return Span{}, false
		}
	}
	return Of(sign*num, den), true
}

// digits reads a decimal number of at most nine digits.
func digits(s string) (int64, bool) {
	n, err := strconv.ParseUint(s, 10, 64)
	return int64(n), err == nil && len(s) <= 9
}

func mul(a, b int64) int64 {
	high, low := bits.Mul64(uint64(magnitude(a)), uint64(magnitude(b)))
	if high != 0 || low >= 1<<62 { // so that two of them can be added
		panic(fmt.Sprintf("beat: %d·%d is out of bounds", a, b))
	}
	if (a < 0) != (b < 0) {
		return -int64(low)
	}
	return int64(low)
}
