package score

import (
	"fmt"
	"math/big"
	"strings"

	"tieover/score/beat"
	"tieover/score/process"
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
		if s.meeting != nil && s.meeting.Walked {
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
	case m == nil:
		st.fail(s.LengthRule.Pos, give, "nothing realigns: every layer enters later, leaves, is a free line or starts over at realignments")
		return
	case m.Never:
		st.fail(s.LengthRule.Pos, give, "%s", st.neverWords(m))
		return
	case s.LengthRule.Default && len(s.cutSet()) > 0:
		st.lengthToCut(give)
		return
	}
	t := beat.Time(0)
	for range n {
		t = m.next(t)
		if t > s.reach {
			break
		}
	}
	if t <= s.reach {
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
	if len(m.cutters) > 0 {
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
	if whole && n == 1 && len(lengths) > 1 && len(m.cutters) == 0 && at.Cmp(m.Period) == 0 {
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

// lengthToReturn lasts until heads, series and processes are all home.
func (st *settler) lengthToReturn(n int64) {
	s := st.s
	const give = "give the length in bars or realignments"
	unknown := s.meeting != nil && (s.meeting.Never || s.meeting.Walked)
	for i, l := range s.Layers {
		if _, ok := s.cutHome(i); l.Loop == CutBars && !ok {
			unknown = true
		}
	}
	if unknown {
		st.fail(s.LengthRule.Pos, give, "the layers have no common return that can be computed")
		return
	}
	home, strays := s.homecoming()
	for _, l := range strays {
		st.fail(s.LengthRule.Pos, give, "layer %q never returns to its first cycle: its process keeps changing it", l.Name)
	}
	home.Mul(home, big.NewInt(n))
	if home.Cmp(bigTime(s.barring.bar(MaxBars+1).Start)) > 0 {
		m := &meeting{Meeting: Meeting{First: home, Period: home}}
		st.fail(s.LengthRule.Pos, give, "everything is home together only after %s", st.arithmetic(m, 1))
		return
	}
	s.Length = beat.Time(home.Int64())
}

// Return returns after how long all heads, pitch series and processes stand
// together as they began. ok is false when that never happens, or when only
// walking could tell.
func (s *Section) Return() (ticks *big.Int, ok bool) {
	if s.meeting == nil || s.meeting.Never || s.meeting.Walked {
		return nil, false
	}
	home, strays := s.homecoming()
	return home, len(strays) == 0
}

// homecoming combines the period of the realigning set, which is arithmetic or
// empty, with the homes of the layers; strays have none.
func (s *Section) homecoming() (home *big.Int, strays []*Layer) {
	home = big.NewInt(1)
	if s.meeting != nil {
		home.Set(s.meeting.Period)
	}
	for i, l := range s.Layers {
		if l.Line != nil || l.Loop == CutRealignment {
			continue
		}
		at, ok := l.home()
		if l.Loop == CutBars {
			at, ok = s.cutHome(i)
		}
		if ok {
			home = beat.BigLCM(home, bigTime(at))
		} else {
			strays = append(strays, l)
		}
	}
	s.seriesHome(home)
	return home, strays
}

// cutHome is home for a layer that is cut, where each span between cuts begins
// as the first does.
func (s *Section) cutHome(layer int) (t beat.Time, ok bool) {
	l := s.Layers[layer]
	if l.Loop != CutBars || len(l.Series) > 1 || len(l.Series) > 0 && l.Restart == RestartNever {
		return 0, false
	}
	h, ok := s.cutPattern(layer)
	return h.period, ok
}

// seriesHome multiplies a time until series that realignments choose begin with
// the first again.
func (s *Section) seriesHome(home *big.Int) {
	for _, l := range s.Layers {
		if !l.changesSeries() || s.meeting == nil || s.meeting.period == 0 {
			continue
		}
		met := new(big.Int).Quo(home, bigTime(s.meeting.period))
		met.Mul(met, big.NewInt(int64(len(s.meeting.residues))))
		n := big.NewInt(int64(len(l.Series)))
		home.Mul(home, new(big.Int).Quo(n, new(big.Int).GCD(nil, nil, n, met)))
	}
}

// home returns after how long a layer's cycle, processes and pitch series all
// stand where they began; what a realignment resets counts as home there. ok is
// false when that never happens.
func (l *Layer) home() (t beat.Time, ok bool) {
	t, cycles, attacks, ok := l.round()
	return t * beat.Time(l.seriesTurns(cycles, attacks)), ok
}

// Round returns how long the layer's rhythm takes until it stands where it
// began, processes included, and how many attacks that is, of a layer that is
// not cut. ok is false when it never does.
func (l *Layer) Round() (t beat.Time, attacks int64, ok bool) {
	t, _, attacks, ok = l.round()
	return t, attacks, ok
}

func (l *Layer) round() (t beat.Time, cycles, attacks int64, ok bool) {
	if l.growsForEver() {
		return 0, 0, 0, false
	}
	st := l.newState()
	groups := 0
	for cycle := 1; cycle <= 1<<16; cycle++ {
		i := (cycle - 1) % len(l.Patterns)
		sh := st.Shape(i)
		groups += len(sh.Groups) // a cycle that grows for ever must not be followed for ever
		if _, spent := st.Spent(); spent || sh.Pulses == 0 || groups > 1<<20 || attacks > 1<<20 {
			return 0, 0, 0, false
		}
		attacks += int64(len(l.build(&l.Patterns[i], sh).attacks))
		t += beat.Time(sh.Pulses) * l.Unit
		st.Step()
		if cycle%len(l.Patterns) == 0 && (l.Until == UntilRealignment || st.IsHome()) {
			return t, int64(cycle), attacks, true
		}
	}
	return 0, 0, 0, false
}

// growsForEver reports whether cycles become longer and nothing shortens them.
func (l *Layer) growsForEver() bool {
	longer := false
	for _, p := range l.Process {
		longer = longer || p.Kind == process.Append || p.Kind == process.Grow && p.By > 0 && p.From == 0
		if p.Kind == process.Grow && p.By < 0 {
			return false
		}
	}
	return longer && l.Until == UntilNever
}

// seriesTurns returns how many process periods of the given cycles and attacks
// it takes until the pitch series starts with one again.
func (l *Layer) seriesTurns(cycles, attacks int64) int64 {
	switch {
	case len(l.Series) == 0 || l.Restart == RestartRealignment || l.changesSeries(): // the latter: see homecoming
		return 1
	case len(l.Series) > 1:
		n := int64(len(l.Series))
		return n / beat.GCD(n, cycles)
	case l.Restart == RestartNever:
		n := int64(len(l.Series[0]))
		return n / beat.GCD(n, attacks)
	}
	return 1
}

func thousands(n int64) string { return beat.Thousands(big.NewInt(n)) }
