package sheet

import (
	"fmt"

	"tieover/score"
	"tieover/score/beat"
)

// Check holds a part to the law of the sheet and returns the first breach: each
// voice fills each bar without gap or overlap; a value is as long as its event;
// ties touch and join the same heads; beams are well formed and on flagged
// notes; tuplets are closed in the bar and full; marks stand at events.
func Check(s *Sheet, p *Part) error {
	ties, slurs := map[int]*Note{}, map[int]bool{}
	for bar := range p.Bars() {
		fail := func(voice int, format string, args ...any) error {
			return fmt.Errorf("part %q, bar %d, voice %d: %s", p.Name, bar.Number, voice, fmt.Sprintf(format, args...))
		}
		if len(bar.Measure.Voices) == 0 {
			return fail(0, "no voice")
		}
		for i := range bar.Measure.Voices {
			v := &bar.Measure.Voices[i]
			if err := checkFull(s.Grid, bar.Measure, v); err != nil {
				return fail(v.Number, "%v", err)
			}
			if err := checkTies(v, ties, v.Number); err != nil {
				return fail(v.Number, "%v", err)
			}
			if err := checkSlurs(v, slurs); err != nil {
				return fail(v.Number, "%v", err)
			}
			if err := checkBeams(v); err != nil {
				return fail(v.Number, "%v", err)
			}
			if err := checkTuplets(s.Grid, v); err != nil {
				return fail(v.Number, "%v", err)
			}
		}
		for _, m := range bar.Marks {
			if m.Voice >= len(bar.Measure.Voices) || m.Before > len(bar.Measure.Voices[m.Voice].Events) || m.Before < 0 {
				return fail(m.Voice, "mark %v stands nowhere", m)
			}
		}
	}
	if len(ties) > 0 {
		return fmt.Errorf("part %q: a tie leads out of the piece", p.Name)
	}
	if len(slurs) > 0 {
		return fmt.Errorf("part %q: a slur leads out of the piece", p.Name)
	}
	return nil
}

func checkFull(grid beat.Grid, m *Measure, v *Voice) error {
	at := beat.Time(0)
	for i, e := range v.Events {
		if e.At() != at || e.Span() <= 0 {
			return fmt.Errorf("event %d is at %d for %d, expected at %d", i, e.At(), e.Span(), at)
		}
		at += e.Span()
		if r, ok := e.(*Rest); ok && r.Whole {
			if len(v.Events) != 1 {
				return fmt.Errorf("a whole-bar rest is not alone")
			}
			continue
		}
		if err := checkValue(grid, e); err != nil {
			return fmt.Errorf("event %d: %w", i, err)
		}
	}
	if at != m.Length || grid.Must(m.Signature.Span()) != m.Skipped+m.Length {
		return fmt.Errorf("%d of %d filled, signature %v", at, m.Length, m.Signature)
	}
	return nil
}

// checkValue holds length = value · normal/actual.
func checkValue(grid beat.Grid, e Event) error {
	value, tuplet := Value{}, (*Tuplet)(nil)
	switch e := e.(type) {
	case *Note:
		value, tuplet = e.Value, e.Tuplet
	case *Rest:
		value, tuplet = e.Value, e.Tuplet
	}
	length := value.Length()
	if tuplet != nil {
		length = length.Mul(beat.Of(int64(tuplet.Normal), int64(tuplet.Actual)))
	}
	if value.Power > Shortest || length != grid.Span(e.Span()) {
		return fmt.Errorf("value %v lasts %v, not %v", value, length, grid.Span(e.Span()))
	}
	return nil
}

