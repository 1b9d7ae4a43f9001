package bar

import (
	"cmp"
	"slices"

	"tieover/score/beat"
)

// speller cuts lengths into signs inside one bar.
type speller struct {
	NoteValues
	*MetricGrid
	byGroup bool
	strict  bool
	edges   []beat.Time // group starts in the bar and the end of the last group, in order
	known   map[stretch]spelling

	restEdges []beat.Time // where silences are cut, in order
}

// stretch is a sound that no group begins inside of: all that its signs depend on.
type stretch struct {
	grid     *MetricGrid
	byGroup  bool
	from, to beat.Time
}

// spelling is where the signs of a sound end.
type spelling struct {
	ends []beat.Time
	ok   bool
}

// mostKnown bounds the stretches that a writer remembers; when full it forgets all.
const mostKnown = 4096

// sounds returns where the signs of the sound [from, to) end. ok is false when one would
// be shorter than a 128th.
func (sp *speller) sounds(from, to beat.Time) (ends []beat.Time, ok bool) {
	if starts := sp.starts(from, to); len(starts) > 0 {
		return sp.cutAtGroups(from, to, starts)
	}
	key := stretch{sp.MetricGrid, sp.byGroup, from, to}
	if s, ok := sp.known[key]; ok {
		return s.ends, s.ok
	}
	inside := sp.strongest(from, to)
	if sp.single(to-from) && sp.readable(from, to) && (sp.byGroup || sp.showsMeter(from, to, inside)) {
		ends, ok = []beat.Time{to}, true
	} else {
		ends, ok = sp.bestCut(from, to, inside)
	}
	if len(sp.known) >= mostKnown {
		clear(sp.known)
	}
	sp.known[key] = spelling{ends, ok}
	return ends, ok
}

// starts lists, in spelling by group, where groups begin inside a sound.
func (sp *speller) starts(from, to beat.Time) (starts []beat.Time) {
	for _, e := range sp.edges {
		if sp.byGroup && from < e && e < to && sp.plain(e) { // at another place no ordinary note can end
			starts = append(starts, e)
		}
	}
	return starts
}

// showsMeter reports whether one sign keeps the meter's divisions visible: it may hide
// the strongest places inside it only if neither of its ends is weaker than they are by
// more than one level (lenient), or weaker at all (strict, and beats of compound and
// additive bars).
func (sp *speller) showsMeter(from, to beat.Time, inside []beat.Time) bool {
	if len(inside) == 0 {
		return true
	}
	least := sp.level(inside[0])
	slack := 1
	if sp.strict || sp.dotted && least <= 2 {
		slack = 0
	}
	return max(sp.level(from), sp.level(to)) <= least+slack
}

// cutAtGroups lets each group keep its value: a part of one group, or whole
// groups, stay one sign wherever they fall, but a sign that begins off the beat
// hides at most one beat, and none if it begins off the half beats.
func (sp *speller) cutAtGroups(from, to beat.Time, starts []beat.Time) ([]beat.Time, bool) {
	if sp.single(to-from) && slices.Contains(sp.edges, from) && slices.Contains(sp.edges, to) && sp.readable(from, to) {
		return []beat.Time{to}, true
	}
	var all []beat.Time
	for _, s := range append(starts, to) {
		ends, ok := sp.sounds(from, s)
		if !ok {
			return nil, false
		}
		all = append(all, ends...)
		from = s
	}
	return all, true
}

// readable is the floor of both spellings: a sign that begins off the beat hides
// at most one beat, off the half beat none.
func (sp *speller) readable(from, to beat.Time) bool {
	if sp.onBeat(from) {
		return true
	}
	allowed := 0
	if sp.level(from) <= 3 {
		allowed = 1
	}
	return sp.hidden(from, to) <= allowed
}

