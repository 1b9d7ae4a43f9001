package score

import (
	"math/big"

	"tieover/score/beat"
	"tieover/score/process"
)

// lengthToReturn lasts until heads, series and processes are all home.
func (st *settler) lengthToReturn(n int64) {
	s := st.s
	const give = "give the length in bars or realignments"
	unknown := len(s.Set) > 0 && s.meeting.Never || s.meeting.Walked
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

// Return returns after how many ticks all heads, pitch series and processes are
// together as they began. ok is false when that never happens, or when only
// walking could find it.
func (s *Section) Return() (ticks *big.Int, ok bool) {
	if s.meeting.Never || s.meeting.Walked {
		return nil, false
	}
	home, strays := s.homecoming()
	return home, len(strays) == 0
}

// homecoming combines the period of the realigning set, which is arithmetic or
// empty, with the homes of the layers; strays have none.
func (s *Section) homecoming() (home *big.Int, strays []*Layer) {
	home = big.NewInt(1)
	if len(s.Set) > 0 {
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
		if !l.changesSeries() || s.meeting.period == 0 {
			continue
		}
		met := new(big.Int).Quo(home, bigTime(s.meeting.period))
		met.Mul(met, big.NewInt(int64(len(s.meeting.residues))))
		n := big.NewInt(int64(len(l.Series)))
		home.Mul(home, new(big.Int).Quo(n, new(big.Int).GCD(nil, nil, n, met)))
	}
}

// home returns after how long a layer's cycle, processes and pitch series all
// are where they began; what a realignment resets counts as home there. ok is
// false when that never happens.
func (l *Layer) home() (t beat.Time, ok bool) {
	t, cycles, attacks, ok := l.round()
	return t * beat.Time(l.seriesTurns(cycles, attacks)), ok
}

// Round returns how long the layer's rhythm takes until it is where it began,
// processes included, and how many attacks that is, as if its loop were not cut. ok is false when it never does.
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
