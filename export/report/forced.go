package report

import (
	"fmt"

	"tieover/score"
	"tieover/score/beat"
)

// cutLayers lists the layers of the set whose loops are cut.
func (t *text) cutLayers() (layers []int) {
	for _, i := range t.s.Set {
		if t.s.Layers[i].Loop == score.CutBars {
			layers = append(layers, i)
		}
	}
	return layers
}

// forcing says, where loops of the set are cut, what comes together at the cuts
// and what would without them. ok is false where none is.
func (t *text) forcing(set []string) (ok bool) {
	layers := t.cutLayers()
	if layers == nil {
		return false
	}
	for _, i := range layers {
		t.item(t.atCuts(i))
	}
	if m, ok := t.s.MeetUncut(); ok {
		t.item(t.meetUncut(m))
	}
	if t.f.Together.First == nil {
		t.item(beat.Listed(set, "and") + notAgain + ".")
	}
	if t.s.EveryBar() {
		t.item(t.unmarked())
	}
	return true
}

// atCuts says at which of its cuts a layer begins together with all others.
func (t *text) atCuts(layer int) string {
	l := t.s.Layers[layer]
	bars := count(l.CutEvery, "bar")
	if l.CutEvery == 1 {
		bars = "bar"
	}
	sentence := fmt.Sprintf("%s is cut every %s", l.Name, bars)
	all, met, forced, regular := t.countCuts(l)
	how := "."
	if forced == met {
		how = ", forced."
	}
	switch {
	case all == 0:
		return sentence + ", but the section is over before."
	case met == 0:
		return sentence + "; at none of its cuts in the section do all begin together."
	case met == all && len(t.s.Set) == 1:
		return sentence + ": it begins with the barline there" + how
	case met == all:
		return sentence + ": all begin together there" + how
	case regular > 0:
		return fmt.Sprintf("%s; at every %s cut all begin together.", sentence, ordinal(regular))
	}
	return fmt.Sprintf("%s; at %d of its %d cuts in the section all begin together.", sentence, met, all)
}

// countCuts counts the barlines in the section at which a layer is cut, those of
// them at which all begin together, and those where a cut inside a cycle makes
// it so; regular is which one in turn that is, 0 where it is not the same.
func (t *text) countCuts(l *score.Layer) (all, met, forced, regular int) {
	all = t.barsBefore(t.s.Length) / l.CutEvery
	for r := range t.s.RealignmentTimes() {
		if r.Index == 0 || !r.OnBarline {
			continue
		}
		bars := t.barsBefore(r.Time)
		if bars%l.CutEvery != 0 {
			continue
		}
		met++
		if r.Forced() {
			forced++
		}
		if k := bars / l.CutEvery; met == 1 {
			regular = k
		} else if k != met*regular {
			regular = 0
		}
	}
	return all, met, forced, regular
}

// barsBefore is how many whole bars of the meter there are before a moment
// after the start.
func (t *text) barsBefore(at beat.Time) int {
	bar := t.s.BarAt(at - 1)
	if t.s.OnBarline(at) {
		return bar.N
	}
	return bar.N - 1
}

// meetUncut says when the set would come together without the cuts.
func (t *text) meetUncut(m score.Meeting) string {
	switch {
	case m.Never:
		return "Uncut they would never begin together."
	case m.First.Cmp(m.Period) == 0:
		return fmt.Sprintf("Uncut they would begin together every %s = %s.", t.lcm(m.Lengths), t.long(m.Period))
	}
	return fmt.Sprintf("Uncut they would begin together first after %s.", t.long(m.First))
}

// ordinal writes "second", "fifth", "12th".
func ordinal(n int) string {
	words := []string{"", "", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}
	if n < len(words) {
		return words[n]
	}
	return beat.Ordinal(int64(n))
}
