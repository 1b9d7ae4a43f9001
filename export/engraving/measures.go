package engraving

// headWidth is how wide a head is drawn in full size.
func headWidth(s sign) unit {
	switch s {
	case headWhole:
		return 170
	case headCross, headCircleCross:
		return 112
	case headSlash:
		return slashWidth
	case headSlashOpen:
		return slashWidth + 60
	}
	return 118
}

// stemInset is how far from a head's middle a stem begins, so that it meets the
// shape: at its side, at a corner, or before its middle.
func stemInset(s sign, up bool) unit {
	switch s {
	case headCross:
		return 44
	case headCircleCross, headDiamond, headDiamondOpen:
		return 8
	case headSlash, headSlashOpen:
		return 80 // its corners are where stems begin
	case headTriangle, headTriangleOpen:
		if up {
			return -40
		}
		return 44
	}
	return 18
}

// restForm is how a rest is drawn, by its value's power.
type restForm struct {
	sign            sign
	width, up, down unit // about the middle line
}

var restForms = [...]restForm{
	{restWhole, 114, 100, -50},
	{restHalf, 114, 50, 0},
	{restQuarter, 106, 150, 150},
	{rest8, 114, 76, 100},
	{rest16, 138, 76, 200},
	{rest32, 190, 176, 200},
	{rest64, 214, 176, 300},
	{rest128, 266, 276, 400},
}

func restWidth(power int) unit { return restForms[power].width }
