package report

import (
	"fmt"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/analysis"
)

// drift says how each layer moves against the barline, with a table of its
// cycles.
func (t *text) drift() {
	if !slices.ContainsFunc(t.f.Layers, func(l analysis.Layer) bool { return len(l.Drift) > 0 }) {
		return
	}
	t.heading("Drift against the barline")
	for i, l := range t.f.Layers {
		if len(l.Drift) == 0 {
			continue
		}
		if said := t.drifts(i, l.Drift[0]); moves(l.Drift[0]) {
			t.item(said + t.counting(i))
			t.steps(i, analysis.Barline)
		} else {
			t.item(said)
		}
	}
}

// counting leads to a table of a layer's heads: what its numbers count.
func (t *text) counting(layer int) string {
	return fmt.Sprintf(" In %s:", t.pulses(t.s.Layers[layer].Pulse))
}

// moves reports whether there is anything to see in a table of the drift.
func moves(d analysis.Drift) bool { return d.Steps > 0 && !(d.Constant && d.Step == 0) }

// drifts says one drift in a sentence.
func (t *text) drifts(layer int, d analysis.Drift) string {
	name, against := t.s.Layers[layer].Name, "the bar"
	if d.Against != analysis.Barline {
		against = of(t.s.Layers[d.Against].Name) + " cycle"
	}
	within := ""
	if !d.All {
		within = fmt.Sprintf(" (over the first %s)", count(d.Steps, "step"))
	}
	switch {
	case d.Steps == 0:
		return fmt.Sprintf("%s: fewer than two cycles to compare with %s.", name, against)
	case !d.Constant:
		return fmt.Sprintf("%s: the drift is not constant%s; see each row.", name, within)
	case d.Step == 0:
		return fmt.Sprintf("%s: %s at the same place of %s%s.", name, t.drifting(layer), against, within)
	}
	by := t.lateness(d.Step, t.s.Layers[layer].Pulse)
	if 2*d.Step == d.Length {
		half := "half a cycle"
		if d.Against == analysis.Barline {
			half = "half a bar"
		}
		length := strings.NewReplacer(" (", ", ", ")", "").Replace(t.both(d.Step, t.s.Layers[layer].Pulse))
		by = fmt.Sprintf("%s (%s) later", half, length)
	}
	return fmt.Sprintf("%s: %s %s in %s than the one before%s; back at the same place after %s.",
		name, t.drifting(layer), by, against, within, count(d.Home, "cycle"))
}

// drifting says what the drift is of: the cycle's beginning, or its head where a
// process moves that inside the cycle.
func (t *text) drifting(layer int) string {
	if t.turns(layer) {
		return "the head of each cycle stands"
	}
	return "each cycle begins"
}

// turns reports whether a process moves the head inside the cycle.
func (t *text) turns(layer int) bool {
	return slices.ContainsFunc(t.s.Layers[layer].Process, func(p score.Process) bool {
		return p.Kind == score.Rotate || p.Kind == score.Shift || p.Kind == score.Retrograde
	})
}

// steps prints a table of the heads of a layer.
func (t *text) steps(layer, against int) {
	pulse := t.s.Layers[layer].Pulse
	var rows [][]string
	all := 0
	for step := range analysis.Walk(t.s, layer, against) {
		all++
		if t.o.Rows > 0 && all > t.o.Rows {
			continue
		}
		row := []string{fmt.Sprint(step.Cycle), t.s.Where(step.Head).String(), t.clock(step.Head),
			t.number(step.Place, pulse), "", ""}
		if !step.First {
			row[4], row[5] = t.signed(step.Step, pulse), t.signed(step.Total, pulse)
		}
		rows = append(rows, row)
	}
	if all == 0 {
		return
	}
	where := "where"
	if t.turns(layer) {
		where = "head"
	}
	t.table([]string{"cycle>", where, "clock>", "place>", "step>", "total>"}, rows)
	t.more(all-len(rows), "cycle")
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
	shown := len(t.f.Pairs)
	if t.o.Rows > 0 {
		shown = min(shown, t.o.Rows)
	}
	for i, p := range t.f.Pairs[:shown] {
		t.pair(p, i < mostTables)
	}
	t.more(len(t.f.Pairs)-shown, "pair")
	if shown > mostTables {
		t.item(fmt.Sprintf("Only the first %s of %d pairs have tables; --json has the steps of the whole realigning set.", small(mostTables), len(t.f.Pairs)))
	}
}

func (t *text) pair(p analysis.Pair, tabled bool) {
	a, b := t.s.Layers[p.A], t.s.Layers[p.B]
	who := a.Name + " and " + b.Name
	t.item(fmt.Sprintf("%s %s in %s.", who, striking(p.Attacks), t.extent()))
	if a.Line != nil || b.Line != nil {
		return
	}
	for _, line := range t.pairMeeting(p, who) {
		t.para(4, 4, line)
	}
	d := t.f.Layers[p.B].DriftAgainst(p.A)
	said := t.drifts(p.B, d)
	switch {
	case !moves(d) || !tabled:
		t.para(4, 4, said)
	case t.isBar(p.A):
		t.para(4, 4, said)
		t.para(4, 4, fmt.Sprintf("%s cycle is the bar, so the table above is that of this pair too.", of(a.Name)))
	default:
		t.para(4, 4, said+t.counting(p.B))
		t.steps(p.B, p.A)
	}
}

// pairMeeting says when two layers begin together, and when on a barline.
func (t *text) pairMeeting(p analysis.Pair, who string) []string {
	leaves := t.s.Layers[p.A]
	if l := t.s.Layers[p.B]; l.Leaves < leaves.Leaves {
		leaves = l
	}
	if p.Over {
		return []string{fmt.Sprintf("%s do not begin together before %s leaves; they would after %s.", who, leaves.Name, t.long(p.Together.First))}
	}
	said := t.meeting(p.Together, []int{p.A, p.B}, false, who)[:1]
	switch {
	case p.Together.Never:
		return said
	case p.OverOnBarline:
		return append(said, fmt.Sprintf("They do not come together on a barline before %s leaves.", leaves.Name))
	}
	return append(said, t.withBarline(p.Together, p.OnBarline, []int{p.A, p.B}))
}

// isBar reports whether the cycles of a layer are the bars of the section.
func (t *text) isBar(layer int) bool {
	l := t.s.Layers[layer]
	d := t.f.Layers[layer].DriftAgainst(analysis.Barline)
	return d.Constant && d.All && d.Step == 0 && d.Length == t.f.Layers[layer].Length && l.Enters == 0 && l.Offset == 0 &&
		len(l.Process) == 0
}

// striking says how often two layers strike together.
func striking(n int) string {
	switch n {
	case 0:
		return "never strike together"
	case 1:
		return "strike together once"
	case 2:
		return "strike together twice"
	}
	return "strike together " + count(n, "time")
}
