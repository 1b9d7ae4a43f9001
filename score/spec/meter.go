package spec

import (
	"slices"
	"strconv"
	"strings"

	"tieover/score"
)

// Bounds of a meter.
const (
	maxCount      = 64 // beats, or summands together
	maxSignatures = 64 // in a rotation
)

const meterForm = "write how many of which note value, as in 5/4, 3+2+2/8 or 2/4+3/8"

// parseSignature reads "5/4", "3+2+2/8", "2/4+3/8".
func parseSignature(text string) (score.Signature, *slip) {
	sig, bad := signature(text)
	if bad != nil && bad.hint == meterForm {
		bad.hint = meterHint(text)
	}
	return sig, bad
}

func signature(text string) (score.Signature, *slip) {
	var sig score.Signature
	var groups []int
	count := int64(0)
	expect := true // a number comes next
	all := split(text, "+")
	if len(all) == 0 {
		return sig, wrong(0, meterForm, "there is no meter")
	}
	for _, w := range all {
		if w.text == "+" {
			if expect {
				return sig, wrong(w.at, meterForm, "a number is missing before +")
			}
			expect = true
			continue
		}
		if !expect {
			return sig, wrong(w.at, meterForm, "%q is no meter", shortened(text))
		}
		expect = false
		top, bottom, slashed := strings.Cut(w.text, "/")
		n, ok := whole(top)
		if !ok {
			return sig, wrong(w.at, meterForm, "%q is no meter", shortened(text))
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
			return sig, wrong(w.at, meterForm, "%q is no meter", shortened(text))
		}
		if unit == 0 || unit > 128 || unit&(unit-1) != 0 {
			return sig, wrong(w.at+len(top)+1, "the note value is 1, 2, 4, 8, 16, 32, 64 or 128", "a meter cannot count %sths", bottom)
		}
		sig.Terms = append(sig.Terms, score.Term{Groups: groups, Unit: int(unit)})
		groups, count = nil, 0
	}
	switch {
	case expect:
		return sig, wrong(len(text), meterForm, "a number is missing after +")
	case groups != nil:
		return sig, wrong(0, "write "+shortened(strings.TrimSpace(text))+usualUnit(len(groups))+", or another note value", "the meter %q does not say which note value it counts", shortened(text))
	}
	return sig, nil
}

// usualUnit is the note value of most meters with so many groups.
func usualUnit(groups int) string {
	if groups == 1 {
		return "/4"
	}
	return "/8"
}

// meterHint says what to write in place of a text that is no meter.
func meterHint(text string) string {
	switch strings.ToLower(text) {
	case "c", "common", "common time":
		return "write 4/4"
	case "cut", "cut time", "alla breve":
		return "write 2/2"
	}
	if all := strings.Split(text, ","); len(all) > 1 && isMeter(all...) {
		return "write [" + shortened(text) + "]"
	}
	for _, other := range []string{
		strings.NewReplacer("(", "", ")", "").Replace(text),
		strings.ReplaceAll(text, "-", "/"),
		strings.TrimRight(text, ",; "),
	} {
		if isMeter(other) {
			return "write " + shortened(other)
		}
	}
	return meterForm
}

func isMeter(texts ...string) bool {
	return !slices.ContainsFunc(texts, func(one string) bool { _, bad := signature(one); return bad != nil })
}
