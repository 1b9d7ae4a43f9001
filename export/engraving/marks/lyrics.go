package marks

import (
	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/export/engraving/spacing"
)

// verseKey is a verse of a voice.
type verseKey struct {
	spacing.VoiceKey
	verse int
}

// lyrics hangs what is sung below the staff, verse under verse.
func (w *marker) lyrics() {
	verses := 0
	for i := range w.l.Spots {
		if s := &w.l.Spots[i]; s.Staff == w.staff && s.Note != nil {
			verses = max(verses, len(s.Note.Lyrics))
		}
	}
	for verse := range verses {
		var row []canvas.Hung
		for i := range w.l.Voices {
			if v := &w.l.Voices[i]; v.Staff == w.staff {
				row = append(row, w.verse(v, verse)...)
			}
		}
		w.c.HangLane(w.staff, canvas.SizeLane, pen.Downwards, row)
	}
}

// verse makes the syllables of one verse of a voice. The hyphens of a word and the
// line of what is held belong to the syllable before.
func (w *marker) verse(v *spacing.VoiceRun, verse int) []canvas.Hung {
	l, key := w.l, verseKey{v.Key, verse}
	var row []canvas.Hung
	divided, held := false, w.carried.held[key]
	if held {
		row = append(row, w.heldFrom(l.Music(0)+10))
	}
	for _, i := range v.Spots {
		s := &l.Spots[i]
		if s.Note == nil || verse >= len(s.Note.Lyrics) {
			continue
		}
		y := s.Note.Lyrics[verse]
		last := len(row) - 1
		if y.Text == "" {
			if held && !y.Extend {
				w.holdTo(&row[last], s.X+pen.HeadWidth(pen.HeadBlack))
			}
			held = held && y.Extend
			continue
		}
		h := w.c.Words(w.staff, s.X+59, y.Text, pen.LyricFace)
		if divided {
			w.hyphenate(&row[last], (row[last].X1+h.X0)/2)
		}
		row = append(row, h)
		divided, held = content.GoesOn(y), y.Extend
	}
	if last := len(row) - 1; divided {
		w.hyphenate(&row[last], row[last].X1+content.HyphenRoom)
	} else if held {
		w.holdTo(&row[last], l.Right())
	}
	w.carried.held[key] = held
	return row
}

// heldFrom is what a line begins with that holds a syllable of the line before.
func (w *marker) heldFrom(x pen.Unit) canvas.Hung {
	return canvas.Hung{X0: x, X1: x, Up: 20, Down: pen.LyricFace.Sink(), Draw: func(pen.Unit) {}}
}

// hyphenate draws a hyphen around x.
func (w *marker) hyphenate(h *canvas.Hung, x pen.Unit) {
	text := h.Draw
	h.Draw = func(y pen.Unit) {
		text(y)
		w.st.Texts.Text(x, y, "-", pen.LyricFace)
	}
}

// holdTo draws the line of what is held.
func (w *marker) holdTo(h *canvas.Hung, x1 pen.Unit) {
	text, x0 := h.Draw, h.X1
	if x1 <= x0+20 {
		return
	}
	h.X1 = x1
	h.Draw = func(y pen.Unit) {
		text(y)
		w.st.Strokes.At('M', x0+20, y)
		w.st.Strokes.At('H', x1)
	}
}
