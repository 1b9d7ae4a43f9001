package engraving

// slashWidth is how wide a slash is; it is as high as two spaces.
const slashWidth unit = 170

// Heads: the left edge at x = 0, the middle at y = 0.
func headShapes() map[sign]outline {
	return map[sign]outline{
		headBlack: ellipse(59, 0, 62, 43, tilt{-25, 906, -423}, false),
		headHalf: shape(
			ellipse(59, 0, 62, 43, tilt{-25, 906, -423}, false),
			ellipse(59, 0, 55, 22, tilt{-31, 857, -515}, true),
		),
		headWhole: shape(
			ellipse(85, 0, 85, 50, upright, false),
			ellipse(85, 0, 46, 30, tilt{58, 530, 848}, true),
		),
		headCross:   polygon(0, -42, 10, -50, 56, -11, 102, -50, 112, -42, 69, 0, 112, 42, 102, 50, 56, 11, 10, 50, 0, 42, 43, 0),
		headDiamond: polygon(0, 0, 59, -52, 118, 0, 59, 52),
		headDiamondOpen: shape(
			polygon(0, 0, 59, -52, 118, 0, 59, 52),
			polygon(22, 0, 59, 30, 96, 0, 59, -30),
		),
		headSlash: polygon(0, 100, slashWidth-70, -100, slashWidth, -100, 70, 100),
		headSlashOpen: shape(
			polygon(0, 100, slashWidth-70, -100, slashWidth+60, -100, 130, 100),
			polygon(40, 80, 112, 80, slashWidth+20, -80, slashWidth-52, -80),
		),
		headTriangle: polygon(0, 48, 59, -52, 118, 48),
		headTriangleOpen: shape(
			polygon(0, 48, 59, -52, 118, 48),
			polygon(24, 36, 94, 36, 59, -24),
		),
		headCircleCross: shape(
			disc(56, 0, 54),
			ellipse(56, 0, 44, 44, upright, true),
			polygon(20, -44, 56, -8, 92, -44, 100, -36, 64, 0, 100, 36, 92, 44, 56, 8, 20, 44, 12, 36, 48, 0, 12, -36),
		),
	}
}

// Flags: the origin is the tip of the stem, at its left side.
func stemShapes() map[sign]outline {
	return map[sign]outline{
		flagUp:        traced(0, 0, []unit{12, 0}, []unit{14, 62, 42, 82, 68, 112}, []unit{98, 148, 108, 200, 78, 272}, []unit{74, 282, 64, 280, 67, 270}, []unit{86, 218, 78, 182, 50, 152}, []unit{32, 132, 14, 118, 0, 112}),
		flagUpShort:   traced(0, 0, []unit{12, 0}, []unit{14, 40, 40, 58, 70, 86}, []unit{100, 116, 106, 154, 86, 206}, []unit{83, 213, 74, 211, 76, 203}, []unit{88, 166, 80, 142, 52, 118}, []unit{34, 102, 14, 90, 0, 84}),
		flagDown:      traced(0, 0, []unit{0, -104}, []unit{14, -110, 34, -122, 52, -140}, []unit{82, -168, 90, -200, 73, -245}, []unit{70, -254, 80, -257, 84, -248}, []unit{110, -184, 102, -136, 70, -104}, []unit{40, -76, 14, -56, 12, 0}),
		flagDownShort: traced(0, 0, []unit{0, -84}, []unit{14, -90, 34, -102, 52, -118}, []unit{80, -142, 88, -166, 76, -203}, []unit{74, -211, 83, -213, 86, -206}, []unit{106, -154, 100, -116, 70, -86}, []unit{40, -58, 14, -40, 12, 0}),
	}
}
