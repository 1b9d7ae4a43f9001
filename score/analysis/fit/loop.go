package fit

import (
	"tieover/score"
	"tieover/score/beat"
)

// Loop is the loop of a section's only layer, and the bars of the section that it
// is to fill.
type Loop struct {
	Section *score.Section
	Pulse   beat.Pulse // what groups and lengths count
	Unit    beat.Time  // how long that is
	Groups  []int
	Blank   []bool // which of them are silent
	Length  int    // of a cycle
	Total   int    // pulses in the bars, rounded down
	Even    bool   // the bars are a whole number of pulses
}

// LoopOf returns the loop of a settled section's first layer.
func LoopOf(s *score.Section) Loop {
	layer := s.Layers[0]
	l := Loop{Section: s, Pulse: layer.Pulse, Unit: layer.Unit, Total: int(s.Length / layer.Unit), Even: s.Length%layer.Unit == 0}
	for _, item := range layer.Patterns[0].Groups {
		l.Groups = append(l.Groups, item.Size)
		l.Blank = append(l.Blank, item.Blank)
		l.Length += item.Size
	}
	return l
}

// Cut returns what is left of the loop at the end of the bars, in ticks.
func (l Loop) Cut() Cut {
	ticks := make([]int, len(l.Groups))
	for i, g := range l.Groups {
		ticks[i] = g * int(l.Unit)
	}
	return Truncate(ticks, int(l.Section.Length))
}

// Clean is a number of whole cycles that fill a number of bars.
type Clean struct{ Cycles, Bars int }

// CleanReach is how many bars are looked at for whole cycles that end on a barline.
const CleanReach = 100_000

// Clean returns the first three places where whole cycles end on a barline, and
// those around the end of the bars that are to be filled.
func (l Loop) Clean() []Clean {
	cycle := beat.Time(l.Length) * l.Unit
	var all []Clean
	at := beat.Time(0)
	for bar := 1; bar <= CleanReach && (len(all) < 3 || at <= l.Section.Length); bar++ {
		at += l.Section.Grid.Must(l.Section.Meter[(bar-1)%len(l.Section.Meter)].Span())
		if at%cycle == 0 {
			all = append(all, Clean{int(at / cycle), bar})
		}
	}
	if len(all) > 4 { // the first, and the last ones, which surround the end
		all = append(all[:1:1], all[len(all)-3:]...)
	}
	return all
}

// Stretch is the last bars of a section, over which any statement is tried.
type Stretch struct{ Bars, Pulses int }

// Stretches returns the last bar, the last two and the last four, as far as there are so
// many and they are a whole number of pulses.
func (l Loop) Stretches() []Stretch {
	var all []Stretch
	count := l.Section.BarCount()
	for _, bars := range []int{1, 2, 4} {
		if bars > count {
			break
		}
		if length := l.Section.Length - l.Section.Bar(count-bars+1).Start; length%l.Unit == 0 {
			all = append(all, Stretch{bars, int(length / l.Unit)})
		}
	}
	return all
}
