package page

import (
	"fmt"
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

// Sizes of the figure's bands in drawing units.
const (
	noteLane  = 15 * one // a line of plan texts
	markBand  = 24 * one // boxed labels
	rulerBand = 24 * one // bar numbers and the ruler's ticks
	rowPitch  = 66 * one
	nameLine  = 14 * one // in narrow figures, above a row
	small     = 11 * one
	normal    = 12 * one

	beamAt   = 17 * one // from the row's top
	stemFoot = 42 * one
	soundAt  = 46 * one
	sizeAt   = 58 * one
	rowFoot  = 60 * one
)

// frame is where the bands of one drawn system stand.
type frame struct {
	sys    system
	m      measures
	first  bool
	lanes  int  // of texts
	marks  int  // lanes of boxed labels
	alone  bool // a composite that no figure stands above: it has bar numbers of its own
	last   bool // the section's last system: what stands at its end is drawn
	top    unit // of the first row
	pitch  unit
	height unit
}

func (v *view) frame(i int, all []system, m measures) frame {
	f := frame{sys: all[i], m: m, first: i == 0, last: i == len(all)-1, pitch: rowPitch}
	f.lanes, f.marks = len(v.lanes(f)), len(v.labels(f))
	f.top = unit(f.lanes)*noteLane + unit(f.marks)*markBand + rulerBand + 2*one
	if f.first && !m.names {
		f.pitch += nameLine
	}
	f.height = f.top + unit(len(v.drawn))*f.pitch
	return f
}

// until returns the first moment that is not drawn here; the section's end
// belongs to the last system.
func (f frame) until() beat.Time {
	if f.last {
		return f.sys.to + 1
	}
	return f.sys.to
}

// row returns the top of a row's comb.
func (f frame) row(i int) unit {
	y := f.top + unit(i)*f.pitch
	if f.first && !f.m.names {
		y += nameLine
	}
	return y
}

// drawSystem draws one line of the realignment figure.
func (v *view) drawSystem(f frame) string {
	var c canvas
	v.drawNotes(&c, f)
	v.perReading(&c, func(c *canvas, rd *reading) { v.drawRuler(c, f, rd) })
	v.drawEnd(&c, f)
	v.drawMarks(&c, f)
	for n, i := range v.drawn {
		v.drawName(&c, f, n, i)
		v.rows[i].draw(&c, f, f.row(n))
	}
	v.perReading(&c, func(c *canvas, rd *reading) {
		for n, i := range v.drawn {
			v.rows[i].drawStarts(c, f, f.row(n), rd.late[i])
		}
	})
	for n, i := range v.drawn {
		c.put(`<rect class="now ink%d" data-row="%d" x="0" y="%v" width="9" height="%v" rx="2"/>`+"\n",
			v.rows[i].look.ink, i, f.row(n)+beamAt-4*one, stemFoot-beamAt+8*one)
	}
	return f.svg("figure", v.sentence(func(rd *reading) string { return v.describe(f, rd) }), c.String())
}

// svg wraps drawn elements. The data attributes let the player find the place
// of a moment.
func (f frame) svg(class string, sentences []string, body string) string {
	return fmt.Sprintf(`<svg class="%s" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %v %v" role="img"%s data-from="%d" data-to="%d" data-left="%v" data-width="%v" data-time="%d">`+"\n%s</svg>\n",
		class, f.m.width, f.height, labels(sentences), f.sys.from, f.sys.to, f.sys.scale.left, f.sys.scale.width, f.sys.scale.time, body)
}

// describe says in words what a system shows, for those who cannot see it.
func (v *view) describe(f frame, rd *reading) string {
	words := []string{fmt.Sprintf("%s to %s", rd.s.Where(f.sys.from), rd.s.Where(f.sys.to-1))}
	for _, i := range v.drawn {
		r := &v.rows[i]
		starts := r.countBefore(f.sys.to) - r.countBefore(f.sys.from)
		words = append(words, fmt.Sprintf("%s begins %s", r.layer.Name, cyclesInWords(starts)))
	}
	for _, k := range v.marksIn(f) {
		if k.Kind == score.Realigns {
			words = append(words, fmt.Sprintf("realignment %s at %s", k.Text, rd.where(k.At, v.end)))
		}
	}
	return strings.Join(words, "; ")
}

func cyclesInWords(n int) string {
	switch n {
	case 0:
		return "no cycle"
	case 1:
		return "one cycle"
	}
	return fmt.Sprintf("%d cycles", n)
}

// drawName writes who plays the nth row from above.
func (v *view) drawName(c *canvas, f frame, n, i int) {
	r, y := &v.rows[i], f.row(n)
	c.text("letter", 2*one, y+beamAt+14*one, r.letter, "")
	groups := v.groupsOf(r)
	switch {
	case f.m.names:
		room := f.m.left - 34*one
		c.text("name", 20*one, y+beamAt+6*one, shorten(r.layer.Name, normal, room), r.layer.Name)
		c.text("about", 20*one, y+beamAt+22*one, shorten(groups, small, room), groups)
	case f.first:
		name := shorten(r.layer.Name, normal, f.m.width/2)
		c.text("name", 2*one, y-4*one, name, r.layer.Name)
		x := 2*one + widthOf(name, normal) + 10*one
		c.text("about", x, y-4*one, shorten(groups, small, f.m.width-x), groups)
	}
}

// groupsOf says a layer's grouping and its sum: "3+2+2 = 7".
func (v *view) groupsOf(r *row) string {
	if len(r.cycles) == 0 {
		return ""
	}
	return sizes(r.cycles[0].Groups)
}

// drawRuler draws bar numbers, the ruler with its beats, numbered where there is
// room, and the bar rulings.
func (v *view) drawRuler(c *canvas, f frame, rd *reading) {
	base, foot := f.top-4*one, f.row(len(v.drawn)-1)+rowFoot
	var bars, beats strings.Builder
	for _, b := range rd.barsIn(f.sys) {
		free := unit(0) // where the last number ends
		if f.sys.holds(b.Start) {
			x, number := f.sys.x(b.Start), fmt.Sprint(b.Number)
			fmt.Fprintf(&bars, "M%v %vV%v", x, base-10*one, foot)
			c.text("bar", x+3*one, base-7*one, number, "")
			free = x + 3*one + widthOf(number, normal) + 4*one
		}
		at := b.Start - b.Skipped
		for i, length := range b.Signature.Beats() {
			if f.sys.holds(at) && at > b.Start && at < b.End() {
				x, number := f.sys.x(at), fmt.Sprint(i+1)
				fmt.Fprintf(&beats, "M%v %vV%v", x, base-4*one, base)
				if wide := widthOf(number, small); x-wide/2 >= free {
					c.text("beat", x, base-7*one, number, "")
					free = x + wide/2 + 4*one
				}
			}
			at += v.s.Grid.Must(length)
		}
	}
	c.put(`<path class="rule" d="M%v %vH%v"/>`+"\n", f.sys.x(f.sys.from), base, f.sys.x(f.sys.to))
	c.path("rule", "", bars.String())
	c.path("rule", "", beats.String())
}

// drawEnd closes a system.
func (v *view) drawEnd(c *canvas, f frame) {
	base, foot := f.top-4*one, f.row(len(v.drawn)-1)+rowFoot
	class, x := "rule", f.sys.x(f.sys.to)
	ends := f.sys.to == v.end
	if ends {
		class = "rule close"
	}
	c.put(`<path class="%s" d="M%v %vV%v"/>`+"\n", class, x, base-10*one, foot)
	if ends && v.s.End == score.Repeat {
		for i := range v.drawn {
			for _, y := range []unit{beamAt + 8*one, beamAt + 17*one} {
				c.put(`<circle class="again" cx="%v" cy="%v" r="2"/>`+"\n", x-6*one, f.row(i)+y)
			}
		}
	}
}
