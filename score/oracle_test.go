package score_test

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/process"
)

// What follows is a second, naive score: it reads a settled section's spec
// fields and works everything out again from the definitions, with plain lists,
// no cache, no arithmetic beyond adding up. It shares no code with the first.

// pass is one cycle.
type pass struct {
	index, number int
	start, length beat.Time
	head          beat.Time // from the section's start
	ends          beat.Time // start + length, or where it is cut
	sizes         []int     // in played order, before a shift
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

// encounter is a realignment as the naive score finds it.
type encounter struct {
	at     beat.Time
	cut    []int // layers of the set that are cut inside a cycle there
	marked bool  // more than a bar after the last of its kind
	parts  bool  // a double bar stands before it
}

// encounters lists the realignments after the start, in order, and says whether
// there is one at the start, and which coincidences do not count. Resets are
// causal: they are taken one by one.
func encounters(s *score.Section) (met []encounter, start bool, aside []beat.Time) {
	if len(s.Set) == 0 {
		return nil, false, nil
	}
	resets := false
	for _, i := range s.Set {
		resets = resets || s.Layers[i].Until == score.UntilRealignment && len(s.Layers[i].Process) > 0
	}
	lines := bars(s)
	for {
		count, cuts := map[beat.Time]int{}, map[beat.Time][]int{}
		for _, i := range s.Set {
			heads := map[beat.Time]bool{}
			for _, p := range passes(s, i, met, s.Length+1) {
				if p.head < p.ends {
					heads[p.head] = true
				}
				if p.ends < p.start+p.length {
					cuts[p.ends] = append(cuts[p.ends], i)
				}
			}
			for at := range heads {
				count[at]++
			}
		}
		need := len(s.Set)
		if s.WithBarline {
			need++
			for _, at := range lines {
				count[at]++
			}
		}
		var all []encounter
		aside, start = nil, false
		for at := beat.Time(0); at <= s.Length; at++ {
			switch {
			case count[at] != need:
			case at == 0:
				start = true
			case insideTheLastBar(s, lines, at):
				aside = append(aside, at)
			default:
				all = append(all, encounter{at: at, cut: cuts[at]})
			}
		}
		if len(all) <= len(met) || !resets {
			weigh(s, lines, all, cuts)
			return all, start, aside
		}
		met = all[:len(met)+1] // only the next one is certain: it resets what follows
		weigh(s, lines, met, cuts)
	}
}

// insideTheLastBar looks at all barlines: whether a moment lies inside a bar at
// whose end a layer of the set is to be cut.
func insideTheLastBar(s *score.Section, lines []beat.Time, at beat.Time) bool {
	for _, i := range s.Set {
		for k := range lines {
			if l := s.Layers[i]; l.Loop == score.CutBars && k > 0 && k%l.CutEvery == 0 && lines[k-1] < at && at < lines[k] {
				return true
			}
		}
	}
	return false
}

// weigh says which realignments are marked and where double bars stand.
func weigh(s *score.Section, lines []beat.Time, met []encounter, cuts map[beat.Time][]int) {
	last := map[bool]beat.Time{} // of each kind, the start for both
	double := 0                  // the bar, from 0, that begins with the last double bar
	for k := range met {
		m := &met[k]
		forced := len(m.cut) > 0
		holds := 0 // the bar that holds the last of the kind
		for n, line := range lines {
			if line <= last[forced] {
				holds = n
			}
		}
		m.marked = m.at-last[forced] > lines[holds+1]-lines[holds]
		last[forced] = m.at
		bar := slices.Index(lines, m.at)
		if bar < 0 || !m.marked || m.at == s.Length && s.End == score.Stop {
			continue
		}
		if forced {
			for _, i := range m.cut {
				m.parts = m.parts || s.Layers[i].CutEvery >= 4
			}
		} else {
			m.parts = bar-double >= 4
			for n, line := range lines {
				if n-bar < 4 && bar-n < 4 && line <= s.Length && len(cuts[line]) > 0 {
					m.parts = false
				}
			}
		}
		if m.parts {
			double = bar
		}
	}
}

// changed is the state of a layer's groups in one cycle.
type changed struct {
	patterns [][]lump
	begins   []int // the number of the group with which each pattern begins
	shift    int
	turn     int // which cycle it is since the reset
}

func unchanged(l *score.Layer) *changed {
	c := &changed{turn: 1}
	for _, p := range l.Patterns {
		c.patterns = append(c.patterns, lumps(&p))
		c.begins = append(c.begins, 1)
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
		if p.Kind == process.Retrograde || over%p.After != 0 {
			continue
		}
		switch p.Kind {
		case process.Rotate:
			for range p.By {
				for i, groups := range c.patterns {
					c.begins[i] = turned(groups, c.begins[i])[1%len(groups)].spec
				}
			}
			for range -p.By {
				for i, groups := range c.patterns {
					c.begins[i] = turned(groups, c.begins[i])[len(groups)-1].spec
				}
			}
		case process.Shift:
			c.shift += int(p.By)
		case process.Append:
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
		case process.Grow:
			for i, groups := range c.patterns {
				c.patterns[i] = grown(groups, p)
				for _, g := range slices.Backward(turned(groups, c.begins[i])) {
					if slices.ContainsFunc(c.patterns[i], func(left lump) bool { return left.spec == g.spec }) {
						c.begins[i] = g.spec // the first that is left, at the end
					}
				}
			}
		}
	}
}

// turned is the groups from the one with a number on, going round.
func turned(groups []lump, spec int) []lump {
	for groups[0].spec != spec {
		groups = append(slices.Clone(groups[1:]), groups[0])
	}
	return groups
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
	i := (index - 1) % len(c.patterns)
	groups = turned(c.patterns[i], c.begins[i])
	for _, p := range l.Process {
		if p.Kind == process.Retrograde && c.turn%p.After == 0 {
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
func restarts(s *score.Section, l *score.Layer, met []encounter) []beat.Time {
	var all []beat.Time
	switch l.Loop {
	case score.CutRealignment:
		for _, m := range met {
			all = append(all, m.at)
		}
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
func passes(s *score.Section, layer int, met []encounter, limit beat.Time) []pass {
	var all []pass
	follow(s, layer, met, limit, func(p pass, _ *changed, _ *score.Exception) { all = append(all, p) })
	return all
}

// begun is when cycle 1 begins: the offset counts from the entry, but the time of
// one of the layer's own cycles is the one it would have had from the start on.
func begun(s *score.Section, layer int, met []encounter) beat.Time {
	l := s.Layers[layer]
	if !entersAtCycle(l) {
		return l.Enters + beat.Time(l.Offset)*l.Unit
	}
	alone, own, at := *s, *l, beat.Time(0)
	own.EnterAt, own.Enters = nil, 0
	alone.Layers = slices.Clone(s.Layers)
	alone.Layers[layer] = &own
	follow(&alone, layer, met, s.Length, func(p pass, _ *changed, _ *score.Exception) {
		if int64(p.index) == l.EnterAt.N {
			at = p.start
		}
	})
	return at
}

func entersAtCycle(l *score.Layer) bool { return l.EnterAt != nil && l.EnterAt.Kind == score.AtCycle }

// follow tells each of a layer's cycles that begin before limit, in order.
func follow(s *score.Section, layer int, met []encounter, limit beat.Time, each func(pass, *changed, *score.Exception)) {
	l := s.Layers[layer]
	st := unchanged(l)
	p := pass{index: 1, number: 1, start: begun(s, layer, met)}
	before := p.start
	starts := restarts(s, l, met)
	for p.start < limit {
		for _, m := range met {
			if p.index > 1 && before < m.at && m.at <= p.start {
				if l.Until == score.UntilRealignment {
					st = unchanged(l)
				}
				if m.marked {
					p.number = 1
				}
			}
		}
		e := exception(l, p.index)
		groups, shift, back := st.order(l, p.index, e)
		pulses := sum(groups)
		head := 0
		for i := 0; i < len(groups) && groups[i].spec != 1; i++ {
			head += groups[i].size
		}
		if back { // read from the end, the figure begins behind group 1
			head = 0
			for i := len(groups) - 1; i >= 0; i-- {
				head += groups[i].size
				if groups[i].spec == 1 {
					break
				}
			}
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
