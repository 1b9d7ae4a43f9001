package verify

import (
	"fmt"
	"strings"

	"tieover/score/beat"
	"tieover/score/heard"
)

// where says where in the part a moment is.
func (c *comparison) where(at beat.Time) heard.Where { return c.part.Where(c.grid.Span(at)) }

// add reports a difference at a moment, which its text then begins with.
func (c *comparison) add(at beat.Time, d Difference) { c.found = append(c.found, c.place(at, d)) }

func (c *comparison) place(at beat.Time, d Difference) Difference {
	d.At, d.Where = c.grid.Span(at), c.where(at)
	d.text = d.Where.String() + ": " + d.text
	return d
}

func (c *comparison) missing(w note) {
	layer, name := c.names[w.layer], c.words.String(w.name)
	c.add(w.onset, Difference{Kind: Missing, Layer: layer, Want: name, text: layer + " lacks " + name})
}

// empty reports a part that should have notes and has none.
func (c *comparison) empty() {
	at := c.want[0].onset
	c.found = append(c.found, Difference{Kind: Missing, Where: c.where(at), At: c.grid.Span(at), Layer: c.part.Name, Count: len(c.want),
		text: fmt.Sprintf("part %s is empty (spec says %s)", c.part.Name, beat.Counted(len(c.want), "note"))})
}

func (c *comparison) extra(g note) {
	layer, name := c.layerOf(g), c.words.String(g.name)
	text := layer + " has an extra " + strings.TrimPrefix(name, "a ") // it may be "a note"
	c.add(g.onset, Difference{Kind: Extra, Layer: layer, Got: name, text: text})
}

func (c *comparison) otherPitch(p wrongPitch) {
	want, got := c.words.String(p.want.name), c.words.String(p.got.name)
	c.add(p.want.onset, Difference{Kind: OtherPitch, Layer: c.names[p.want.layer], Want: want, Got: got,
		text: c.unlike(p.want, p.got, got, want, p.otherLength)})
}

func (c *comparison) moved(w, g note) {
	want := c.where(w.onset).String()
	c.add(g.onset, Difference{Kind: Moved, Layer: c.names[w.layer], Want: want, Got: c.where(g.onset).String(),
		text: c.unlike(w, g, c.words.String(g.name)+" "+c.late(g.onset-w.onset), want, !lasts(w, g))})
}

// unlike says what a layer has instead of what the spec says, with their lengths where
// these matter too.
func (c *comparison) unlike(w, g note, got, want string, lengths bool) string {
	if lengths {
		got, want = got+" for "+c.grid.Span(g.length).String(), want+" for "+c.grid.Span(w.length).String()
	}
	return fmt.Sprintf("%s has %s, spec says %s", c.names[w.layer], got, want)
}

func (c *comparison) otherLength(w, g note) {
	layer := c.names[w.layer]
	how := "longer"
	if g.length < w.length {
		how = "shorter"
	}
	want, got := c.grid.Span(w.length).String(), c.grid.Span(g.length).String()
	c.add(g.onset, Difference{Kind: OtherLength, Layer: layer, Want: want, Got: got,
		text: fmt.Sprintf("%s holds %s %s: for %s, spec says %s", layer, c.words.String(w.name), how, got, want)})
}

func (c *comparison) reportRun(r run) {
	layer := c.names[r.layer]
	c.add(r.from, Difference{Kind: MovedRun, Layer: layer, Count: r.notes, Want: c.where(r.from - r.by).String(), Got: c.where(r.from).String(),
		text: fmt.Sprintf("from here to %v %s is %s (%s)", c.where(r.to), layer, c.late(r.by), countOf(r))})
}

// countOf says how many notes a run has.
func countOf(r run) string {
	text := beat.Counted(r.notes, "note")
	if r.lost == 0 {
		return text
	}
	end := "end"
	if r.by < 0 {
		end = "start"
	}
	return fmt.Sprintf("%s; %d more %s no room at the %s", text, r.lost, beat.Inflect(r.lost, "has", "have"), end)
}

func (c *comparison) late(by beat.Time) string {
	if by < 0 {
		return c.grid.Span(-by).String() + " early"
	}
	return c.grid.Span(by).String() + " late"
}
