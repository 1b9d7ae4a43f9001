package grammar

import (
	"slices"
	"strconv"
	"strings"

	"tieover/score"
)

// Bounds of a meter.
const (
	maxCount      = 64 // beats, or summands together
	MaxSignatures = 64 // in a rotation
)

const meterForm = "write how many of which note value, as in 5/4, 3+2+2/8 or 2/4+3/8"

// Signature reads "5/4", "3+2+2/8", "2/4+3/8".
func Signature(text string) (score.Signature, *Slip) {
	sig, bad := signature(text)
	if bad != nil && bad.Hint == meterForm {
		bad.Hint = meterHint(text)
	}
	return sig, bad
}

func signature(text string) (score.Signature, *Slip) {
	var sig score.Signature
	var groups []int
	count := int64(0)
	expect := true // a number comes next
	all := Split(text, "+")
	if len(all) == 0 {
		return sig, Wrong(0, meterForm, "there is no meter")
	}
	for _, w := range all {
		if w.Text == "+" {
			if expect {
				return sig, Wrong(w.At, meterForm, "a number is missing before +")
			}
			expect = true
			continue
		}
		if !expect {
			return sig, Wrong(w.At, meterForm, "%q is no meter", Shortened(text))
		}
		expect = false
		top, bottom, slashed := strings.Cut(w.Text, "/")
		n, ok := Whole(top)
		if !ok {
			return sig, Wrong(w.At, meterForm, "%q is no meter", Shortened(text))
		}
		count += n
		if n == 0 || count > maxCount {
			return sig, Wrong(w.At, "count from 1 to "+strconv.Itoa(maxCount), "a meter cannot have %s beats", top)
		}
		groups = append(groups, int(n))
		if !slashed {
			continue
		}
		unit, ok := Whole(bottom)
		if !ok {
			return sig, Wrong(w.At, meterForm, "%q is no meter", Shortened(text))
		}
		if unit == 0 || unit > 128 || unit&(unit-1) != 0 {
			return sig, Wrong(w.At+len(top)+1, "the note value is 1, 2, 4, 8, 16, 32, 64 or 128", "a meter cannot count %sths", bottom)
		}
		sig.Terms = append(sig.Terms, score.Term{Groups: groups, Unit: int(unit)})
		groups, count = nil, 0
	}
	switch {
	case expect:
		return sig, Wrong(len(text), meterForm, "a number is missing after +")
	case groups != nil:
		return sig, Wrong(0, "write "+Shortened(strings.TrimSpace(text))+usualUnit(len(groups))+", or another note value", "the meter %q does not say which note value it counts", Shortened(text))
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
		return "write [" + Shortened(text) + "]"
	}
	for _, other := range []string{
		strings.NewReplacer("(", "", ")", "").Replace(text),
		strings.ReplaceAll(text, "-", "/"),
		strings.TrimRight(text, ",; "),
	} {
		if isMeter(other) {
			return "write " + Shortened(other)
		}
	}
	return meterForm
}

func isMeter(texts ...string) bool {
	return !slices.ContainsFunc(texts, func(one string) bool { _, bad := signature(one); return bad != nil })
}
