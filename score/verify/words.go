package verify

import (
	"fmt"
	"strconv"

	"tieover/score/beat"
)

func (c *comparison) add(kind Kind, at beat.Span, layer, want, got, text string) {
	where := c.part.Where(at)
	c.found = append(c.found, Difference{Kind: kind, At: at, Where: where, Layer: layer, Want: want, Got: got, text: where.String() + ": " + text})
}

func (c *comparison) missing(w note) {
	layer := c.names[w.layer]
	c.add(Missing, w.onset, layer, w.name, "", fmt.Sprintf("%s lacks %s", layer, w.name))
}

// empty tells that nothing sounds in a part that should have notes.
func (c *comparison) empty() {
	c.found = append(c.found, Difference{Kind: Missing, Where: c.part.Where(c.want[0].onset), At: c.want[0].onset, Layer: c.part.Name, Count: len(c.want),
		text: fmt.Sprintf("part %s is empty (spec says %s)", c.part.Name, notes(len(c.want)))})
}

func (c *comparison) extra(g note) {
	layer := c.layerOf(g)
	what := "an extra " + g.name
	if g.name == "a note" {
		what = "an extra note"
	}
	c.add(Extra, g.onset, layer, "", g.name, fmt.Sprintf("%s has %s", layer, what))
}

func (c *comparison) otherPitch(p wrongPitch) {
	layer, got, want := c.names[p.want.layer], p.got.name, p.want.name
	if p.otherLength {
		got, want = got+" for "+p.got.length.String(), want+" for "+p.want.length.String()
	}
	c.add(OtherPitch, p.want.onset, layer, p.want.name, p.got.name, fmt.Sprintf("%s has %s, spec says %s", layer, got, want))
}

func (c *comparison) moved(w, g note) {
	layer, got, want := c.names[w.layer], g.name+" "+late(g.onset.Sub(w.onset)), c.part.Where(w.onset).String()
	if !lasts(w, g) {
		got, want = got+" for "+g.length.String(), want+" for "+w.length.String()
	}
	c.add(Moved, g.onset, layer, c.part.Where(w.onset).String(), c.part.Where(g.onset).String(), fmt.Sprintf("%s has %s, spec says %s", layer, got, want))
}

func (c *comparison) otherLength(w, g note) {
	layer := c.names[w.layer]
	how := "longer"
	if g.length.Cmp(w.length) < 0 {
		how = "shorter"
	}
	c.add(OtherLength, g.onset, layer, w.length.String(), g.length.String(),
		fmt.Sprintf("%s holds %s %s: for %v, spec says %v", layer, w.name, how, g.length, w.length))
}

func (c *comparison) reportRun(r run) {
	first, last := c.want[r.from], c.want[r.to-1]
	from, to := c.part.Where(first.onset.Add(r.by)), c.part.Where(last.onset.Add(r.by))
	n := r.to - r.from
	layer := c.names[first.layer]
	c.found = append(c.found, Difference{Kind: MovedRun, At: first.onset.Add(r.by), Where: from, Layer: layer, Count: n,
		Want: c.part.Where(first.onset).String(), Got: from.String(),
		text: fmt.Sprintf("%v: from here to %v %s is %s (%s)", from, to, layer, late(r.by), notes(n))})
}

func late(by beat.Span) string {
	if by.Sign() < 0 {
		return (beat.Span{}).Sub(by).String() + " early"
	}
	return by.String() + " late"
}

func notes(n int) string {
	if n == 1 {
		return "1 note"
	}
	return strconv.Itoa(n) + " notes"
}
