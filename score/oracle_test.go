package score_test

import (
	"slices"
	"sort"

	"tieover/score"
	"tieover/score/beat"
)

// What follows is a second, naive score: it reads a settled section's spec
// fields and works everything out again from the definitions, with plain lists,
// no cache, no arithmetic beyond adding up. It shares no code with the first.

const far = beat.Time(1) << 50

// played is one attack as the naive score hears it.
type played struct {
	at, length beat.Time
	tones      string
	accent     bool
	touch      score.Touch
}

// pass is one cycle.
type pass struct {
	index, number int
	start, length beat.Time
	head          beat.Time // from the section's start
	ends          beat.Time // start + length, or where it is cut
	sizes         []int     // in played order, before a shift
}

// piece of a cycle: a sound or a silence.
type piece struct {
	at, length beat.Time
	sounds     bool
	order      int  // among the sounds in spec order
	accent     bool // struck at the start of its group, before it is turned round
}

type lump struct {
	size, spec int
	blank      bool
}

// bars lists the barlines from 0 to past the section's end.
func bars(s *score.Section) []beat.Time {
	lines := []beat.Time{0}
	meter, k := s.Meter, 0
	for last := beat.Time(0); last <= 2*s.Length+s.Grid.Must(beat.Of(64, 1)); {
		for _, e := range s.Plan {
			if e.Meter != nil && e.Time == last {
				meter, k = e.Meter, 0
			}
		}
		last += s.Grid.Must(meter[k%len(meter)].Span())
		k++
		lines = append(lines, last)
	}
	return lines
}

// meetings lists the realignments after the start, in order, and says whether
// there is one at the start. Resets are causal: they are taken one by one.
func meetings(s *score.Section) (times []beat.Time, start bool) {
	if len(s.Set) == 0 {
		return nil, false
	}
	resets := false
	for _, i := range s.Set {
		resets = resets || s.Layers[i].Until == score.UntilRealignment && len(s.Layers[i].Process) > 0
	}
	for {
		count := map[beat.Time]int{}
		for _, i := range s.Set {
			heads := map[beat.Time]bool{}
			for _, p := range passes(s, i, times, s.Length+1) {
				heads[p.head] = true
			}
			for at := range heads {
				count[at]++
			}
		}
		need := len(s.Set)
		if s.WithBarline {
			need++
			for _, at := range bars(s) {
				count[at]++
			}
		}
		var all []beat.Time
		for at, n := range count {
			if n == need && at >= 0 && at <= s.Length {
				all = append(all, at)
			}
		}
		slices.Sort(all)
		if len(all) > 0 && all[0] == 0 {
			start, all = true, all[1:]
		}
		if len(all) <= len(times) || !resets {
			return all, start
		}
		times = all[:len(times)+1] // only the next one is certain: it resets what follows
	}
}

// changed is the state of a layer's groups in one cycle.
type changed struct {
	patterns        [][]lump
	rotation, shift int
	turn            int // which cycle it is since the reset
}

func unchanged(l *score.Layer) *changed {
	c := &changed{turn: 1}
	for _, p := range l.Patterns {
		c.patterns = append(c.patterns, lumps(&p))
	}
	return c
}

func lumps(p *score.Pattern) []lump {
	var all []lump
	for i, g := range p.Groups {
		all = append(all, lump{g.Size, i + 1, g.Blank})
	}
	return all
}

// onward applies the processes between two cycles.
func (c *changed) onward(l *score.Layer) {
	over := c.turn // passes that are over
	c.turn++
	for _, p := range l.Process {
		if p.Kind == score.Retrograde || over%p.After != 0 {
			continue
		}
		switch p.Kind {
		case score.Rotate:
			c.rotation += int(p.By)
		case score.Shift:
			c.shift += int(p.By)
		case score.Append:
			for i, groups := range c.patterns {
				next := len(l.Patterns[i].Groups) // numbers go on from the spec's, however many are gone
				for _, g := range groups {
					next = max(next, g.spec)
				}
				if len(groups) >= next {
					next = len(groups)
				}
				c.patterns[i] = append(slices.Clone(groups), lump{p.Size, next + 1, false})
			}
		case score.Grow:
			for i, groups := range c.patterns {
				c.patterns[i] = grown(groups, p)
			}
		}
	}
}

// grown moves pulses one at a time.
func grown(before []lump, p score.Process) []lump {
	groups := slices.Clone(before)
	find := func(spec int) int { return slices.IndexFunc(groups, func(g lump) bool { return g.spec == spec }) }
	to := find(p.Group)
	if to < 0 {
		return before
	}
	for range max(p.By, -p.By) {
		switch {
		case p.By > 0 && p.From == 0:
			groups[to].size++
		case p.By > 0:
			giver := -1 // the first from From on, going round, that has any
			for _, from := range []int{p.From, 0} {
				for i, g := range groups {
					if giver < 0 && i != to && g.spec >= from && g.size > 0 {
						giver = i
					}
				}
			}
			if giver < 0 {
				return before
			}
			groups[giver].size--
			groups[to].size++
		case groups[to].size > 0:
			if p.From > 0 {
				i := find(p.From)
				if i < 0 {
					return before
				}
				groups[i].size++
			}
			groups[to].size--
		}
	}
	return slices.DeleteFunc(groups, func(g lump) bool { return g.size == 0 })
}

