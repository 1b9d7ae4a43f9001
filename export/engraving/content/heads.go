package content

import (
	"slices"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// setHeads places the heads of a note on its staff and chooses their shapes.
func (d *Reader) setHeads(it *Item, part int, m *sheet.Measure, middle int) {
	p := &d.Sheet.Parts[part]
	n := len(it.Note.Heads)
	it.Pos, it.Order, it.Head = make([]int, n), make([]int, n), make([]pen.Sign, n)
	it.aside, it.SignX = make([]bool, n), make([]pen.Unit, n)
	for i := range it.Note.Heads {
		h := &it.Note.Heads[i]
		shape := instrument.Normal
		if it.Voice.As != score.AsNotes {
			it.Head[i], it.Order[i] = slashOf(it.Note.Value.Power), i
			continue
		}
		if h.Step != 0 {
			it.Pos[i] = sheet.Steps(h.Step, int(h.Octave)) - middle
		} else if p.InstrumentIn(m).IsUnpitched() {
			drum := p.DrumOf(m, h)
			it.Pos[i], shape = sheet.Steps(drum.Step, drum.Octave)-middle, drum.Head
		}
		it.Head[i] = HeadOf(it.Note.Value.Power, shape)
		it.Order[i] = i
	}
	slices.SortStableFunc(it.Order, func(a, b int) int { return it.Pos[a] - it.Pos[b] })
}

// heads are the open and the filled sign of each shape.
var heads = map[instrument.Head][2]pen.Sign{
	instrument.Normal:      {pen.HeadHalf, pen.HeadBlack},
	instrument.Cross:       {pen.HeadCircleCross, pen.HeadCross},
	instrument.CircleCross: {pen.HeadCircleCross, pen.HeadCircleCross},
	instrument.Diamond:     {pen.HeadDiamondOpen, pen.HeadDiamond},
	instrument.Triangle:    {pen.HeadTriangleOpen, pen.HeadTriangle},
}

// HeadOf is the head of a note value in a shape.
func HeadOf(power int, shape instrument.Head) pen.Sign {
	switch {
	case power == 0 && shape == instrument.Normal:
		return pen.HeadWhole
	case power < 2:
		return heads[shape][0]
	}
	return heads[shape][1]
}

// slashOf is the slash of a note value, on the middle line.
func slashOf(power int) pen.Sign {
	if power < 2 {
		return pen.HeadSlashOpen
	}
	return pen.HeadSlash
}

// Width is how wide a head is.
func (it *Item) Width(head int) pen.Unit { return it.Size(pen.HeadWidth(it.Head[head])) }

// HeadX is the left edge of a head from its column's place.
func (it *Item) HeadX(head int) pen.Unit {
	x := it.Shift
	if it.aside[head] {
		w := it.Width(head) - it.Size(8)
		if !it.Up {
			w = -w
		}
		x += w
	}
	return x
}

// setAside puts one of two heads a step apart on the other side of the stem.
func (it *Item) setAside() {
	clear(it.aside)
	o := slices.Clone(it.Order) // from the foot of the stem
	if !it.Up {
		slices.Reverse(o)
	}
	for i := 1; i < len(o); i++ {
		step := it.Pos[o[i]] - it.Pos[o[i-1]]
		it.aside[o[i]] = max(step, -step) <= 1 && !it.aside[o[i-1]]
	}
}

// giveWay moves a chord aside where its heads meet those of another voice. Two
// voices may share one head.
func giveWay(a, b *Item) {
	w := max(a.Width(0), b.Width(0))
	if a.Up == b.Up {
		for _, p := range a.Pos {
			for _, q := range b.Pos {
				if d := p - q; d >= -1 && d <= 1 {
					b.Shift = max(b.Shift, a.Shift+w+aside(b))
				}
			}
		}
		return
	}
	up, down := a, b
	if b.Up {
		up, down = b, a
	}
	switch gap := up.Low() - down.High(); {
	case gap >= 2:
	case gap == 0 && len(b.Pos) == 1 && len(a.Pos) == 1 && a.Head[0] == b.Head[0] && a.Percent == b.Percent &&
		a.Note.Value.Dots == b.Note.Value.Dots && a.Note.Heads[0].Alter == b.Note.Heads[0].Alter:
		b.Shared = true
	case gap == 1 && len(up.Pos) == 1 && len(down.Pos) == 1:
		down.Shift = max(down.Shift, up.Shift+w-8)
	default:
		down.Shift = max(down.Shift, up.Shift+w+20+aside(down)+dotsWidth(up))
	}
}

// aside is how far a chord's heads reach left of its stem's side.
func aside(it *Item) pen.Unit {
	if !it.Up && slices.Contains(it.aside, true) {
		return it.Size(110)
	}
	return 0
}

func dotsWidth(it *Item) pen.Unit {
	if it.Note.Value.Dots == 0 {
		return 0
	}
	return 22 + pen.Unit(it.Note.Value.Dots)*DotStep
}

const (
	DotStep    pen.Unit = 58 // from dot to dot
	flagReach  pen.Unit = 72 // of a flag, right of its head
	LedgerOver pen.Unit = 25 // how far ledger lines reach beyond a head
)

// extent is how far a note or rest reaches left and right of its column.
func (it *Item) extent(st *Staff) (left, right pen.Unit) {
	if it.Rest != nil {
		right = it.Size(pen.RestWidth(it.Rest.Value.Power)) + pen.Unit(it.Rest.Value.Dots)*50
		return 0, right
	}
	for i := range it.Pos {
		x := it.HeadX(i)
		left, right = max(left, -x), max(right, x+it.Width(i))
		if it.Note.Heads[i].Accidental != sheet.NoSign {
			left = max(left, -it.SignX[i])
		}
		if p := it.Pos[i]; st.Lines == 5 && (p > 5 || p < -5) {
			right, left = max(right, x+it.Width(i)+LedgerOver), max(left, LedgerOver-x)
		}
	}
	stem := it.Shift + max(it.Size(118), it.Width(it.Foot())) // where one is that goes up
	if it.Rolled() && it.HasStem() && it.Up {
		right = max(right, stem+StrokeReach)
	} else if it.Rolled() && it.HasStem() {
		left = max(left, StrokeReach-it.Shift)
	}
	flagged := !it.Beamed() && it.Flags() > 0 && it.Up
	if flagged && st.Lines == 1 { // the flag reaches down to the dot
		right = max(right, stem+it.Size(flagReach))
	}
	it.DotX = right + 22
	if slices.ContainsFunc(it.Note.Heads, func(h sheet.Head) bool { return h.Ghost }) {
		left, right = left+35, right+35
		it.DotX += 35
	}
	if n := it.Note.Value.Dots; n > 0 {
		right = it.DotX + pen.Unit(n)*DotStep - 18
	}
	if flagged {
		right = max(right, stem+it.Size(flagReach))
	}
	return left, right
}
