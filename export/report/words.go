package report

import (
	"fmt"
	"math/big"
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

// words says quantities of one section in plain English.
type words struct {
	s     *score.Section
	terms beat.Terms
	time  *score.Clock
}

func newWords(s *score.Section, terms beat.Terms) words { return words{s, terms, s.Clock()} }

// count says "1 cycle", "2,000 cycles".
func count(n int, one string) string { return beat.CountedBig(big.NewInt(int64(n)), one) }

// spelledOut spells a number out up to ten.
func spelledOut(n int) string {
	spelled := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}
	if n < len(spelled) {
		return spelled[n]
	}
	return digits(n)
}

// digits writes a number with commas between thousands.
func digits(n int) string { return beat.Thousands(big.NewInt(int64(n))) }

// lateness says a signed step: "2 eighths (a quarter) later".
func (w words) lateness(t beat.Time, p beat.Pulse) string {
	if t < 0 {
		return w.both(-t, p) + " earlier"
	}
	return w.both(t, p) + " later"
}

// asAdverb says a signed step without comparing: "2 eighths late".
func asAdverb(lateness string) string {
	return strings.NewReplacer("earlier", "early", "later", "late").Replace(lateness)
}

// long says a length that may be astronomical, in the section's pulse and in
// bars where all bars are alike: "60 eighths = 6 bars".
func (w words) long(ticks *big.Int) string {
	unit := w.s.Grid.Must(w.s.Pulse.Span())
	n, rest := new(big.Int).QuoRem(ticks, big.NewInt(int64(unit)), new(big.Int))
	if rest.Sign() != 0 {
		r := new(big.Rat).SetFrac(ticks, big.NewInt(int64(w.s.Grid)))
		return r.RatString() + " of a whole note"
	}
	sentence := w.bigCount(n)
	if bars, ok := w.bars(ticks); ok {
		return sentence + " = " + bars
	}
	return sentence
}

func (w words) bigCount(n *big.Int) string {
	if n.IsInt64() {
		return w.counted(n.Int64(), w.s.Pulse)
	}
	return beat.Thousands(n) + " " + w.pulses(w.s.Pulse)
}

// bars says a length in bars and what is left over. ok is false while the plan
// changes the meter; a rotation of meters counts from its first.
func (w words) bars(ticks *big.Int) (sentence string, ok bool) {
	for _, e := range w.s.Plan {
		if e.Meter != nil {
			return "", false
		}
	}
	barred, turn := w.s.Barred(w.s.Meter), len(w.s.Meter)
	n, rest := new(big.Int).QuoRem(ticks, big.NewInt(int64(barred.Bar(turn).End())), new(big.Int))
	last := barred.BarAt(beat.Time(rest.Int64()))
	n.Mul(n, big.NewInt(int64(turn))).Add(n, big.NewInt(int64(last.N-1)))
	left := beat.Time(rest.Int64()) - last.Start
	sentence = beat.CountedBig(n, "bar")
	switch {
	case left == 0:
		return sentence, true
	case n.Sign() == 0:
		return w.length(left, w.s.Pulse), false
	}
	return sentence + " and " + w.length(left, w.s.Pulse), true
}

// clock writes a moment as minutes, seconds and tenths.
func (w words) clock(t beat.Time) string { return clock(w.time.At(t)) }

func clock(seconds *big.Rat) string {
	n := beat.Tenths(seconds)
	return fmt.Sprintf("%d:%02d.%d", n/600, n/10%60, n%10)
}

// possessive writes a name so: "Bell's", "Threes'".
func possessive(name string) string {
	if strings.HasSuffix(name, "s") {
		return name + "'"
	}
	return name + "'s"
}

// names returns the names of layers.
func (w words) names(layers []int) []string {
	return each(layers, func(l int) string { return w.s.Layers[l].Name })
}

// each says something of each.
func each[T any](all []T, words func(T) string) []string {
	list := make([]string, len(all))
	for i, v := range all {
		list[i] = words(v)
	}
	return list
}
