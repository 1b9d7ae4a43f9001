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

func (c *comparison) extra(g note) {
	layer := c.layerOf(g)
	what := "an extra " + g.name
	if g.name == "a note" {
		what = "an extra note"
	}
	c.add(Extra, g.onset, layer, "", g.name, fmt.Sprintf("%s has %s", layer, what))
}

func (c *comparison) otherPitch(w, g note) {
	layer := c.names[w.layer]
	c.add(OtherPitch, w.onset, layer, w.name, g.name, fmt.Sprintf("%s has %s, spec says %s", layer, g.name, w.name))
}

func (c *comparison) moved(w, g note) {
	layer := c.names[w.layer]
	c.add(Moved, g.onset, layer, c.part.Where(w.onset).String(), c.part.Where(g.onset).String(),
		fmt.Sprintf("%s has %s %s, spec says %v", layer, g.name, late(g.onset.Sub(w.onset)), c.part.Where(w.onset)))
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
		text: fmt.Sprintf("%v: from here to %v %s is %s (%s)", from, to, layer, late(r.by), strconv.Itoa(n)+" notes")})
}

func late(by beat.Span) string {
	if by.Sign() < 0 {
		return (beat.Span{}).Sub(by).String() + " early"
	}
	return by.String() + " late"
}
