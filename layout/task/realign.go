package task

import (
	"fmt"
	"slices"
	"strings"

	"tieover/layout"
	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// realign asks where all layers of the realigning set begin together again.
// The excerpt goes on past the last of these moments and stops before the next,
// so that its end gives nothing away; only a bar that holds several may ask for more
// than the level says.
func (m *setter) realign(s *score.Section) (Exercise, string) {
	most := 4 << m.level
	wanted := m.level
	var last beat.Time
	found := 0
	for r := range s.Realignments() {
		if !r.Apart { // the start, or one in every bar
			continue
		}
		if s.BarAt(r.Time).N > most || found == wanted {
			break
		}
		last = r.Time
		found++
	}
	if found == 0 {
		return Exercise{}, m.noRealignment(s, most)
	}
	var piece *score.Piece
	bars := s.BarAt(last).N + 2 + m.random.IntN(2)
	for piece == nil || len(realignmentsInside(piece.Sections[0])) > found && bars > s.BarAt(last).N {
		bars--
		if piece = m.excerpt(s, s.Set, score.LengthRule{Kind: score.Bars, N: int64(bars)}); piece == nil {
			return Exercise{}, m.cannot()
		}
	}
	section := piece.Sections[0]
	if m.printed.givesAway(s, s.Set, section, 0, section.Length) {
		return Exercise{}, "it prints the cycle of " + m.printed.asked.name + " that is to be written; " + hintOnly(Realign)
	}
	m.printed.addBarred(s, s.Set...)
	e := Exercise{Title: "Mark the realignments", Prompt: realignPrompt(section)}
	for i, l := range section.Layers {
		e.Prompt += fmt.Sprintf(" %s %s.", score.LayerLetter(i), loopInWords(l))
	}
	for _, r := range realignmentsInside(section) {
		e.Blanks = append(e.Blanks, fmt.Sprintf("%d. bar ____ beat ____", r.Index))
		e.Answer = append(e.Answer, fmt.Sprintf("%d. %s: %s", r.Index, placeInWords(section, r.Time), cyclesInWords(section, r)))
	}
	from := section.FirstN()
	e.Given = View{Piece: piece, From: from, To: bars, Hide: rows.HideLabels | rows.DropTogether | rows.HideStarts | rows.HideGroups | m.hideCycles(section)}
	e.Solution = View{Piece: piece, From: from, To: bars}
	e.Given.Sheet = withoutHints(unbeamed(layOut(piece, unmarkedOptions)))
	e.Solution.Sheet = layOut(piece, layout.Options{})
	return e, ""
}

// noRealignment says when the first realignment comes instead, and which level
// looks as far.
func (m *setter) noRealignment(s *score.Section, most int) string {
	switch {
	case len(s.Set) == 0:
		return reasonsFor(s, "it needs layers whose loops play from start to end", notThrough)
	case s.Together().Never:
		return "the loops never begin together; another offset, or loops of other lengths, would serve"
	}
	why := fmt.Sprintf("no realignment lies within %d bars", most)
	for r := range s.Realignments() {
		n := s.BarAt(r.Time).N
		if !r.Apart {
			continue
		}
		why += fmt.Sprintf("; the first is in bar %d", n)
		for level := m.level + 1; level <= 3; level++ {
			other := newSetter(m.p, Options{Seed: m.seed, Level: level}, Realign, newPrinted(m.p))
			if _, refusal := other.make(Realign); n <= 4<<level && refusal == "" {
				return why + fmt.Sprintf(", which --level %d asks for", level)
			}
		}
		return why + "; loops that meet sooner would serve"
	}
	if s.EveryBar() {
		return "the loops meet in every bar; loops that drift apart for longer would serve"
	}
	return why + ", nor elsewhere in the section; a longer one, or loops that meet sooner, would serve"
}

// realignmentsInside lists the realignments after a section's start and before its end.
func realignmentsInside(s *score.Section) []score.Realignment {
	var list []score.Realignment
	for r := range s.Realignments() {
		if r.Index > 0 && r.Time < s.Length {
			list = append(list, r)
		}
	}
	return list
}

// hideCycles hides where cycles start above level 1, if they are all alike: then
// a student can count them.
func (m *setter) hideCycles(s *score.Section) rows.Hiding {
	if slices.ContainsFunc(s.Layers, changes) {
		return 0
	}
	return m.hideStarts()
}

func realignPrompt(s *score.Section) string {
	atStart := false
	for r := range s.Realignments() {
		atStart = r.Index == 0
		break
	}
	switch {
	case len(s.Set) == 1 && atStart:
		return "The loop begins on the barline of bar 1. Mark every place where it begins on a barline again."
	case len(s.Set) == 1:
		return "Mark every place where the loop begins on a barline."
	case atStart:
		start := "at the start"
		if s.Opening() < 0 {
			start = "in bar 1"
		}
		return "All players begin their loops together " + start + ". Mark every place where all of them begin together again."
	}
	return "Mark every place where all players begin their loops together."
}

// changes reports whether the cycles of a layer are not all alike.
func changes(l *score.Layer) bool {
	return len(l.Process) > 0 || len(l.Patterns) > 1 || len(l.Except) > 0
}

// loopInWords says how long a loop is, not how it is grouped, which may be asked for, and
// that it does not stay the same.
func loopInWords(l *score.Layer) string {
	text := beat.CountOf(int64(score.CountPulses(l.Patterns[0].Groups)), l.Pulse, beat.American)
	if changes(l) {
		return "begins with a loop of " + text + ", which changes from cycle to cycle"
	}
	return "plays a loop of " + text + cutWords(l)
}

// cutWords says when a loop starts over by its own rule.
func cutWords(l *score.Layer) string {
	switch {
	case l.Loop != score.CutBars:
		return ""
	case l.CutEvery == 1:
		return " and starts over in every bar"
	}
	return fmt.Sprintf(" and starts over every %d bars", l.CutEvery)
}

// placeInWords says where a moment is, with the count of pulses that leads there.
func placeInWords(s *score.Section, t beat.Time) string {
	text := s.Where(t).ASCII()
	if n, whole := s.Grid.Span(t).Over(s.Pulse.Span()).IsWhole(); whole {
		text += ", after " + beat.CountOf(n, s.Pulse, beat.American)
	}
	return text
}

// cyclesInWords says how often each layer of the set has gone round.
func cyclesInWords(s *score.Section, r score.Realignment) string {
	parts := make([]string, len(s.Set))
	for i, layer := range s.Set {
		parts[i] = fmt.Sprintf("%s begins its cycle %d", score.LayerLetter(layer), r.Cycles[i])
	}
	for _, layer := range r.Cut {
		parts = append(parts, "for "+score.LayerLetter(layer)+" is cut")
	}
	return strings.Join(parts, ", ")
}
