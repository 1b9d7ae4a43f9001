package score

import (
	"slices"
	"sort"

	"tieover/score/beat"
	"tieover/score/process"
)

// body is a cycle's groups and attacks, timed from its start, before it is
// known what cuts it.
type body struct {
	groups  []Group
	attacks []raw
	carry   beat.Time // a box that begins with holds: how long the attack before goes on
}

// raw is an attack that has no tones yet.
type raw struct {
	at, length beat.Time
	order      int // among the attacks of the cycle before it was moved or turned
	group      int
	accent     bool
}

// patternLength returns how long a pattern is as it is written.
func (l *Layer) patternLength(i int) beat.Time {
	return beat.Time(CountPulses(l.Patterns[i].Groups)) * l.Unit
}

// build makes the body of one cycle: strikes or box signs laid into the
// groups, then turned round and shifted as the shape says.
func (l *Layer) build(p *Pattern, sh process.Shape) body {
	b := l.forward(p, sh)
	length := beat.Time(sh.Pulses) * l.Unit
	if sh.Backwards {
		b.reverse(length)
	}
	if sh.Shift > 0 {
		b.shift(beat.Time(sh.Shift)*l.Unit, length)
	}
	if l.Accent == AccentGroup && (sh.Backwards || sh.Shift > 0) {
		b.accentStarts()
	}
	return b
}

// forward lays the groups one after another. Attacks are numbered in spec order, so
// that tones travel with them through a rotation.
func (l *Layer) forward(p *Pattern, sh process.Shape) body {
	var b body
	at := beat.Time(0)
	for _, g := range sh.Groups {
		length := beat.Time(g.Size) * l.Unit
		b.groups = append(b.groups, Group{At: at, Length: length, Size: g.Size, Spec: g.Spec, Blank: g.Blank})
		if p.Box == nil && !g.Blank {
			l.strike(&b, len(b.groups)-1)
		}
		at += length
	}
	if p.Box != nil {
		l.lay(&b, p, sh)
	}
	b.number(sh)
	return b
}

// strike adds the attacks of one group.
func (l *Layer) strike(b *body, group int) {
	g := b.groups[group]
	if figure, ok := l.Figures[g.Size]; ok {
		step := g.Length / beat.Time(len(figure))
		b.signs(l, figure, g.At, step, func(beat.Time) int { return group })
		return
	}
	switch l.Strike {
	case StrikeHold:
		b.attacks = append(b.attacks, raw{at: g.At, length: g.Length, group: group, accent: l.accents(true)})
	case StrikeShort:
		b.attacks = append(b.attacks, raw{at: g.At, length: l.Unit, group: group, accent: l.accents(true)})
	case StrikeAll:
		for k := range g.Size {
			at := g.At + beat.Time(k)*l.Unit
			b.attacks = append(b.attacks, raw{at: at, length: l.Unit, group: group, accent: l.accents(k == 0)})
		}
	}
}

// accents reports whether an attack is accented.
func (l *Layer) accents(atGroup bool) bool {
	return l.Accent == AccentAll || l.Accent == AccentGroup && atGroup
}

// signs reads box signs from a moment on, one every step.
func (b *body) signs(l *Layer, signs []Sign, from, step beat.Time, groupAt func(beat.Time) int) {
	first := len(b.attacks)
	for i, sign := range signs {
		at := from + beat.Time(i)*step
		switch {
		case sign == SignAttack:
			group := groupAt(at)
			b.attacks = append(b.attacks, raw{at: at, length: step, group: group,
				accent: l.accents(at == b.groups[group].At)})
		case sign == SignHold && len(b.attacks) > first:
			// In a turned box a hold of the box's start may follow a rest: then
			// it holds nothing.
			if last := &b.attacks[len(b.attacks)-1]; last.at+last.length == at {
				last.length += step
			}
		case sign == SignHold && from+b.carry == at:
			b.carry += step
		}
	}
}

// accentStarts accents what is struck exactly where a group now begins.
func (b *body) accentStarts() {
	for i := range b.attacks {
		a := &b.attacks[i]
		g := b.groups[a.group]
		a.accent = a.at == g.At && !g.Tail
	}
}

// lay reads a box, turned by the rotation of its groups.
func (l *Layer) lay(b *body, p *Pattern, sh process.Shape) {
	signs := p.Box
	before := CountPulses(p.Groups[:sh.Groups[0].Spec-1]) // the first played group, in the box as written
	if before > 0 {
		signs = append(slices.Clone(signs[before:]), signs[:before]...)
	}
	b.signs(l, signs, 0, l.Unit, func(at beat.Time) int { return groupAt(b.groups, at) })
}

// number gives each attack its place in spec order: the order in which a
// pitch series that restarts each cycle is dealt, before rotation.
func (b *body) number(sh process.Shape) {
	n := len(b.attacks)
	if n == 0 {
		return
	}
	lowest := 0 // the index of the first group in spec order
	for i, g := range sh.Groups {
		if g.Spec < sh.Groups[lowest].Spec {
			lowest = i
		}
	}
	at := b.groups[lowest].At
	first := sort.Search(n, func(k int) bool { return b.attacks[k].at >= at })
	for k := range b.attacks {
		b.attacks[k].order = (k - first + n) % n
	}
}

// reverse plays the cycle backwards: the order of groups and of durations,
// rests too, is reversed; each attack still begins its own duration.
func (b *body) reverse(length beat.Time) {
	for i := range b.groups {
		g := &b.groups[i]
		g.At = length - g.At - g.Length
	}
	for i := range b.attacks {
		a := &b.attacks[i]
		a.at = length - a.at - a.length
	}
	b.carry = 0 // a leading hold becomes silence at the end
	b.sort()
}

// shift moves the whole pattern later inside the cycle; what leaves at the end
// comes in at the start. A group that straddles the edge is split, an attack
// keeps its length and rings over it.
func (b *body) shift(by, length beat.Time) {
	if n := len(b.attacks); n > 0 && b.attacks[n-1].at+b.attacks[n-1].length == length {
		b.attacks[n-1].length += b.carry // it rings into the holds, and moves as a whole
	}
	b.carry = 0
	var groups []Group
	for _, g := range b.groups {
		g.At = (g.At + by) % length
		if over := g.At + g.Length - length; over > 0 {
			tail := g
			tail.At, tail.Length, tail.Tail = 0, over, true
			g.Length -= over
			groups = append(groups, tail)
		}
		groups = append(groups, g)
	}
	b.groups = groups
	for i := range b.attacks {
		b.attacks[i].at = (b.attacks[i].at + by) % length
	}
	b.sort()
}

// sort puts groups and attacks back in time order after a move.
func (b *body) sort() {
	sortGroups(b.groups)
	slices.SortFunc(b.attacks, func(a, b raw) int { return int(a.at - b.at) })
	for i := range b.attacks {
		b.attacks[i].group = groupAt(b.groups, b.attacks[i].at)
	}
}
