package engraving

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// setHeads places the heads of a note on its staff and chooses their shapes.
func (d *reader) setHeads(it *item, part int, m *sheet.Measure, middle int) {
	p := &d.sheet.Parts[part]
	n := len(it.note.Heads)
	it.pos, it.order, it.head = make([]int, n), make([]int, n), make([]sign, n)
	it.aside, it.signX = make([]bool, n), make([]unit, n)
	for i := range it.note.Heads {
		h := &it.note.Heads[i]
		shape := instrument.Normal
		if it.voice.As != score.AsNotes {
			it.head[i], it.order[i] = slashOf(it.note.Value.Power), i
			continue
		}
		if h.Step != 0 {
			it.pos[i] = sheet.Steps(h.Step, int(h.Octave)) - middle
		} else if p.InstrumentIn(m).IsUnpitched() {
			drum := p.DrumOf(m, h)
			it.pos[i], shape = sheet.Steps(drum.Step, drum.Octave)-middle, drum.Head
		}
		it.head[i] = headOf(it.note.Value.Power, shape)
		it.order[i] = i
	}
	slices.SortStableFunc(it.order, func(a, b int) int { return it.pos[a] - it.pos[b] })
}

// heads are the open and the filled sign of each shape.
var heads = map[instrument.Head][2]sign{
	instrument.Normal:      {headHalf, headBlack},
	instrument.Cross:       {headCircleCross, headCross},
	instrument.CircleCross: {headCircleCross, headCircleCross},
	instrument.Diamond:     {headDiamondOpen, headDiamond},
	instrument.Triangle:    {headTriangleOpen, headTriangle},
}

// headOf is the head of a note value in a shape.
func headOf(power int, shape instrument.Head) sign {
	switch {
	case power == 0 && shape == instrument.Normal:
		return headWhole
	case power < 2:
		return heads[shape][0]
	}
	return heads[shape][1]
}

// slashOf is the slash of a note value, on the middle line.
func slashOf(power int) sign {
	if power < 2 {
		return headSlashOpen
	}
	return headSlash
}

func (it *item) width(head int) unit { return it.size(headWidth(it.head[head])) }

// headX is the left edge of a head from its column's place.
func (it *item) headX(head int) unit {
	x := it.shift
	if it.aside[head] {
		w := it.width(head) - it.size(8)
		if !it.up {
			w = -w
		}
		x += w
	}
	return x
}

// setAside puts one of two heads a step apart on the other side of the stem.
func (it *item) setAside() {
	clear(it.aside)
	o := slices.Clone(it.order) // from the foot of the stem
	if !it.up {
		slices.Reverse(o)
	}
	for i := 1; i < len(o); i++ {
		step := it.pos[o[i]] - it.pos[o[i-1]]
		it.aside[o[i]] = max(step, -step) <= 1 && !it.aside[o[i-1]]
	}
}

// giveWay moves a chord aside where its heads meet those of another voice. Two
// voices may share one head.
func giveWay(a, b *item) {
	w := max(a.width(0), b.width(0))
	if a.up == b.up {
		for _, p := range a.pos {
			for _, q := range b.pos {
				if d := p - q; d >= -1 && d <= 1 {
					b.shift = max(b.shift, a.shift+w+aside(b))
				}
			}
		}
		return
	}
	up, down := a, b
	if b.up {
		up, down = b, a
	}
	switch gap := up.low() - down.high(); {
	case gap >= 2:
	case gap == 0 && len(b.pos) == 1 && len(a.pos) == 1 && a.head[0] == b.head[0] && a.percent == b.percent &&
		a.note.Value.Dots == b.note.Value.Dots && a.note.Heads[0].Alter == b.note.Heads[0].Alter:
		b.shared = true
	case gap == 1 && len(up.pos) == 1 && len(down.pos) == 1:
		down.shift = max(down.shift, up.shift+w-8)
	default:
		down.shift = max(down.shift, up.shift+w+20+aside(down)+dotsWidth(up))
	}
}

// aside is how far a chord's heads reach left of its stem's side.
func aside(it *item) unit {
	if !it.up && slices.Contains(it.aside, true) {
		return it.size(110)
	}
	return 0
}

func dotsWidth(it *item) unit {
	if it.note.Value.Dots == 0 {
		return 0
	}
	return 22 + unit(it.note.Value.Dots)*dotStep
}

const (
	dotStep    unit = 58 // from dot to dot
	flagReach  unit = 72 // of a flag, right of its head
	ledgerOver unit = 25 // how far ledger lines reach beyond a head
)

// extent is how far a note or rest reaches left and right of its column.
func (it *item) extent(st *staff) (left, right unit) {
	if it.rest != nil {
		right = it.size(restWidth(it.rest.Value.Power)) + unit(it.rest.Value.Dots)*50
		return 0, right
	}
	for i := range it.pos {
		x := it.headX(i)
		left, right = max(left, -x), max(right, x+it.width(i))
		if it.note.Heads[i].Accidental != sheet.NoSign {
			left = max(left, -it.signX[i])
		}
		if p := it.pos[i]; st.lines == 5 && (p > 5 || p < -5) {
			right, left = max(right, x+it.width(i)+ledgerOver), max(left, ledgerOver-x)
		}
	}
	stem := it.shift + max(it.size(118), it.width(it.foot())) // where one is that goes up
	if it.rolled() && it.hasStem() && it.up {
		right = max(right, stem+strokeReach)
	} else if it.rolled() && it.hasStem() {
		left = max(left, strokeReach-it.shift)
	}
	flagged := !it.beamed() && it.flags() > 0 && it.up
	if flagged && st.lines == 1 { // the flag reaches down to the dot
		right = max(right, stem+it.size(flagReach))
	}
	it.dotX = right + 22
	if it.note.Touch.Has(score.Ghost) {
		left, right = left+35, right+35
		it.dotX += 35
	}
	if n := it.note.Value.Dots; n > 0 {
		right = it.dotX + unit(n)*dotStep - 18
	}
	if flagged {
		right = max(right, stem+it.size(flagReach))
	}
	return left, right
}
