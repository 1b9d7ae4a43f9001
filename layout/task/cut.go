package task

import (
	"fmt"
	"slices"

	"tieover/layout"
	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// cut asks where a loop must be cut so that it starts again on a given
// barline.
func (m *setter) cut(s *score.Section) (Exercise, string) {
	type place struct{ layer, bars int }
	var able []place
	needs := []lack{notLooping, notAudible, notRegular}
	loops := serving(s, needs...) // they could be cut if they crossed a barline
	for _, i := range loops {
		l := s.Layers[i]
		cycle := l.Unit * beat.Time(score.CountPulses(shortestLoop(l.Patterns[0].Groups))) // 3+3 cut after a 3 would sound the same
		long := m.excerptOf(s, []int{i}, score.LengthRule{Kind: score.Bars, N: int64(4 * m.level)}, letRun)
		if long == nil {
			continue
		}
		for bars := 2; bars <= 4*m.level; bars++ {
			end := barline(long.Sections[0], bars)
			if end > cycle && end%cycle != 0 && end%l.Unit == 0 && (l.Loop != score.CutBars || bars != l.CutEvery) {
				able = append(able, place{i, bars})
			}
		}
	}
	if len(able) == 0 {
		if len(loops) > 0 {
			return Exercise{}, fmt.Sprintf("no loop goes round within %d bars and is cut by a barline after that", 4*m.level) + m.nextLevel()
		}
		return Exercise{}, reasonsFor(s, "it needs a loop of two groups or more, each struck once", needs...)
	}
	if late := slices.DeleteFunc(slices.Clone(able), func(p place) bool { return p.bars <= 4*(m.level-1) }); len(late) > 0 {
		able = late // each level cuts in bars of its own
	}
	chosen := able[m.random.IntN(len(able))]
	m.printed.addBarred(s, chosen.layer)
	return m.cutAt(s, chosen.layer, chosen.bars)
}

// nextLevel says what more bars might allow.
func (m *setter) nextLevel() string {
	if m.level == 3 {
		return "; a loop that does not fill whole bars would serve"
	}
	return fmt.Sprintf("; --level %d looks further, and a loop that does not fill whole bars would serve", m.level+1)
}

// letRun lets a loop run on from bar 1 that the spec may cut.
func letRun(l *score.Layer) {
	fromBar1(l)
	l.Loop, l.CutEvery = score.Run, 0
}

func (m *setter) cutAt(s *score.Section, layer, bars int) (Exercise, string) {
	rule := score.LengthRule{Kind: score.Bars, N: int64(bars + 1)}
	given := m.excerptOf(s, []int{layer}, rule, letRun)
	solved := m.excerptOf(s, []int{layer}, rule, func(l *score.Layer) {
		fromBar1(l)
		l.Loop, l.CutEvery = score.CutBars, bars
	})
	if given == nil || solved == nil {
		return Exercise{}, m.cannot()
	}
	section := solved.Sections[0]
	l := section.Layers[0]
	e := Exercise{Title: "Cut the loop",
		Prompt: fmt.Sprintf("%s repeats a loop of %s in %s; every attack begins a group. It must start again on the barline of "+
			"bar %d, so one cycle is cut short. Say which, and where.",
			l.Name, beat.CountOf(int64(score.CountPulses(l.Patterns[0].Groups)), l.Pulse, beat.American), section.Meter, bars+1),
		Blanks: []string{"whole cycles: ____", "pulses of the cut cycle that sound: ____ of ____", "the cut falls: ______________________________"},
	}
	e.Answer = cutAnswer(l, barline(section, bars))
	e.Given = View{Piece: given, From: 1, To: bars + 1, Hide: rows.HideLabels | m.hideStarts()}
	e.Solution = View{Piece: solved, From: 1, To: bars + 1, Hide: rows.HideLabels}
	e.Given.Sheet = withoutHints(unbeamed(layOut(given, unmarkedOptions)))
	e.Solution.Sheet = layOut(solved, layout.Options{})
	return e, ""
}

// cutAnswer says how much of the loop sounds before the given moment.
func cutAnswer(l *score.Layer, end beat.Time) []string {
	groups := l.Patterns[0].Groups
	cycle := score.CountPulses(groups)
	all := int(end / l.Unit)
	left := all % cycle
	answer := []string{
		fmt.Sprintf("whole cycles: %d", all/cycle),
		fmt.Sprintf("pulses of the cut cycle that sound: %d of %d", left, cycle),
	}
	for i, g := range groups {
		switch {
		case left > g.Size:
			left -= g.Size
			continue
		case left == g.Size:
			return append(answer, fmt.Sprintf("the cut falls: after group %d", i+1))
		}
		return append(answer, fmt.Sprintf("the cut falls: in group %d, after %d of its %d pulses", i+1, left, g.Size))
	}
	panic("task: a cut beyond its cycle")
}

// barline is the moment after so many bars of the section's meter.
func barline(s *score.Section, bars int) beat.Time { return s.Bar(bars).End() }
