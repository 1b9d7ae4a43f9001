package content

import (
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score"
)

// Item is one note or rest with everything about it that needs no place.
type Item struct {
	Event   sheet.Event
	Note    *sheet.Note // nil for a rest
	Rest    *sheet.Rest
	Voice   *sheet.Voice
	Staff   int  // within the part, from 0
	Percent int  // size
	Lone    bool // the only voice of its staff in this bar
	Up      bool // its stem
	beam    int  // its group of beams in the bar, -1 for none

	Pos    []int      // of each head, in halves of a space above the middle line
	Order  []int      // heads from below
	Head   []pen.Sign // shape of each
	aside  []bool     // the head is on the wrong side of the stem
	Shift  pen.Unit   // of the whole chord, out of another voice's way
	SignX  []pen.Unit // left edge of each accidental
	DotX   pen.Unit
	Shared bool // its only head is that of another voice
	Graces []Grace
}

// Low is the place of the lowest head, in halves of a space above the middle line.
func (it *Item) Low() int { return it.Pos[it.Order[0]] }

// High is the place of the highest head, as Low.
func (it *Item) High() int { return it.Pos[it.Order[len(it.Order)-1]] }

// Y is the height of a head, Top and Bottom that of the highest and lowest.
func (it *Item) Y(head int) pen.Unit { return -pen.Unit(it.Pos[head]) * pen.Space / 2 }
func (it *Item) Top() pen.Unit       { return -pen.Unit(it.High()) * pen.Space / 2 }
func (it *Item) Bottom() pen.Unit    { return -pen.Unit(it.Low()) * pen.Space / 2 }
func (it *Item) span() span          { return span{it.Low(), it.High()} }

// HasStem reports whether it is a note with a stem.
func (it *Item) HasStem() bool {
	return it.Note != nil && it.Note.Value.Power > 0 && it.Voice.As != score.AsSlashes
}

// Flags returns how many flags or beams a note has.
func (it *Item) Flags() int {
	if it.Voice.As == score.AsSlashes {
		return 0
	}
	return it.Note.Value.Flags()
}

// Free reports whether the stem may go either way.
func (it *Item) Free() bool { return it.Voice.Stem == sheet.StemFree }

// Beamed reports whether it is a note under a beam.
func (it *Item) Beamed() bool { return it.Note != nil && len(it.Note.Beams) > 0 }

// Size scales a length to the size of the note.
func (it *Item) Size(u pen.Unit) pen.Unit { return u.Percent(it.Percent) }

// Foot is the head that the stem begins at.
func (it *Item) Foot() int {
	if it.Up {
		return it.Order[0]
	}
	return it.Order[len(it.Order)-1]
}

// Edge is the middle of the outermost head on one side.
func (it *Item) Edge(away pen.Unit) pen.Unit {
	if away == pen.Upwards {
		return it.Top()
	}
	return it.Bottom()
}

// Quiet reports whether an event takes no column of its own: a whole bar's rest
// stands in the middle, a hidden one nowhere.
func Quiet(e sheet.Event) bool {
	r, ok := e.(*sheet.Rest)
	return ok && (r.Whole || r.Hidden)
}

// StemLength is how long a stem without a beam is.
const StemLength pen.Unit = 350

// A roll has three strokes through its stem, or at its head where there is none.
const (
	StrokeCount          = 3
	StrokeStep  pen.Unit = 62
	StrokeThick pen.Unit = 36
	StrokeReach pen.Unit = 55 // to each side of the stem
	StrokeRise  pen.Unit = 34 // from left to right
	StrokeAir   pen.Unit = 34 // from head, beam or flag
	StrokesHigh          = (StrokeCount-1)*StrokeStep + StrokeThick + StrokeRise
	FlagHigh    pen.Unit = 190
)

// Rolled reports whether it is a note with strokes through its stem.
func (it *Item) Rolled() bool { return it.Note != nil && it.Note.Touch.Has(sheet.Stroked) }

// StrokeStem is how long a stem must be for the strokes of a roll, under flags or
// beams as high as given; 0 for other notes.
func (it *Item) StrokeStem(under pen.Unit) pen.Unit {
	if !it.Rolled() {
		return 0
	}
	return 50 + StrokesHigh + 2*StrokeAir + it.Size(under)
}

// HyphenRoom is what a syllable is given for the hyphen after it.
const HyphenRoom pen.Unit = 50

// lyricRoom is half the width that the widest syllable of a note needs.
func lyricRoom(lyrics []score.Lyric) pen.Unit {
	room := pen.Unit(0)
	for _, y := range lyrics {
		if y.Text == "" {
			continue
		}
		half := pen.LyricFace.Width(y.Text)/2 + 20
		if GoesOn(y) {
			half += HyphenRoom
		}
		room = max(room, half)
	}
	return room
}

// GoesOn reports whether a hyphen follows.
func GoesOn(y score.Lyric) bool {
	return y.Syllabic == score.WordBegins || y.Syllabic == score.WordGoesOn
}

// Side is the direction in which the signs of a voice stand: down for a lower one.
func Side(v *sheet.Voice) pen.Unit { return pen.Direction(v.Stem != sheet.StemDown) }
