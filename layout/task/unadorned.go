package task

import "tieover/score"

// unadorned takes off a layer what no exercise asks for: slurs, rolls, grace notes,
// slashes and tablature.
func unadorned(l *score.Layer) {
	l.Slurring, l.Tuning = score.Slurring{}, nil
	touches := make([]score.Touch, len(l.Touches))
	for i, t := range l.Touches {
		touches[i] = t &^ (score.Rolled | score.Flam | score.Drag)
	}
	l.Touches, l.Written = touches, score.AsNotes
	var series [][]score.Chord // nil for a rhythm
	for _, chords := range l.Series {
		series = append(series, withoutGraces(chords))
	}
	l.Series = series
	for i := range l.Except { // already a copy
		l.Except[i].Series = withoutGraces(l.Except[i].Series)
	}
}

// withoutGraces is a series without grace notes.
func withoutGraces(chords []score.Chord) []score.Chord {
	if chords == nil {
		return nil
	}
	all := make([]score.Chord, len(chords))
	for i, c := range chords {
		_, all[i] = c.Led()
	}
	return all
}
