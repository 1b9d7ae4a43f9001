package pen

// HeadWidth is how wide a head is drawn in full size.
func HeadWidth(s Sign) Unit {
	switch s {
	case HeadWhole:
		return 170
	case HeadCross, HeadCircleCross:
		return 112
	case HeadSlash:
		return slashWidth
	case HeadSlashOpen:
		return slashWidth + 60
	}
	return 118
}

// StemInset is how far from a head's middle a stem begins, so that it meets the
// shape: at its side, at a corner, or before its middle.
func StemInset(s Sign, up bool) Unit {
	switch s {
	case HeadCross:
		return 44
	case HeadCircleCross, HeadDiamond, HeadDiamondOpen:
		return 8
	case HeadSlash, HeadSlashOpen:
		return 80 // its corners are where stems begin
	case HeadTriangle, HeadTriangleOpen:
		if up {
			return -40
		}
		return 44
	}
	return 18
}

// RestForm is how a rest is drawn, by its value's power.
type RestForm struct {
	Sign            Sign
	Width, Up, Down Unit // about the middle line
}

// RestForms are the forms of rests by the power of their values, from a whole to a 128th.
var RestForms = [...]RestForm{
	{RestWhole, 114, 100, -50},
	{restHalf, 114, 50, 0},
	{restQuarter, 106, 150, 150},
	{rest8, 114, 76, 100},
	{rest16, 138, 76, 200},
	{rest32, 190, 176, 200},
	{rest64, 214, 176, 300},
	{rest128, 266, 276, 400},
}

// RestWidth is how wide a rest is drawn in full size.
func RestWidth(power int) Unit { return RestForms[power].Width }
