package found

import (
	"slices"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/process"
)

// mostListed is how many cycles are written one by one.
const mostListed = 256

// resetsAtRealignments reports whether the section's layers come together just
// when their processes start over, by arithmetic: all are cycles of one length
// that begin with their heads. A single layer comes together with the barline.
func (w *writer) resetsAtRealignments(layers []Layer) bool {
	period := w.plan.Bar
	switch {
	case len(layers) > 1:
		period = beat.Span{}
	case w.plan.Meter == "":
		period = beat.Of(1, 1) // the spec's own default, 4/4
	case period.Sign() == 0:
		return false // the meter changes
	}
	for _, f := range layers {
		d, s := f.Ranked[0], f.Ranked[0].Loop()
		leaves, _ := w.leaves(f, d)
		if leaves != "" || d.Literal || !d.IsExact() || s.At > 0 || s.CutEvery > 0 || changesLength(s) || s.Has(process.Rotate) || s.Has(process.Shift) {
			return false
		}
		var ok bool
		if period, ok = lengthOfBoth(period, f.List.Pulse.Span().Times(s.Length())); !ok {
			return false
		}
	}
	for _, f := range layers {
		s := f.Ranked[0].Loop()
		if s.Reset > 0 && f.List.Pulse.Span().Times(s.Length()*s.Reset) != period {
			return false
		}
	}
	return true
}

// changesLength reports whether the cycle gets longer or shorter.
func changesLength(s *find.Stretch) bool {
	return s.Melody != nil || slices.ContainsFunc(s.Process, func(p process.Rule) bool {
		return p.Kind == process.Append || p.Kind == process.Grow && p.From == 0
	})
}

// lengthOfBoth returns the smallest length that is a multiple of both; zero counts
// as no length yet.
func lengthOfBoth(a, b beat.Span) (beat.Span, bool) {
	if a.Sign() == 0 {
		return b, true
	}
	den, ok := beat.LCM(a.Den(), b.Den())
	if !ok {
		return beat.Span{}, false
	}
	num, ok := beat.LCM(a.Num()*(den/a.Den()), b.Num()*(den/b.Den()))
	return beat.Of(num, den), ok
}

// isDealtByCycle reports whether a series of several pitches starts over with each
// cycle, and so must be written for each that is listed.
func isDealtByCycle(dealt *find.Series, series string) bool {
	return series != "" && !dealt.Own && len(dealt.Chords) > 1
}

// listCycles writes the cycles until the processes start over one by one, for a spec to
// take in turn, and the pitches of each if the series starts over with the cycle. ok is
// false when they cannot be listed: too many, or short strokes late in their groups.
func (f Layer) listCycles(s *find.Stretch, dealt *find.Series, series string) (groups, pitches string, ok bool) {
	if s.Reset > mostListed || s.Strike == find.Short && s.Has(process.Retrograde) {
		return "", "", false
	}
	byCycle := isDealtByCycle(dealt, series)
	var cycles, texts []string
	for _, cycle := range s.FirstCycles(s.Reset) {
		if !fitsCycle(cycle.Groups) {
			return "", "", false
		}
		cycles = append(cycles, find.GroupsText(cycle.Groups))
		var chords []int
		for i, order := range cycle.Orders {
			if byCycle && !cycle.Groups[i].Blank {
				chords = append(chords, dealt.Chords[order%len(dealt.Chords)])
			}
		}
		texts = append(texts, f.chords(chords))
	}
	if byCycle {
		series = listText(texts)
	}
	return listText(cycles), series, true
}

// boxCycles is listCycles for cycles that are moved inside their length: as boxes, for a
// sound may last into the next cycle. The second time round is written, since before the
// first nothing sounds.
func (f Layer) boxCycles(s *find.Stretch, dealt *find.Series, series string) (boxes, pitches string, ok bool) {
	if s.Reset > mostListed || s.Strike == find.All {
		return "", "", false
	}
	var starts []int64 // of the cycles until they start over twice
	now := s.At
	for _, cycle := range s.FirstCycles(2*s.Reset + 1) {
		starts = append(starts, now)
		now += cycle.Length
	}
	if now-starts[2*s.Reset-1] > mostGroups {
		return "", "", false
	}
	byCycle := isDealtByCycle(dealt, series)
	var hits []find.Hit
	chords := make([][]int, s.Reset)
	s.Strokes(starts[2*s.Reset], func(stroke find.Stroke) bool {
		hits = append(hits, find.Hit{At: stroke.At, Length: stroke.Length})
		if k := stroke.Cycle - int(s.Reset); k >= 0 && byCycle {
			chords[k] = append(chords[k], dealt.Chords[stroke.Order%len(dealt.Chords)])
		}
		return true
	})
	var rows, texts []string
	for k := range s.Reset {
		start := starts[s.Reset+k]
		row := box(hits, start, starts[s.Reset+k+1]-start)
		if len(row) > mostGroups || !strings.Contains(row, "x") {
			return "", "", false
		}
		rows = append(rows, row)
		texts = append(texts, f.chords(chords[k]))
	}
	if byCycle {
		series = listText(texts)
	}
	return listText(rows), series, true
}

// box writes what sounds from a moment on, one sign a pulse.
func box(hits []find.Hit, from, length int64) string {
	signs := []byte(strings.Repeat(".", int(length)))
	for _, h := range hits {
		if h.At >= from+length {
			break
		}
		for at := max(h.At, from); at < min(h.At+h.Length, from+length); at++ {
			signs[at-from] = '='
		}
		if h.At >= from {
			signs[h.At-from] = 'x'
		}
	}
	return string(signs)
}

// melodyCycles writes the cycles of a melody one by one, as they are heard, and the pitches
// of each, "" when the layer has none. ok is false when there are too many.
func (f Layer) melodyCycles(s *find.Stretch) (groups, pitches string, ok bool) {
	if s.Cycles > mostListed {
		return "", "", false
	}
	var sizes, tones []string
	left := f.List.Hits
	for k := range s.Cycles {
		n := min(s.Melody.Tones(k), len(left))
		if n > mostGroups {
			return "", "", false
		}
		var items []find.Item
		for _, h := range left[:n] {
			items = append(items, find.Item{Size: h.Length})
		}
		sizes, tones, left = append(sizes, find.GroupsText(items)), append(tones, f.hitChords(left[:n])), left[n:]
	}
	if f.hasPitches() {
		pitches = listText(tones)
	}
	return listText(sizes), pitches, true
}

// hitChords writes the pitches of attacks.
func (f Layer) hitChords(hits []find.Hit) string {
	chords := make([]int, len(hits))
	for i, h := range hits {
		chords[i] = h.Chord
	}
	return f.chords(chords)
}
