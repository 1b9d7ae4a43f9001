package score

import "tieover/score/fingering"

// Finger chooses where each pitch that the layer plays is stopped, once for each of its
// series and the line. unplayable are the chords that no hand can hold. Only for a layer
// with a tuning.
func (l *Layer) Finger() (unplayable []Chord) {
	l.hands = map[*Tone]*fingering.Hand{}
	rows := append([][]Chord{}, l.Series...)
	for _, e := range l.Except {
		rows = append(rows, e.Series)
	}
	for _, row := range rows {
		unplayable = append(unplayable, l.fingerRow(row, true)...)
	}
	var line []Chord
	for _, n := range l.Line {
		if len(n.Tones) > 0 {
			line = append(line, n.Tones)
		}
	}
	return append(unplayable, l.fingerRow(line, false)...)
}

// fingerRow remembers where the chords of a row are held; a series goes round.
func (l *Layer) fingerRow(row []Chord, round bool) (unplayable []Chord) {
	attacks := make([]fingering.Attack, len(row))
	for i, c := range row {
		graces, struck := c.Led()
		for _, g := range graces {
			attacks[i].Graces = append(attacks[i].Graces, g.keys())
		}
		attacks[i].Struck = struck.keys()
	}
	hands, bad := fingering.Choose(Chord(l.Tuning).keys(), attacks, round)
	for _, i := range bad {
		unplayable = append(unplayable, row[i])
	}
	for i := range hands {
		l.hands[&row[i][0]] = &hands[i]
	}
	return unplayable
}

// keys are the MIDI keys of a chord of pitches, in its order.
func (c Chord) keys() []int {
	keys := make([]int, len(c))
	for i, t := range c {
		keys[i] = t.Key()
	}
	return keys
}

// hand returns how a chord of the layer's own is held, nil without tablature. Chords
// are told apart by their place in memory, for others may have the same notes.
func (l *Layer) hand(c Chord) *fingering.Hand {
	if l.hands == nil || len(c) == 0 {
		return nil
	}
	return l.hands[&c[0]]
}
