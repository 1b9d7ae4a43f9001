package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Check holds a part to the law of the sheet and returns the first breach: each
// voice fills each bar without gap or overlap; a value is as long as its event;
// ties touch and join the same heads; beams are well formed and on flagged
// notes; tuplets are closed in the bar and full; marks stand at events.
func Check(s *Sheet, p *Part) error {
	c := checker{grid: s.Grid, ties: map[int]*Note{}, slurs: map[int]bool{}}
	for bar := range p.Bars() {
		if voice, err := c.bar(bar); err != nil {
			return fmt.Errorf("part %q, bar %d, voice %d: %w", p.Name, bar.Number, voice, err)
		}
	}
	if len(c.ties) > 0 {
		return fmt.Errorf("part %q: a tie leads out of the piece", p.Name)
	}
	if len(c.slurs) > 0 {
		return fmt.Errorf("part %q: a slur leads out of the piece", p.Name)
	}
	return nil
}

// checker is what a part has had so far.
type checker struct {
	grid  beat.Grid
	ties  map[int]*Note // open, by voice number
	slurs map[int]bool
}

// bar returns the first breach in a bar, and in which voice it is.
func (c *checker) bar(bar *Bar) (voice int, err error) {
	m := bar.Measure
	if len(m.Voices) == 0 {
		return 0, errors.New("no voice")
	}
	for i := range m.Voices {
		v := &m.Voices[i]
		err := cmp.Or(c.full(m, v), c.tied(v), c.slurred(v), checkBeams(v), c.tuplets(v))
		if err != nil {
			return v.Number, err
		}
	}
	for _, mark := range bar.Marks {
		if mark.Voice >= len(m.Voices) || mark.Before > len(m.Voices[mark.Voice].Events) || mark.Before < 0 {
			return mark.Voice, fmt.Errorf("mark %v stands nowhere", mark)
		}
	}
	return 0, nil
}

// full holds a voice to filling its bar.
func (c *checker) full(m *Measure, v *Voice) error {
	at := beat.Time(0)
	for i, e := range v.Events {
		if e.At() != at || e.Span() <= 0 {
			return fmt.Errorf("event %d is at %d for %d, expected at %d", i, e.At(), e.Span(), at)
		}
		at += e.Span()
		if r, ok := e.(*Rest); ok && r.Whole {
			if len(v.Events) != 1 {
				return errors.New("a whole-bar rest is not alone")
			}
			continue
		}
		if err := checkValue(c.grid, e); err != nil {
			return fmt.Errorf("event %d: %w", i, err)
		}
	}
	if at != m.Length || c.grid.Must(m.Signature.Span()) != m.Skipped+m.Length {
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

// tied holds each tie to two notes of the same heads that touch.
func (c *checker) tied(v *Voice) error {
	for i, e := range v.Events {
		n, ok := e.(*Note)
		before := c.ties[v.Number]
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
		delete(c.ties, v.Number)
		if n.TieOut {
			c.ties[v.Number] = n
		}
	}
	return nil
}

// slurred holds each slur to notes without a rest between, from where a sound
// begins to where another ends.
func (c *checker) slurred(v *Voice) error {
	for i, e := range v.Events {
		n, ok := e.(*Note)
		switch {
		case !ok && c.slurs[v.Number]:
			return fmt.Errorf("event %d: a slur over a rest", i)
		case !ok:
			continue
		case n.Slur.Stops != (n.Slur.Stops && c.slurs[v.Number] && !n.TieOut):
			return fmt.Errorf("event %d: a slur ends that is not open, or inside a sound", i)
		case n.Slur.Starts && (n.TieIn || n.Slur.Stops || c.slurs[v.Number]):
			return fmt.Errorf("event %d: a slur begins badly", i)
		}
		if n.Slur.Starts {
			c.slurs[v.Number] = true
		}
		if n.Slur.Stops {
			delete(c.slurs, v.Number)
		}
	}
	return nil
}

// sameHeads reports whether two notes sound the same, whatever is printed.
func sameHeads(a, b []Head) bool {
	return slices.EqualFunc(a, b, func(x, y Head) bool {
		return x.Step == y.Step && x.Alter == y.Alter && x.Octave == y.Octave && x.Drum == y.Drum
	})
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

// tuplets holds each tuplet to one unbroken stretch of its full time.
func (c *checker) tuplets(v *Voice) error {
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
			if c.grid.Span(filled) != full {
				return fmt.Errorf("event %d: tuplet %d:%d holds %v of %v", i, t.Actual, t.Normal, c.grid.Span(filled), full)
			}
			open = nil
		}
	}
	if open != nil {
		return errors.New("a tuplet is open at the bar's end")
	}
	return nil
}
