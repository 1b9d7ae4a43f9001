package found

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tieover/score/find"
)

// stretches writes a layer for each stretch, all of one player. ok is false when
// a spec cannot say one.
func (w *writer) stretches(f Layer, d *find.Description) (layers string, ok bool) {
	if d.Lead > mostOffset {
		return "", false
	}
	var b strings.Builder
	var marks []planMark
	for k, s := range d.Stretches {
		part := f
		if len(d.Stretches) > 1 {
			part.Player = cmp.Or(f.Player, f.Name)
			part.Name = w.taken.Own(f.Name + " " + letters(k))
		}
		body, ok := w.stretch(part, d, k)
		if !ok {
			return "", false
		}
		b.WriteString(w.head(part) + body)
		if at, whole := w.at(f, s.At); k > 0 && whole {
			what := "free from here"
			if s.Groups != nil {
				what = find.GroupsText(s.Groups) + " from here"
			}
			marks = append(marks, planMark{at, what})
		}
	}
	w.marks = append(w.marks, marks...)
	return b.String(), true
}

// letters counts A, B … Z, AA, AB …
func letters(n int) string {
	s := ""
	for ; n >= 0; n = n/26 - 1 {
		s = string(rune('A'+n%26)) + s
	}
	return s
}

// stretch writes what one stretch plays: the first from the start, each later one from
// its pulse, all but the last until theirs.
func (w *writer) stretch(f Layer, d *find.Description, k int) (body string, ok bool) {
	s := &d.Stretches[k]
	var e entries
	if s.Groups == nil {
		e.WriteString(f.line(s.At, s.Until))
	} else {
		groups, ok := groupsText(s)
		if !ok {
			return "", false
		}
		e.add("groups", groups)
		e.addStrike(d.Strike)
	}
	if k > 0 {
		at, ok := w.at(f, s.At)
		if !ok {
			return "", false
		}
		e.add("enters", fmt.Sprintf("pulse %d", at))
	} else if late, early := w.begins(f, s.At); s.Groups != nil {
		e.addBeginning(late, early)
	} else {
		e.addBeginning(s.At, false) // a line begins with the pickup anyway
	}
	if s.Groups == nil {
		return e.String(), true
	}
	if f.hasPitches() {
		series := f.stretchSeries(s)
		e.addPitches(series, !s.ByCycle && strings.Contains(series, " "))
	}
	leaves, ok := w.leaves(f, d)
	if k+1 < len(d.Stretches) {
		var at int64
		at, ok = w.at(f, s.Until)
		leaves = fmt.Sprintf("pulse %d", at)
	}
	if !ok {
		return "", false
	}
	if leaves != "" {
		e.add("leaves", leaves)
	}
	if !isListed(s) {
		e.addExceptions(s)
	}
	return e.String(), true
}

// addExceptions writes the process of a stretch and the cycles that differ.
func (e *entries) addExceptions(s *find.Stretch) {
	if s.Process != nil {
		e.add("process", ruleText(s.Process, false))
	}
	if slices.ContainsFunc(s.Turns, func(t find.Turn) bool { return t.Differs }) {
		e.WriteString("    except:\n")
	}
	for i, t := range s.Turns {
		if t.Differs {
			fmt.Fprintf(e, "      - {cycle: %d, groups: %s}\n", i+1, find.GroupsText(t.Groups))
		}
	}
}

// isListed reports whether a process must be written as a list of its cycles: where
// the first attack of one is missing, it and the one before are one of a spec's cycles,
// and those that follow would be counted otherwise; so too where all of one is left out.
func isListed(s *find.Stretch) bool {
	none := func(t find.Turn) bool { return len(t.Groups) == 0 }
	return s.ByCycle || s.Process != nil && (len(s.Turns) != s.Cycles || slices.ContainsFunc(s.Turns, none))
}

// groupsText writes the loop, the first cycle of a process, or all its cycles. ok is
// false when a spec has no room for these.
func groupsText(s *find.Stretch) (text string, ok bool) {
	if !fitsCycle(s.Groups) {
		return "", false
	}
	if !isListed(s) {
		return find.GroupsText(s.Groups), true
	}
	var cycles []string
	for _, t := range s.Turns {
		switch text := find.GroupsText(t.Groups); len(t.Groups) {
		case 0:
		case 1:
			cycles = append(cycles, text+"x1") // a list of bare numbers is one cycle
		default:
			cycles = append(cycles, text)
		}
	}
	return listText(cycles), len(s.Turns) <= mostListed
}

// stretchSeries writes the pitches of a stretch cycle by cycle or as they come, the
// shortest round of them.
func (f Layer) stretchSeries(s *find.Stretch) string {
	if !s.ByCycle {
		return f.chords(f.List.SeriesBetween(s.At, s.Until))
	}
	cycles := make([]string, len(s.Turns))
	for i, t := range s.Turns {
		cycles[i] = f.hitChords(f.List.Hits[t.First:t.Next])
	}
	return listText(cycles)
}
