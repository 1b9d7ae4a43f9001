package layout

import "iter"

// carrier decides where beams go on over barlines: a group has flagged notes
// on both sides, and nothing is to be seen at the barline: no new system, no
// realignment, no double bar, no repeat, no new section. It reads a second walk
// of the part, without such beams, that runs one bar ahead.
type carrier struct {
	next        func() (*Bar, bool)
	stop        func()
	walk        *partWalk
	here, ahead plainBar
	in          []bool // by voice: a beam comes into the bar at hand
}

// plainBar is what the carrier keeps of a bar.
type plainBar struct {
	ok        bool
	measure   *Measure
	openLeft  bool
	openRight bool
	groupGoes []bool // by voice: its last group goes on after the bar
}

func newCarrier(pt *part) *carrier {
	plain := *pt
	plain.o.BeamOverBarlines = false
	w := newPartWalk(&plain, nil)
	w.lenient = true
	c := &carrier{walk: w, in: make([]bool, len(pt.plan.voices))}
	c.next, c.stop = iter.Pull(w.walk)
	c.advance()
	return c
}

func (c *carrier) close() {
	c.stop()
	c.walk.close()
}

// advance moves one bar on.
func (c *carrier) advance() {
	c.here, c.ahead = c.ahead, plainBar{}
	bar, ok := c.next()
	if !ok {
		return
	}
	c.ahead = plainBar{ok: true, measure: bar.Measure, openRight: bar.Barline == Plain,
		openLeft: bar.Break == NoBreak && !bar.Realigned && bar.Left == Plain && c.walk.nth > 1}
	for i := range c.walk.in.voices {
		v := &c.walk.in.voices[i]
		last := len(v.groups) - 1
		c.ahead.groupGoes = append(c.ahead.groupGoes, last >= 0 && v.groups[last].end > bar.Measure.Length)
	}
}

// decide sets the flags of the voices of the next bar. Call it once a bar.
func (c *carrier) decide(in *barInput) {
	c.advance()
	for i := range in.voices {
		v := &in.voices[i]
		v.beamIn = c.in[i]
		v.beamOut = c.here.openRight && c.ahead.ok && c.ahead.openLeft && c.here.groupGoes[i] &&
			flagged(c.here.measure.Voices[i].Events, -1) && flagged(c.ahead.measure.Voices[i].Events, 0)
		c.in[i] = v.beamOut
	}
}

// flagged reports whether the first event (0) or the last (-1) is a flagged note.
func flagged(events []Event, which int) bool {
	if which < 0 {
		which = len(events) - 1
	}
	n, ok := events[which].(*Note)
	return ok && n.Value.flags() > 0
}
