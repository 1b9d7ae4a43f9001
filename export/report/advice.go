package report

import (
	"fmt"
	"math/big"
	"strings"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// ends says where the section's end leaves each layer.
func (t *text) ends() {
	t.heading("Where it ends")
	for i, l := range t.f.Layers {
		if t.s.Layers[i].Line == nil && l.End.Cycle > 0 {
			t.item(t.end(i, l.End))
		}
	}
	t.landing()
	c := t.f.Clean
	switch {
	case c.Never:
		t.item("No barline would end it clean: these cycles never end together on one.")
	case c.Far:
		t.item(fmt.Sprintf("None of the next %s would end it clean.", count(analysis.CleanReach, "barline")))
	case !c.Known:
		t.item("Cycles or meters change, so no later barline is named that would end it clean.")
	case c.Bars == 0:
		t.item("The end is clean: it is on a barline, and no loop that runs on is cut.")
	case t.s.OnBarline(t.s.Length):
		t.item(fmt.Sprintf("%s more would end it clean, every cycle whole, at the end of bar %d.", count(c.Bars, "bar"), c.Bar))
	default:
		t.item(fmt.Sprintf("%s more would end it clean, every cycle whole, at the end of bar %d.",
			t.length(c.At-t.s.Length, t.s.Pulse), c.Bar))
	}
}

// landing says what follows the end: the landing stroke, or the section again.
func (t *text) landing() {
	switch t.s.End {
	case score.Land:
		t.item(t.landed())
	case score.Repeat:
		t.item("Then the section is repeated from its start.")
	}
}

func (t *text) landed() string {
	who := t.names(t.f.Composite.Landing)
	if len(who) == 0 {
		return "It lands on a silent bar: no layer that plays to the end begins with an attack."
	}
	return fmt.Sprintf("It lands: %s %s once more at %s. That is counted among the attacks.", and(who), verb(len(who), "strikes", "strike"), t.s.Where(t.s.Length))
}

func (t *text) end(i int, e analysis.Ending) string {
	l := t.s.Layers[i]
	if e.Complete {
		return fmt.Sprintf("%s: cycle %d ends complete.", l.Name, e.Cycle)
	}
	by := map[score.Cut]string{
		score.CutByLoop: "its own rule", score.CutByLeaving: "its leaving", score.CutByEnd: "the section's end",
	}[e.By]
	said := fmt.Sprintf("%s: cycle %d is cut by %s, %s short, ", l.Name, e.Cycle, by, t.both(e.Missing, l.Pulse))
	if e.Kept == e.Of {
		return said + fmt.Sprintf("after its group %d.", e.Group)
	}
	return said + fmt.Sprintf("inside its group %d (%s of %s).", e.Group, t.number(e.Kept, l.Pulse), t.length(e.Of, l.Pulse))
}

// barrings prints all candidates.
func (t *text) barrings() {
	t.heading("Ways to bar it")
	over := "Counted over the whole section."
	if !t.f.Window.Whole {
		over = fmt.Sprintf("Counted over the first %s.", t.long(big.NewInt(int64(t.f.Window.Length))))
	}
	t.item(over + " Ranked by ties over barlines, then groups that a barline cuts, then changes of meter, then bars. Off: cycles that begin off the beat.")
	rows := make([][]string, len(t.f.Barrings))
	for i, b := range t.f.Barrings {
		rows[i] = []string{fmt.Sprint(i + 1), shorten(b.Meter.String(), 20), fmt.Sprint(b.Ties), fmt.Sprint(b.Broken),
			fmt.Sprint(b.Changes), fmt.Sprint(b.Bars), fmt.Sprint(b.OffBeat), strings.Join(b.From, "; ")}
	}
	t.table([]string{">", "meter", "ties>", "cut>", "changes>", "bars>", "off>", "from"}, rows)
}

// tempos prints the tempo marks and what the layers prepare.
func (t *text) tempos() {
	t.heading("Tempo")
	marks := t.s.Tempos()
	for _, m := range marks {
		t.item(fmt.Sprintf("%s: %s%s.", t.s.Where(m.Time), t.tempo(m.Tempo), t.equation(m.Tempo)))
	}
	if len(t.f.Pivots) == 0 || len(marks) == 0 {
		return
	}
	quarter, _ := beat.NoteName(beat.Of(1, 4), t.terms)
	t.item(fmt.Sprintf("Pivots from the first tempo: what is played already becomes the new %s.", quarter))
	var rows [][]string
	for _, p := range t.f.Pivots {
		rows = append(rows, []string{quarter + " = " + decimal(p.Quarter), t.part(p.Value), p.What})
	}
	t.table([]string{"new tempo", "was", "played as"}, rows)
}

func (t *text) equation(m score.Tempo) string {
	if m.Old == nil || m.New == nil {
		return ""
	}
	return fmt.Sprintf(" (%s in the old tempo lasts as long as %s now)", t.value(*m.Old), t.value(*m.New))
}

// value says a note value of an equation as it was written: "a sixteenth in 5:4".
func (t *text) value(v score.Value) string {
	if v.Tied.Sign() != 0 || v.Actual == v.Normal {
		return t.part(v.Span())
	}
	return article(v.Name(t.terms))
}
