package report

import (
	"fmt"

	"tieover/score/analysis"
)

// drift says how each layer moves against the barline, with a table of its
// cycles.
func (t *text) drift() {
	t.heading("Drift against the barline")
	for i, l := range t.f.Layers {
		if len(l.Drift) == 0 {
			continue
		}
		t.item(t.drifts(i, l.Drift[0]))
		t.steps(i, analysis.Barline)
	}
}

// drifts says one drift in a sentence.
func (t *text) drifts(layer int, d analysis.Drift) string {
	name, against := t.s.Layers[layer].Name, "the bar"
	if d.Against != analysis.Barline {
		against = t.s.Layers[d.Against].Name + "'s cycle"
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
		return fmt.Sprintf("%s: each cycle begins at the same place of %s%s.", name, against, within)
	}
	half := ""
	if 2*d.Step == d.Length {
		half = ", half of it"
	}
	return fmt.Sprintf("%s: each cycle begins %s in %s%s than the one before%s; back at the same place after %s.",
		name, t.lateness(d.Step, t.s.Layers[layer].Pulse), against, half, within, count(d.Home, "cycle"))
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
	t.table([]string{"cycle>", "where", "clock>", "place>", "step>", "total>"}, rows)
	t.more(len(rows), all, "cycle")
	t.line("")
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
	for _, p := range t.f.Pairs {
		t.pair(p)
	}
	if len(t.f.Pairs) > mostTables {
		t.item(fmt.Sprintf("Only the first of %d pairs have tables; --json has the drift of the realigning set.", len(t.f.Pairs)))
	}
}

func (t *text) pair(p analysis.Pair) {
	a, b := t.s.Layers[p.A], t.s.Layers[p.B]
	who := a.Name + " and " + b.Name
	t.item(fmt.Sprintf("%s strike together %s in the section.", who, timesOf(p.Attacks)))
	if a.Line != nil || b.Line != nil {
		return
	}
	for _, line := range t.meeting(p.Together, who)[:1] {
		t.para(4, 4, line)
	}
	if !p.Together.Never {
		t.para(4, 4, t.withBarline(p.Together, p.OnBarline))
	}
	t.para(4, 4, t.drifts(p.B, t.f.Layers[p.B].DriftAgainst(p.A)))
	if pairIndex(t.f.Pairs, p) < mostTables {
		t.steps(p.B, p.A)
	}
}

func pairIndex(all []analysis.Pair, p analysis.Pair) int {
	for i := range all {
		if all[i].A == p.A && all[i].B == p.B {
			return i
		}
	}
	return len(all)
}

func timesOf(n int) string {
	switch n {
	case 0:
		return "never"
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return count(n, "time")
}
