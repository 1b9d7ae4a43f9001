package page

import (
	"sort"

	"tieover/score"
	"tieover/score/beat"
)

// measures are the sizes of a figure in drawing units.
type measures struct {
	name        string // class of the figure: "wide", "narrow"
	width       unit
	left, right unit // kept free beside the time
	tightest    unit // least width of the finest pulse
	loosest     unit
	names       bool // full names stand at the left; else letters, and names above
}

var (
	wide   = measures{name: "wide", width: 960 * one, left: 150 * one, right: 26 * one, tightest: 14 * one, loosest: 34 * one, names: true}
	narrow = measures{name: "narrow", width: 340 * one, left: 24 * one, right: 16 * one, tightest: 13 * one, loosest: 24 * one}
)

// system is one line of a figure: a stretch of time and where it is drawn.
type system struct {
	from, to beat.Time
	scale    scale
}

// scale is drawing units in a stretch of time.
type scale struct {
	left  unit
	width unit
	time  beat.Time
}

// x returns where a moment of the system is drawn.
func (sys system) x(t beat.Time) unit {
	return sys.scale.left + sys.scale.of(t-sys.from)
}

func (s scale) of(t beat.Time) unit { return unit(beat.Time(s.width) * t / s.time) }

// holds reports whether t is drawn in the system.
func (sys system) holds(t beat.Time) bool { return t >= sys.from && t < sys.to }

// barsIn returns the bars that a system has a part of.
func (rd *reading) barsIn(sys system) []score.Bar {
	first := sort.Search(len(rd.bars), func(i int) bool { return rd.bars[i].End() > sys.from })
	bars := rd.bars[first:]
	return bars[:sort.Search(len(bars), func(i int) bool { return bars[i].Start >= sys.to })]
}

// systems breaks the section into lines: at realignments where the lines are
// long enough, else into equal parts at barlines, and inside a bar only where
// it is longer than a line. All lines have one scale.
func (v *view) systems(m measures) []system {
	room := m.width - m.left - m.right
	finest := v.finest()
	most := finest * beat.Time(room/m.tightest)
	ends := v.lineEnds(most)
	longest, from := finest, v.s.Opening()
	for _, to := range ends {
		longest = max(longest, to-from)
		from = to
	}
	s := scale{left: m.left, width: room, time: longest}
	if s.of(finest) > m.loosest {
		s.width, s.time = m.loosest, finest
	}
	var lines []system
	from = v.s.Opening()
	for _, to := range ends {
		lines = append(lines, system{from, to, s})
		from = to
	}
	return lines
}

// lineEnds returns where the lines end; none is longer than most.
func (v *view) lineEnds(most beat.Time) []beat.Time {
	var ends []beat.Time
	from := v.s.Opening() // of the line that is being filled with whole periods
	done := from
	close := func() {
		if done > from {
			ends = append(ends, done)
			from = done
		}
	}
	for _, to := range v.periods() {
		if to-from <= most {
			done = to
			continue
		}
		close()
		if to-from > most {
			ends = append(ends, v.split(from, to, most)...)
			from = to
		}
		done = to
	}
	close()
	return ends
}

// periods returns the ends of the stretches between realignments on barlines.
func (v *view) periods() []beat.Time {
	var ends []beat.Time
	for _, k := range v.marks {
		again := len(ends) > 0 && ends[len(ends)-1] == k.At
		if k.Kind == score.Realigns && k.OnBarline && k.At > 0 && k.At < v.end && !again {
			ends = append(ends, k.At)
		}
	}
	return append(ends, v.end)
}

// split cuts a stretch that is longer than a line into about equal lines.
func (v *view) split(from, to, most beat.Time) []beat.Time {
	var ends []beat.Time
	for to-from > most {
		lines := (to - from + most - 1) / most
		goal := from + (to-from+lines-1)/lines
		end := v.barlineNear(from, goal, from+most)
		ends = append(ends, end)
		from = end
	}
	return append(ends, to)
}

// barlineNear returns the first barline at or after goal, or else the last one
// before it; none of them past limit. Where a bar is longer than that it
// returns a whole number of the finest pulses.
func (v *view) barlineNear(from, goal, limit beat.Time) beat.Time {
	best := from
	for _, b := range v.readings[0].barsIn(system{from: from, to: limit}) {
		if b.End() > limit || best >= goal {
			break
		}
		best = b.End()
	}
	if best > from {
		return best
	}
	return limit - (limit-from)%v.finest()
}
