package verify

import (
	"fmt"

	"tieover/score/beat"
	"tieover/score/heard"
)

// where says where in the part a moment is.
func (c *comparison) where(at beat.Time) heard.Where { return c.part.Where(c.grid.Span(at)) }

func (c *comparison) add(kind Kind, at beat.Time, layer, want, got, text string) {
	where := c.where(at)
	c.found = append(c.found, Difference{Kind: kind, At: c.grid.Span(at), Where: where, Layer: layer, Want: want, Got: got, text: where.String() + ": " + text})
}

func (c *comparison) missing(w note) {
	layer, name := c.names[w.layer], c.words.String(w.name)
	c.add(Missing, w.onset, layer, name, "", fmt.Sprintf("%s lacks %s", layer, name))
}

// empty tells that nothing sounds in a part that should have notes.
func (c *comparison) empty() {
	at := c.want[0].onset
	c.found = append(c.found, Difference{Kind: Missing, Where: c.where(at), At: c.grid.Span(at), Layer: c.part.Name, Count: len(c.want),
		text: fmt.Sprintf("part %s is empty (spec says %s)", c.part.Name, beat.Counted(len(c.want), "note"))})
}

func (c *comparison) extra(g note) {
	layer, name := c.layerOf(g), c.words.String(g.name)
	what := "an extra " + name
	if name == "a note" {
		what = "an extra note"
	}
	c.add(Extra, g.onset, layer, "", name, fmt.Sprintf("%s has %s", layer, what))
}

func (c *comparison) otherPitch(p wrongPitch) {
	wanted, played := c.words.String(p.want.name), c.words.String(p.got.name)
	layer, got, want := c.names[p.want.layer], played, wanted
	if p.otherLength {
		got, want = got+" for "+c.grid.Span(p.got.length).String(), want+" for "+c.grid.Span(p.want.length).String()
	}
	c.add(OtherPitch, p.want.onset, layer, wanted, played, fmt.Sprintf("%s has %s, spec says %s", layer, got, want))
}

func (c *comparison) moved(w, g note) {
	layer, got, want := c.names[w.layer], c.words.String(g.name)+" "+c.late(g.onset-w.onset), c.where(w.onset).String()
	if !lasts(w, g) {
		got, want = got+" for "+c.grid.Span(g.length).String(), want+" for "+c.grid.Span(w.length).String()
	}
	c.add(Moved, g.onset, layer, c.where(w.onset).String(), c.where(g.onset).String(), fmt.Sprintf("%s has %s, spec says %s", layer, got, want))
}

func (c *comparison) otherLength(w, g note) {
	layer := c.names[w.layer]
	how := "longer"
	if g.length < w.length {
		how = "shorter"
	}
	want, got := c.grid.Span(w.length).String(), c.grid.Span(g.length).String()
	c.add(OtherLength, g.onset, layer, want, got,
		fmt.Sprintf("%s holds %s %s: for %v, spec says %v", layer, c.words.String(w.name), how, got, want))
}

func (c *comparison) reportRun(r run) {
	from, to, layer := c.where(r.from), c.where(r.to), c.names[r.layer]
	c.found = append(c.found, Difference{Kind: MovedRun, At: c.grid.Span(r.from), Where: from, Layer: layer, Count: r.notes,
		Want: c.where(r.from - r.by).String(), Got: from.String(),
		text: fmt.Sprintf("%v: from here to %v %s is %s (%s)", from, to, layer, c.late(r.by), countOf(r))})
}

// countOf says how many notes a run has.
func countOf(r run) string {
	text := beat.Counted(r.notes, "note")
	if r.lost == 0 {
		return text
	}
	have, end := "have", "end"
	if r.lost == 1 {
		have = "has"
	}
	if r.by < 0 {
		end = "start"
	}
	return fmt.Sprintf("%s; %d more %s no room at the %s", text, r.lost, have, end)
}

func (c *comparison) late(by beat.Time) string {
	if by < 0 {
		return c.grid.Span(-by).String() + " early"
	}
	return c.grid.Span(by).String() + " late"
}
