package grammar

import (
	"cmp"
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

// touchNames are the words for touches, in the order in which errors list them.
var touchNames = []struct {
	word  string
	touch score.Touch
}{
	{"plain", score.Plain}, {"staccato", score.Staccato}, {"tenuto", score.Tenuto},
	{"marcato", score.Marcato}, {"ghost", score.Ghost}, {"accent", score.Accented},
	{"roll", score.Roll}, {"tremolo", score.Tremolo}, {"trill", score.Trill},
	{"flam", score.Flam}, {"drag", score.Drag},
}

// StrokeTouches are the touches of which an attack can have only one.
const StrokeTouches = score.Rolled | score.Flam | score.Drag

func touchWords() []string {
	var all []string
	for _, t := range touchNames {
		all = append(all, t.word)
	}
	return all
}

// Touches reads the touches of one attack, joined by +.
func Touches(w Word) (score.Touch, *Slip) {
	var all score.Touch
	names, at := strings.Split(w.Text, "+"), w.At
	for _, name := range names {
		one, slip := touchCalled(Word{at, name})
		switch {
		case slip != nil:
			return 0, slip
		case one == score.Plain && len(names) > 1:
			return 0, Wrong(w.At, "leave out plain", "%q: plain stands alone", Shortened(w.Text))
		case all.Has(one):
			return 0, Wrong(w.At, "leave out the second "+name, "%q: write each touch once", Shortened(w.Text))
		}
		all |= one
		at += len(name) + 1
	}
	if all.Has(score.Accented) && all.Has(score.Marcato) {
		return 0, Wrong(w.At, "leave out accent or marcato", "%q: one of the two", Shortened(w.Text))
	}
	if len((all & StrokeTouches).Each()) > 1 {
		return 0, Wrong(w.At, "keep one of them", "%q: one of %s", Shortened(w.Text), listTouches(StrokeTouches))
	}
	return all, nil
}

// listTouches lists the words for touches: "roll, tremolo and trill".
func listTouches(touches score.Touch) string {
	var all []string
	for _, t := range touchNames {
		if touches.Has(t.touch) {
			all = append(all, t.word)
		}
	}
	return beat.Listed(all, "and")
}

// touchCalled returns the touch that a word means.
func touchCalled(w Word) (score.Touch, *Slip) {
	for _, t := range touchNames {
		if t.word == w.Text {
			return t.touch, nil
		}
	}
	hint := "touches are " + beat.Listed(touchWords(), "or")
	switch i := strings.IndexAny(w.Text, ",;"); {
	case w.Text == "":
		hint = "write a touch on both sides of the +"
	case i > 0:
		hint = "separate the words by blanks"
	default:
		hint = cmp.Or(DidYouMean(w.Text, touchWords()), hint)
	}
	return 0, Wrong(w.At, hint, "unknown touch %q", Shortened(w.Text))
}
