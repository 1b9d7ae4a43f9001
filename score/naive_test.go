package score_test

import (
	"slices"
	"sort"

	"tieover/score"
	"tieover/score/beat"
)

const far = beat.Time(1) << 50

// played is one attack as the naive score hears it.
type played struct {
	at, length beat.Time
	tones      string
	accent     bool
	touch      score.Touch
}

// piece of a cycle: a sound or a silence.
type piece struct {
	at, length beat.Time
	sounds     bool
	order      int  // among the sounds in spec order
	accent     bool // struck at the start of its group, before it is turned round
}

// pieces fills one cycle with sounds and silences.
func pieces(l *score.Layer, p *score.Pattern, groups []lump, shift int, back bool) (all []piece, hold beat.Time) {
	unit := l.Unit
	length := beat.Time(sum(groups)) * unit
	if p.Box != nil {
		all, hold = boxPieces(l, p, groups)
	} else {
		all = groupPieces(l, groups)
	}
	if back {
		slices.Reverse(all)
		all, hold = append(all, piece{length: hold}), 0 // a silence at the end
	}
	at := hold
	for i := range all { // laid end to end
		all[i].at = at
		at += all[i].length
	}
	if at != length {
		panic("the naive score lost time")
	}
	if by := (beat.Time(shift)*unit%length + length) % length; by > 0 {
		if n := len(all); hold > 0 && n > 0 && all[n-1].sounds {
			all[n-1].length += hold // it rang into the holds, and moves as a whole
		}
		hold = 0
		for i := range all {
			all[i].at = (all[i].at + by) % length
		}
		sort.SliceStable(all, func(i, j int) bool { return all[i].at < all[j].at })
	}
	return slices.DeleteFunc(all, func(p piece) bool { return !p.sounds }), hold
}

func accented(l *score.Layer, first bool) bool {
	return l.Accent == score.AccentAll || l.Accent == score.AccentGroup && first
}

func groupPieces(l *score.Layer, groups []lump) []piece {
	var all []piece
	for _, g := range groups {
		steps := signs(l, g)
		step := beat.Time(g.size) * l.Unit / beat.Time(len(steps))
		for i, sign := range steps {
			switch {
			case sign == score.SignAttack:
				all = append(all, piece{length: step, sounds: true, accent: accented(l, i == 0), order: g.spec*10000 + i})
			case sign == score.SignHold && len(all) > 0 && i > 0 && all[len(all)-1].sounds:
				all[len(all)-1].length += step
			default:
				all = append(all, piece{length: step})
			}
		}
	}
	return ranked(all)
}

// signs writes a group as signs.
func signs(l *score.Layer, g lump) []score.Sign {
	figure, ok := l.Figures[g.size]
	if ok && !g.blank {
		return figure
	}
	first, rest := score.SignAttack, score.SignRest
	switch {
	case g.blank:
		first = score.SignRest
	case l.Strike == score.StrikeHold:
		rest = score.SignHold
	case l.Strike == score.StrikeAll:
		rest = score.SignAttack
	}
	out := []score.Sign{first}
	for range g.size - 1 {
		out = append(out, rest)
	}
	return out
}

// ranked turns sort keys of sounds into their rank.
func ranked(all []piece) []piece {
	var keys []int
	for _, p := range all {
		if p.sounds {
			keys = append(keys, p.order)
		}
	}
	slices.Sort(keys)
	for i := range all {
		if all[i].sounds {
			all[i].order, _ = slices.BinarySearch(keys, all[i].order)
		}
	}
	return all
}

func boxPieces(l *score.Layer, p *score.Pattern, groups []lump) (all []piece, hold beat.Time) {
	starts := map[int]bool{} // places in the box at which a group begins
	at := 0
	for _, g := range p.Groups {
		starts[at] = true
		at += g.Size
	}
	turned := 0 // where the played cycle begins in the box
	for _, g := range p.Groups[:groups[0].spec-1] {
		turned += g.Size
	}
	for i := range p.Box {
		k := (i + turned) % len(p.Box)
		switch sign := p.Box[k]; {
		case sign == score.SignAttack:
			all = append(all, piece{length: l.Unit, sounds: true, accent: accented(l, starts[k]), order: k})
		case sign == score.SignHold && len(all) > 0 && all[len(all)-1].sounds:
			all[len(all)-1].length += l.Unit
		case sign == score.SignHold && len(all) == 0:
			hold += l.Unit
		default:
			all = append(all, piece{length: l.Unit})
		}
	}
	return ranked(all), hold
}

