package instrument

// A row is written as: names; clef, staves and lines; transposition; sounding
// range; sound and program; most notes, their reach and the fastest repeat.
// Ranges, reaches and repeats are common practice; programs are General MIDI's
// sound set, counted from 1.

func treble() Clef { return Clef{Sign: 'G', Line: 2} }
func bass() Clef   { return Clef{Sign: 'F', Line: 4} }
func alto() Clef   { return Clef{Sign: 'C', Line: 3} }
func neutral() Clef {
	return Clef{Sign: 'P'}
}

// pitched returns a one-staff instrument without transposition.
func pitched(f Family, name, label, short string, c Clef, low, high int, sound string, program, most, reach, repeat int) Instrument {
	return Instrument{
		Name: name, Label: label, Short: short, Family: f,
		Clef: c, Staves: 1, Lines: 5, Low: low, High: high,
		Sound: sound, Program: program, Most: most, Reach: reach, RepeatMS: repeat,
	}
}

// transposed returns i written so that written plus diatonic steps, chromatic
// semitones and octaves sounds.
func transposed(i Instrument, diatonic, chromatic, octave int) Instrument {
	i.Diatonic, i.Chromatic, i.Octave = diatonic, chromatic, octave
	return i
}

// fretted returns i with strings over frets.
func fretted(i Instrument, tuning string) Instrument {
	i.Tuning = tuning
	return i
}

// keyboard returns i on two staves.
func keyboard(i Instrument) Instrument {
	i.Staves = 2
	return i
}

func woodwinds() []Instrument {
	wind := func(name, label, short string, low, high int, sound string, program, repeat int) Instrument {
		return pitched(Woodwind, name, label, short, treble(), low, high, sound, program, 1, 0, repeat)
	}
	bassoon := wind("bassoon", "Bassoon", "Bsn.", 34, 75, "wind.reed.bassoon", 71, 90)
	bassoon.Clef = bass()
	return []Instrument{
		transposed(wind("piccolo", "Piccolo", "Picc.", 74, 108, "wind.flutes.flute.piccolo", 73, 70), 0, 0, 1),
		wind("flute", "Flute", "Fl.", 60, 96, "wind.flutes.flute", 74, 70),
		transposed(wind("alto flute", "Alto Flute", "A. Fl.", 55, 91, "wind.flutes.flute.alto", 74, 80), -3, -5, 0),
		wind("oboe", "Oboe", "Ob.", 58, 91, "wind.reed.oboe", 69, 90),
		transposed(wind("english horn", "English Horn", "E. Hn.", 52, 81, "wind.reed.english-horn", 70, 90), -4, -7, 0),
		transposed(wind("e-flat clarinet", "Clarinet in E♭", "E♭ Cl.", 55, 94, "wind.reed.clarinet.eflat", 72, 90), 2, 3, 0),
		transposed(wind("clarinet", "Clarinet in B♭", "Cl.", 50, 91, "wind.reed.clarinet.bflat", 72, 90), -1, -2, 0),
		transposed(wind("clarinet in a", "Clarinet in A", "Cl. (A)", 49, 90, "wind.reed.clarinet.a", 72, 90), -2, -3, 0),
		transposed(wind("bass clarinet", "Bass Clarinet", "B. Cl.", 34, 77, "wind.reed.clarinet.bass", 72, 100), -1, -2, -1),
		bassoon,
		transposed(wind("soprano saxophone", "Soprano Saxophone", "S. Sax.", 56, 88, "wind.reed.saxophone.soprano", 65, 80), -1, -2, 0),
		transposed(wind("alto saxophone", "Alto Saxophone", "A. Sax.", 49, 81, "wind.reed.saxophone.alto", 66, 80), -5, -9, 0),
		transposed(wind("tenor saxophone", "Tenor Saxophone", "T. Sax.", 44, 76, "wind.reed.saxophone.tenor", 67, 80), -1, -2, -1),
		transposed(wind("baritone saxophone", "Baritone Saxophone", "Bar. Sax.", 36, 69, "wind.reed.saxophone.baritone", 68, 90), -5, -9, -1),
	}
}

func brass() []Instrument {
	brass := func(name, label, short string, c Clef, low, high int, sound string, program, repeat int) Instrument {
		return pitched(Brass, name, label, short, c, low, high, sound, program, 1, 0, repeat)
	}
	return []Instrument{
		transposed(brass("horn", "Horn in F", "Hn.", treble(), 35, 77, "brass.french-horn", 61, 90), -4, -7, 0),
		transposed(brass("trumpet", "Trumpet in B♭", "Tpt.", treble(), 52, 84, "brass.trumpet.bflat", 57, 70), -1, -2, 0),
		brass("trumpet in c", "Trumpet in C", "C Tpt.", treble(), 54, 86, "brass.trumpet.c", 57, 70),
		transposed(brass("flugelhorn", "Flugelhorn", "Flghn.", treble(), 52, 82, "brass.flugelhorn", 57, 80), -1, -2, 0),
		brass("trombone", "Trombone", "Tbn.", bass(), 40, 72, "brass.trombone.tenor", 58, 90),
		brass("bass trombone", "Bass Trombone", "B. Tbn.", bass(), 34, 67, "brass.trombone.bass", 58, 100),
		brass("euphonium", "Euphonium", "Euph.", bass(), 40, 72, "brass.euphonium", 59, 90),
		brass("tuba", "Tuba", "Tba.", bass(), 28, 65, "brass.tuba", 59, 100),
	}
}

