package find

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// planMark is a mark where another stretch begins.
type planMark struct {
	pulse int64 // of the section, from 1
	text  string
}

// stretches writes a layer for each stretch, all of one player. ok is false when
// a spec cannot say one.
func (w *writer) stretches(f Found, d *Description) (layers string, ok bool) {
	if d.Lead > mostOffset {
		return "", false
	}
	var b strings.Builder
	var marks []planMark
	for k, s := range d.Stretches {
		part := f
		if len(d.Stretches) > 1 {
			part.Player = cmp.Or(f.Player, f.Name)
			part.Name = w.ownName(f.Name + " " + letters(k))
		}
		body, ok := w.stretch(part, d, k)
		if !ok {
			return "", false
		}
		b.WriteString(w.head(part) + body)
		if at, whole := w.at(f, s.At); k > 0 && whole {
			what := "free from here"
			if s.Groups != nil {
				what = GroupsText(s.Groups) + " from here"
			}
			marks = append(marks, planMark{at, what})
		}
	}
	w.marks = append(w.marks, marks...)
	return b.String(), true
}

// ownName returns a name that no other layer has.
func (w *writer) ownName(name string) string {
	own := name
	for n := 2; w.taken[own]; n++ {
		own = fmt.Sprintf("%s (%d)", name, n)
	}
	w.taken[own] = true
	return own
}

// letters counts A, B … Z, AA, AB …
func letters(n int) string {
	s := ""
	for ; n >= 0; n = n/26 - 1 {
		s = string(rune('A'+n%26)) + s
	}
	return s
}

// at returns a pulse of the list as one of the section, from 1. ok is false where the
// section has none there, as in its pickup.
func (w *writer) at(f Found, pulse int64) (at int64, ok bool) {
	at, whole := f.List.Pulse.Span().Times(pulse).Over(w.pulse.Span()).IsWhole()
	return at + 1 - w.before, whole && at >= w.before
}

// stretch writes what one stretch plays.
func (w *writer) stretch(f Found, d *Description, k int) (body string, ok bool) {
	s := d.Stretches[k]
	var b strings.Builder
	entry := func(key, value string) { b.WriteString(foldEntry("    "+key+": ", value)) }
	last := k+1 == len(d.Stretches)
	if s.Groups == nil {
		b.WriteString(f.line(s.At, s.Until))
	} else {
		if len(s.Groups) > mostGroups || slices.ContainsFunc(s.Groups, func(i Item) bool { return i.Size > mostSize }) {
			return "", false
		}
		groups, ok := s.groupsText()
		if !ok {
			return "", false
		}
		entry("groups", groups)
		switch d.Strike {
		case Short:
			entry("strike", "short")
		case All:
			entry("strike", "all")
		}
	}
	at, sayable := w.at(f, s.At)
	late, early := w.begins(f, s.At)
	switch {
	case k > 0 && !sayable:
		return "", false
	case k > 0:
		entry("enters", "pulse "+strconv.FormatInt(at, 10))
	case s.Groups == nil: // a line begins with the pickup anyway
		late = s.At
	case early:
		entry("enters", "pickup")
	}
	if k == 0 && late > 0 {
		entry("offset", strconv.FormatInt(late, 10))
	}
	if s.Groups == nil {
		return b.String(), true
	}
	if series := f.stretchPitches(s); series != "" {
		entry("pitches", series)
		if !s.byCycle && strings.Contains(series, " ") {
			entry("restart", "never")
		}
	}
	if at, whole := w.at(f, s.Until); !last && whole {
		entry("leaves", "pulse "+strconv.FormatInt(at, 10))
	} else if at, must, ok := w.leaves(f, d); last && must {
		if !ok {
			return "", false
		}
		entry("leaves", at)
	} else if !last {
		return "", false
	}
	if s.isListed() {
		return b.String(), true
	}
	if s.Process != nil {
		entry("process", ruleText(s.Process, false))
	}
	if len(s.spec) > 0 {
		b.WriteString("    except:\n")
	}
	for n := range s.turns {
		if items, differs := s.spec[n+1]; differs {
			fmt.Fprintf(&b, "      - {cycle: %d, groups: %s}\n", n+1, GroupsText(items))
		}
	}
	return b.String(), true
}

// isListed reports whether a process must be written as a list of its cycles: where
// the first attack of one is missing, it and the one before are one of a spec's cycles,
// and those that follow would be counted otherwise; so too where all of one is left out.
func (s *Stretch) isListed() bool {
	none := func(t turn) bool { return len(t.items) == 0 }
	return s.byCycle || s.Process != nil && (len(s.turns) != s.Cycles || slices.ContainsFunc(s.turns, none))
}

// groupsText writes the loop, the first cycle of a process, or all its cycles. ok is
// false when these are too many.
func (s *Stretch) groupsText() (text string, ok bool) {
	if !s.isListed() {
		return GroupsText(s.Groups), true
	}
	if len(s.turns) > mostListed {
		return "", false
	}
	var texts []string
	for _, t := range s.turns {
		switch text := GroupsText(t.items); len(t.items) {
		case 0:
		case 1:
			texts = append(texts, text+"x1") // a list of bare numbers is one cycle
		default:
			texts = append(texts, text)
		}
	}
	return "[" + strings.Join(texts, ", ") + "]", true
}

// stretchPitches writes the pitches of a stretch cycle by cycle or as they come, the
// shortest round of them; "" when the layer has none.
func (f Found) stretchPitches(s Stretch) string {
	switch {
	case f.Instrument == "" || f.Bare:
		return ""
	case s.byCycle:
		return f.pitchesByCycle(s)
	}
	var chords []int
	for _, h := range f.List.Hits {
		if h.At >= s.At && h.At < s.Until {
			chords = append(chords, h.Chord)
		}
	}
	if own, ok := ownSeries(chords); ok {
		chords = chords[:own]
	}
	return f.chords(chords)
}

// pitchesByCycle writes the pitches that each cycle of a stretch has.
func (f Found) pitchesByCycle(s Stretch) string {
	texts := make([]string, len(s.turns))
	for i, t := range s.turns {
		var chords []int
		for _, h := range f.List.Hits[t.first:t.next] {
			chords = append(chords, h.Chord)
		}
		texts[i] = f.chords(chords)
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

// planText writes the plan of a section that lasts until end: meters, the marks of
// stretches, and what cannot be written otherwise; "" when there is nothing.
func (w *writer) planText() string {
	var b strings.Builder
	b.WriteString(w.plan.changes(w.end))
	if w.plan.Swing != "" {
		fmt.Fprintf(&b, "  - {at: pulse 1, text: %s}\n", strconv.Quote("swung "+w.plan.Swing))
	}
	for i, m := range w.marksInOrder() {
		fmt.Fprintf(&b, "  - {at: pulse %d, mark: %s, text: %s}\n", m.pulse, letters(i+1), strconv.Quote(m.text))
	}
	if b.Len() == 0 {
		return ""
	}
	return "\nplan:\n" + b.String()
}

// marksInOrder returns the marks, those of one moment as one.
func (w *writer) marksInOrder() []planMark {
	slices.SortStableFunc(w.marks, func(a, b planMark) int { return cmp.Compare(a.pulse, b.pulse) })
	var all []planMark
	for _, m := range w.marks {
		if n := len(all); n > 0 && all[n-1].pulse == m.pulse {
			if all[n-1].text != m.text {
				all[n-1].text += "; " + m.text
			}
			continue
		}
		all = append(all, m)
	}
	return all
}
