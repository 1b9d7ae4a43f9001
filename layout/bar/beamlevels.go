package bar

import (
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// beam writes the beams of the notes from first to last, level by level.
func (b *beamer) beam(first, last int) {
	var notes []*written
	for i := first; i <= last; i++ {
		w := &b.events[i]
		if w.note != nil {
			w.note.Beams = make([]sheet.Beam, w.note.Value.Flags())
			notes = append(notes, w)
		}
	}
	for level := 1; level <= sheet.Shortest-2; level++ {
		start := 0
		for i := 1; i <= len(notes); i++ {
			if i == len(notes) || level > 1 && b.breaks(notes[i-1], notes[i], level) && !b.leavesAlone(notes, start, i, level) {
				b.levelRuns(notes, start, i, level)
				start = i
			}
		}
	}
	b.overBarlines(first, last, notes)
	b.bracket(first, last)
}

// breaks reports whether a secondary beam breaks before the note: where its
// group begins, where a pulse begins that is longer than the level's note, and
// by meter at beats, the shorter levels at half beats.
func (b *beamer) breaks(before, w *written, level int) bool {
	if !b.byMeter && w.group >= 0 {
		if before.group != w.group {
			return !b.loneGroup(before.group) || !b.loneGroup(w.group) || b.onLarger(w, level)
		}
		past := w.note.Start - b.v.Groups[w.group].At
		longer := b.v.Pulse.Base.Cmp(beat.Of(1, 1<<(level+2))) > 0
		return longer && past%b.v.Unit == 0
	}
	if b.onBeat(w.note.Start) {
		return true
	}
	return level > 2 && b.level(w.note.Start) <= 3
}

func (b *beamer) loneGroup(i int) bool { return i >= 0 && b.v.Groups[i].Lone }

// leavesAlone reports whether a break before notes[i] would leave a short note of a
// group with a single attack alone between short notes: the last one before the
// break, or the one after it.
func (b *beamer) leavesAlone(notes []*written, start, i, level int) bool {
	short := func(k int) bool { return k >= 0 && k < len(notes) && len(notes[k].note.Beams) >= level }
	if b.byMeter || !b.loneGroup(notes[i].group) || !b.loneGroup(notes[i-1].group) {
		return false
	}
	return i-1 == start || !short(i-2) || !short(i+1)
}

// onLarger reports whether a note begins on the grid of the value twice as long
// as the level's, counted from its tuplet's start or from where its beam's room
// begins: its group, or the meter's span where groups do not tell.
func (b *beamer) onLarger(w *written, level int) bool {
	from, num, den := b.spans[spanOf(b.spans, w.note.Start)], int64(1), int64(1)
	switch {
	case w.tile.tuplet != nil:
		from, num, den = w.tile.from, int64(w.tile.tuplet.Actual), int64(w.tile.tuplet.Normal)
	case !b.byMeter && w.group >= 0 && !b.loneGroup(w.group):
		from = b.v.Groups[w.group].At
	}
	return int64(w.note.Start-from)*num<<(level+1)%(int64(b.grid)*den) == 0
}

// levelRuns beams neighbors of at least the level within notes[from:to]; one
// alone gets a hook.
func (b *beamer) levelRuns(notes []*written, from, to, level int) {
	for i := from; i < to; i++ {
		if len(notes[i].note.Beams) < level {
			continue
		}
		j := i
		for j+1 < to && len(notes[j+1].note.Beams) >= level {
			j++
		}
		if j == i {
			notes[i].note.Beams[level-1] = b.hook(notes, i, level)
			continue
		}
		notes[i].note.Beams[level-1] = sheet.BeamBegin
		for k := i + 1; k < j; k++ {
			notes[k].note.Beams[level-1] = sheet.BeamContinue
		}
		notes[j].note.Beams[level-1] = sheet.BeamEnd
		i = j
	}
}

// hook points a lone short note to where the level before goes on; else at the
// larger value that it completes, forward if it starts on that value's grid, but
// not over the only break of its level beside it.
func (b *beamer) hook(notes []*written, i, level int) sheet.Beam {
	if level == 1 { // of one note, in a beam over a barline
		return sheet.HookForward
	}
	switch notes[i].note.Beams[level-2] {
	case sheet.BeamBegin, sheet.HookForward:
		return sheet.HookForward
	case sheet.BeamEnd, sheet.HookBackward:
		return sheet.HookBackward
	}
	before, after := b.breaks(notes[i-1], notes[i], level), b.breaks(notes[i], notes[i+1], level)
	if before && !after || before == after && b.onLarger(notes[i], level) {
		return sheet.HookForward
	}
	return sheet.HookBackward
}
