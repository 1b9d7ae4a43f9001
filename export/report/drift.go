package report

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
	"tieover/score/process"
)

// drift says how each layer moves against the barline, with a table of its
// cycles.
func (t *text) drift() {
	if !slices.ContainsFunc(t.f.Layers, func(l analysis.Layer) bool { return len(l.Drift) > 0 }) {
		return
	}
	t.heading("Drift against the barline")
	type drifting struct {
		how    string
		who    []int
		tabled bool
	}
	var all []drifting // in order of first appearance
	for i, l := range t.f.Layers {
		if len(l.Drift) == 0 {
			continue
		}
		how, tabled := t.driftOf(i, l.Drift[0])
		k := slices.IndexFunc(all, func(d drifting) bool { return d.how == how && !d.tabled })
		if k < 0 || tabled {
			all = append(all, drifting{how, []int{i}, tabled})
		} else {
			all[k].who = append(all[k].who, i)
		}
	}
	for _, d := range all {
		sentence := beat.Listed(t.names(d.who), "and") + ": " + d.how
		if d.tabled {
			t.item(sentence + t.counting(d.who[0]))
			t.steps(d.who[0], analysis.Barline)
		} else {
			t.item(sentence)
		}
	}
}

// driftOf says how a layer drifts against the bar. tabled says that its cycles are
// to be listed one by one: where it is asked for, or where the drift changes too often
// for a sentence.
func (t *text) driftOf(layer int, d analysis.Drift) (how string, tabled bool) {
	switch {
	case t.o.listed || d.Steps == 0:
		return t.drifts(layer, d), t.o.listed && moves(d)
	case t.travels(layer):
		return "moves by steps; see above.", false
	case d.Constant:
		return t.drifts(layer, d) + t.places(layer, d), false
	}
	if all, ok := t.runs(layer); ok {
		return t.inRuns(layer, all), false
	}
	return t.drifts(layer, d), true
}

// mostPlaces is up to how many places of a constant drift are named.
const mostPlaces = 16

// places names the places in the bar through which a constant drift goes.
func (t *text) places(layer int, d analysis.Drift) string {
	if !moves(d) || d.Home > mostPlaces {
		return ""
	}
	pulse := t.s.Layers[layer].Pulse
	var all []string
	for step := range analysis.Walk(t.s, layer, d.Against) {
		if len(all) == d.Home {
			break
		}
		all = append(all, t.number(step.Place, pulse))
	}
	return fmt.Sprintf(" Places in the bar, in %s: %s.", t.pulses(pulse), strings.Join(all, " "))
}

// counting leads to a table of a layer's heads: what its numbers count.
func (t *text) counting(layer int) string {
	return fmt.Sprintf(" In %s:", t.pulses(t.s.Layers[layer].Pulse))
}

// moves reports whether there is anything to see in a table of the drift.
func moves(d analysis.Drift) bool { return d.Steps > 0 && !(d.Constant && d.Step == 0) }

// drifts says one drift in a sentence.
func (t *text) drifts(layer int, d analysis.Drift) string {
	against := "the bar"
	if d.Against != analysis.Barline {
		against = possessive(t.s.Layers[d.Against].Name) + " cycle"
	}
	within := ""
	if !d.All {
		within = fmt.Sprintf(" (over the first %s)", count(d.Steps, "step"))
	}
	switch {
	case d.Steps == 0:
		return fmt.Sprintf("fewer than two cycles to compare with %s.", against)
	case !d.Constant:
		return fmt.Sprintf("the drift is not constant%s; see each row.", within)
	case d.Step == 0:
		return fmt.Sprintf("%s at the same place of %s%s.", t.drifting(layer), against, within)
	}
	by := t.later(d, t.s.Layers[layer].Pulse)
	return fmt.Sprintf("%s %s in %s than the one before%s; back at the same place after %s.",
		t.drifting(layer), by, against, within, count(d.Home, "cycle"))
}

// drifting says what the drift is of: the cycle's beginning, or its head where a
// process moves that inside the cycle.
func (t *text) drifting(layer int) string {
	if t.headMoves(layer) {
		return "the head of each cycle stands"
	}
	return "each cycle begins"
}

// headMoves reports whether a process moves the head inside the cycle.
func (t *text) headMoves(layer int) bool {
	return slices.ContainsFunc(t.s.Layers[layer].Process, func(p score.Process) bool {
		return p.Kind == process.Rotate || p.Kind == process.Shift || p.Kind == process.Retrograde
	})
}

