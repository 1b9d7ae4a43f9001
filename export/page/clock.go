package page

import (
	"fmt"
	"math"
	"strings"

	"tieover/score/beat"
)

// Sizes of a clock in drawing units, from its center.
const (
	clockSize   = 220 * one
	rim         = 70 * one
	numberRim   = 53 * one
	arcRim      = 85 * one
	sizeRim     = 98 * one
	mostNumbers = 32 // positions on a clock that can all be numbered
	mostLarge   = 16 // positions that can be numbered in large figures
	mostDots    = 96 // pulses that can all be shown
)

// faces draws the clocks of a row, one for each different cycle, and notes in
// every cycle which it is.
func (r *row) faces() (svgs []string) {
	known := map[string]int{}
	for i := range r.cycles {
		cy := &r.cycles[i]
		key := faceKey(cy)
		k, seen := known[key]
		if !seen {
			k = len(svgs)
			known[key] = k
			svgs = append(svgs, r.drawClock(cy, k))
		}
		cy.face = k
	}
	return svgs
}

// faceKey is all that a clock shows of a cycle.
func faceKey(cy *cycle) string {
	var b strings.Builder
	fmt.Fprint(&b, cy.Length, cy.Head)
	for _, g := range cy.Groups {
		fmt.Fprint(&b, " ", g.At, g.Size, g.Blank)
	}
	for _, a := range cy.Attacks {
		fmt.Fprint(&b, "|", a.At)
	}
	return b.String()
}

// onCircle returns the point at a moment of the cycle on a circle, the start at
// the top, clockwise.
func onCircle(t, length beat.Time, radius unit) (x, y unit) {
	angle := 2 * math.Pi * float64(t) / float64(length)
	return clockSize/2 + unit(math.Round(float64(radius)*math.Sin(angle))),
		clockSize/2 - unit(math.Round(float64(radius)*math.Cos(angle)))
}

// drawClock draws one cycle as a clock: its pulses as numbered positions on the
// rim, those struck larger, the groups as arcs outside.
func (r *row) drawClock(cy *cycle, state int) string {
	var c canvas
	for i, g := range cy.Groups {
		r.drawArc(&c, cy, i)
		if len(cy.Groups) <= mostNumbers {
			x, y := onCircle(2*g.At+g.Length, 2*cy.Length, sizeRim)
			c.text("size", x, y+4*one, fmt.Sprint(g.Size), "")
		}
	}
	struck := map[beat.Time]bool{}
	for _, a := range cy.Attacks {
		struck[a.At] = true
	}
	pulses := int64(cy.Length / r.unit)
	for i := range pulses {
		at := beat.Time(i) * r.unit
		if pulses <= mostDots && !struck[at] {
			x, y := onCircle(at, cy.Length, rim)
			c.put(`<circle class="pulse" data-at="%d" cx="%v" cy="%v" r="2.4"/>`+"\n", at, x, y)
		}
		if every := (pulses + mostNumbers - 1) / mostNumbers; i%every == 0 {
			x, y := onCircle(at, cy.Length, numberRim)
			c.text("count", x, y+4*one, fmt.Sprint(i+1), "")
		}
	}
	for _, a := range cy.Attacks {
		x, y := onCircle(a.At, cy.Length, rim)
		c.put(`<circle class="place %s" data-at="%d" cx="%v" cy="%v" r="6"/>`+"\n", r.look.class(), a.At, x, y)
	}
	c.text("turn", clockSize/2, clockSize/2+6*one, "#"+fmt.Sprint(cy.Number), "")
	class := "clock"
	if pulses > mostLarge {
		class += " fine"
	}
	return fmt.Sprintf(`<svg class="%s" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %v %v" role="img" aria-label="%s" data-face="%d">`+"\n%s</svg>\n",
		class, clockSize, clockSize, esc(r.describeClock(cy, pulses)), state, c.String())
}

func (r *row) describeClock(cy *cycle, pulses int64) string {
	var places []string
	for _, a := range cy.Attacks {
		places = append(places, beat.Of(int64(a.At), int64(r.unit)).Add(beat.Of(1, 1)).String())
	}
	return fmt.Sprintf("%s: %s, %d pulses, struck at %s", r.layer.Name, sizes(cy.Groups), pulses, strings.Join(places, " "))
}

// drawArc draws the arc of one group, from its first pulse nearly to the next
// group's.
func (r *row) drawArc(c *canvas, cy *cycle, i int) {
	g := cy.Groups[i]
	if g.Blank {
		return
	}
	// an arc begins a 24th of a pulse after its group and ends a third before the next
	gap := min(r.unit, g.Length)
	from, to, all := 24*g.At+gap, 24*(g.At+g.Length)-8*gap, 24*cy.Length
	x0, y0 := onCircle(from, all, arcRim)
	x1, y1 := onCircle(to, all, arcRim)
	large := 0
	if 2*(to-from) > all {
		large = 1
	}
	c.path("arc "+r.look.class(), r.look.pattern(),
		fmt.Sprintf("M%v %vA%v %v 0 %d 1 %v %v", x0, y0, unit(arcRim), unit(arcRim), large, x1, y1))
}