// naive lists all attacks of a layer.
func naive(s *score.Section, layer int) []played {
	l := s.Layers[layer]
	end := min(l.Leaves, s.Length)
	if l.Line != nil {
		return naiveLine(l, end)
	}
	met, _, _ := encounters(s)
	var all []played
	stops := append(restarts(s, l, met), end) // nothing rings past these
	fresh := map[beat.Time]bool{}             // cycle starts that follow a cut
	for _, at := range stops {
		fresh[at] = true
	}
	first := true
	dealt, phase, count, seen := 0, beat.Time(0), 0, beat.Time(-far)
	deal := func(at beat.Time, rank int, own []score.Chord) string {
		for _, r := range met { // a series that restarts with the realignments
			if l.Restart == score.RestartRealignment && phase < r.at && r.at <= at {
				phase, dealt = r.at, 0
			}
		}
		k := rank
		if l.Restart != score.RestartCycle && (len(l.Series) == 1 || l.SeriesBy == score.EachRealignment) {
			k = dealt
			dealt++
		}
		switch {
		case own != nil:
			return own[rank%len(own)].String()
		case len(l.Series) == 0:
			return ""
		}
		which := count
		if l.SeriesBy == score.EachRealignment {
			which = 0
			for _, r := range met {
				if r.at <= at {
					which++
				}
			}
		}
		series := l.Series[which%len(l.Series)]
		return series[k%len(series)].String()
	}
	next := 0
	follow(s, layer, met, end, func(p pass, st *changed, e *score.Exception) {
		count = next
		for _, r := range met {
			if l.Restart == score.RestartRealignment && seen < r.at && r.at <= p.start && !first {
				count = 0
			}
		}
		next, seen = count+1, p.start
		groups, shift, back := st.order(l, p.index, e)
		pattern := &l.Patterns[(p.index-1)%len(l.Patterns)]
		var own []score.Chord
		if e != nil {
			own = e.Series
			if e.Pattern != nil {
				pattern = e.Pattern
			}
		}
		sounds, hold := pieces(l, pattern, groups, shift, back)
		if e != nil && e.Rest {
			sounds, hold = nil, 0
			stops = append(stops, p.start)
		}
		if n := len(all); hold > 0 && !first && !fresh[p.start] && n > 0 && all[n-1].at+all[n-1].length == p.start {
			all[n-1].length += hold
		}
		first = false
		marks := groupStarts(groups, shift, back, l.Unit)
		for _, x := range sounds {
			at := p.start + x.at
			if at < l.Enters || at >= p.ends || at >= end {
				continue
			}
			a := played{at: at, length: x.length, tones: deal(at, x.order, own), accent: x.accent}
			if l.Accent == score.AccentGroup {
				a.accent = marks[x.at]
			}
			if len(l.Touches) > 0 {
				a.touch = l.Touches[x.order%len(l.Touches)]
			}
			all = append(all, a)
		}
	})
	for i := range all {
		if i+1 < len(all) {
			all[i].length = min(all[i].length, all[i+1].at-all[i].at)
		}
		for _, at := range stops {
			if at > all[i].at {
				all[i].length = min(all[i].length, at-all[i].at)
			}
		}
	}
	for i := range l.Except {
		if l.Except[i].Bar > 0 {
			all = excepted(s, l, &l.Except[i], all)
		}
	}
	return all
}

// groupStarts lists where groups begin in a cycle, shifted and turned.
func groupStarts(groups []lump, shift int, back bool, unit beat.Time) map[beat.Time]bool {
	starts := map[beat.Time]bool{}
	n := sum(groups)
	at := 0
	for _, g := range groups {
		begin := at
		if back {
			begin = n - at - g.size
		}
		starts[beat.Time(((begin+shift)%n+n)%n)*unit] = true
		at += g.size
	}
	return starts
}

func naiveLine(l *score.Layer, end beat.Time) []played {
	var all []played
	at := l.Enters + beat.Time(l.Offset)*l.Unit
	i := 0 // notes so far, rests not counted
	for _, n := range l.Line {
		if len(n.Tones) > 0 && at >= l.Enters && at < end {
			a := played{at: at, length: min(n.Length, end-at), tones: n.Tones.String()}
			if len(l.Touches) > 0 {
				a.touch = l.Touches[i%len(l.Touches)]
			}
			all = append(all, a)
		}
		if len(n.Tones) > 0 {
			i++
		}
		at += n.Length
	}
	return all
}

// excepted lets one bar deviate: what the loop strikes there is unheard, what
// rings into it stops, and the given groups sound from the barline, though not
// before the layer's first cycle.
func excepted(s *score.Section, l *score.Layer, e *score.Exception, loop []played) []played {
	lines := bars(s)
	from, to := lines[e.Bar-1], lines[e.Bar]
	end := min(l.Leaves, s.Length, to)
	begins := l.Enters
	if !entersAtCycle(l) {
		begins += max(0, beat.Time(l.Offset)*l.Unit)
	}
	if to <= begins {
		return loop
	}
	var all []played
	struck := 0
	for _, a := range loop {
		if a.at >= from && a.at < to {
			if e.Pattern == nil && e.Series != nil { // only the pitches deviate
				a.tones = e.Series[struck%len(e.Series)].String()
				struck++
				all = append(all, a)
			}
			continue
		}
		if a.at < from && (e.Pattern != nil || e.Rest) {
			a.length = min(a.length, from-a.at)
		}
		all = append(all, a)
	}
	if e.Pattern == nil {
		return all
	}
	sounds, _ := pieces(l, e.Pattern, lumps(e.Pattern), 0, false)
	own := e.Series
	if own == nil && len(l.Series) > 0 {
		own = l.Series[0]
		if l.SeriesBy == score.EachRealignment {
			met, _, _ := encounters(s)
			passed := 0
			for _, r := range met {
				if r.at <= from {
					passed++
				}
			}
			own = l.Series[passed%len(l.Series)]
		}
	}
	for _, x := range sounds {
		at := from + x.at
		if at < begins || at >= end {
			continue
		}
		a := played{at: at, length: min(x.length, end-at), accent: x.accent}
		if own != nil {
			a.tones = own[x.order%len(own)].String()
		}
		if len(l.Touches) > 0 {
			a.touch = l.Touches[x.order%len(l.Touches)]
		}
		all = append(all, a)
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].at < all[j].at })
	return all
}
