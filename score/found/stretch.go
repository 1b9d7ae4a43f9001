package found

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tieover/score/find"
	"tieover/score/process"
)

// stretches writes a layer for each stretch, all of one player. ok is false when a spec
// cannot say one, and for the bare list.
func (w *writer) stretches(f Layer, d *find.Description) (layers string, ok bool) {
	if d.Literal || d.Stretches[0].At > mostOffset {
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
	var t loopText
	if s.Groups == nil {
		e.WriteString(f.line(s.At, s.Until))
	} else {
		if t, ok = w.loopText(f, d, s); !ok {
			return "", false
		}
		e.add(t.key, t.cycles)
		if t.key != "box" {
			e.addStrike(s.Strike)
		}
	}
	late, early := w.begins(f, s.At)
	switch {
	case k > 0:
		at, ok := w.at(f, s.At)
		if !ok {
			return "", false
		}
		e.add("enters", fmt.Sprintf("pulse %d", at))
	case s.Groups == nil:
		e.addBeginning(s.At, false) // a line begins with the pickup anyway
	default:
		e.addBeginning(late, early)
	}
	if s.Groups == nil {
		return e.String(), true
	}
	if s.CutEvery > 0 {
		bars, ok := w.bars(f.List.Pulse.Span().Times(s.CutEvery))
		if !ok || late > 0 || early {
			return "", false
		}
		e.add("loop", "cut every "+bars)
	}
	if d.IsExact() && !t.listed {
		e.addProcess(s)
	}
	if t.pitches != "" {
		e.addPitches(t.pitches, t.endless)
	}
	leaves, ok := w.leaves(f, d)
	if k+1 < len(d.Stretches) {
		var at int64
		at, ok = w.at(f, s.Until)
		leaves = fmt.Sprintf("pulse %d", at)
	}
	if leaves != "" {
		e.add("leaves", leaves)
	}
	if !t.listed {
		if !d.IsExact() {
			e.addProcess(s)
		}
		e.addExceptions(s, f.otherPitches(d))
	}
	return e.String(), ok
}

// loopText is how a spec says a loop.
type loopText struct {
	key     string // groups or box
	cycles  string
	listed  bool   // the cycles are written one by one, and so without the process
	pitches string // "" for none
	endless bool   // these do not start over with each cycle
}

// loopText says the loop of a stretch. ok is false when a spec cannot.
func (w *writer) loopText(f Layer, d *find.Description, s *find.Stretch) (t loopText, ok bool) {
	if !fitsCycle(s.Groups) {
		return t, false
	}
	if t.key = "groups"; !d.IsExact() {
		if f.hasPitches() && d.Series != nil {
			t.pitches = f.stretchSeries(d, s)
			t.endless = !s.ByCycle && d.Series.Own && strings.Contains(t.pitches, " ")
		}
		t.listed = isListed(s)
		t.cycles, ok = groupsText(s)
		return t, ok
	}
	usesUp := func(r process.Rule) bool { return r.Kind == process.Grow && r.By < 0 }
	if t.pitches, ok = f.series(d); !ok || s.Spent && slices.ContainsFunc(s.Process, usesUp) {
		return t, false
	}
	t.endless = t.pitches != "" && d.Series.Own && len(d.Series.Chords) > 1
	switch t.listed = s.Reset > 0 && !w.until; {
	case s.Melody != nil:
		t.cycles, t.pitches, ok = f.melodyCycles(s)
	case t.listed && s.Has(process.Shift):
		t.key = "box"
		t.cycles, t.pitches, ok = f.boxCycles(s, d.Series, t.pitches)
	case t.listed:
		t.cycles, t.pitches, ok = f.listCycles(s, d.Series, t.pitches)
	default:
		t.cycles = find.GroupsText(s.Groups)
	}
	return t, ok
}

// otherPitches writes the pitches of the cycles, from 0, that do not have the series'.
func (f Layer) otherPitches(d *find.Description) map[int]string {
	if d.Series == nil || !f.hasPitches() {
		return nil
	}
	texts := map[int]string{}
	for _, c := range d.Series.Others {
		texts[c.Turn] = f.chords(c.Chords)
	}
	return texts
}

// addExceptions writes the cycles that differ, in groups or in pitches.
func (e *entries) addExceptions(s *find.Stretch, pitches map[int]string) {
	key := "    except:\n"
	for i := range s.Cycles {
		text := ""
		if i < len(s.Turns) && s.Turns[i].Differs {
			text = ", groups: " + find.GroupsText(s.Turns[i].Groups)
		}
		if other, ok := pitches[i]; ok {
			text += ", pitches: " + other
		}
		if text != "" {
			fmt.Fprintf(e, "%s      - {cycle: %d%s}\n", key, i+1, text)
			key = ""
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
// false when these are too many.
func groupsText(s *find.Stretch) (text string, ok bool) {
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

// stretchSeries writes the pitches of a stretch: one series for all cycles, cycle by cycle, or
// as they come, the shortest round of them.
func (f Layer) stretchSeries(d *find.Description, s *find.Stretch) string {
	switch {
	case !s.ByCycle && !d.Series.Own:
		return f.chords(d.Series.Chords)
	case !s.ByCycle:
		return f.chords(f.List.SeriesBetween(s.At, s.Until))
	}
	cycles := make([]string, len(s.Turns))
	for i, t := range s.Turns {
		cycles[i] = f.hitChords(f.List.Hits[t.First:t.Next])
	}
	return listText(cycles)
}
