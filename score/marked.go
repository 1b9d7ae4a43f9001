package score

import (
	"iter"
	"strconv"

	"tieover/score/beat"
)

// farApart is how many bars part two double bars between which nothing is cut,
// and such a double bar from a cut.
const farApart = 4

// apart reports whether realignment k at t comes more than a bar after the last
// of its kind; the start counts as both kinds, whatever coincides there. Loops
// that fill the bar would carry a mark in each; they have none.
func (s *Section) apart(k int, t beat.Time) bool {
	m, bars := s.meeting, &s.asWritten().barring
	forced := m.cutsAt(t) != 0
	for {
		before := beat.Time(0)
		if k--; k > 0 {
			before = m.nth(k)
		}
		if k == 0 || before+bars.longest < t || (m.cutsAt(before) != 0) == forced {
			return t > before+bars.at(before).Length
		}
	}
}

// anyApart reports whether one of the realignments from k to n is.
func (s *Section) anyApart(k, n int) bool {
	m, bars := s.meeting, &s.asWritten().barring
	switch {
	case m.farthest > 0 && m.farthest <= bars.shortest && len(s.cutSet()) == 0:
		return false
	case m.closest > bars.longest:
		return k <= n
	}
	for ; k <= n; k++ {
		if s.apart(k, m.nth(k)) {
			return true
		}
	}
	return false
}

// EveryBar reports whether the section's realignments come with every bar, so
// that none is marked.
func (s *Section) EveryBar() bool {
	n := s.meeting.count(s.Length)
	return n > 0 && !s.anyApart(1, n)
}

// stopsAt reports whether t is where the section just stops: there the last
// barline says enough.
func (s *Section) stopsAt(t beat.Time) bool { return t == s.Length && s.End == Stop }

// label returns what is printed at realignment k (from 1) at t: the plan's mark
// where it has one, else the section's letter and the count, with "cut" if it
// is forced; "" where nothing is.
func (s *Section) label(k int, t beat.Time) string {
	if mark := s.markAt(t); mark != "" {
		return mark
	}
	if !s.apart(k, t) || s.stopsAt(t) {
		return ""
	}
	text := s.letter + strconv.Itoa(k)
	if s.meeting.cutsAt(t) != 0 {
		text += " cut"
	}
	return text
}

// divider decides which realignments have a double bar before them.
type divider struct {
	s    *Section
	last int // bar that begins with the last double bar, or the section
}

// divides is asked for each realignment after the start, in order.
func (d *divider) divides(r *Realignment) bool {
	if !r.OnBarline || !r.Apart || d.s.stopsAt(r.Time) {
		return false
	}
	bar := d.s.barring.at(r.Time).N
	if who := d.s.meeting.cutsAt(r.Time); who != 0 {
		if d.s.meeting.span(who) < farApart {
			return false
		}
	} else if bar-d.last < farApart || d.s.cutNear(bar) {
		return false
	}
	d.last = bar
	return true
}

// cutNear reports whether the set has a cut less than four bars before or after
// the given bar.
func (s *Section) cutNear(bar int) bool {
	if len(s.cutSet()) == 0 {
		return false
	}
	for n := max(2, bar-farApart+1); n < bar+farApart; n++ {
		if t := s.barring.bar(n).Start; t <= s.Length && s.meeting.cutsAt(t) != 0 {
			return true
		}
	}
	return false
}

// AlsoTogether yields the moments of the section at which the heads of the set
// coincide strictly inside the last bar before a cut; they do not count as
// realignments.
func (s *Section) AlsoTogether() iter.Seq[beat.Time] {
	return func(yield func(beat.Time) bool) {
		if s.meeting.aside == nil {
			return
		}
		for t := s.meeting.aside.next(0); t <= s.Length; t = s.meeting.aside.next(t) {
			if !yield(t) {
				return
			}
		}
	}
}