func mallets() []Instrument {
	bar := func(name, label, short string, low, high int, sound string, program, most, reach, repeat int) Instrument {
		return pitched(Percussion, name, label, short, treble(), low, high, sound, program, most, reach, repeat)
	}
	timpani := pitched(Percussion, "timpani", "Timpani", "Timp.", bass(), 38, 57, "drum.timpani", 48, 2, 0, 70)
	return []Instrument{
		timpani,
		transposed(bar("glockenspiel", "Glockenspiel", "Glock.", 79, 108, "pitched-percussion.glockenspiel", 10, 2, 24, 60), 0, 0, 2),
		transposed(bar("xylophone", "Xylophone", "Xyl.", 65, 108, "pitched-percussion.xylophone", 14, 4, 36, 60), 0, 0, 1),
		bar("vibraphone", "Vibraphone", "Vib.", 53, 89, "pitched-percussion.vibraphone", 12, 4, 30, 60),
		bar("marimba", "Marimba", "Mar.", 36, 96, "pitched-percussion.marimba", 13, 4, 36, 60),
		bar("tubular bells", "Tubular Bells", "T. Bells", 60, 77, "pitched-percussion.tubular-bells", 15, 2, 0, 150),
		bar("steel drums", "Steel Drums", "St. Dr.", 60, 89, "metal.steel-drums", 115, 2, 0, 70),
		bar("kalimba", "Kalimba", "Kal.", 60, 88, "pitched-percussion.kalimba", 109, 2, 0, 80),
	}
}

func plucked() []Instrument {
	string := func(name, label, short string, c Clef, low, high int, sound string, program, most, reach, repeat int) Instrument {
		return pitched(Plucked, name, label, short, c, low, high, sound, program, most, reach, repeat)
	}
	return []Instrument{
		fretted(transposed(string("guitar", "Guitar", "Gtr.", treble(), 40, 83, "pluck.guitar.nylon-string", 25, 6, 36, 60), 0, 0, -1), "E2 A2 D3 G3 B3 E4"),
		fretted(transposed(string("electric guitar", "Electric Guitar", "E. Gtr.", treble(), 40, 86, "pluck.guitar.electric", 28, 6, 36, 50), 0, 0, -1), "E2 A2 D3 G3 B3 E4"),
		fretted(transposed(string("bass guitar", "Bass Guitar", "B. Gtr.", bass(), 28, 67, "pluck.bass.electric", 34, 4, 24, 70), 0, 0, -1), "E1 A1 D2 G2"),
		transposed(string("banjo", "Banjo", "Bj.", treble(), 48, 81, "pluck.banjo", 106, 4, 30, 50), 0, 0, -1),
		keyboard(string("harp", "Harp", "Hp.", treble(), 24, 103, "pluck.harp", 47, 8, 0, 120)),
	}
}

func keyboards() []Instrument {
	key := func(name, label, short string, low, high int, sound string, program, repeat int) Instrument {
		return keyboard(pitched(Keyboard, name, label, short, treble(), low, high, sound, program, 10, 0, repeat))
	}
	return []Instrument{
		transposed(key("celesta", "Celesta", "Cel.", 60, 108, "keyboard.celesta", 9, 90), 0, 0, 1),
		key("piano", "Piano", "Pno.", 21, 108, "keyboard.piano", 1, 70),
		key("electric piano", "Electric Piano", "E. Pno.", 28, 103, "keyboard.piano.electric", 5, 70),
		key("harpsichord", "Harpsichord", "Hpschd.", 29, 89, "keyboard.harpsichord", 7, 80),
		key("organ", "Organ", "Org.", 36, 96, "keyboard.organ.pipe", 20, 80),
		key("accordion", "Accordion", "Acc.", 41, 93, "keyboard.accordion", 22, 80),
	}
}

func voices() []Instrument {
	voice := func(name, label, short string, c Clef, low, high int, sound string) Instrument {
		return pitched(Voice, name, label, short, c, low, high, sound, 53, 1, 0, 120)
	}
	high := Clef{Sign: 'G', Line: 2, Octave: -1} // treble with an 8 below: written as it sounds
	return []Instrument{
		voice("soprano", "Soprano", "S.", treble(), 60, 84, "voice.soprano"),
		voice("mezzo-soprano", "Mezzo-soprano", "Mez.", treble(), 57, 81, "voice.mezzo-soprano"),
		voice("alto", "Alto", "A.", treble(), 53, 77, "voice.alto"),
		voice("tenor", "Tenor", "T.", high, 48, 72, "voice.tenor"),
		voice("baritone", "Baritone", "Bar.", bass(), 43, 67, "voice.baritone"),
		voice("bass", "Bass", "B.", bass(), 40, 64, "voice.bass"),
	}
}

func bowed() []Instrument {
	bowed := func(name, label, short string, c Clef, low, high int, sound string, program int) Instrument {
		return pitched(Strings, name, label, short, c, low, high, sound, program, 2, 0, 70)
	}
	return []Instrument{
		bowed("violin", "Violin", "Vln.", treble(), 55, 100, "strings.violin", 41),
		bowed("viola", "Viola", "Vla.", alto(), 48, 88, "strings.viola", 42),
		bowed("cello", "Cello", "Vc.", bass(), 36, 81, "strings.cello", 43),
		transposed(bowed("double bass", "Double Bass", "D.B.", bass(), 28, 67, "strings.contrabass", 44), 0, 0, -1),
	}
}
