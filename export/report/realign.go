package report

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// Realign writes when the loops of a piece of one section come together and
// what they make until then. whole says that the section ends there; if not, it
// shows no more than a beginning.
func Realign(w io.Writer, p *score.Piece, whole bool, o Options) error {
	o = o.settled()
	out := newPaper(w)
	s := p.Sections[0]
	t := text{paper: out, words: newWords(s, o.Terms), o: o, f: analysis.Of(s), unnamed: true}
	t.para(0, 0, p.Title)
	t.para(0, 0, fmt.Sprintf("%s, %s", s.Meter, t.opens()))
	t.loopTable()
	t.together()
	if !whole {
		t.item(fmt.Sprintf("What follows shows the first %s.", count(s.BarCount(), "bar")))
	}
	t.realignments()
	t.headsAlone()
	t.drift()
	t.pairs()
	t.composite()
	return out.out.Flush()
}

func (t *text) loopTable() {
	t.heading("The groupings")
	var rows [][]string
	for i, l := range t.f.Layers {
		layer := t.s.Layers[i]
		late := "from the start"
		if offset := beat.Time(layer.Offset) * layer.Unit; offset != 0 {
			late = asAdverb(t.lateness(offset, layer.Pulse))
		}
		rows = append(rows, []string{layer.Name, terminal.Clip(strings.Join(written(l), ", "), 40), t.length(l.Length, layer.Pulse), late})
	}
	t.table([]string{"", "groups", "cycle", "starts"}, rows)
}

// mostTerms is up to how many terms the rhythm of the heads is written out.
const mostTerms = 64

// headsAlone writes the rhythm that the beginnings of the cycles make by
// themselves, and its counterpart for three loops or more.
func (t *text) headsAlone() {
	r := t.f.Resultant
	if r == nil || len(r.Series) > mostTerms {
		return
	}
	t.item(fmt.Sprintf("The beginnings of the cycles alone make, in %s: %s.", t.pulses(t.s.Pulse), beat.Sum(r.Series)))
	if r.Complement != nil && len(r.Complement) <= mostTerms {
		factors := each(r.Factors, strconv.Itoa)
		t.item(fmt.Sprintf("The complementary factors %s (the least common cycle divided by each) make: %s.",
			beat.Listed(factors, "and"), beat.Sum(r.Complement)))
	}
}
