package grammar

import (
	"fmt"
	"math/bits"
	"regexp"
	"strings"

	"tieover/score/beat"
)

// tuplets are the names of usual ratios.
func tuplets() map[string][2]int {
	return map[string][2]int{
		"duplet": {2, 3}, "triplet": {3, 2}, "quadruplet": {4, 3}, "quintuplet": {5, 4},
		"sextuplet": {6, 4}, "septuplet": {7, 4}, "nonuplet": {9, 8},
	}
}

// Pulse reads "1/8", "dotted eighth", "1/8 in 3:2", "triplet eighth" and
// fractions such as 1/12, which take the usual ratio.
func Pulse(text string) (beat.Pulse, *Slip) {
	value, ratio, stated := strings.Cut(text, " in ")
	first := strings.Fields(text)
	if len(first) == 0 {
		return beat.Pulse{}, Wrong(0, "write a note value, as in 1/8", "there is no note value")
	}
	if named, ok := tuplets()[first[0]]; ok && !stated && len(first) > 1 {
		base, bad := parseValue(strings.Replace(text, first[0], strings.Repeat(" ", len(first[0])), 1))
		if first[0] == "sextuplet" {
			return beat.Pulse{}, Wrong(0, "write triplet, which is the same", "a pulse in 6:4 is a pulse in 3:2")
		}
		return beat.Pulse{Base: base, Actual: named[0], Normal: named[1]}, bad
	}
	if !stated {
		return pulseWithoutRatio(text)
	}
	base, bad := parseValue(value)
	if bad != nil {
		return beat.Pulse{}, bad
	}
	actual, normal, bad := parseRatio(ratio)
	return beat.Pulse{Base: base, Actual: actual, Normal: normal}, bad.move(len(value) + len(" in "))
}

// pulseWithoutRatio reads a value without a stated ratio.
func pulseWithoutRatio(text string) (beat.Pulse, *Slip) {
	s, ok := beat.ParseSpan(strings.TrimSpace(text))
	if !ok || s.Sign() <= 0 {
		base, bad := parseValue(text)
		return beat.Plain(base), bad
	}
	odd := s.Den() >> bits.TrailingZeros64(uint64(s.Den()))
	if odd == 1 || odd > 16 {
		base, bad := parseValue(text)
		return beat.Plain(base), bad
	}
	// n odd parts in the time of the largest power of two below n.
	normal := int64(1) << (bits.Len64(uint64(odd)) - 1)
	base := s.Mul(beat.Of(odd, normal))
	if !isValue(base) {
		return beat.Pulse{}, Wrong(0, "write the value and its ratio, as in 1/8 in 3:2", "%q is no note value", Shortened(text))
	}
	return beat.Pulse{Base: base, Actual: int(odd), Normal: int(normal)}, nil
}

// isValue reports whether one plain or dotted note has that length and no part
// of it is shorter than a 128th.
func isValue(s beat.Span) bool {
	_, _, ok := beat.NoteValue(s)
	return ok && s.Den() <= 128
}

// parseValue reads a plain or dotted note value: "1/8", "3/16", "dotted eighth".
func parseValue(text string) (beat.Span, *Slip) {
	name := JoinLines(text)
	at := strings.Index(text, strings.TrimSpace(text))
	for _, terms := range []beat.Terms{beat.American, beat.British} {
		if s, ok := beat.ValueNamed(name, terms); ok && isValue(s) {
			return s, nil
		}
	}
	if s, ok := beat.ParseSpan(name); ok && isValue(s) {
		return s, nil
	}
	return beat.Span{}, Wrong(max(0, at), valueHint(name), "%q is no note value", Shortened(name))
}

var (
	ordinal = regexp.MustCompile(`^([0-9]+)(st|nd|rd|th)?s?$`)
	dotted  = regexp.MustCompile(`^(?:dotted )?(1/[0-9]+)(?:\.| dotted)?$`)
	triplet = regexp.MustCompile(`^(1/[0-9]+) ?(?:T|t|3|3:2|triplets?)$`)
)

// valueHint says what to write in place of a text that is no note value.
func valueHint(name string) string {
	if m := ordinal.FindStringSubmatch(name); m != nil {
		if s, ok := beat.ParseSpan("1/" + m[1]); ok && isValue(s) {
			return "write 1/" + m[1]
		}
	}
	if m := dotted.FindStringSubmatch(name); m != nil && m[1] != name {
		if s, ok := beat.ParseSpan(m[1]); ok && isValue(s.Mul(beat.Of(3, 2))) {
			return "write " + s.Mul(beat.Of(3, 2)).String() + " for the dotted value"
		}
	}
	if m := triplet.FindStringSubmatch(name); m != nil {
		return "write " + m[1] + " in 3:2"
	}
	if word := strings.TrimSuffix(name, "s"); word != "" {
		if _, ok := tuplets()[word]; ok {
			return "say of which value, as in " + word + " eighth"
		}
	}
	if before, after, ok := strings.Cut(name, "in"); ok {
		apart := strings.TrimSpace(before) + " in " + strings.TrimSpace(after)
		if _, bad := Pulse(apart); bad == nil && apart != name {
			return "write " + apart
		}
	}
	if _, _, bad := parseRatio(name); bad == nil {
		return "write the value too, as in 1/8 in " + name
	}
	if hint := DidYouMean(name, valueNames()); hint != "" && name != "" {
		return hint
	}
	if s, ok := beat.ParseSpan(name); ok && s.Sign() > 0 && s.Den() > 1 && isValue(beat.Of(1, s.Den())) {
		return "write " + beat.Of(1, s.Den()).String() + " and count groups in it"
	}
	return "write a note value from 1/1 to 1/128, plain or dotted (3/16), or its name, as in dotted eighth"
}

// valueNames lists the names of all values, plain and dotted.
func valueNames() []string {
	var all []string
	for k := range 8 {
		for _, s := range []beat.Span{beat.Of(1, 1<<k), beat.Of(3, 2<<k)} {
			if name, ok := beat.NoteName(s, beat.American); ok && isValue(s) {
				all = append(all, name)
			}
		}
	}
	return all
}

// parseRatio reads "3:2".
func parseRatio(text string) (actual, normal int, bad *Slip) {
	const hint = "write how many stand in the time of how many, as in 3:2"
	left, right, ok := strings.Cut(strings.TrimSpace(text), ":")
	a, okA := Whole(left)
	n, okN := Whole(right)
	switch {
	case !ok || !okA || !okN:
		return 0, 0, Wrong(0, hint, "%q is no ratio", Shortened(text))
	case a < 2 || a > 16 || n < 2 || n > 16:
		return 0, 0, Wrong(0, "use numbers from 2 to 16", "the ratio %s is out of bounds", Shortened(text))
	case beat.GCD(a, n) != 1:
		g := beat.GCD(a, n)
		if a/g == 1 || n/g == 1 {
			return 0, 0, Wrong(0, "write the note value itself", "the ratio %s is no tuplet", Shortened(text))
		}
		return 0, 0, Wrong(0, fmt.Sprintf("write %d:%d, which is the same", a/g, n/g), "the ratio %s can be reduced", Shortened(text))
	case n&(n-1) != 0 && (n%3 != 0 || (n/3)&(n/3-1) != 0):
		return 0, 0, Wrong(0, "the second number is 2, 3, 4, 6, 8, 12 or 16", "the ratio %s cannot be written in common notation", Shortened(text))
	}
	return int(a), int(n), nil
}
