package analysis

import (
	"tieover/score"
	"tieover/score/beat"
)

// FeltBars is a section in the bars that may be felt from one of its
// layers: those of the meter, counted from the first felt downbeat.
type FeltBars struct {
	Layer    int
	Hearing  Hearing
	Downbeat beat.Time      // section time, the first that sounds
	Section  *score.Section // in these bars, see Section.Felt
}

// FeltFrom returns the bars of a layer's hearings, in the order of Hearings.
// Where there are none why says what the layer or the section lacks, in a
// sentence that goes on from the layer's name, and what would allow them.
func FeltFrom(s *score.Section, layer int) (all []FeltBars, why string) {
	l := s.Layers[layer]
	switch {
	case l.Line != nil:
		return nil, "is a free line: only a loop can be heard from another downbeat"
	case len(l.Patterns) != 1 || len(l.Process) > 0:
		return nil, "changes from cycle to cycle: a loop with one grouping and no process can be heard from another downbeat"
	case l.Loop != score.Run:
		return nil, "is cut, which tells where it begins: without its loop rule it could be heard from another downbeat"
	case !s.Steady():
		return nil, "plays in bars that are not alike: in one meter throughout they could be felt elsewhere"
	}
	hearings := hearingsOf(s, layer)
	if len(hearings) == 0 {
		return nil, "is heard as it is written: a grouping whose long groups do not come first could be heard otherwise"
	}
	for _, h := range hearings {
		switch downbeat := firstFelt(l, h); {
		case downbeat >= l.Leaves:
			why = "is over before its felt downbeat comes: a longer section has it"
		case downbeat == 0:
			why = "is felt where it is written: with another offset it would not be"
		default:
			felt, _ := s.Felt(downbeat)
			all = append(all, FeltBars{layer, h, downbeat, felt})
		}
	}
	if len(all) > 0 {
		why = ""
	}
	return all, why
}

// hearingsOf returns the hearings of a layer with one pattern.
func hearingsOf(s *score.Section, layer int) []Hearing {
	l := Layer{Index: layer, Groups: []Grouping{groupingOf(s, layer, 0)}}
	for c := range s.Cycles(layer) {
		l.Rhythm = rhythmOf(s, c)
		break
	}
	return l.Hearings()
}
