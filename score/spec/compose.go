package spec

import (
	"slices"
	"strings"

	"tieover/score"
)

// composer makes one piece of the sections that were read.
type composer struct {
	findings
	drafts []*draft
}

func (c *composer) compose() *score.Piece {
	first := c.drafts[0]
	p := &score.Piece{
		Title: first.title, Subtitle: first.subtitle, Composer: first.composer,
		Arranger: first.arranger, Rights: first.rights,
	}
	if first.titled.Line == 0 {
		c.wrong(first.Pos, "write title: and the name of the piece", "the section has no title")
	}
	for _, d := range c.drafts[1:] {
		if d.titled.Line > 0 && d.title != first.title {
			c.warn(d.titled, "write the same title in each file, or only in the first", "the piece keeps the title of its first file")
		}
	}
	c.parts()
	c.grid(p)
	c.tablature()
	for i, d := range c.drafts {
		d.Last = i == len(c.drafts)-1
		p.Sections = append(p.Sections, &d.Section)
	}
	return p
}

// parts refuses a player with two instruments in the piece, unless player: names
// somebody who can change them.
func (c *composer) parts() {
	first := map[string]*score.Layer{}
	for _, d := range c.drafts {
		for _, l := range d.Layers {
			name := l.PlayerName()
			if l.Instrument == nil || name == "" {
				continue
			}
			switch other := first[name]; {
			case other == nil:
				first[name] = l
			case other.Instrument == l.Instrument || other.Pos.File == l.Pos.File:
			case l.Player == "" || other.Player == "":
				c.wrong(l.Pos, "name one instrument in all sections, or use another layer name; who changes instruments needs a player:",
					"%s plays %s here and %s in an earlier section", name, l.Instrument.InWords(), other.Instrument.InWords())
			default:
				onePart(other, l, c.wrong)
			}
		}
	}
}

// grid finds the coarsest grid that holds every pulse and barline.
func (c *composer) grid(p *score.Piece) {
	p.Grid = 4
	var pulses []string
	for _, d := range c.drafts {
		for _, n := range d.needs {
			if n.what != "" && !slices.Contains(pulses, n.what) {
				pulses = append(pulses, n.what)
			}
			finer, ok := p.Grid.Including(n.span.Den())
			if !ok {
				c.wrong(n.pos, "use fewer different tuplets or longer values",
					"the pulses %s together need too fine a grid (more than 65,532 to the whole note)", strings.Join(pulses, ", "))
				return
			}
			p.Grid = finer
		}
	}
	for _, d := range c.drafts {
		d.Grid = p.Grid
		for _, v := range d.voices {
			v.Unit = p.Grid.Must(v.Pulse.Span())
			v.Line = slices.Grow(v.Line, len(v.notes))
			for _, note := range v.notes {
				v.Line = append(v.Line, score.LineNote{Length: p.Grid.Must(note.Length), Tones: note.Tones})
			}
		}
	}
}
