package pen

import "sync"

// Sign names a music sign. Its origin is written beside its shape.
type Sign int

const (
	noSign Sign = iota
	ClefG
	ClefF
	ClefC
	ClefPercussion
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
	PlusSign
	HeadBlack
	HeadHalf
	HeadWhole
	HeadCross
	HeadDiamond
	HeadDiamondOpen
	HeadTriangle
	HeadTriangleOpen
	HeadCircleCross
	HeadSlash
	HeadSlashOpen
	FlagUp
	FlagUpShort
	FlagDown
	flagDownShort
	RestWhole
	restHalf
	restQuarter
	rest8
	rest16
	rest32
	rest64
	rest128
	SignSharp
	SignFlat
	SignNatural
	SignDoubleSharp
	SignDoubleFlat
	AccentMark
	StaccatoDot
	TenutoLine
	MarcatoUp
	MarcatoDown
	FermataUp
	FermataDown
	AugmentationDot
	ParenLeft
	ParenRight
	signCount
)

// Sizes of signs in percent: of the staff, of small notes, and in tempo marks.
const (
	FullSize  = 100
	SmallSize = 66
	TempoSize = 72
)

var sizes = [...]int{FullSize, SmallSize, TempoSize}

// drawn is a sign as it is written: where its path begins, and how it goes on.
type drawn struct {
	dx, dy Unit
	text   Path
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

// Sign adds a sign with its origin at a place.
func (p *Path) Sign(s Sign, x, y Unit, percent int) {
	i := 0
	for sizes[i] != percent {
		i++
	}
	d := &drawnSigns()[i][s]
	p.At('M', x+d.dx, y+d.dy)
	*p = append(*p, d.text...)
}

// Digit returns the sign of a digit.
func Digit(c rune) Sign { return digit0 + Sign(c-'0') }
