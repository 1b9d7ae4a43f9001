package page

import (
	"fmt"
	"iter"
	"sort"
	"strings"

	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// comb collects the strokes of one row in one system.
type comb struct {
	f                         frame
	y                         unit // top of the row
	stems, hits, ghosts       strings.Builder
	beams, sounds, ticks, ups strings.Builder
	lates                     strings.Builder
}

// draw draws the part of a row that falls into a system: each group as a comb,
// a beam with one stem a pulse, heavier where something is struck; under it a
// line for as long as it sounds.
func (r *row) draw(c *canvas, f frame, y unit) {
	b := &comb{f: f, y: y}
	for i := range r.drawnIn(f) {
		cy := &r.cycles[i]
		for _, g := range cy.Groups {
			b.group(c, r, cy, g)
		}
		for _, a := range cy.Attacks {
			b.attack(cy.Start+a.At, a)
		}
	}
	ink := r.look.class()
	c.path("sound", "", b.sounds.String())
	c.path("tick", "", b.ticks.String())
	c.path("stem", "", b.stems.String())
	c.path("beam "+ink, r.look.pattern(), b.beams.String())
	c.path(r.look.hit(), "", b.hits.String())
	c.path(r.look.ghost(), "", b.ghosts.String())
}

// drawStarts draws what is set over the part of a row that falls into a system:
// each cycle's number, and how late its head is.
func (r *row) drawStarts(c *canvas, f frame, y unit, late []rows.Lateness) {
	b := &comb{f: f, y: y}
	free := unit(0) // where the last caption ends
	for i := range r.drawnIn(f) {
		if cy := &r.cycles[i]; !cy.Landing {
			b.drift(r, cy, late[i])
			free = b.caption(c, r, i, free, late[i])
		}
	}
	c.path("up", "", b.ups.String())
	c.path("late", "", b.lates.String())
}

// drawnIn yields the indexes of the cycles that a system has a part of.
func (r *row) drawnIn(f frame) iter.Seq[int] {
	return func(yield func(int) bool) {
		last := r.countBefore(f.sys.to)
		for i := sort.Search(last, func(i int) bool { return r.cycles[i].over > f.sys.from }); i < last; i++ {
			if !yield(i) {
				return
			}
		}
	}
}

// countBefore returns how many cycles begin before a moment.
func (r *row) countBefore(t beat.Time) int {
	return sort.Search(len(r.cycles), func(i int) bool { return r.cycles[i].Start >= t })
}

// group draws one comb, or ticks for a blank group.
func (b *comb) group(c *canvas, r *row, cy *cycle, g score.Group) {
	start := cy.Start + g.At
	from := max(start, b.f.sys.from, r.layer.Enters)
	to := min(start+g.Length, cy.End(), b.f.sys.to)
	if from >= to {
		return
	}
	first := start + (from-start+r.unit-1)/r.unit*r.unit
	x0, x1 := unit(-1), unit(-1)
	for t := first; t < to; t += r.unit {
		x := b.f.sys.x(t)
		if x0 < 0 {
			x0 = x
		}
		x1 = x
		if g.Blank {
			fmt.Fprintf(&b.ticks, "M%v %vV%v", x, b.y+stemFoot-5*one, b.y+stemFoot)
		} else {
			fmt.Fprintf(&b.stems, "M%v %vV%v", x, b.y+beamAt, b.y+stemFoot)
		}
	}
	if g.Blank {
		return
	}
	if b.beam(cy, r, g, x0, x1) && !cy.Landing {
		size := g.Size
		if left := cy.End() - start; left < g.Length { // cut, by a loop rule or an end
			size = int((left + r.unit - 1) / r.unit)
		}
		c.text("size", (x0+x1)/2, b.y+sizeAt, fmt.Sprint(size), "")
	}
}

// beam joins the stems of a group, and shows that it goes on past the system's
// edges. It reports whether the group begins here.
func (b *comb) beam(cy *cycle, r *row, g score.Group, x0, x1 unit) bool {
	start, sys := cy.Start+g.At, b.f.sys
	begins := start >= max(sys.from, r.layer.Enters) && x0 >= 0
	if !begins && start < sys.from {
		x0 = sys.x(sys.from) - 7*one
	}
	if x0 < 0 {
		return false
	}
	x1 = max(x1, x0)
	if end := min(start+g.Length, cy.End()); end > sys.to {
		x1 = sys.x(sys.to) + 7*one
	} else if x0 == x1 {
		x1 = x0 + min(6*one, sys.scale.of(r.unit)/2)
	}
	fmt.Fprintf(&b.beams, "M%v %vH%v", x0, b.y+beamAt, x1)
	return begins
}

// attack draws a struck stem and how long it sounds.
func (b *comb) attack(at beat.Time, a score.Attack) {
	sys := b.f.sys
	end := min(at+a.Length, sys.to)
	if from := max(at, sys.from); from < end {
		fmt.Fprintf(&b.sounds, "M%v %vH%v", sys.x(from), b.y+soundAt, max(sys.x(end)-2*one, sys.x(from)+one))
	}
	if !sys.holds(at) {
		return
	}
	top := b.y + beamAt
	if a.Accent || a.Touch.Has(score.Accented|score.Marcato) {
		top -= 6 * one
	}
	into := &b.hits
	if a.Touch.Has(score.Ghost) {
		into = &b.ghosts
	}
	fmt.Fprintf(into, "M%v %vV%v", sys.x(at), top, b.y+stemFoot)
}

// drift draws how far a head is from the barline that it is late or early
// against.
func (b *comb) drift(r *row, cy *cycle, late rows.Lateness) {
	head := cy.Start + cy.Head
	from, to := head, head
	far := beat.Time(late.Pulses.Num()) * r.unit / beat.Time(late.Pulses.Den())
	switch late.Kind {
	case rows.Late:
		from -= far
	case rows.Early:
		to += far
	}
	from, to = max(from, b.f.sys.from), min(to, b.f.sys.to)
	if from < to {
		fmt.Fprintf(&b.lates, "M%v %vH%v", b.f.sys.x(from), b.y+13*one, b.f.sys.x(to))
	}
}

// caption writes the number of a cycle where it begins, and how late, as far as
// there is room before the next one. It returns where the text ends.
func (b *comb) caption(c *canvas, r *row, i int, free unit, late rows.Lateness) unit {
	cy := &r.cycles[i]
	at := max(cy.Start, r.layer.Enters)
	if !b.f.sys.holds(at) {
		return free
	}
	x := b.f.sys.x(at)
	fmt.Fprintf(&b.ups, "M%v %vV%v", x, b.y+one, b.y+beamAt-3*one)
	room := b.f.m.width - x
	if i+1 < len(r.cycles) {
		if next := r.cycles[i+1].Start; b.f.sys.holds(next) {
			room = b.f.sys.x(next) - x
		}
	}
	number := fmt.Sprintf("#%d", cy.Number)
	for _, text := range []string{join(number, late.Words(), sizesShown(cy)), join(number, late.Words()), number} {
		if w := widthOf(text, small) + 6*one; w <= room && x >= free {
			c.text("cycle", x+3*one, b.y+9*one, text, "")
			return x + w
		}
	}
	return free
}

func join(parts ...string) string {
	var kept []string
	for _, p := range parts {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, " ")
}

// sizesShown is the grouping of a cycle that differs from those before it.
func sizesShown(cy *cycle) string {
	if cy.shown == nil {
		return ""
	}
	return sizes(cy.shown)
}

// sizes writes groups as a spec does: "3+2+rest 2+3".
func sizes(groups []score.Group) string {
	return beat.SumOf(groups, func(g score.Group) (int, bool) { return g.Size, g.Blank })
}