// order is the cycle's groups in played order before a shift, and whether it
// runs backwards.
func (c *changed) order(l *score.Layer, index int, except *score.Exception) (groups []lump, shift int, back bool) {
	if except != nil && except.Pattern != nil {
		return lumps(except.Pattern), 0, false
	}
	groups = c.patterns[(index-1)%len(c.patterns)]
	n := len(groups)
	for range ((c.rotation % n) + n) % n {
		groups = append(slices.Clone(groups[1:]), groups[0])
	}
	for _, p := range l.Process {
		if p.Kind == score.Retrograde && c.turn%p.After == 0 {
			back = !back
		}
	}
	return groups, c.shift, back
}

func sum(groups []lump) int {
	n := 0
	for _, g := range groups {
		n += g.size
	}
	return n
}

func exception(l *score.Layer, cycle int) *score.Exception {
	for i := range l.Except {
		if l.Except[i].Cycle == cycle && cycle > 0 {
			return &l.Except[i]
		}
	}
	return nil
}

// restarts lists the moments at which a layer starts its loop over.
func restarts(s *score.Section, l *score.Layer, met []beat.Time) []beat.Time {
	var all []beat.Time
	switch l.Loop {
	case score.CutRealignment:
		all = slices.Clone(met)
	case score.CutBars:
		for i, at := range bars(s) {
			if i > 0 && i%l.CutEvery == 0 {
				all = append(all, at)
			}
		}
	}
	return slices.DeleteFunc(all, func(at beat.Time) bool { return at <= l.Enters })
}

// passes lists a layer's cycles that begin before limit.
func passes(s *score.Section, layer int, met []beat.Time, limit beat.Time) []pass {
	var all []pass
	follow(s, layer, met, limit, func(p pass, _ *changed, _ *score.Exception) { all = append(all, p) })
	return all
}

func follow(s *score.Section, layer int, met []beat.Time, limit beat.Time, each func(pass, *changed, *score.Exception)) {
	l := s.Layers[layer]
	st := unchanged(l)
	p := pass{index: 1, number: 1, start: l.Enters + beat.Time(l.Offset)*l.Unit}
	before := p.start
	starts := restarts(s, l, met)
	for p.start < limit {
		for _, at := range met {
			if p.index > 1 && before < at && at <= p.start {
				if l.Until == score.UntilRealignment {
					st = unchanged(l)
				}
				if s.Marked() {
					p.number = 1
				}
			}
		}
		e := exception(l, p.index)
		groups, shift, _ := st.order(l, p.index, e)
		pulses := sum(groups)
		head := 0
		for i := 0; i < len(groups) && groups[i].spec != 1; i++ {
			head += groups[i].size
		}
		head = (((head + shift) % pulses) + pulses) % pulses
		p.length = beat.Time(pulses) * l.Unit
		p.head = p.start + beat.Time(head)*l.Unit
		p.ends = p.start + p.length
		p.sizes = nil
		for _, g := range groups {
			p.sizes = append(p.sizes, g.size)
		}
		again := false
		for _, at := range starts {
			if at > p.start && at <= p.ends {
				p.ends, again = at, true
				break
			}
		}
		each(p, st, e)
		before, p.start = p.start, p.ends
		p.index++
		p.number++
		if again {
			p.number = 1
		}
		st.onward(l)
	}
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
		hold = 0
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
	met, _ := meetings(s)
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
			if l.Restart == score.RestartRealignment && phase < r && r <= at {
				phase, dealt = r, 0
			}
		}
		k := rank
		if l.Restart != score.RestartCycle && len(l.Series) == 1 {
			k = dealt
			dealt++
		}
		switch {
		case own != nil:
			return own[rank%len(own)].String()
		case len(l.Series) == 0:
			return ""
		}
		series := l.Series[count%len(l.Series)]
		return series[k%len(series)].String()
	}
	next := 0
	follow(s, layer, met, end, func(p pass, st *changed, e *score.Exception) {
		count = next
		for _, r := range met {
			if l.Restart == score.RestartRealignment && seen < r && r <= p.start && !first {
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
	for i, n := range l.Line {
		if len(n.Tones) > 0 && at >= l.Enters && at < end {
			a := played{at: at, length: min(n.Length, end-at), tones: n.Tones.String()}
			if len(l.Touches) > 0 {
				a.touch = l.Touches[i%len(l.Touches)]
			}
			all = append(all, a)
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
	begins := l.Enters + max(0, beat.Time(l.Offset)*l.Unit)
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
