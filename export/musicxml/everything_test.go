package musicxml

import (
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// everything is a score with every sign that the writer knows. Its bars are
// 4/4, 3+2+3/8, 2/4+3/8, 4/4, 4/4.
func everything() *sheet.Sheet {
	return &sheet.Sheet{
		Title: `Lock & "Weir" <3>`, Subtitle: "for keepers", Composer: "A. Keeper", Arranger: "B. Barge",
		Rights: "© the keepers", Grid: testGrid, Bars: 5,
		Parts: []sheet.Part{flutePart(), clarinetPart(), drumsPart(), clapPart(), pianoPart()},
	}
}

var (
	common4   = score.PlainSignature(4, 4)
	eightSum  = additive(8, 3, 2, 3)
	twoTerms  = score.Signature{Terms: []score.Term{{Groups: []int{2}, Unit: 4}, {Groups: []int{3}, Unit: 8}}}
	barLength = map[int]beat.Time{1: 4 * quarter, 2: 8 * eighth, 3: 7 * eighth, 4: 4 * quarter, 5: 4 * quarter}
	barMeter  = map[int]score.Signature{1: common4, 2: eightSum, 3: twoTerms, 4: common4, 5: common4}
)

// inScore gives the five bars what all parts of everything share.
func inScore(measures [5]*sheet.Measure, marks [5][]sheet.Mark) []sheet.Bar {
	bars := make([]sheet.Bar, 5)
	for i := range bars {
		bars[i] = sheet.Bar{Measure: measures[i], Marks: marks[i], NewMeter: i < 4}
	}
	bars[0].NewKey = true
	bars[1].Barline = sheet.Double
	bars[2].Break = sheet.NewSystem
	bars[3].Break, bars[3].Left = sheet.NewPage, sheet.RepeatStart
	bars[3].Barline, bars[3].Times = sheet.RepeatEnd, 3
	bars[4].Barline = sheet.Final
	return bars
}

func emptyBar(n int) *sheet.Measure {
	return measure(barMeter[n], plainVoice(wholeRest(barLength[n])))
}

// flutePart has chords, accidentals, touches, beams at two levels, tuplets,
// ties and every mark.
func flutePart() sheet.Part {
	chord := note(quarter_, sign(at("F#4"), sheet.Sharp), sign(at("Bb4"), sheet.Flat), at("D5"))
	fifths := tuplet(sheet.Tuplet{Actual: 5, Normal: 4, Unit: six_, Bracket: false, ShowNumber: true},
		run(six_, at("C5"), at("D5"), at("E5"), at("F5"), at("G5"))...)
	one := measure(common4, plainVoice(
		accented(tiedOut(chord)),
		tuplet(sheet.Tuplet{Actual: 3, Normal: 2, Unit: eighth_, Bracket: true, ShowNumber: true},
			tiedIn(note(quarter_, at("F#4"), at("Bb4"), at("D5"))), touched(note(eighth_, sign(at("B4"), sheet.Natural)), score.Staccato)),
		fifths,
		tiedOut(note(quarter_, sign(at("C##5"), sheet.DoubleSharp)))))
	two := measure(eightSum, plainVoice(
		tiedIn(tiedOut(note(dotted(quarter_), at("C##5")))),
		beamed(tiedIn(note(dotted(eighth_), at("C##5"))), sheet.BeamBegin),
		beamed(touched(note(six_, sign(at("C5"), sheet.Natural)), score.Tenuto), sheet.BeamEnd, sheet.HookBackward),
		beamed(touched(note(six_, sign(at("Ebb5"), sheet.DoubleFlat)), score.Marcato), sheet.BeamBegin, sheet.HookForward),
		beamed(touched(note(eighth_, at("G5")), score.Ghost), sheet.BeamContinue),
		beamed(touched(note(dotted(eighth_), sign(at("F5"), sheet.Natural|sheet.Courtesy)), score.Accented), sheet.BeamEnd)))
	ratio := tuplet(sheet.Tuplet{Actual: 5, Normal: 3, Unit: eighth_, Bracket: true, ShowRatio: true, ShowNumber: true},
		rest(eighth_), note(quarter_, at("D5")), note(quarter_, at("E5")))
	silent := tuplet(sheet.Tuplet{Actual: 3, Normal: 2, Unit: eighth_, ShowNumber: false},
		run(eighth_, at("D5"), at("D5"), at("D5"))...)
	three := measure(twoTerms, plainVoice(silent, rest(quarter_), ratio))
	words := note(half_, at("G4"))
	words.Lyrics = []score.Lyric{{Text: "tá & la"}}
	four := measure(common4, plainVoice(words, note(half_, at("A4"))))
	five := measure(common4, plainVoice(note(whole_, at("A4"))))
	bars := inScore([5]*sheet.Measure{one, two, three, four, five}, fluteMarks())
	return part("Flute", "Fl.", "flute", bars...)
}

func fluteMarks() [5][]sheet.Mark {
	tempo := &score.Tempo{Quarters: beat.Of(265, 2), Beat: beat.Of(3, 8), Rate: beat.Of(265, 3)}
	dottedQuarter, plain := beat.Of(3, 8), beat.Of(1, 4)
	modulation := &score.Tempo{Quarters: beat.Of(88, 1), Beat: plain, Rate: beat.Of(88, 1),
		Old: &score.Value{Base: dottedQuarter, Actual: 1, Normal: 1},
		New: &score.Value{Base: plain, Actual: 1, Normal: 1, Tied: beat.Of(1, 8)}}
	triplets := &score.Tempo{Quarters: beat.Of(132, 1), Beat: plain, Rate: beat.Of(132, 1),
		Old: &score.Value{Base: beat.Of(1, 8), Actual: 3, Normal: 2},
		New: &score.Value{Base: beat.Of(1, 8), Actual: 1, Normal: 1}}
	inside := sheet.Mark{Kind: sheet.Boxed, Before: 0, Offset: eighth, Text: "B2"}
	lateStroke := sheet.Mark{Kind: sheet.Stroke, Before: 0, Offset: eighth}
	return [5][]sheet.Mark{
		{mark(sheet.Rehearsal, 0, "B"), {Kind: sheet.TempoMark, Tempo: tempo}, numbered(sheet.CycleNumber, 0, 1),
			mark(sheet.Grouping, 0, "3+2"), mark(sheet.CycleStart, 0, ""), mark(sheet.DynamicMark, 0, "mf"),
			numbered(sheet.HairpinStart, 1, 1), mark(sheet.ChordSymbol, 1, "F#m7/E"), mark(sheet.CycleStop, 2, ""),
			mark(sheet.HairpinStop, 3, "")},
		{numbered(sheet.CycleNumber, 0, 2), mark(sheet.Stroke, 1, ""), numbered(sheet.GroupSize, 1, 3),
			mark(sheet.CycleStart, 1, ""), mark(sheet.ChordSymbol, 3, "B♭13(#11)"), mark(sheet.ChordSymbol, 4, "N.C.")},
		{{Kind: sheet.TempoMark, Tempo: modulation}, mark(sheet.CycleStop, 2, ""), mark(sheet.Words, 2, "warm & <low>"),
			numbered(sheet.HairpinStart, 3, 2)},
		{inside, lateStroke, mark(sheet.HairpinStop, 1, ""), mark(sheet.DynamicMark, 1, "sfz"), mark(sheet.DynamicMark, 1, "poco f"),
			mark(sheet.Cue, 1, "Vib. at bar 21"), mark(sheet.ScoreBar, 1, "score bar 7")},
		{{Kind: sheet.TempoMark, Tempo: triplets}, mark(sheet.Boxed, 1, "B3")},
	}
}

// clarinetPart is written a ninth higher than it sounds, in a key.
func clarinetPart() sheet.Part {
	bar := func(n int, groups ...any) *sheet.Measure {
		m := measure(barMeter[n], plainVoice(groups...))
		m.Key = score.Key{Fifths: 2, Mode: "dorian"}
		return m
	}
	measures := [5]*sheet.Measure{
		bar(1, note(whole_, at("E4"))),
		bar(2, note(dotted(quarter_), at("E4")), note(quarter_, at("F#4")), note(dotted(quarter_), at("G4"))),
		bar(3, note(half_, at("E4")), note(dotted(quarter_), at("F#4"))),
		bar(4, wholeRest(barLength[4])), bar(5, note(half_, at("C5")), note(half_, at("C5"))),
	}
	bass, flute := mustFind("bass clarinet"), mustFind("flute")
	for i, m := range measures {
		m.Instrument = bass
		if i == 4 {
			m.Instrument, m.Key = flute, score.Key{}
		}
	}
	bars := inScore(measures, [5][]sheet.Mark{3: {{Kind: sheet.InstrumentMark, Text: "to Flute"}}, 4: {{Kind: sheet.InstrumentMark, Text: "Flute", Instrument: flute}}})
	bars[4].NewKey, bars[4].NewInstrument = true, true
	p := part("Reed 2", "", "bass clarinet", bars...)
	p.Instruments = []*instrument.Instrument{bass, flute}
	return p
}

// drumsPart has two voices on one staff, hands up and feet down.
func drumsPart() sheet.Part {
	kick, hat, open, snare, bell := drum(3), drum(4), drum(5), drum(1), drum(8)
	hands := func() sheet.Voice {
		return voice(1, 1, sheet.StemUp, run(eighth_, hat, hat, hat, open), note(quarter_, snare, hat), touched(note(quarter_, snare), score.Ghost))
	}
	one := measure(common4, hands(), voice(1, 2, sheet.StemDown, note(quarter_, kick), rest(quarter_), note(half_, kick)))
	two := measure(eightSum, voice(1, 1, sheet.StemUp, run(eighth_, hat, hat, hat), run(eighth_, bell, bell), run(eighth_, hat, hat, hat)),
		voice(1, 2, sheet.StemDown, wholeRest(barLength[2])))
	hidden := rest(dotted(quarter_))
	hidden.Hidden = true
	three := measure(twoTerms, voice(1, 1, sheet.StemUp, note(half_, snare), note(dotted(quarter_), snare)),
		voice(1, 2, sheet.StemDown, note(half_, kick), hidden))
	marks := [5][]sheet.Mark{{
		mark(sheet.CycleStart, 0, ""), mark(sheet.CycleStop, 5, ""),
		{Kind: sheet.CycleNumber, Voice: 1, N: 1}, {Kind: sheet.Grouping, Voice: 1, Text: "4"},
		{Kind: sheet.CycleStart, Voice: 1}, {Kind: sheet.CycleStop, Voice: 1, Before: 2},
	}}
	p := part("Drum Set", "Dr.", "drum set", inScore([5]*sheet.Measure{one, two, three, emptyBar(4), emptyBar(5)}, marks)...)
	p.Layers = []string{"Hands", "Feet"}
	return p
}

// clapPart is a bare rhythm on one line.
func clapPart() sheet.Part {
	tap := sheet.Head{}
	one := measure(common4, plainVoice(note(quarter_, tap), note(quarter_, tap), accented(note(half_, tap))))
	small := plainVoice(note(half_, tap), note(half_, tap))
	small.Small = true
	p := part("Clap", "", "handclap", inScore([5]*sheet.Measure{one, emptyBar(2), emptyBar(3), measure(common4, small), emptyBar(5)}, [5][]sheet.Mark{})...)
	p.Instrument = instrument.Rhythm
	return p
}

// pianoPart has two staves, each with a line open over the barline.
func pianoPart() sheet.Part {
	both := func(n int, right, left []any) *sheet.Measure {
		return measure(barMeter[n], voice(1, 1, sheet.StemFree, right...), voice(2, 5, sheet.StemFree, left...))
	}
	list := func(events ...any) []any { return events }
	measures := [5]*sheet.Measure{
		both(1, list(note(whole_, at("C5"), at("E5"))), list(note(half_, at("C3")), tiedOut(note(half_, at("G2"))))),
		both(2, list(wholeRest(barLength[2])), list(tiedIn(note(half_, at("G2"))), note(half_, at("C3")))),
		both(3, list(wholeRest(barLength[3])), list(wholeRest(barLength[3]))),
		both(4, list(wholeRest(barLength[4])), list(wholeRest(barLength[4]))),
		both(5, list(wholeRest(barLength[5])), list(wholeRest(barLength[5]))),
	}
	marks := [5][]sheet.Mark{
		{mark(sheet.CycleStart, 0, ""), {Kind: sheet.CycleStart, Voice: 1}, {Kind: sheet.CycleNumber, Voice: 1, N: 4}},
		{mark(sheet.CycleStop, 0, ""), {Kind: sheet.CycleStop, Voice: 1, Before: 1}},
	}
	return part("Piano", "Pno.", "piano", inScore(measures, marks)...)
}

// stand is a part for one player: three empty bars gathered, then a note.
func stand() *sheet.Sheet {
	empty := emptyBar(1)
	cue := mark(sheet.Cue, 0, "Marimba, cycle 5")
	return &sheet.Sheet{
		Title: "Towpath", Rights: "© the keepers", Grid: testGrid, Bars: 5,
		Parts: []sheet.Part{part("Guitar", "Gtr.", "guitar",
			sheet.Bar{Measure: empty, NewMeter: true, NewKey: true, Rest: 3}, sheet.Bar{Measure: empty}, sheet.Bar{Measure: empty},
			sheet.Bar{Measure: empty, Marks: []sheet.Mark{cue}},
			sheet.Bar{Measure: measure(common4, plainVoice(note(whole_, at("E4")))), Barline: sheet.Final})},
	}
}
