package spec

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/fingering"
	"tieover/score/instrument"
	"tieover/score/source"
	"tieover/score/spec/grammar"
)

// readTuning reads what the strings sound, the lowest first.
func readTuning(r *reader, n *yaml.Node, v *voice) {
	if tuning, ok := parseText(r, n, "tuning", grammar.Tuning); ok {
		v.tuning = tuning
	}
}

// readTab gives a layer that is shown in tablature its tuning.
func (r *reader) readTab(v *voice) {
	n := v.keys["tuning"]
	switch {
	case !v.tab:
		if n != nil && v.tuning != nil {
			r.warn(r.at(n), "write tab: yes, or leave it out", "tuning has nothing to tune without tab")
		}
	case v.Instrument == nil || !v.named && v.keys.has("instrument"):
	case !v.named:
		r.wrong(r.at(v.keys["tab"]), "remove tab, or add instrument: guitar", "%s has no instrument, so it has no strings", v.byName())
	case v.Instrument.Tuning == "":
		r.wrong(r.at(v.keys["tab"]), "remove tab", "there is no tablature for %s, but for %s", article(v.Instrument.Name), beat.Listed(tabbed(), "and"))
	case n == nil:
		v.Tuning, _ = grammar.Tuning(v.Instrument.Tuning)
	default:
		v.Tuning = v.tuning // nil where it could not be read
	}
}

// tabbed names the instruments that have tablature.
func tabbed() (names []string) {
	for _, i := range instrument.All() {
		if i.Tuning != "" {
			names = append(names, i.Name)
		}
	}
	return names
}

// article puts a or an before a noun.
func article(noun string) string {
	if strings.ContainsAny(noun[:1], "aeiou") {
		return "an " + noun
	}
	return "a " + noun
}

// isPlaced reports whether messages name chords of an instrument that a hand cannot hold:
// those on strings, and those on two staves.
func isPlaced(i *instrument.Instrument) bool { return i.Tuning != "" || i.Staves > 1 }

// placeChord remembers where a chord is written, for those messages.
func (r *reader) placeChord(n *yaml.Node, v *voice, c score.Chord, at int) {
	if len(c) > 0 {
		v.chords[&c[0]] = func() source.Pos { return r.inside(n, at) }
	}
}

// placeChords does so for the chords of a series; s is its text.
func (r *reader) placeChords(n *yaml.Node, v *voice, s string, chords []score.Chord) {
	if !isPlaced(v.Instrument) {
		return
	}
	k, joined := 0, false
	for _, w := range grammar.Split(s, "+/") {
		sign := w.Text == "+" || w.Text == "/"
		if !sign && !joined {
			r.placeChord(n, v, chords[k], w.At)
			k++
		}
		joined = sign
	}
}

// tablature gives the layers of a player one tuning, and chooses where all they play is
// stopped.
func (c *composer) tablature() {
	first := map[string]*score.Layer{}
	for _, d := range c.drafts {
		for _, l := range d.Layers {
			if l.Tuning == nil {
				continue
			}
			other := first[l.PlayerName()]
			if other == nil {
				first[l.PlayerName()] = l
			} else if !slices.Equal(other.Tuning, l.Tuning) {
				c.problems.Add(l.Pos, l.PlayerName()+" is tuned "+tuningText(l)+" here and "+tuningText(other)+" before",
					"write one tuning, or give the layers two players")
			}
		}
	}
	for _, d := range c.drafts {
		for _, v := range d.voices {
			if t := first[v.Layer.PlayerName()]; t != nil && v.Instrument != nil && v.Instrument.Tuning != "" {
				v.Tuning = t.Tuning
				c.finger(v)
			}
		}
	}
}

func tuningText(l *score.Layer) string {
	words := make([]string, len(l.Tuning))
	for i, t := range l.Tuning {
		words[i] = t.String()
	}
	return strings.Join(words, " ")
}

// finger chooses where a layer's pitches are stopped, and says once of each chord that
// no hand can hold it.
func (c *composer) finger(v *voice) {
	l := v.Layer
	said := map[string]bool{}
	for _, chord := range l.Finger() {
		text := chord.String()
		if said[text] {
			continue
		}
		said[text] = true
		at := v.chords[&chord[0]]()
		if t, ok := offTheStrings(l, chord); ok {
			c.wrong(at, "change an octave or the tuning, or remove tab",
				"%s has no %v on its strings, which reach from %v to fret 20 of %v", l.Name, t, l.Tuning[0], l.Tuning[len(l.Tuning)-1])
			continue
		}
		c.wrong(at, "change an octave, or remove tab", "%s cannot hold %s within four frets, lower notes on lower strings", l.Name, text)
	}
}

// offTheStrings returns a tone of the chord that no string has.
func offTheStrings(l *score.Layer, chord score.Chord) (off score.Tone, ok bool) {
	i := slices.IndexFunc(chord, func(t score.Tone) bool {
		return t.Key() < l.Tuning[0].Key() || t.Key() > l.Tuning[len(l.Tuning)-1].Key()+fingering.Frets
	})
	if i < 0 {
		return off, false
	}
	return chord[i], true
}