// steps prints a table of the heads of a layer.
func (t *text) steps(layer, against int) {
	pulse := t.s.Layers[layer].Pulse
	rows, left := firstOf(t, analysis.Walk(t.s, layer, against), func(step analysis.Step) []string {
		row := []string{fmt.Sprint(step.Cycle), t.s.Where(step.Head).String(), t.clock(step.Head),
			t.number(step.Place, pulse), "", ""}
		if !step.First {
			row[4], row[5] = t.signed(step.Step, pulse), t.signed(step.Total, pulse)
		}
		return row
	})
	where := "where"
	if t.headMoves(layer) {
		where = "head"
	}
	t.table([]string{"cycle>", where, "clock>", "place>", "step>", "total>"}, rows)
	t.more(left, "cycle")
	t.gap()
}

// mostTables is up to how many pairs get a table of their own.
const mostTables = 6

// pairs says for each two layers how one moves against the other and when they
// come together.
func (t *text) pairs() {
	if len(t.f.Pairs) == 0 {
		return
	}
	t.heading("Pairs")
	shown := t.shown(len(t.f.Pairs))
	for i, p := range t.f.Pairs[:shown] {
		t.pair(p, t.o.listed && i < mostTables)
	}
	t.more(len(t.f.Pairs)-shown, "pair")
	if t.o.listed && shown > mostTables {
		t.item(fmt.Sprintf("Only the first %s of %d pairs have tables; --json has the steps of the whole realigning set.", spelledOut(mostTables), len(t.f.Pairs)))
	}
}

func (t *text) pair(p analysis.Pair, tabled bool) {
	a, b := t.s.Layers[p.A], t.s.Layers[p.B]
	strike := fmt.Sprintf("%s and %s %s", a.Name, b.Name, strikingTogether(p.Attacks))
	if a.Line != nil || b.Line != nil {
		t.item(strike + ".")
		return
	}
	sentences := []string{strike + "; " + t.pairMeeting(p)}
	d := t.f.Layers[p.B].DriftAgainst(p.A)
	drift := b.Name + ": " + t.drifts(p.B, d)
	switch {
	case moves(d) && t.isBar(p.A) && tabled:
		sentences = append(sentences, drift, possessive(a.Name)+" cycle is the bar, so the table above is that of this pair too.")
	case moves(d) && t.isBar(p.A): // the drift is that against the bar
	case moves(d) && !tabled:
		sentences = append(sentences, strings.Replace(drift, "; see each row", "", 1))
	case !moves(d):
		sentences = append(sentences, drift)
	default:
		t.item(strings.Join(append(sentences, drift+t.counting(p.B)), " "))
		t.steps(p.B, p.A)
		return
	}
	t.item(strings.Join(sentences, " "))
}

// pairMeeting says when two layers begin together, and when on a barline, as the
// second half of a sentence.
func (t *text) pairMeeting(p analysis.Pair) string {
	leaves := t.s.Layers[p.A]
	if l := t.s.Layers[p.B]; l.Leaves < leaves.Leaves {
		leaves = l
	}
	if p.Over {
		return fmt.Sprintf("they do not begin together before %s leaves; they would after %s.", leaves.Name, t.long(p.Together.First))
	}
	sentence := "they" + strings.TrimPrefix(t.meeting(p.Together, []int{p.A, p.B}, false, "They")[0], "They")
	sentence = strings.TrimSuffix(sentence, " "+walked)
	at := atBarlines(p.Together, p.OnBarline)
	switch {
	case p.Together.Never:
		return sentence
	case p.OverOnBarline:
		return sentence + fmt.Sprintf(" They do not come together on a barline before %s leaves.", leaves.Name)
	case at == alwaysThere, at == firstThere:
		return strings.TrimSuffix(sentence, ".") + strings.Replace(barlineWords[at].after, ";", ",", 1) + "."
	}
	return sentence + " " + t.withBarline(p.Together, p.OnBarline, []int{p.A, p.B})
}

// isBar reports whether the cycles of a layer are the bars of the section.
func (t *text) isBar(layer int) bool {
	l := t.s.Layers[layer]
	d := t.f.Layers[layer].DriftAgainst(analysis.Barline)
	return d.Constant && d.All && d.Step == 0 && d.Length == t.f.Layers[layer].Length && l.Enters == 0 && l.Offset == 0 &&
		len(l.Process) == 0
}

// strikingTogether says how often two layers strike together.
func strikingTogether(n int) string {
	if n == 0 {
		return "never strike together"
	}
	return "strike together " + times(big.NewInt(int64(n)))
}
