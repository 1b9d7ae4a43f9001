package engraving

// verseKey is a verse of a voice.
type verseKey struct {
	voiceKey
	verse int
}

// lyrics hangs what is sung below the staff, verse under verse.
func (w *marker) lyrics() {
	verses := 0
	for i := range w.l.spots {
		if s := &w.l.spots[i]; s.staff == w.staff && s.note != nil {
			verses = max(verses, len(s.note.Lyrics))
		}
	}
	for verse := range verses {
		var row []hung
		for i := range w.l.voices {
			if v := &w.l.voices[i]; v.staff == w.staff {
				row = append(row, w.verse(v, verse)...)
			}
		}
		w.c.hangLane(w.staff, downwards, lanePads[sizeLane], row)
	}
}

// verse makes the syllables of one verse of a voice. The hyphens of a word and the
// line of what is held belong to the syllable before.
func (w *marker) verse(v *voiceRun, verse int) []hung {
	l, key := w.l, verseKey{v.key, verse}
	var row []hung
	divided, held := false, w.carried.held[key]
	if held {
		row = append(row, w.heldFrom(l.music(0)+10))
	}
	for _, i := range v.spots {
		s := &l.spots[i]
		if s.note == nil || verse >= len(s.note.Lyrics) {
			continue
		}
		y := s.note.Lyrics[verse]
		last := len(row) - 1
		if y.Text == "" {
			if held && !y.Extend {
				w.holdTo(&row[last], s.x+headWidth(headBlack))
			}
			held = held && y.Extend
			continue
		}
		h := w.c.words(w.staff, s.x+59, y.Text, lyricFace)
		if divided {
			w.hyphenate(&row[last], (row[last].x1+h.x0)/2)
		}
		row = append(row, h)
		divided, held = goesOn(y), y.Extend
	}
	if last := len(row) - 1; divided {
		w.hyphenate(&row[last], row[last].x1+hyphenRoom)
	} else if held {
		w.holdTo(&row[last], l.right())
	}
	w.carried.held[key] = held
	return row
}

// heldFrom is what a line begins with that holds a syllable of the line before.
func (w *marker) heldFrom(x unit) hung {
	return hung{x0: x, x1: x, up: 20, down: lyricFace.sink(), draw: func(unit) {}}
}

// hyphenate draws a hyphen around x.
func (w *marker) hyphenate(h *hung, x unit) {
	text := h.draw
	h.draw = func(y unit) {
		text(y)
		w.st.texts.text(x, y, "-", lyricFace)
	}
}

// holdTo draws the line of what is held.
func (w *marker) holdTo(h *hung, x1 unit) {
	text, x0 := h.draw, h.x1
	if x1 <= x0+20 {
		return
	}
	h.x1 = x1
	h.draw = func(y unit) {
		text(y)
		w.st.strokes.at('M', x0+20, y)
		w.st.strokes.at('H', x1)
	}
}
