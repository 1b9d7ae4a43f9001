package engraving

import (
	"tieover/layout/sheet"
	"tieover/score"
)

// item is one note or rest with everything about it that needs no place.
type item struct {
	event   sheet.Event
	note    *sheet.Note // nil for a rest
	rest    *sheet.Rest
	voice   *sheet.Voice
	staff   int  // within the part, from 0
	percent int  // size
	lone    bool // the only voice of its staff in this bar
	up      bool // its stem
	beam    int  // its group of beams in the bar, -1 for none

	pos    []int  // of each head, in halves of a space above the middle line
	order  []int  // heads from below
	head   []sign // shape of each
	aside  []bool // the head is on the wrong side of the stem
	shift  unit   // of the whole chord, out of another voice's way
	signX  []unit // left edge of each accidental
	dotX   unit
	shared bool // its only head is that of another voice
	graces []grace
}

func (it *item) low() int        { return it.pos[it.order[0]] }
func (it *item) high() int       { return it.pos[it.order[len(it.order)-1]] }
func (it *item) y(head int) unit { return -unit(it.pos[head]) * space / 2 }
func (it *item) top() unit       { return -unit(it.high()) * space / 2 }
func (it *item) bottom() unit    { return -unit(it.low()) * space / 2 }
func (it *item) span() span      { return span{it.low(), it.high()} }
func (it *item) hasStem() bool {
	return it.note != nil && it.note.Value.Power > 0 && it.voice.As != score.AsSlashes
}

func (it *item) flags() int {
	if it.voice.As == score.AsSlashes {
		return 0
	}
	return max(0, it.note.Value.Power-2)
}

func (it *item) free() bool       { return it.voice.Stem == sheet.StemFree }
func (it *item) beamed() bool     { return it.note != nil && len(it.note.Beams) > 0 }
func (it *item) size(u unit) unit { return u.percent(it.percent) }

// foot is the head that the stem begins at.
func (it *item) foot() int {
	if it.up {
		return it.order[0]
	}
	return it.order[len(it.order)-1]
}

// edge is the middle of the outermost head on one side.
func (it *item) edge(away unit) unit {
	if away == upwards {
		return it.top()
	}
	return it.bottom()
}

// quiet reports whether an event takes no column of its own: a whole bar's rest
// stands in the middle, a hidden one nowhere.
func quiet(e sheet.Event) bool {
	r, ok := e.(*sheet.Rest)
	return ok && (r.Whole || r.Hidden)
}

// stemLength is how long a stem without a beam is.
const stemLength unit = 350

// A roll has three strokes through its stem, or at its head where there is none.
const (
	strokeCount      = 3
	strokeStep  unit = 62
	strokeThick unit = 36
	strokeReach unit = 55 // to each side of the stem
	strokeRise  unit = 34 // from left to right
	strokeAir   unit = 34 // from head, beam or flag
	strokesHigh      = (strokeCount-1)*strokeStep + strokeThick + strokeRise
	flagHigh    unit = 190
)

func (it *item) rolled() bool { return it.note != nil && it.note.Touch.Has(sheet.Stroked) }

// strokeStem is how long a stem must be for the strokes of a roll, under flags or
// beams as high as given; 0 for other notes.
func (it *item) strokeStem(under unit) unit {
	if !it.rolled() {
		return 0
	}
	return 50 + strokesHigh + 2*strokeAir + it.size(under)
}

// hyphenRoom is what a syllable is given for the hyphen after it.
const hyphenRoom unit = 50

// lyricRoom is half the width that the widest syllable of a note needs.
func lyricRoom(lyrics []score.Lyric) unit {
	room := unit(0)
	for _, y := range lyrics {
		if y.Text == "" {
			continue
		}
		half := lyricFace.width(y.Text)/2 + 20
		if goesOn(y) {
			half += hyphenRoom
		}
		room = max(room, half)
	}
	return room
}

// goesOn reports whether a hyphen follows.
func goesOn(y score.Lyric) bool {
	return y.Syllabic == score.WordBegins || y.Syllabic == score.WordGoesOn
}