func checkTies(v *Voice, open map[int]*Note, number int) error {
	for i, e := range v.Events {
		n, ok := e.(*Note)
		before := open[number]
		if !ok {
			if before != nil {
				return fmt.Errorf("a tie into the rest at event %d", i)
			}
			continue
		}
		if n.TieIn != (before != nil) {
			return fmt.Errorf("event %d: tied in %v, but the note before is tied out %v", i, n.TieIn, before != nil)
		}
		if before != nil && !sameHeads(before.Heads, n.Heads) {
			return fmt.Errorf("event %d: a tie between different heads", i)
		}
		if n.TieIn && (n.Accent || n.Touch&^Stroked != score.Plain || n.Group > 0 || n.Lyrics != nil || n.Graces != nil) {
			return fmt.Errorf("event %d: an attack's sign on a tied-in note", i)
		}
		delete(open, number)
		if n.TieOut {
			open[number] = n
		}
	}
	return nil
}

// checkSlurs holds each slur to notes without a rest between, from where a sound
// begins to where another ends.
func checkSlurs(v *Voice, open map[int]bool) error {
	for i, e := range v.Events {
		n, ok := e.(*Note)
		switch {
		case !ok && open[v.Number]:
			return fmt.Errorf("event %d: a slur over a rest", i)
		case !ok:
			continue
		case n.Slur.Stops != (n.Slur.Stops && open[v.Number] && !n.TieOut):
			return fmt.Errorf("event %d: a slur ends that is not open, or inside a sound", i)
		case n.Slur.Starts && (n.TieIn || n.Slur.Stops || open[v.Number]):
			return fmt.Errorf("event %d: a slur begins badly", i)
		}
		if n.Slur.Starts {
			open[v.Number] = true
		}
		if n.Slur.Stops {
			delete(open, v.Number)
		}
	}
	return nil
}

func sameHeads(a, b []Head) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].Step != b[i].Step || a[i].Alter != b[i].Alter || a[i].Octave != b[i].Octave || a[i].Drum != b[i].Drum {
			return false
		}
	}
	return true
}

// checkBeams holds each level: begin, then continue, then end, and no level
// without the one below it. A beam may be open at the bar's edges.
func checkBeams(v *Voice) error {
	open := [Shortest]bool{}
	for i, e := range v.Events {
		n, ok := e.(*Note)
		if !ok {
			continue
		}
		if len(n.Beams) != 0 && len(n.Beams) != n.Value.Flags() {
			return fmt.Errorf("event %d: %d beams on %v", i, len(n.Beams), n.Value)
		}
		for level := range open {
			has := NoBeam
			if level < len(n.Beams) {
				has = n.Beams[level]
			}
			inside := has == BeamContinue || has == BeamEnd
			if open[level] != inside && !(inside && n.BeamIn) {
				return fmt.Errorf("event %d: beam %d at level %d", i, has, level+1)
			}
			open[level] = has == BeamBegin || has == BeamContinue
			if level < len(n.Beams) && has == NoBeam {
				return fmt.Errorf("event %d: no beam at level %d", i, level+1)
			}
		}
	}
	for level := range open {
		if open[level] && !lastNote(v).BeamOut {
			return fmt.Errorf("level %d stays open", level+1)
		}
	}
	return nil
}

func lastNote(v *Voice) *Note {
	for i := len(v.Events) - 1; i >= 0; i-- {
		if n, ok := v.Events[i].(*Note); ok {
			return n
		}
	}
	return &Note{}
}

// checkTuplets holds each tuplet to one unbroken stretch of its full time.
func checkTuplets(grid beat.Grid, v *Voice) error {
	var open *Tuplet
	filled := beat.Time(0)
	for i, e := range v.Events {
		start, stop, t := TupletEdges(e)
		if start != (t != nil && open == nil) || t != open && open != nil {
			return fmt.Errorf("event %d: a tuplet starts badly", i)
		}
		if t == nil {
			continue
		}
		if start {
			open, filled = t, 0
		}
		filled += e.Span()
		full := t.Unit.Length().Times(int64(t.Normal))
		if stop {
			if grid.Span(filled) != full {
				return fmt.Errorf("event %d: tuplet %d:%d holds %v of %v", i, t.Actual, t.Normal, grid.Span(filled), full)
			}
			open = nil
		}
	}
	if open != nil {
		return fmt.Errorf("a tuplet is open at the bar's end")
	}
	return nil
}
