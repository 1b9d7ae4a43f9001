package spec

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
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

// apart are touches of which an attack has one.
const apart = score.Rolled | score.Flam | score.Drag

func touchWords() []string {
	var all []string
	for _, t := range touchNames {
		all = append(all, t.word)
	}
	return all
}

func readTouches(r *reader, n *yaml.Node, v *voice) {
	if n.Kind == yaml.SequenceNode {
		r.wrong(r.at(n), "write the words one after another: staccato plain", "touches cannot be a list")
		return
	}
	s, ok := r.text(n, "touches")
	if !ok {
		return
	}
	v.Touches = nil
	for _, w := range words(s) {
		touch, slip := parseTouch(w)
		if slip != nil {
			r.slip(n, slip)
			continue
		}
		if touch.Has(apart) {
			v.section.need(r, n, "1/32 for rolls and grace notes", beat.Of(1, 32))
		}
		v.Touches = append(v.Touches, touch)
	}
	if len(words(s)) == 0 || len(v.Touches) > maxChords {
		r.wrong(r.at(n), "write one word an attack", "touches must have from 1 to %d words", maxChords)
	}
}

// parseTouch reads the touches of one attack, joined by +.
func parseTouch(w word) (score.Touch, *slip) {
	var all score.Touch
	names, at := strings.Split(w.text, "+"), w.at
	for _, name := range names {
		one, slip := touchCalled(word{at, name})
		switch {
		case slip != nil:
			return 0, slip
		case one == score.Plain && len(names) > 1:
			return 0, wrong(w.at, "leave out plain", "%q: plain stands alone", shortened(w.text))
		case all.Has(one):
			return 0, wrong(w.at, "leave out the second "+name, "%q: write each touch once", shortened(w.text))
		}
		all |= one
		at += len(name) + 1
	}
	if all.Has(score.Accented) && all.Has(score.Marcato) {
		return 0, wrong(w.at, "leave out accent or marcato", "%q: one of the two", shortened(w.text))
	}
	if len((all & apart).Each()) > 1 {
		return 0, wrong(w.at, "keep one of them", "%q: one of %s", shortened(w.text), listTouches(apart))
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
func touchCalled(w word) (score.Touch, *slip) {
	for _, t := range touchNames {
		if t.word == w.text {
			return t.touch, nil
		}
	}
	hint := "touches are " + beat.Listed(touchWords(), "or")
	switch i := strings.IndexAny(w.text, ",;"); {
	case w.text == "":
		hint = "write a touch on both sides of the +"
	case i > 0:
		hint = "separate the words by blanks"
	default:
		if near := instrument.Nearest(w.text, touchWords()); len(near) > 0 {
			hint = "did you mean " + beat.Listed(near, "or") + "?"
		}
	}
	return 0, wrong(w.at, hint, "unknown touch %q", shortened(w.text))
}
