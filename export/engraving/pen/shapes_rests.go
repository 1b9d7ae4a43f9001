package pen

import "maps"

// Rests: the left edge at x = 0; y = 0 is the middle line.
func restShapes() map[Sign]outline {
	return map[Sign]outline{
		restQuarter: traced(34, -150, []Unit{52, -126, 76, -96, 88, -78}, []Unit{96, -66, 92, -56, 84, -46}, []Unit{70, -30, 60, -16, 60, 2}, []Unit{60, 26, 80, 50, 100, 72}, []Unit{106, 79, 101, 86, 93, 82}, []Unit{70, 70, 44, 68, 36, 82}, []Unit{28, 98, 44, 122, 62, 142}, []Unit{67, 148, 62, 154, 55, 149}, []Unit{22, 126, 0, 96, 6, 70}, []Unit{11, 50, 32, 46, 54, 52}, []Unit{40, 34, 22, 14, 6, -6}, []Unit{-1, -15, 0, -22, 8, -31}, []Unit{24, -50, 36, -66, 36, -88}, []Unit{36, -106, 28, -126, 22, -142}, []Unit{18, -152, 28, -158, 34, -150}),
	}
}

// flaggedRest draws a rest with so many hooks, a space apart, on a slanting
// stem that is the longer the more there are.
func flaggedRest(hooks int) outline {
	top := -72 - Unit((hooks-1)/2)*Space
	foot := Unit(1+hooks/2+(hooks-1)/4) * Space
	if hooks == 3 {
		foot = 2 * Space
	}
	slant := func(y Unit) Unit { return 98 + Unit(hooks-1)*24 - y.Percent(28) + top.Percent(28) }
	o := polygon(slant(top)-2, top, slant(top)+12, top, slant(foot)+8, foot, slant(foot)-6, foot)
	for k := range hooks {
		y := top + 24 + Unit(k)*Space
		x := slant(y) - 72
		o = append(o, disc(x, y, 26)...)
		o = append(o, brush(touch{x - 10, y + 20, 10}, touch{x + 22, y + 22, 14}, touch{slant(y) - 12, y - 2, 10}, touch{slant(y-20) + 4, y - 22, 8})...)
	}
	return o
}

// Accidentals: from x = 0 to their width, y = 0 at the height of the head.
func accidentalShapes() map[Sign]outline {
	return map[Sign]outline{
		SignSharp: shape(
			rectangle(24, -128, 36, 142),
			rectangle(66, -142, 78, 128),
			polygon(0, -30, 102, -68, 102, -32, 0, 6),
			polygon(0, 64, 102, 26, 102, 62, 0, 100),
		),
		SignFlat: shape(
			rectangle(0, -175, 12, 62),
			traced(12, -22, []Unit{34, -52, 74, -48, 78, -14}, []Unit{80, 18, 48, 40, 0, 76}, []Unit{0, 56}, []Unit{30, 36, 48, 10, 48, -12}, []Unit{48, -32, 26, -32, 12, -4}),
		),
		SignNatural: shape(
			rectangle(0, -140, 12, 72),
			rectangle(56, -72, 68, 140),
			polygon(0, -44, 68, -72, 68, -38, 0, -10),
			polygon(0, 40, 68, 12, 68, 46, 0, 74),
		),
		SignDoubleSharp: polygon(0, -50, 30, -50, 30, -26, 50, -8, 70, -26, 70, -50, 100, -50, 100, -20, 76, -20, 58, 0, 76, 20, 100, 20, 100, 50, 70, 50, 70, 26, 50, 8, 30, 26, 30, 50, 0, 50, 0, 20, 24, 20, 42, 0, 24, -20, 0, -20),
	}
}

// Articulations: centered at x = 0, their foot at y = 0.
func articulationShapes() map[Sign]outline {
	marcato := polygon(-50, 0, -6, -110, 6, -110, 50, 0, 24, 0, -6, -76, -38, 0)
	fermata := shape(
		traced(-118, 0, []Unit{-112, -72, -62, -118, 0, -118}, []Unit{62, -118, 112, -72, 118, 0}, []Unit{108, 0}, []Unit{98, -50, 56, -86, 0, -86}, []Unit{-56, -86, -98, -50, -108, 0}, []Unit{-118, 0}),
		disc(0, -22, 22),
	)
	return map[Sign]outline{
		FermataUp:   fermata,
		FermataDown: fermata.mapped(func(x, y Unit) (Unit, Unit) { return x, -118 - y }),
		AccentMark: polygon(-62, -92, 66, -50, 66, -42, -62, 0,
			-62, -16, 30, -46, -62, -76),
		StaccatoDot:     disc(0, -20, 20),
		TenutoLine:      rectangle(-60, -16, 60, 0),
		MarcatoUp:       marcato,
		MarcatoDown:     marcato.mapped(func(x, y Unit) (Unit, Unit) { return x, -110 - y }),
		AugmentationDot: disc(20, 0, 20),
		ParenLeft:       brush(touch{26, -72, 4}, touch{6, -30, 13}, touch{6, 30, 13}, touch{26, 72, 4}),
		ParenRight:      brush(touch{0, -72, 4}, touch{20, -30, 13}, touch{20, 30, 13}, touch{0, 72, 4}),
	}
}

// shapes has the outline of every sign.
func shapes() map[Sign]outline {
	all := map[Sign]outline{
		RestWhole: rectangle(0, -100, 114, -50), // it hangs from the line above the middle
		restHalf:  rectangle(0, -50, 114, 0),
	}
	for _, part := range []map[Sign]outline{clefShapes(), digitShapes(), headShapes(), stemShapes(), restShapes(), accidentalShapes(), articulationShapes()} {
		maps.Copy(all, part)
	}
	all[digit9] = all[digit6].turned(136)
	all[SignDoubleFlat] = shape(all[SignFlat], all[SignFlat].moved(68))
	for hooks := range 5 {
		all[rest8+Sign(hooks)] = flaggedRest(hooks + 1)
	}
	return all
}
