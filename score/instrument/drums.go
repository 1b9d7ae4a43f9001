package instrument

// Keys are General MIDI's percussion key map (35 to 81), counted from 0.
// Places on the staff are common practice for drum set; a single sound is on its one
// line, a pair a step above and below it.

// unpitched returns a percussion instrument on the given number of lines whose
// first sound is the one it makes when the spec names none.
func unpitched(name, label, short string, lines, most, repeat int, drums ...Drum) Instrument {
	return Instrument{
		Name: name, Label: label, Short: short, Family: Percussion,
		Clef: neutral(), Staves: 1, Lines: lines,
		Sound: drums[0].Sound, Program: 1, Drums: drums, Most: most, RepeatMS: repeat,
	}
}

// line returns a sound on the only line of a staff.
func line(name, label, sound string, key int) Drum {
	return Drum{Name: name, Label: label, Sound: sound, Key: key, Step: 'E', Octave: 4}
}

// onUpper returns the higher of two sounds at one line.
func onUpper(d Drum) Drum { d.Step = 'F'; return d }

// onLower returns the lower of them.
func onLower(d Drum) Drum { d.Step = 'D'; return d }

// oneSound returns an instrument of one sound on one line.
func oneSound(name, label, short, sound string, key, repeat int) Instrument {
	return unpitched(name, label, short, 1, 1, repeat, line(name, label, sound, key))
}

// pair returns an instrument of a high and a low sound around one line.
func pair(name, label, short, sound string, high, low int) Instrument {
	return unpitched(name, label, short, 1, 2, 60,
		onUpper(line("high", "High "+label, sound, high)),
		onLower(line("low", "Low "+label, sound, low)))
}

func drums() []Instrument {
	return []Instrument{
		drumSet(),
		unpitched("snare drum", "Snare Drum", "S. Dr.", 1, 1, 40,
			line("snare", "Snare Drum", "drum.snare-drum", 38),
			cross(line("side stick", "Side Stick", "drum.snare-drum", 37))),
		oneSound("bass drum", "Bass Drum", "B. Dr.", "drum.bass-drum", 36, 100),
		unpitched("tom-toms", "Tom-toms", "Toms", 5, 2, 50,
			placed(line("high tom", "High Tom", "drum.tom-tom", 50), 'E', 5),
			placed(line("mid tom", "Mid Tom", "drum.tom-tom", 47), 'C', 5),
			placed(line("low tom", "Low Tom", "drum.tom-tom", 45), 'A', 4),
			placed(line("floor tom", "Floor Tom", "drum.tom-tom", 43), 'F', 4)),
		pair("bongos", "Bongos", "Bong.", "drum.bongo", 60, 61),
		unpitched("congas", "Congas", "Cong.", 1, 2, 60,
			onUpper(line("high", "High Conga", "drum.conga", 63)),
			onUpper(cross(line("slap", "Conga Slap", "drum.conga", 62))),
			onLower(line("low", "Low Conga", "drum.conga", 64))),
		pair("timbales", "Timbales", "Timb.", "drum.timbale", 65, 66),
		pair("agogo", "Agogo Bells", "Ag.", "metal.bells.agogo", 67, 68),
		pair("woodblocks", "Wood Blocks", "W. Bls.", "wood.wood-block", 76, 77),
		oneSound("woodblock", "Wood Block", "W. Bl.", "wood.wood-block", 76, 60),
		oneSound("claves", "Claves", "Clav.", "wood.claves", 75, 80),
		oneSound("handclap", "Hand Clap", "Clap", "effect.hand-clap", 39, 110),
		oneSound("cowbell", "Cowbell", "Cowb.", "metal.bells.cowbell", 56, 70),
		oneSound("shaker", "Shaker", "Shak.", "rattle.shaker", 70, 70),
		oneSound("maracas", "Maracas", "Mrcs.", "rattle.maraca", 70, 70),
		oneSound("cabasa", "Cabasa", "Cab.", "rattle.cabasa", 69, 90),
		unpitched("guiro", "Guiro", "Guiro", 1, 1, 110,
			line("short", "Short Guiro", "wood.guiro", 73),
			line("long", "Long Guiro", "wood.guiro", 74)),
		oneSound("tambourine", "Tambourine", "Tamb.", "drum.tambourine", 54, 80),
		unpitched("triangle", "Triangle", "Tri.", 1, 1, 80,
			line("open", "Open Triangle", "metal.triangle", 81),
			cross(line("mute", "Muted Triangle", "metal.triangle", 80))),
		oneSound("suspended cymbal", "Suspended Cymbal", "Susp. Cym.", "metal.cymbal.suspended", 49, 80),
		oneSound("ride cymbal", "Ride Cymbal", "Ride", "metal.cymbal.ride", 51, 70),
	}
}

func cross(d Drum) Drum {
	d.Head = Cross
	return d
}

func placed(d Drum, step byte, octave int) Drum {
	d.Step, d.Octave = step, octave
	return d
}

// drumSet is played by one drummer: hands above, feet below.
func drumSet() Instrument {
	foot := func(d Drum) Drum { d.Feet = true; return d }
	open := placed(line("open hi-hat", "Open Hi-hat", "metal.hi-hat", 46), 'G', 5)
	open.Head = CircleCross
	bell := placed(line("ride bell", "Ride Bell", "metal.cymbal.ride", 53), 'F', 5)
	bell.Head = Diamond
	cowbell := placed(line("cowbell", "Cowbell", "metal.bells.cowbell", 56), 'E', 5)
	cowbell.Head = Triangle
	kit := unpitched("drum set", "Drum Set", "Dr.", 5, 4, 50,
		placed(line("snare", "Snare Drum", "drum.snare-drum", 38), 'C', 5),
		cross(placed(line("side stick", "Side Stick", "drum.snare-drum", 37), 'C', 5)),
		foot(placed(line("kick", "Bass Drum", "drum.bass-drum", 36), 'F', 4)),
		cross(placed(line("closed hi-hat", "Closed Hi-hat", "metal.hi-hat", 42), 'G', 5)),
		open,
		foot(cross(placed(line("pedal hi-hat", "Pedal Hi-hat", "metal.hi-hat", 44), 'D', 4))),
		cross(placed(line("ride", "Ride Cymbal", "metal.cymbal.ride", 51), 'F', 5)),
		bell,
		cross(placed(line("crash", "Crash Cymbal", "metal.cymbal.crash", 49), 'A', 5)),
		cross(placed(line("splash", "Splash Cymbal", "metal.cymbal.splash", 55), 'B', 5)),
		placed(line("high tom", "High Tom", "drum.tom-tom", 50), 'E', 5),
		placed(line("mid tom", "Mid Tom", "drum.tom-tom", 47), 'D', 5),
		placed(line("floor tom", "Floor Tom", "drum.tom-tom", 43), 'A', 4),
		cowbell)
	kit.Sound = "drum.group.set"
	return kit
}
