package spec

import (
	"strconv"
	"strings"

	"tieover/score"
)

// Bounds of a meter.
const (
	maxCount      = 64 // beats, or summands together
	maxSignatures = 64 // in a rotation
)

// parseSignature reads "5/4", "3+2+2/8", "2/4+3/8".
func parseSignature(text string) (score.Signature, *slip) {
	const hint = "write how many of which note value, as in 5/4, 3+2+2/8 or 2/4+3/8"
	var sig score.Signature
	var groups []int
	count := int64(0)
	expect := true // a number comes next
	all := split(text, "+")
	if len(all) == 0 {
		return sig, wrong(0, hint, "there is no meter")
	}
	for _, w := range all {
		if w.text == "+" {
			if expect {
				return sig, wrong(w.at, hint, "a number is missing before +")
			}
			expect = true
			continue
		}
		if !expect {
			return sig, wrong(w.at, hint, "%q is no meter", short(text))
		}
		expect = false
		top, bottom, slashed := strings.Cut(w.text, "/")
		n, ok := whole(top)
		if !ok {
			return sig, wrong(w.at, hint, "%q is no meter", short(text))
		}
		count += n
		if n == 0 || count > maxCount {
			return sig, wrong(w.at, "count from 1 to "+strconv.Itoa(maxCount), "a meter cannot have %s beats", top)
		}
		groups = append(groups, int(n))
		if !slashed {
			continue
		}
		unit, ok := whole(bottom)
		if !ok {
			return sig, wrong(w.at, hint, "%q is no meter", short(text))
		}
		if unit == 0 || unit > 128 || unit&(unit-1) != 0 {
			return sig, wrong(w.at+len(top)+1, "the note value is 1, 2, 4, 8, 16, 32, 64 or 128", "a meter cannot count %sths", bottom)
		}
		sig.Terms = append(sig.Terms, score.Term{Groups: groups, Unit: int(unit)})
		groups, count = nil, 0
	}
	switch {
	case expect:
		return sig, wrong(len(text), hint, "a number is missing after +")
	case groups != nil:
		return sig, wrong(0, hint, "the meter %q does not say which note value it counts", short(text))
	}
	return sig, nil
}
