package engraving

import "sync"

// sign names a music sign. Its origin is said beside its shape.
type sign int

const (
	noSign sign = iota
	clefG
	clefF
	clefC
	clefPercussion
	digit0
	digit1
	digit2
	digit3
	digit4
	digit5
	digit6
	digit7
	digit8
	digit9
	plusSign
	headBlack
	headHalf
	headWhole
	headCross
	headDiamond
	headDiamondOpen
	headTriangle
	headTriangleOpen
	headCircleCross
	headSlash
	headSlashOpen
	flagUp
	flagUpShort
	flagDown
	flagDownShort
	restWhole
	restHalf
	restQuarter
	rest8
	rest16
	rest32
	rest64
	rest128
	signSharp
	signFlat
	signNatural
	signDoubleSharp
	signDoubleFlat
	accentMark
	staccatoDot
	tenutoLine
	marcatoUp
	marcatoDown
	fermataUp
	fermataDown
	augmentationDot
	parenLeft
	parenRight
	signCount
)

// sizes of signs in percent: of the staff, of small notes, and in tempo marks.
const (
	fullSize  = 100
	smallSize = 66
	tempoSize = 72
)

var sizes = [...]int{fullSize, smallSize, tempoSize}

// drawn is a sign as it is written: where its path begins, and how it goes on.
type drawn struct {
	dx, dy unit
	text   path
}

// drawnSigns has the text of every sign in every size.
var drawnSigns = sync.OnceValue(func() *[len(sizes)][signCount]drawn {
	var all [len(sizes)][signCount]drawn
	for s, o := range shapes() {
		for i, percent := range sizes {
			d := &all[i][s]
			d.dx, d.dy, d.text = o.scaled(percent).relative()
		}
	}
	return &all
})

// sign adds a sign with its origin at a place.
func (p *path) sign(s sign, x, y unit, percent int) {
	i := 0
	for sizes[i] != percent {
		i++
	}
	d := &drawnSigns()[i][s]
	p.at('M', x+d.dx, y+d.dy)
	*p = append(*p, d.text...)
}

// digit returns the sign of a digit.
func digit(c rune) sign { return digit0 + sign(c-'0') }