// bestCut cuts at one of the given places and goes on with both halves: the
// fewest signs, then the fewest covered beats, then the most equal halves, then
// the longer half first if the sound starts at least as strongly as it ends.
func (sp *speller) bestCut(from, to beat.Time, places []beat.Time) ([]beat.Time, bool) {
	var best []beat.Time
	found, bestCovered, bestUneven := false, 0, beat.Time(0)
	longFirst := sp.level(from) <= sp.level(to)
	for _, p := range places {
		left, ok := sp.sounds(from, p)
		if !ok {
			return nil, false
		}
		right, ok := sp.sounds(p, to)
		if !ok {
			return nil, false
		}
		uneven := max(2*p-from-to, from+to-2*p)
		covered := sp.covered(from, left) + sp.covered(p, right)
		order := cmp.Or(cmp.Compare(len(left)+len(right), len(best)), cmp.Compare(covered, bestCovered), cmp.Compare(uneven, bestUneven))
		if !found || order < 0 || order == 0 && longFirst { // of two equal ones the later has the longer half first
			best = slices.Concat(left, right)
			found, bestCovered, bestUneven = true, covered, uneven
		}
	}
	return best, found
}

// covered counts the beats that the signs from a moment on hide although one of their
// ends is weaker than the beat.
func (sp *speller) covered(from beat.Time, ends []beat.Time) int {
	n := 0
	for _, end := range ends {
		weakest := max(sp.level(from), sp.level(end))
		for _, b := range sp.beats {
			if from < b && b < end && weakest > sp.level(b) {
				n++
			}
		}
		from = end
	}
	return n
}

// rests returns where the rests of the silence [from, to) end: the largest parts of the bar's own
// division that fit. Dotted rests are only written for a whole beat of a compound bar
// or a whole group of an additive one, and for the three at the end of a plain bar of
// 5, 7, 11 … eighths.
func (sp *speller) rests(from, to beat.Time) (ends []beat.Time, ok bool) {
	ok = true
	var walk func(a, b beat.Time, depth int)
	walk = func(a, b beat.Time, depth int) {
		if b <= from || to <= a || !ok {
			return
		}
		if from <= a && b <= to && sp.restable(a, b, depth) {
			ends = append(ends, b)
			return
		}
		if !sp.plain(b - a) {
			ok = false
			return
		}
		at := a
		for _, p := range append(sp.parts(a, b, depth), b) {
			walk(at, p, depth+1)
			at = p
		}
	}
	walk(-sp.Skipped, sp.Length, 0)
	return ends, ok
}

// restable reports whether one rest may be written for the division [a, b). Depth 0
// is the bar, 1 its strong halves or groups, 2 a beat, 3 and more are parts of
// beats.
func (sp *speller) restable(a, b beat.Time, depth int) bool {
	v, ok := sp.value(b-a, 1, 1)
	if !ok {
		return false
	}
	return v.Dots == 0 || v.Dots == 1 && (sp.dotted && depth == 2 || sp.twos != nil && depth == 1)
}

// parts returns the places that divide [a, b) one step further.
func (sp *speller) parts(a, b beat.Time, depth int) []beat.Time {
	switch depth {
	case 0:
		if sp.twos != nil {
			return slices.Clip(sp.twos[1 : len(sp.twos)-1])
		}
		return sp.pointsAt(a, b, 1)
	case 1:
		return sp.pointsAt(a, b, 2)
	}
	inner := sp.pointsAt(a, b, 3)
	switch n := len(inner); {
	case n%2 == 1: // four pulses: two and two
		return inner[n/2 : n/2+1]
	case n > 2: // five and more: by twos
		var twos []beat.Time
		for i := 1; i < n; i += 2 {
			twos = append(twos, inner[i])
		}
		return twos
	}
	if len(inner) > 0 {
		return inner
	}
	return []beat.Time{a + (b-a)/2}
}

// pointsAt returns the points strictly inside (a, b) of at most the level.
func (sp *speller) pointsAt(a, b beat.Time, level int) []beat.Time {
	var at []beat.Time
	for i, p := range sp.points {
		if a < p && p < b && sp.levels[i] <= level {
			at = append(at, p)
		}
	}
	return at
}
