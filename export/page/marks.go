package page

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// marksIn returns the marks that a system shows.
func (v *view) marksIn(f frame) []score.Signpost {
	return inWindow(v.marks, f.sys.from, f.until(), func(k score.Signpost) beat.Time { return k.At })
}

// label is a boxed mark where it is drawn.
type label struct {
	score.Signpost
	shown string // its text, as far as there is room
	x, w  unit   // left edge and width of the box
}

// labels spreads the marks of a system over lanes so that no boxes overlap; the
// last lane is the lowest, and is filled first.
func (v *view) labels(f frame) [][]label {
	var lanes lanes[label]
	for _, k := range v.marksIn(f) {
		l := label{Signpost: k, shown: shorten(k.Text, normal, f.m.width/3)}
		l.w = widthOf(l.shown, normal) + 10*one
		l.x = min(max(f.sys.x(k.At)-l.w/2, one), f.m.width-l.w-one)
		lanes.add(l, l.x, l.x+l.w+3*one)
	}
	slices.Reverse(lanes.all)
	return lanes.all
}

// drawMarks draws realignments as lines through all rows under boxed labels, and
// the plan's marks as lines down to the ruler.
func (v *view) drawMarks(c *canvas, f frame) {
	foot := f.row(len(v.drawn)-1) + rowFoot + 3*one
	var boxes canvas // over all lines
	for n, lane := range v.labels(f) {
		y := unit(f.lanes)*noteLane + unit(n)*markBand
		for _, l := range lane {
			class, line, end := "box plain", "tick", f.top-4*one // to the ruler
			if l.Kind == score.Realigns {
				class, line, end = "box", "meet", foot
			}
			c.put(`<path class="%s" d="M%v %vV%v"/>`+"\n", line, f.sys.x(l.At), y+20*one, end)
			boxes.put(`<rect class="%s" x="%v" y="%v" width="%v" height="18"/>`+"\n", class, l.x, y+2*one, l.w)
			boxes.text("label", l.x+l.w/2, y+15*one, l.shown, l.Text)
		}
	}
	c.WriteString(boxes.String())
}

// lanes are lines of things that stand beside one another without touching.
type lanes[T any] struct {
	all  [][]T
	free []unit // where each lane is free again
}

// add puts what takes the paper from x to end into the first lane that has room.
func (l *lanes[T]) add(what T, x, end unit) {
	k := 0
	for k < len(l.free) && l.free[k] > x {
		k++
	}
	if k == len(l.free) {
		l.all, l.free = append(l.all, nil), append(l.free, 0)
	}
	l.all[k], l.free[k] = append(l.all[k], what), end
}

// lanes spreads the notes of a system over lines so that none overlap.
func (v *view) lanes(f frame) [][]note {
	var lanes lanes[note]
	for _, n := range inWindow(v.notes, f.sys.from, f.until(), func(n note) beat.Time { return n.at }) {
		x, w := f.noteAt(n)
		lanes.add(n, x, x+w+8*one)
	}
	return lanes.all
}

// noteAt returns where a note's text begins and how wide it is; it stays on the
// paper.
func (f frame) noteAt(n note) (x, w unit) {
	w = widthOf(shorten(n.text, normal, f.m.width), normal)
	return max(0, min(f.sys.x(n.at), f.m.width-w)), w
}

func (v *view) drawNotes(c *canvas, f frame) {
	for k, lane := range v.lanes(f) {
		for _, n := range lane {
			x, _ := f.noteAt(n)
			c.text("note", x, unit(k)*noteLane+11*one, shorten(n.text, normal, f.m.width), n.text)
		}
	}
}
