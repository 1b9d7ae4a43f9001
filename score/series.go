package score

import (
	"iter"
	"slices"

	"tieover/score/beat"
)

// SeriesChange is a realignment that chooses another pitch series of a layer.
type SeriesChange struct {
	Time   beat.Time
	Layer  int
	Number int // of the series that holds from there on, from 1
}

// SeriesChanges yields them in time order, while the layers sound.
func (s *Section) SeriesChanges() iter.Seq[SeriesChange] {
	return func(yield func(SeriesChange) bool) {
		for r := range s.RealignmentTimes() {
			for i := range s.Layers {
				if n, ok := s.ChangesSeries(i, r); ok && !yield(SeriesChange{r.Time, i, n}) {
					return
				}
			}
		}
	}
}

// ChangesSeries returns which series of a layer, from 1, begins with a
// realignment. ok is false where none does.
func (s *Section) ChangesSeries(layer int, r Realignment) (number int, ok bool) {
	l := s.Layers[layer]
	if !l.changesSeries() || r.Index == 0 || r.Time < l.Enters || r.Time >= min(l.Leaves, s.Length) {
		return 0, false
	}
	return r.Index%len(l.Series) + 1, true
}

// dealer gives attacks their tones from the layer's pitch series.
type dealer struct {
	l            *Layer
	realignments *meeting
	dealt        int // attacks since the series started over; not used by RestartCycle
	seen         int // realignments passed by the attacks so far
}

// runs reports whether the series goes on from cycle to cycle.
func (d *dealer) runs() bool {
	return d.l.Restart != RestartCycle && (len(d.l.Series) == 1 || d.l.SeriesBy == EachRealignment)
}

// inForce returns which series holds at t: that of the last realignment where
// realignments choose it, else the first.
func (d *dealer) inForce(t beat.Time) int {
	if !d.l.changesSeries() {
		return 0
	}
	return d.realignments.count(t) % len(d.l.Series)
}

// changesSeries reports whether realignments choose the series.
func (l *Layer) changesSeries() bool { return l.SeriesBy == EachRealignment && len(l.Series) > 1 }

// phase returns the place of the next attack in the series, for the cycle cache.
func (d *dealer) phase() int {
	if !d.runs() {
		return 0
	}
	if d.l.changesSeries() { // of any length
		return d.dealt
	}
	return d.dealt % len(d.l.Series[0])
}

// fixedIn reports whether the tones of the cycle follow from phase alone: no
// realignment starts the series over inside it.
func (d *dealer) fixedIn(c *Cycle) bool {
	changes := d.l.changesSeries()
	if !changes && (!d.runs() || d.l.Restart == RestartNever) {
		return true
	}
	if d.runs() && d.realignments.count(c.Start) > d.seen {
		return false
	}
	return d.realignments.next(c.Start) >= c.End()
}

// skip counts attacks that came from the cache.
func (d *dealer) skip(attacks int) { d.dealt += attacks }

// attack makes the sounding attack of a raw one. own replaces the series.
func (d *dealer) attack(c *Cycle, a raw, series int, own []Chord) Attack {
	out := Attack{At: a.at, Length: a.length, Accent: a.accent, Group: a.group}
	chord := d.tones(c, a, series, own)
	out.Graces, out.Tones = chord.Led()
	out.Hand = d.l.hand(chord)
	if n := len(d.l.Touches); n > 0 {
		out.touch(d.l.Touches[a.order%n])
	}
	return out
}

// touch sets how the attack is played; a flam repeats its own sound once before
// it, a drag twice.
func (a *Attack) touch(t Touch) {
	a.Touch = t
	for _, led := range []Touch{Flam, Drag, Drag} {
		if t.Has(led) {
			a.Graces = append(slices.Clip(a.Graces), a.Tones)
		}
	}
}

func (d *dealer) tones(c *Cycle, a raw, series int, own []Chord) Chord {
	if d.runs() && d.l.Restart == RestartRealignment {
		if n := d.realignments.count(c.Start + a.at); n > d.seen {
			d.seen, d.dealt = n, 0
		}
	}
	k := a.order
	if d.runs() {
		k = d.dealt
		d.dealt++
	}
	switch {
	case own != nil:
		return own[a.order%len(own)]
	case len(d.l.Series) == 0:
		return d.l.bare()
	}
	if d.l.changesSeries() {
		series = d.inForce(c.Start + a.at)
	}
	chords := d.l.Series[series]
	return chords[k%len(chords)]
}

// bare is the chord of a layer without a series: the first sound of an
// unpitched instrument, or rhythm alone.
func (l *Layer) bare() Chord {
	if l.Instrument.IsUnpitched() {
		return bareDrum
	}
	return bareRhythm
}

var (
	bareDrum   = Chord{{Drum: 1}}
	bareRhythm = Chord{{}}
)

// onceThrough is a settled free line as one cycle.
type onceThrough struct {
	Cycle
	limit, end beat.Time // when the layer is over, and the section
}

// lines makes the cycles of free lines, when their bounds are settled.
func (st *settler) lines() {
	for _, l := range st.s.Layers {
		if l.Line != nil {
			l.once = st.s.makeLine(l)
		}
	}
}

// lineCycle returns a free line as one cycle: the settled one, or another where the
// section is a copy with other bounds.
func (s *Section) lineCycle(layer int) Cycle {
	l := s.Layers[layer]
	made := l.once
	if made == nil || made.limit != min(l.Leaves, s.Length) || made.end != s.Length {
		made = s.makeLine(l)
	}
	c := made.Cycle
	c.Layer = layer
	return c
}

// makeLine makes a free line one cycle, each note a group of its own.
func (s *Section) makeLine(l *Layer) *onceThrough {
	limit := min(l.Leaves, s.Length)
	c := Cycle{Index: 1, Number: 1, Start: l.First, Changed: true}
	c.Groups, c.Attacks = make([]Group, 0, len(l.Line)), make([]Attack, 0, len(l.Line))
	struck := 0 // notes that are no rests, before this one
	for i, n := range l.Line {
		g := Group{At: c.Length, Length: n.Length, Size: int(max(1, n.Length/l.Unit)), Spec: i + 1, Blank: len(n.Tones) == 0}
		c.Groups = append(c.Groups, g)
		c.Length += n.Length
		if g.Blank {
			continue
		}
		at := c.Start + g.At
		if length := min(n.Length, limit-at); length > 0 && at >= l.Enters {
			a := Attack{At: g.At, Length: length, Group: i}
			a.Graces, a.Tones = n.Tones.Led()
			a.Hand = l.hand(n.Tones)
			if len(l.Touches) > 0 {
				a.touch(l.Touches[struck%len(l.Touches)])
			}
			c.Attacks = append(c.Attacks, a)
		}
		struck++
	}
	c.Sounds = c.Length
	c.endAt(limit, s.Length)
	return &onceThrough{c, limit, s.Length}
}
