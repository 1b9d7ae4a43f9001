package layout

import (
	"iter"

	"tieover/layout/bar"
	"tieover/layout/sheet"
)

// barlineBeams decides where beams go on over barlines: a group has flagged notes
// on both sides, and nothing is to be seen at the barline: no new system, no
// realignment, no double bar, no repeat, no new section. It reads a second walk
// of the part, without such beams, that runs one bar ahead.
type barlineBeams struct {
	next        func() (*sheet.Bar, bool)
	stop        func()
	walk        *partWalk
	here, ahead plainBar
	in          []bool // by voice: a beam comes into the bar at hand
}

// plainBar is what barlineBeams keeps of a bar.
type plainBar struct {
	ok        bool
	measure   *sheet.Measure
	openLeft  bool
	openRight bool
	groupGoes []bool // by voice: its last group goes on after the bar
}

func newBarlineBeams(pt *part) *barlineBeams {
	plain := *pt
	plain.o.BeamOverBarlines = false
	w := newPartWalk(&plain, nil)
	w.lenient = true
	c := &barlineBeams{walk: w, in: make([]bool, len(pt.plan.voices))}
	c.next, c.stop = iter.Pull(w.walk)
	c.advance()
	return c
}

func (c *barlineBeams) close() {
	c.stop()
	c.walk.close()
}

// advance moves one bar on.
func (c *barlineBeams) advance() {
	c.here, c.ahead = c.ahead, plainBar{}
	bar, ok := c.next()
	if !ok {
		return
	}
	c.ahead = plainBar{ok: true, measure: bar.Measure, openRight: bar.Barline == sheet.Plain,
		openLeft: bar.Break == sheet.NoBreak && !bar.Realigned && bar.Left == sheet.Plain && c.walk.nth > 1}
	for i := range c.walk.in.Voices {
		v := &c.walk.in.Voices[i]
		last := len(v.Groups) - 1
		c.ahead.groupGoes = append(c.ahead.groupGoes, last >= 0 && v.Groups[last].End > bar.Measure.Length)
	}
}

// decide sets the flags of the voices of the next bar. Call it once a bar.
func (c *barlineBeams) decide(in *bar.Input) {
	c.advance()
	for i := range in.Voices {
		v := &in.Voices[i]
		v.BeamIn = c.in[i]
		v.BeamOut = c.here.openRight && c.ahead.ok && c.ahead.openLeft && c.here.groupGoes[i] &&
			flagged(c.here.measure.Voices[i].Events, -1) && flagged(c.ahead.measure.Voices[i].Events, 0)
		c.in[i] = v.BeamOut
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
