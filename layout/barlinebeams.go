package layout

import (
	"slices"

	"tieover/layout/sheet"
)

// barlineBeams knows where beams go on over barlines: a group has flagged notes
// on both sides, and nothing is to be seen at the barline: no new system, no
// realignment, no double bar, no repeat, no new section. The walk that proves a part
// lays its bars without such beams, and sees where they would be: a bit for each
// bar and voice.
type barlineBeams struct {
	voices int
	out    []uint64
	bars   int // seen

	// Of the bar seen last.
	plan      *partPlan
	measure   *sheet.Measure
	openRight bool
	groupGoes []bool // by voice: its last group goes on after the bar
}

// watchBeams lets a walk note where its part's beams are to go on over barlines, if
// they are.
func (w *partWalk) watchBeams() {
	if w.o.BeamOverBarlines && w.o.Beams == BeamGroups {
		voices := len(widest(w.plans).Voices)
		w.seen = &barlineBeams{voices: voices, groupGoes: make([]bool, voices)}
	}
}

// see takes in the bar that the walk has made.
func (c *barlineBeams) see(w *partWalk, b *sheet.Bar) {
	open := c.plan == w.plan && c.openRight && b.Break == sheet.NoBreak && !b.Realigned && b.Left == sheet.Plain && w.nth > 1
	for len(c.out)*64 < (c.bars+1)*c.voices {
		c.out = append(c.out, 0)
	}
	for i := range w.in.Voices {
		if at := (c.bars-1)*c.voices + i; open && c.groupGoes[i] && flagged(c.measure.Voices[i].Events, -1) && flagged(b.Measure.Voices[i].Events, 0) {
			c.out[at/64] |= 1 << (at % 64)
		}
		groups := w.in.Voices[i].Groups
		c.groupGoes[i] = len(groups) > 0 && groups[len(groups)-1].End > b.Measure.Length
	}
	c.plan, c.measure, c.openRight = w.plan, b.Measure, b.Barline == sheet.Plain
	c.bars++
}

// goesOver reports whether a voice's beam goes on after the bar, counted from 0.
func (c *barlineBeams) goesOver(bar, voice int) bool {
	at := bar*c.voices + voice
	return bar >= 0 && c.out[at/64]&(1<<(at%64)) != 0
}

// cut ends all beams before a bar, counted from 0, where a system begins.
func (c *barlineBeams) cut(bar int) {
	for voice := range c.voices {
		if at := (bar-1)*c.voices + voice; at >= 0 {
			c.out[at/64] &^= 1 << (at % 64)
		}
	}
}

func (c *barlineBeams) clone() *barlineBeams {
	if c == nil {
		return nil
	}
	own := *c
	own.out = slices.Clone(c.out)
	return &own
}

// beamOver sets the flags of the voices of the next bar, which the part's systems
// may begin at or after.
func (w *partWalk) beamOver(fb *frameBar) {
	for i := range w.in.Voices {
		v := &w.in.Voices[i]
		v.BeamIn = fb.brk == sheet.NoBreak && w.over.goesOver(w.bars-2, i)
		v.BeamOut = !fb.breaksNext && w.over.goesOver(w.bars-1, i)
	}
}

// flagged reports whether the first event (0) or the last (-1) is a flagged note.
func flagged(events []sheet.Event, which int) bool {
	if which < 0 {
		which = len(events) - 1
	}
	n, ok := events[which].(*sheet.Note)
	return ok && n.Value.Flags() > 0
}
