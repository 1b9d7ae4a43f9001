package report

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// ends says where the section's end leaves each layer, beyond what the opening
// says.
func (t *text) ends() {
	var sentences []string
	complete := 0
	for i, l := range t.f.Layers {
		switch {
		case t.s.Layers[i].Line != nil || l.End.Cycle == 0:
		case l.End.Complete:
			complete++
		default:
			sentences = append(sentences, t.end(i, l.End))
		}
	}
	if len(sentences) == 0 {
		return
	}
	t.heading("Where it ends")
	switch complete {
	case 0:
	case 1:
		sentences = append(sentences, "The last cycle of the other layer is complete.")
	default:
		sentences = append(sentences, "The last cycle of every other layer is complete.")
	}
	for _, line := range sentences {
		t.item(line)
	}
}

// cleanly says what would end the section with every cycle whole.
func (t *text) cleanly() string {
	c := t.f.Clean
	switch {
	case c.Never:
		return "No barline would end it clean: these cycles never end together on one."
	case c.Far:
		return fmt.Sprintf("None of the next %s would end it clean.", count(analysis.CleanReach, "barline"))
	case !c.Known:
		return "Cycles or meters change, so no later barline is named that would end it clean."
	case c.Bars == 0:
		return "The end is clean: it is on a barline, and no loop that runs on is cut."
	case t.s.OnBarline(t.s.Length):
		return fmt.Sprintf("%s more would end it clean, every cycle whole, at the end of bar %d.", count(c.Bars, "bar"), c.Bar)
	}
	return fmt.Sprintf("%s more would end it clean, every cycle whole, at the end of bar %d.",
		t.length(c.At-t.s.Length, t.s.Pulse), c.Bar)
}

// landed says what follows the end where a section lands.
func (t *text) landed() string {
	who := t.names(t.f.Composite.Landing)
	if len(who) == 0 {
		return "It lands on a silent bar: no layer that plays to the end begins with an attack."
	}
	return fmt.Sprintf("It lands: %s %s once more at %s. That is counted among the attacks.", beat.Listed(who, "and"), beat.Inflect(len(who), "strikes", "strike"), t.s.Where(t.s.Length))
}

// end says how a cut cycle ends.
func (t *text) end(i int, e analysis.Ending) string {
	l := t.s.Layers[i]
	by := map[score.Cut]string{
		score.CutByLoop: "its own rule", score.CutByLeaving: "its leaving", score.CutByEnd: "the section's end",
	}[e.By]
	sentence := fmt.Sprintf("%s: cycle %d is cut by %s, %s short, ", l.Name, e.Cycle, by, t.both(e.Missing, l.Pulse))
	if e.Kept == e.Of {
		return sentence + fmt.Sprintf("after its group %d.", e.Group)
	}
	return sentence + fmt.Sprintf("inside its group %d (%s of %s).", e.Group, t.number(e.Kept, l.Pulse), t.length(e.Of, l.Pulse))
}

// barrings prints all candidates.
func (t *text) barrings() {
	t.heading("Ways to bar it")
	sentence := "Ranked by ties, cut groups, changes of meter, bars. Off: cycles off the beat."
	if !t.f.Window.Whole {
		sentence += fmt.Sprintf(" Counted over the first %s.", t.long(big.NewInt(int64(t.f.Window.Length))))
	}
	t.item(sentence)
	var rows [][]string
	for i, b := range t.f.Barrings[:t.waysShown()] {
		from := strings.Join(b.From, "; ")
		if !t.o.listed {
			from = strings.TrimPrefix(b.From[0], "cycle of ")
		}
		rows = append(rows, []string{fmt.Sprint(i + 1), terminal.Clip(b.Meter.String(), 20), fmt.Sprint(b.Ties), fmt.Sprint(b.Broken),
			fmt.Sprint(b.Changes), fmt.Sprint(b.Bars), fmt.Sprint(b.OffBeat), from})
	}
	t.table([]string{">", "meter", "ties>", "cut>", "changes>", "bars>", "off>", "from"}, rows)
	t.more(len(t.f.Barrings)-len(rows), "way")
}

// fewestWays is how many ways to bar are shown at least.
const fewestWays = 4

// waysShown is how many ways to bar are shown: the better ones, unless rows were asked
// for.
func (t *text) waysShown() int {
	all := t.shown(len(t.f.Barrings))
	if t.o.listed {
		return all
	}
	own := slices.IndexFunc(t.f.Barrings, func(b analysis.Barring) bool { return slices.Contains(b.From, analysis.AsWritten) })
	return min(all, max(own+1, fewestWays))
}

// tempos prints the tempo marks and what the layers prepare.
func (t *text) tempos() {
	marks := t.s.Tempos()
	if len(marks) < 2 && len(t.f.Pivots) == 0 {
		return
	}
	t.heading("Tempo")
	if len(marks) > 1 {
		var sentences []string
		for _, m := range marks[:t.shown(len(marks))] {
			sentences = append(sentences, fmt.Sprintf("%s: %s%s", t.at(m.Time), t.tempoMark(m), t.equation(m.Tempo)))
		}
		t.item(strings.Join(sentences, "; ") + ".")
		t.more(len(marks)-len(sentences), "tempo")
	}
	if len(t.f.Pivots) == 0 || len(marks) == 0 {
		return
	}
	quarter, _ := beat.NoteName(beat.Of(1, 4), t.terms)
	t.item(fmt.Sprintf("Pivots from the first tempo: what is played already becomes the new %s.", quarter))
	var rows [][]string
	for _, p := range t.f.Pivots[:t.shown(len(t.f.Pivots))] {
		rows = append(rows, []string{score.PlainTempo(p.Quarter, beat.Of(1, 4)).InWords(t.terms), t.part(p.Value), p.What})
	}
	t.table([]string{"new tempo", "was", "played as"}, rows)
	t.more(len(t.f.Pivots)-len(rows), "pivot")
}

func (t *text) equation(m score.Tempo) string {
	if m.Old == nil {
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
