package score

import (
	"fmt"
	"math/big"
	"strings"

	"tieover/score/beat"
)

// length turns the length rule into time.
func (st *settler) length() {
	s := st.s
	rule := s.LengthRule
	switch rule.Kind {
	case Bars:
		if rule.N > MaxBars {
			st.tooManyBars()
			return
		}
		s.Length = s.barring.bar(int(rule.N) + 1).Start
	case Pulses:
		unit := s.Grid.Must(s.Pulse.Span())
		if rule.N > int64(s.barring.bar(MaxBars+1).Start/unit) {
			st.tooManyBars()
			return
		}
		s.Length = beat.Time(rule.N) * unit
	case Ticks:
		s.Length = beat.Time(rule.N)
	case Realignments:
		st.lengthToRealignment(rule.N)
	case Returns:
		st.lengthToReturn(rule.N)
	}
	if len(st.problems) == 0 && s.Length > s.reach {
		s.reach = s.Length
		if s.meeting.Walked {
			st.meet() // to the end
		}
	}
}

func (st *settler) tooManyBars() {
	st.fail(st.s.LengthRule.Pos, "a piece may have 1,000,000 bars", "the section is too long")
}

func (st *settler) lengthToRealignment(n int64) {
	s := st.s
	const give = "give a length that does not wait for it, such as \"length: 16 bars\""
	m := s.meeting
	switch {
	case len(s.Set) == 0:
		st.fail(s.LengthRule.Pos, give, "nothing realigns: every layer enters later, leaves, is a free line or starts over at realignments")
		return
	case m.Never:
		st.fail(s.LengthRule.Pos, give, "%s", st.neverWords(m))
		return
	case s.LengthRule.Default && len(s.cutSet()) > 0:
		st.lengthToCut(give)
		return
	}
	if t := m.nth(int(n)); t <= s.reach {
		s.Length = t
		return
	}
	if m.Walked {
		why := "change their length"
		if len(s.cutSet()) > 0 {
			why = "are cut or change their length"
		}
		st.fail(s.LengthRule.Pos, give, "realignment %d does not come within %s bars (cycles %s, so they were followed one by one)", n, thousands(ReachBars), why)
		return
	}
	st.fail(s.LengthRule.Pos, give, "the layers begin together again only after %s, beyond %s bars", st.arithmetic(m, n), thousands(ReachBars))
}

// lengthToCut lasts to the first realignment at which all layers of the set
// that are cut start over.
func (st *settler) lengthToCut(give string) {
	s := st.s
	for t := s.meeting.next(0); t <= s.reach; t = s.meeting.next(t) {
		if s.startsOver(t) {
			s.Length = t
			return
		}
	}
	st.fail(s.LengthRule.Pos, give, "where the cut layers start over together, the others never begin with them, up to bar %s", thousands(ReachBars))
}

// neverWords says why the set never begins together.
func (st *settler) neverWords(m *meeting) string {
	s := st.s
	if m.B < 0 {
		return fmt.Sprintf("layer %q never begins a cycle on a barline", s.Layers[m.A].Name)
	}
	a, b := s.Layers[m.A], s.Layers[m.B]
	if m.Apart == 0 {
		return "the layers of the realigning set never all begin together, though each two of them do"
	}
	return fmt.Sprintf("layers %q and %q never begin together: they stay %s apart", a.Name, b.Name, st.pulses(bigTime(m.Apart)))
}

// arithmetic writes "lcm(29, 31, 37) = 33,263 pulses = 4,157 bars and 7 pulses".
func (st *settler) arithmetic(m *meeting, n int64) string {
	s := st.s
	at := new(big.Int).Set(m.First)
	at.Add(at, new(big.Int).Mul(m.Period, big.NewInt(n-1)))
	if m.cut {
		at = bigTime(m.nth(int(n)))
	}
	lengths := make([]string, len(m.Lengths))
	whole := true
	unit := bigTime(s.Grid.Must(s.Pulse.Span()))
	for i, l := range m.Lengths {
		q, r := new(big.Int).QuoRem(l, unit, new(big.Int))
		whole = whole && r.Sign() == 0
		lengths[i] = beat.Thousands(q)
	}
	words := st.pulses(at)
	if whole && n == 1 && len(lengths) > 1 && !m.cut && at.Cmp(m.Period) == 0 {
		words = fmt.Sprintf("lcm(%s) = %s", strings.Join(lengths, ", "), words)
	}
	run := s.barring.runs[0]
	turns, rest := new(big.Int).QuoRem(at, bigTime(run.rotation()), new(big.Int))
	bars := turns.Mul(turns, big.NewInt(int64(len(run.ends))))
	left := beat.Time(rest.Int64())
	for k := 0; k < len(run.ends) && left >= run.bar(k).Length; k++ {
		left -= run.bar(k).Length
		bars.Add(bars, big.NewInt(1))
	}
	words += " = " + beat.CountedBig(bars, "bar")
	if left > 0 {
		words += " and " + st.pulses(bigTime(left))
	}
	return words
}

// pulses writes a time in the section's pulses, or in whole notes when it is
// no whole number of them.
func (st *settler) pulses(t *big.Int) string {
	unit := bigTime(st.s.Grid.Must(st.s.Pulse.Span()))
	q, r := new(big.Int).QuoRem(t, unit, new(big.Int))
	if r.Sign() == 0 {
		return beat.CountedBig(q, "pulse")
	}
	return new(big.Rat).SetFrac(t, big.NewInt(int64(st.s.Grid))).String() + " of a whole note"
}

func thousands(n int64) string { return beat.Thousands(big.NewInt(n)) }
