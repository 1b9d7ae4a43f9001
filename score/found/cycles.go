package found

import (
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
		d := f.Ranked[0]
		leaves, _ := w.leaves(f, d)
		if leaves != "" || d.Literal || d.Lead > 0 || d.CutEvery > 0 || d.Stretches != nil || changesLength(d) || d.Has(process.Rotate) || d.Has(process.Shift) {
			return false
		}
		var ok bool
		if period, ok = lengthOfBoth(period, f.List.Pulse.Span().Times(d.Length())); !ok {
			return false
		}
	}
	for _, f := range layers {
		d := f.Ranked[0]
		if d.Reset > 0 && f.List.Pulse.Span().Times(d.Length()*d.Reset) != period {
			return false
		}
	}
	return true
}

// changesLength reports whether the cycle gets longer or shorter.
func changesLength(d *find.Description) bool {
	if d.Melody != nil {
		return true
	}
	for _, p := range d.Process {
		if p.Kind == process.Append || p.Kind == process.Grow && p.From == 0 {
			return true
		}
	}
	return false
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
func isDealtByCycle(d *find.Description, series string) bool {
	return series != "" && !d.Series.Own && len(d.Series.Chords) > 1
}

// listCycles writes the cycles until the processes start over one by one, for a spec to
// take in turn, and the pitches of each if the series starts over with the cycle. ok is
// false when they cannot be listed: too many, or short strokes late in their groups.
func (f Layer) listCycles(d *find.Description, series string) (groups, pitches string, ok bool) {
	if d.Reset > mostListed || d.Strike == find.Short && d.Has(process.Retrograde) {
		return "", "", false
	}
	byCycle := isDealtByCycle(d, series)
	var cycles, dealt []string
	for _, cycle := range d.FirstCycles(d.Reset) {
		if !fitsCycle(cycle.Groups) {
			return "", "", false
		}
		cycles = append(cycles, find.GroupsText(cycle.Groups))
		var chords []int
		for i, order := range cycle.Orders {
			if byCycle && !cycle.Groups[i].Blank {
				chords = append(chords, d.Series.Chords[order%len(d.Series.Chords)])
			}
		}
		dealt = append(dealt, f.chords(chords))
	}
	if byCycle {
		series = listText(dealt)
	}
	return listText(cycles), series, true
}

// boxCycles is listCycles for cycles that are moved inside their length: as boxes, for a
// sound may last into the next cycle. The second time round is written, since before the
// first nothing sounds.
func (f Layer) boxCycles(d *find.Description, series string) (boxes, pitches string, ok bool) {
	if d.Reset > mostListed || d.Strike == find.All {
		return "", "", false
	}
	var starts []int64 // of the cycles until they start over twice
	now := d.Lead
	for _, cycle := range d.FirstCycles(2*d.Reset + 1) {
		starts = append(starts, now)
		now += cycle.Length
	}
	if now-starts[2*d.Reset-1] > mostGroups {
		return "", "", false
	}
	byCycle := isDealtByCycle(d, series)
	var hits []find.Hit
	dealt := make([][]int, d.Reset)
	d.Strokes(starts[2*d.Reset], func(s find.Stroke) bool {
		hits = append(hits, find.Hit{At: s.At, Length: s.Length})
		if k := s.Cycle - int(d.Reset); k >= 0 && byCycle {
			dealt[k] = append(dealt[k], d.Series.Chords[s.Order%len(d.Series.Chords)])
		}
		return true
	})
	var rows, texts []string
	for k := range d.Reset {
		start := starts[d.Reset+k]
		row := box(hits, start, starts[d.Reset+k+1]-start)
		if len(row) > mostGroups || !strings.Contains(row, "x") {
			return "", "", false
		}
		rows = append(rows, row)
		texts = append(texts, f.chords(dealt[k]))
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
func (f Layer) melodyCycles(d *find.Description) (groups, pitches string, ok bool) {
	if d.Cycles > mostListed {
		return "", "", false
	}
	var sizes, tones []string
	left := f.List.Hits
	for k := range d.Cycles {
		n := min(d.Melody.Tones(k), len(left))
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
