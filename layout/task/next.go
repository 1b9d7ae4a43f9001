package task

import (
	"fmt"
	"slices"
	"strconv"

	"tieover/layout"
	"tieover/layout/rows"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/process"
)

// next shows the first cycles of a layer that a process changes, and asks for
// the one after them.
func (m *setter) next(s *score.Section) (Exercise, string) {
	var able []int
	why := "no layer has a process; one that grows, turns, shifts or runs backwards would serve"
	for i, l := range s.Layers {
		if len(l.Process) == 0 {
			continue
		}
		switch missing := lacks(l, slices.Concat(steady, []lack{notFromTheStart})...); {
		case rows.Of(s, nil).Finest(i) < l.Unit:
			why = l.Name + " has attacks between its pulses; figures of whole pulses would serve"
		case len(l.Patterns) > 1:
			why = l.Name + " takes several groupings in turn and changes as well; one grouping would serve"
		case missing != "":
			why = l.Name + " has a process but " + missing + "; one that is uncut and has no exceptions would serve"
		default:
			able = append(able, i)
		}
	}
	if len(able) == 0 {
		return Exercise{}, why
	}
	for _, k := range m.random.Perm(len(able)) {
		var cycles []score.Cycle
		l := s.Layers[able[k]]
		if cycles, why = firstCycles(s, able[k], shownCycles(l)+1); why != "" {
			why = l.Name + " " + why
			continue
		}
		for comesBack(cycles, l.Unit) && len(cycles) > 3 { // 3+2+2 turned three times is itself
			cycles = cycles[:len(cycles)-1]
		}
		if comesBack(cycles, l.Unit) {
			why = fmt.Sprintf("cycle %d of %s is one of those before it again; a loop of more groups would serve", len(cycles), l.Name)
			continue
		}
		e := m.nextOf(s, able[k], cycles)
		m.printed.asked = &asked{l, l.Name, groupsOf(&cycles[len(cycles)-1], l)}
		for _, row := range e.Given.Rows {
			m.printed.words = append(m.printed.words, row.Tail)
		}
		return e, ""
	}
	return Exercise{}, why
}

// comesBack reports whether the last cycle has the groups and attacks of one
// before it, so that the sheet has its answer already.
func comesBack(cycles []score.Cycle, unit beat.Time) bool {
	alone := func(i int) []string { return cycleRows(cycles[i:i+1], unit)[0] }
	last := len(cycles) - 1
	for i := range last {
		if slices.Equal(alone(i), alone(last)) {
			return true
		}
	}
	return false
}

// nextOf asks for the last of a layer's first cycles.
func (m *setter) nextOf(s *score.Section, layer int, cycles []score.Cycle) Exercise {
	l := s.Layers[layer]
	known := len(cycles) - 1
	place, blank := "", "____________" // of the first group
	if isShifted(l) {
		place, blank = ", from the pulse on which the first begins", blank+" from pulse ____"
	}
	e := Exercise{Title: "Write the next cycle",
		Prompt: fmt.Sprintf("Here are the first %d cycles of %s, which change by a rule. "+
			"Find the rule and write cycle %d: its groups%s, and its row.", known, l.Name, known+1, place)}
	for i, signs := range cycleRows(cycles, l.Unit) {
		c := &cycles[i]
		row := Row{Head: fmt.Sprintf("cycle %d", i+1), Signs: signs}
		if m.level == 1 || i == known {
			row.Tail = groupsOf(c, l)
		}
		e.Solution.Rows = append(e.Solution.Rows, row)
		if i == known {
			row = Row{Head: row.Head, Tail: "____________________"}
		}
		e.Given.Rows = append(e.Given.Rows, row)
	}
	e.Blanks = []string{fmt.Sprintf("groups of cycle %d: %s", known+1, blank)}
	e.Answer = []string{fmt.Sprintf("groups of cycle %d: %s", known+1, groupsOf(&cycles[known], l))}
	if laid := m.cycleBars(s, layer, cycles); laid != nil {
		e.Solution.Sheet = withoutHints(laid)
		e.Given.Sheet = withoutNext(s.Grid, e.Solution.Sheet, known)
	}
	return e
}

// withoutNext is the sheet as the student gets it: signatures that give away no
// groups, and after the known cycles a blank bar that looks as long as the last
// of them, so that it gives away no length either.
func withoutNext(grid beat.Grid, laid *sheet.Sheet, known int) *sheet.Sheet {
	var before *sheet.Measure // of the bar before
	return mapBars(laid, func(_ int, b *sheet.Bar) bool {
		m := *b.Measure
		if b.Number > known {
			m = *before
			m.Voices = blankVoices(m.Length)
		} else {
			m.Signature = score.PlainSignature(counts(grid.Span(m.Length), finest(m.Signature)))
		}
		b.NewMeter = b.Number == 1 || m.Length != before.Length
		b.Measure, before = &m, &m
		return true
	})
}

