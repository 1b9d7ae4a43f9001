package pen

// Clefs: the origin is on the line that they name.
func clefShapes() map[Sign]outline {
	return map[Sign]outline{
		ClefG: shape(
			brush(touch{-28, 42, 6}, touch{-52, 20, 14}, touch{-50, -28, 22}, touch{-2, -72, 30}, touch{62, -50, 36}, touch{86, 10, 34}, touch{62, 72, 24}, touch{5, 99, 16}, touch{-66, 86, 26}, touch{-116, 20, 42}, touch{-108, -66, 44}, touch{-55, -150, 36}, touch{10, -220, 26}, touch{62, -300, 20}, touch{70, -380, 16}, touch{42, -440, 12}, touch{2, -402, 30}, touch{-12, -320, 26}, touch{0, -230, 15}, touch{24, -90, 13}, touch{48, 60, 13}, touch{62, 160, 13}, touch{50, 230, 13}, touch{2, 262, 12}, touch{-42, 242, 16}),
			disc(-32, 212, 32),
		),
		ClefF: shape(
			disc(2, 0, 36),
			brush(touch{-30, 2, 8}, touch{-22, -55, 10}, touch{35, -100, 14}, touch{105, -80, 40}, touch{132, -5, 50}, touch{108, 85, 42}, touch{40, 175, 22}, touch{-62, 245, 4}),
			disc(202, -50, 20),
			disc(202, 50, 20),
		),
		ClefC: shape(
			rectangle(0, -200, 46, 200),
			rectangle(68, -200, 80, 200),
			brush(touch{86, 0, 10}, touch{108, -42, 16}, touch{142, -62, 12}, touch{185, -42, 12}, touch{220, -95, 42}, touch{208, -165, 34}, touch{160, -196, 12}, touch{118, -172, 8}),
			disc(126, -150, 25),
			brush(touch{86, 0, 10}, touch{108, 42, 16}, touch{142, 62, 12}, touch{185, 42, 12}, touch{220, 95, 42}, touch{208, 165, 34}, touch{160, 196, 12}, touch{118, 172, 8}),
			disc(126, 150, 25),
		),
		ClefPercussion: shape(
			rectangle(0, -100, 38, 100),
			rectangle(70, -100, 108, 100),
		),
	}
}

// Digits: two spaces high about y = 0, the left edge at x = 0.
func digitShapes() map[Sign]outline {
	return map[Sign]outline{
		digit0: shape(
			ellipse(78, 0, 72, 100, upright, false),
			ellipse(78, 0, 30, 84, upright, true),
		),
		digit1: shape(
			rectangle(42, -98, 86, 82),
			polygon(42, -98, 50, -98, 12, -28, 2, -34),
			rectangle(14, 80, 114, 98),
		),
		digit2: shape(
			disc(36, -50, 27),
			brush(touch{14, -55, 8}, touch{36, -88, 14}, touch{78, -90, 26}, touch{110, -48, 46}, touch{86, 0, 34}, touch{40, 38, 16}, touch{10, 94, 10}),
			brush(touch{8, 92, 10}, touch{42, 62, 30}, touch{82, 82, 36}, touch{120, 78, 16}, touch{134, 42, 6}),
		),
		digit3: shape(
			disc(34, -56, 25),
			brush(touch{13, -62, 8}, touch{38, -90, 12}, touch{76, -88, 26}, touch{98, -48, 44}, touch{80, -10, 20}, touch{45, 0, 10}),
			brush(touch{45, -3, 10}, touch{86, 6, 20}, touch{110, 46, 48}, touch{82, 88, 26}, touch{40, 92, 14}, touch{12, 64, 8}),
			disc(34, 56, 26),
		),
		digit4: shape(
			polygon(62, -100, 105, -100, 24, 36, 2, 36),
			rectangle(2, 28, 150, 46),
			rectangle(74, -30, 116, 90),
			polygon(74, -30, 116, -62, 116, 0, 74, 0),
			rectangle(50, 84, 140, 99),
		),
		digit5: shape(
			polygon(20, -98, 30, -90, 30, -2, 16, 4),
			polygon(20, -100, 62, -92, 118, -100, 106, -70, 70, -58, 22, -66),
			brush(touch{20, -2, 8}, touch{52, -24, 16}, touch{94, -12, 34}, touch{110, 34, 46}, touch{82, 84, 28}, touch{42, 92, 14}, touch{12, 62, 8}),
			disc(34, 56, 26),
		),
		digit6: shape(
			brush(touch{116, -60, 8}, touch{94, -92, 12}, touch{62, -86, 20}, touch{30, -40, 38}, touch{24, 20, 44}, touch{42, 78, 30}, touch{74, 93, 14}, touch{106, 68, 34}, touch{106, 24, 36}, touch{76, 0, 12}, touch{46, 14, 10}, touch{34, 36, 10}),
			disc(102, -56, 24),
		),
		digit7: shape(
			polygon(10, -100, 18, -100, 20, -90, 20, -30, 10, -30),
			brush(touch{12, -56, 10}, touch{40, -86, 30}, touch{80, -68, 34}, touch{116, -86, 14}, touch{130, -100, 4}),
			brush(touch{128, -98, 6}, touch{102, -40, 16}, touch{74, 10, 34}, touch{66, 60, 44}, touch{68, 99, 44}),
		),
		digit8: brush(touch{70, -93, 12}, touch{32, -80, 22}, touch{24, -44, 26}, touch{60, -8, 36}, touch{102, 26, 34}, touch{114, 60, 20}, touch{76, 93, 12}, touch{32, 82, 20}, touch{20, 48, 22}, touch{50, 12, 14}, touch{94, -20, 14}, touch{106, -60, 22}, touch{70, -93, 12}),
		PlusSign: shape(
			rectangle(10, -9, 90, 9),
			rectangle(41, -40, 59, 40),
		),
	}
}
