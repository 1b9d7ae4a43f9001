package pen

// slashWidth is how wide a slash is; it is as high as two spaces.
const slashWidth Unit = 170

// Heads: the left edge at x = 0, the middle at y = 0.
func headShapes() map[Sign]outline {
	return map[Sign]outline{
		HeadBlack: ellipse(59, 0, 62, 43, tilt{-25, 906, -423}, false),
		HeadHalf: shape(
			ellipse(59, 0, 62, 43, tilt{-25, 906, -423}, false),
			ellipse(59, 0, 55, 22, tilt{-31, 857, -515}, true),
		),
		HeadWhole: shape(
			ellipse(85, 0, 85, 50, upright, false),
			ellipse(85, 0, 46, 30, tilt{58, 530, 848}, true),
		),
		HeadCross:   polygon(0, -42, 10, -50, 56, -11, 102, -50, 112, -42, 69, 0, 112, 42, 102, 50, 56, 11, 10, 50, 0, 42, 43, 0),
		HeadDiamond: polygon(0, 0, 59, -52, 118, 0, 59, 52),
		HeadDiamondOpen: shape(
			polygon(0, 0, 59, -52, 118, 0, 59, 52),
			polygon(22, 0, 59, 30, 96, 0, 59, -30),
		),
		HeadSlash: polygon(0, 100, slashWidth-70, -100, slashWidth, -100, 70, 100),
		HeadSlashOpen: shape(
			polygon(0, 100, slashWidth-70, -100, slashWidth+60, -100, 130, 100),
			polygon(40, 80, 112, 80, slashWidth+20, -80, slashWidth-52, -80),
		),
		HeadTriangle: polygon(0, 48, 59, -52, 118, 48),
		HeadTriangleOpen: shape(
			polygon(0, 48, 59, -52, 118, 48),
			polygon(24, 36, 94, 36, 59, -24),
		),
		HeadCircleCross: shape(
			disc(56, 0, 54),
			ellipse(56, 0, 44, 44, upright, true),
			polygon(20, -44, 56, -8, 92, -44, 100, -36, 64, 0, 100, 36, 92, 44, 56, 8, 20, 44, 12, 36, 48, 0, 12, -36),
		),
	}
}

// Flags: the origin is the tip of the stem, at its left side.
func stemShapes() map[Sign]outline {
	return map[Sign]outline{
		FlagUp:        traced(0, 0, []Unit{12, 0}, []Unit{14, 62, 42, 82, 68, 112}, []Unit{98, 148, 108, 200, 78, 272}, []Unit{74, 282, 64, 280, 67, 270}, []Unit{86, 218, 78, 182, 50, 152}, []Unit{32, 132, 14, 118, 0, 112}),
		FlagUpShort:   traced(0, 0, []Unit{12, 0}, []Unit{14, 40, 40, 58, 70, 86}, []Unit{100, 116, 106, 154, 86, 206}, []Unit{83, 213, 74, 211, 76, 203}, []Unit{88, 166, 80, 142, 52, 118}, []Unit{34, 102, 14, 90, 0, 84}),
		FlagDown:      traced(0, 0, []Unit{0, -104}, []Unit{14, -110, 34, -122, 52, -140}, []Unit{82, -168, 90, -200, 73, -245}, []Unit{70, -254, 80, -257, 84, -248}, []Unit{110, -184, 102, -136, 70, -104}, []Unit{40, -76, 14, -56, 12, 0}),
		flagDownShort: traced(0, 0, []Unit{0, -84}, []Unit{14, -90, 34, -102, 52, -118}, []Unit{80, -142, 88, -166, 76, -203}, []Unit{74, -211, 83, -213, 86, -206}, []Unit{106, -154, 100, -116, 70, -86}, []Unit{40, -58, 14, -40, 12, 0}),
	}
}
