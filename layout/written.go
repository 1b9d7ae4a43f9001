package layout

import (
	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// writtenAt is how the part is written at a moment; a composite is notes.
func (w *partWalk) writtenAt(t beat.Time) score.Written {
	s := w.p.Sections[w.section]
	for _, c := range w.cursors {
		if c != nil {
			return s.WrittenAt(c.layer, t)
		}
	}
	return score.AsNotes
}

// write puts slashes in place of what is played. A sound that would
// be tied from one way of writing into another ends at the barline between them.
func (w *partWalk) write(fb *frameBar) {
	if !w.rewritten {
		return
	}
	now, next := onPaper(w.writtenAt(fb.from)), onPaper(w.writtenAt(fb.to))
	before := now
	if fb.from > fb.s.Opening() {
		before = onPaper(w.writtenAt(w.from))
	}
	w.from = fb.from
	var slashed [4]bool // by staff
	for i := range w.in.Voices {
		v := &w.in.Voices[i]
		open, severed := &w.voices[i].slurred, &w.voices[i].severed
		v.Yields = false
		if v.Voice.Other && now != score.AsNotes { // the rhythm stands once
			v.Segments = v.Segments[:0]
		}
		if v.As = now; now == score.AsSlashes {
			w.slash(v, &slashed[v.Voice.Staff])
			*open = false
			continue
		}
		if len(v.Segments) > 0 && v.Segments[0].TieIn && (before != now || *severed) {
			*severed = v.Segments[0].TieOut
			v.Segments = v.Segments[1:]
		} else {
			*severed = false
		}
		last := next == score.AsSlashes
		if n := len(v.Segments); next != now && n > 0 {
			last = last || v.Segments[n-1].TieOut
			v.Segments[n-1].TieOut = false
		}
		slurInside(v.Segments, open, last)
		v.BeamIn, v.BeamOut = v.BeamIn && before == now, v.BeamOut && next == now
	}
}

// slurInside keeps slurs out of slashes, and of what a sound that is cut off leaves
// silent: open says whether one comes into the bar and then whether one leads out of
// it; the last note before those ends it.
func slurInside(segments []bar.Segment, open *bool, last bool) {
	for i := range segments {
		s := &segments[i]
		if s.Slur.Stops && !s.TieOut {
			s.Slur.Stops, *open = *open, false
		}
		*open = *open || s.Slur.Starts && !s.TieIn
	}
	if n := len(segments) - 1; last && *open && n >= 0 {
		s := &segments[n]
		s.Slur.Stops = !s.Slur.Starts || s.TieIn
		s.Slur.Starts, *open = s.Slur.Starts && s.TieIn, false
	}
}

// rewrites reports whether some layer of the part is written otherwise than as
// notes in the section.
func (w *partWalk) rewrites() (any bool) {
	s := w.p.Sections[w.section]
	for i, c := range w.cursors {
		w.in.Voices[i].As = score.AsNotes
		if c != nil && !w.partner && !c.isComposite() && c.any(s.EverWritten) {
			any = true
		}
	}
	return any
}

// onPaper is what a bar's notes are: bars that may be repeated have all of them.
func onPaper(as score.Written) score.Written {
	if as == score.AsRepeats {
		return score.AsNotes
	}
	return as
}

// slash writes the beats in the first voice of a staff that sounds in the bar, and
// silences the others.
func (w *partWalk) slash(v *bar.VoiceInput, slashed *bool) {
	sounds := len(v.Segments) > 0
	v.Segments, v.Groups, v.Cycles, v.ByGroup, v.BeamIn, v.BeamOut = v.Segments[:0], v.Groups[:0], v.Cycles[:0], false, false, false
	v.Pulse = beat.Plain(beat.Of(1, 4))
	v.Yields = sounds && *slashed
	if sounds && !*slashed {
		*slashed = true
		v.Segments = append(v.Segments, bar.Slashes(w.in.Signature, w.in.MetricGrid.Skipped, w.writer.NoteValues)...)
	}
}

// equalBars remembers the bar before, and how many are equal up to it.
type equalBars struct {
	measure *sheet.Measure // nil where none can be repeated
	in      [2]int         // by staff
}

// repeats finds the staves on which a repeat sign is printed for the bar, since it is equal
// to the one before: at no label, at no system's start, and where nothing is tied.
func (w *partWalk) repeats(fb *frameBar) {
	if !w.rewritten {
		return
	}
	m := w.bar.Measure
	breaks := w.bar.Empty || fb.newSection || fb.brk != sheet.NoBreak || fb.left != sheet.Plain || fb.newKey || fb.newMeter || len(fb.labels) > 0
	for k := range min(len(w.plan.Staves), len(w.equal.in)) {
		if w.writtenAt(fb.from) != score.AsRepeats || breaks || w.equal.measure == nil || !sheet.RepeatsStaff(w.equal.measure, m, k+1) {
			w.equal.in[k] = 1
			continue
		}
		w.equal.in[k]++
		w.bar.Repeats[k] = w.equal.in[k]
		if n := w.equal.in[k]; n%4 == 0 {
			w.put(fb, fb.from, sheet.Mark{Kind: sheet.RepeatCount, Voice: sheet.FirstVoice(m, k+1), N: n})
		}
	}
	if w.equal.measure = m; w.bar.Empty {
		w.equal.measure = nil
	}
}