// finest is the finest note value that a signature counts.
func finest(s score.Signature) int {
	unit := 1
	for _, t := range s.Terms {
		unit = max(unit, t.Unit)
	}
	return unit
}

// shownCycles is how many cycles show what a layer's processes do: three, and
// two changes of the slowest.
func shownCycles(l *score.Layer) int {
	shown := 3
	for _, p := range l.Process {
		shown = max(shown, 2*p.After+1)
	}
	return shown
}

// firstCycles returns a layer's first n cycles if they are all whole and its
// processes do not start over among them.
func firstCycles(s *score.Section, layer, n int) ([]score.Cycle, string) {
	if n > 13 {
		return nil, "changes too slowly to be shown; a change after each five cycles or fewer would serve"
	}
	var cycles []score.Cycle
	for c := range s.Cycles(layer) {
		if c.Cut != score.NotCut || c.Landing {
			break
		}
		if c.Number == 1 && len(cycles) > 0 && s.Layers[layer].Until == score.UntilRealignment {
			return nil, "starts its process over before its rule can be told; a realignment that comes later, or a process that no realignment starts over, would serve"
		}
		if c.Length/s.Layers[layer].Unit > 64 {
			return nil, "has cycles too long to be shown; cycles of 64 pulses or fewer would serve"
		}
		cycles = append(cycles, *c)
		if len(cycles) == n {
			return cycles, ""
		}
	}
	return nil, fmt.Sprintf("has not the %d whole cycles that it takes; a longer section would serve", n)
}

// cycleRows writes cycles that follow one another pulse by pulse, as a chart does.
func cycleRows(cycles []score.Cycle, unit beat.Time) (all [][]string) {
	sounds := cycles[0].Start // when what was last struck stops, in section time
	count := 0                // pulse of its group that it was last in
	for _, c := range cycles {
		var cells []string
		attacks, group := c.Attacks, 0
		for t := beat.Time(0); t < c.Length; t += unit {
			for group+1 < len(c.Groups) && c.Groups[group+1].At <= t {
				group++
			}
			switch hit := len(attacks) > 0 && attacks[0].At == t; {
			case hit:
				cells = append(cells, map[rows.Sign]string{rows.Cycle: "X", rows.Group: "x", rows.Inner: "o"}[rows.StruckAs(&c, group, t)])
				sounds, count = c.Start+t+attacks[0].Length, rows.Counted(c.Groups, group, t, unit)
				attacks = attacks[1:]
			case c.Start+t >= sounds:
				cells = append(cells, ".")
			default:
				if count++; !c.Groups[group].Tail { // else it was struck in the cycle before
					count = rows.Counted(c.Groups, group, t, unit)
				}
				cells = append(cells, strconv.Itoa(count%10))
			}
		}
		all = append(all, cells)
	}
	return all
}

// groupsOf writes the groups of a cycle in the order in which they begin, and in a
// layer that a process shifts the pulse on which the first does: the sizes alone
// may be those of the cycle before.
func groupsOf(c *score.Cycle, l *score.Layer) string {
	whole := rows.Whole(c.Groups, l.Unit)
	text := rows.Sizes(whole, len(c.Groups))
	if !isShifted(l) {
		return text
	}
	return fmt.Sprintf("%s from pulse %d", text, whole[0].At/l.Unit+1)
}

// isShifted reports whether a process moves the groups of a layer inside its cycles.
func isShifted(l *score.Layer) bool {
	return slices.ContainsFunc(l.Process, func(p score.Process) bool { return p.Kind == process.Shift })
}

// cycleBars writes the cycles with a barline after each; nil when the section's
// pulse does not divide them or they cannot be written so.
func (m *setter) cycleBars(s *score.Section, layer int, cycles []score.Cycle) *sheet.Sheet {
	length := cycles[len(cycles)-1].End() - cycles[0].Start
	pulses, whole := s.Grid.Span(length).Over(s.Pulse.Span()).IsWhole()
	if !whole {
		return nil
	}
	piece := m.excerptOf(s, []int{layer}, score.LengthRule{Kind: score.Pulses, N: pulses}, func(l *score.Layer) {
		fromBar1(l)
		l.Until = score.UntilNever // alone it realigns elsewhere
	})
	o := unmarkedOptions
	o.Barring = layout.Barring{View: layout.ByLayer, Layer: s.Layers[layer].Name}
	laid := layOut(piece, o)
	if laid == nil || laid.Bars != len(cycles) {
		return nil
	}
	return laid
}
