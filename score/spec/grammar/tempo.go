package grammar

import (
	"cmp"
	"fmt"
	"strings"
	"unicode"

	"tieover/score"
	"tieover/score/beat"
)

// Slowest and fastest tempo in quarters a minute.
const (
	slowest = 4
	fastest = 2000
)

func Quarter() beat.Span { return beat.Of(1, 4) }

// gradualWords are the tempos that change all the time.
var gradualWords = map[string]score.TempoKind{"rit.": score.Ritardando, "rall.": score.Ritardando, "accel.": score.Accelerando}

const aTempo = "a tempo"

// Tempo reads a tempo, perhaps after words: "132", "Lively 132", "Slow,
// dotted quarter = 54", or an equation such as "dotted quarter = quarter"; and "a
// tempo", "rit.", "rall." and "accel.", whose Quarters are left to be settled, as
// those of an equation.
func Tempo(text string) (score.Tempo, *Slip) {
	line := JoinLines(text)
	kind, gradual := gradualWords[line]
	switch {
	case gradual:
		return score.Tempo{Kind: kind, Words: line}, nil
	case line == aTempo:
		return score.Tempo{Kind: score.ATempo, Words: line}, nil
	}
	if _, almost := gradualWords[line+"."]; almost {
		return score.Tempo{}, Wrong(0, "write "+line+".", "%q is no tempo", line)
	}
	words, at := tempoWords(text)
	if _, bad := parseValue(words); bad == nil && !strings.Contains(text, "=") {
		rate := cmp.Or(strings.TrimSpace(text[at:]), "132")
		return score.Tempo{}, Wrong(0, "write "+words+" = "+Shortened(rate), "%q is no tempo", Shortened(line))
	}
	t, bad := parseNumber(text[at:])
	if bad != nil && words != "" && strings.TrimSpace(text[at:]) == "" {
		return t, Wrong(0, "write "+Shortened(words)+" 132", "words need a number to play")
	}
	t.Words = words
	return t, bad.move(at)
}

// tempoWords returns the words that a tempo begins with, and where what they are
// for begins. They end at the last comma, else before the number or the note
// value that comes before the equals sign; what is no value there is
// refused later.
func tempoWords(text string) (words string, at int) {
	if comma := strings.LastIndexByte(text, ','); comma >= 0 && strings.IndexFunc(text[:comma], unicode.IsLetter) >= 0 && !startsAsNumber(text) {
		if !strings.ContainsAny(text[comma:], "=0123456789") {
			return JoinLines(text), len(text)
		}
		return JoinLines(text[:comma]), comma + 1
	}
	left, _, equation := strings.Cut(text, "=")
	all := Words(left)
	switch {
	case equation:
		for _, w := range all {
			if _, bad := parseTied(left[w.At:]); bad == nil {
				return JoinLines(left[:w.At]), w.At
			}
		}
		return "", 0
	case len(all) == 0 || startsAsNumber(text):
		return "", 0
	}
	last := all[len(all)-1]
	if !startsAsNumber(last.Text) {
		return JoinLines(text), len(text)
	}
	return JoinLines(text[:last.At]), last.At
}

// startsAsNumber reports whether a text is a number, or was meant to be one.
func startsAsNumber(text string) bool {
	text = strings.TrimSpace(text)
	return text != "" && strings.ContainsRune("0123456789.-+", rune(text[0]))
}

// parseNumber reads a tempo without words.
func parseNumber(text string) (score.Tempo, *Slip) {
	left, right, equation := strings.Cut(text, "=")
	if !equation {
		rate, bad := parseRate(text)
		if bad != nil {
			return score.Tempo{}, bad
		}
		return tempoOf(0, Quarter(), rate)
	}
	at := len(left) + 1
	old, bad := parseTied(left)
	if bad != nil {
		return score.Tempo{}, bad
	}
	if first := strings.TrimSpace(right); first != "" && (first[0] >= '0' && first[0] <= '9') && !strings.Contains(first, "/") {
		rate, bad := parseRate(right)
		if bad != nil {
			return score.Tempo{}, bad.move(at)
		}
		if old.Actual != 1 || old.Tied.Sign() != 0 {
			return score.Tempo{}, Wrong(0, "count a plain or dotted value, as in dotted quarter = 88", "a tempo cannot count %q", Shortened(strings.TrimSpace(left)))
		}
		return tempoOf(at, old.Base, rate)
	}
	now, bad := parseTied(right)
	return score.Tempo{Old: &old, New: &now}, bad.move(at)
}

// tempoOf is a tempo of so many of a value a minute.
func tempoOf(at int, value, rate beat.Span) (score.Tempo, *Slip) {
	t := score.Tempo{Beat: value, Rate: rate, Quarters: rate.Mul(value.Over(Quarter()))}
	bad := ""
	switch {
	case t.Quarters.Cmp(beat.Of(slowest, 1)) < 0:
		bad = "too slow"
	case t.Quarters.Cmp(beat.Of(fastest, 1)) > 0:
		bad = "too fast"
	default:
		return t, nil
	}
	return score.Tempo{}, Wrong(at, fmt.Sprintf("choose from %d to %d quarters a minute", slowest, fastest), "the tempo is %s", bad)
}

// parseRate reads an exact decimal: at most four digits before the point and
// three after it.
func parseRate(text string) (beat.Span, *Slip) {
	s := strings.TrimSpace(text)
	at := max(0, strings.Index(text, s))
	before, after, point := strings.Cut(s, ".")
	if len(after) > 3 {
		return beat.Span{}, Wrong(at, "write at most three decimals", "the tempo %s is too exact", Shortened(s))
	}
	n, ok := Whole(before)
	thousandths, digits := Whole("1" + (after + "000")[:3]) // no number begins with 0, so put a 1 before it
	if !ok || !digits || point && after == "" {
		return beat.Span{}, Wrong(at, tempoHint(s), "%q is no tempo", Shortened(s))
	}
	return beat.Of(min(n, 100_000)*1000+thousandths-1000, 1000), nil
}

// tempoHint says what to write in place of a text that is no tempo.
func tempoHint(s string) string {
	number := s[:len(s)-len(strings.TrimLeft(s, "0123456789"))]
	before, after, comma := strings.Cut(s, ",")
	switch {
	case comma && before == number && number != "" && after != "" && strings.Trim(after, "0123456789") == "":
		return "write a point in decimals: " + before + "." + after
	case number != "" && len(number) <= 4 && number[0] != '0' && strings.Trim(s[len(number):], "0123456789") == s[len(number):]:
		return "write " + number + " alone"
	}
	return "write quarters a minute (132), a value and its rate (dotted quarter = 88) or an equation (dotted quarter = quarter)"
}

// parseTied reads a note value, perhaps of a tuplet, perhaps with a second one
// tied on: "quintuplet sixteenth", "quarter+sixteenth".
func parseTied(text string) (score.Value, *Slip) {
	first, second, tied := strings.Cut(text, "+")
	v := score.Value{Actual: 1, Normal: 1}
	if fields := strings.Fields(first); len(fields) > 1 {
		if ratio, ok := tuplets()[fields[0]]; ok {
			v.Actual, v.Normal = ratio[0], ratio[1]
			first = strings.Replace(first, fields[0], strings.Repeat(" ", len(fields[0])), 1)
		}
	}
	var bad *Slip
	if v.Base, bad = parseValue(first); bad != nil {
		return v, bad
	}
	if tied {
		v.Tied, bad = parseValue(second)
	}
	return v, bad.move(len(first) + 1)
}
