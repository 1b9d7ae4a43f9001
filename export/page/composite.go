package page

import (
	"fmt"
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

const compositeHeight = 62 * one

// denseStrikes is how near strokes may come before they are drawn thin, so that
// none run together.
const denseStrikes = 8 * one

// strike is one moment of the composite.
type strike struct {
	at  beat.Time
	who string // the letter of who strikes alone, or how many strike together
	all bool   // more than one
}

// strikes walks the composite of all rows.
func (v *view) strikes() []strike {
	var all []strike
	for at := range v.s.Moments() {
		k := strike{at: at.Time, who: score.LayerLetter(at.Layers[0])}
		if n := len(at.Layers); n > 1 {
			k.who, k.all = fmt.Sprint(n), true
		}
		all = append(all, k)
	}
	return all
}

// drawComposite draws what all layers make together in one system: a stem for
// each moment at which somebody strikes, and under it who.
func (v *view) drawComposite(f frame, strikes []strike) string {
	f.height = compositeHeight
	var c canvas
	var alone, together strings.Builder
	if f.m.names {
		c.text("name", 20*one, beamAt+6*one, "together", "")
		c.text("about", 20*one, beamAt+22*one, "a number: so many at once", "")
	}
	v.perReading(&c, func(c *canvas, rd *reading) {
		var bars strings.Builder
		for _, b := range rd.barsIn(f.sys) {
			if f.sys.holds(b.Start) {
				fmt.Fprintf(&bars, "M%v 2V%v", f.sys.x(b.Start), compositeHeight-2*one)
				if f.alone {
					c.text("bar", f.sys.x(b.Start)+3*one, 8*one, fmt.Sprint(b.Number), "")
				}
			}
		}
		if end := f.sys.to; end == v.end || f.alone {
			fmt.Fprintf(&bars, "M%v 2V%v", f.sys.x(end), compositeHeight-2*one)
		}
		c.path("rule", "", bars.String())
	})
	var strikers []string
	free, last, closest := unit(0), unit(-1), unit(0) // of the texts; the stroke before; the least distance of two
	for _, k := range inWindow(strikes, f.sys.from, f.sys.to, func(k strike) beat.Time { return k.at }) {
		x := f.sys.x(k.at)
		strikers = append(strikers, k.who)
		if last >= 0 && (closest == 0 || x-last < closest) {
			closest = x - last
		}
		last = x
		top, into := unit(beamAt), &alone
		if k.all {
			top, into = beamAt-9*one, &together
		}
		fmt.Fprintf(into, "M%v %vV%v", x, top, stemFoot)
		if w := widthOf(k.who, small); x-w/2 >= free {
			c.text("who", x, sizeAt, k.who, "")
			free = x + w/2
		}
	}
	dense := ""
	if closest > 0 && closest < denseStrikes {
		dense = " dense"
	}
	c.path("hit"+dense, "", alone.String())
	c.path("hit both"+dense, "", together.String())
	c.put(`<rect class="now" data-row="-1" x="0" y="%v" width="7" height="%v" rx="2"/>`+"\n", beamAt-2*one, stemFoot-beamAt+4*one)
	sentence := v.sentence(func(rd *reading) string {
		return fmt.Sprintf("all layers together, %s to %s: %s", rd.s.Where(f.sys.from), rd.s.Where(f.sys.to-1), strings.Join(strikers, " "))
	})
	return f.svg("composite", sentence, c.String())
}
