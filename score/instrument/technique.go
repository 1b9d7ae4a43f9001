package instrument

import (
	"slices"
	"strings"
)

// Technique is a way of playing that a player reads as words. It holds until
// another of its matter. Which instruments know it is common practice.
type Technique struct {
	Words  string
	Matter Matter
	Usual  bool   // the ordinary way: nothing is in force after it
	Back   string // the words that lead back from it; "" where none are usual
	knows  func(*Instrument) bool
}

// Matter is what techniques that replace one another are about.
type Matter int

const (
	Bowing Matter = iota
	Muting
	Number // of those who play
	Matters
)

// MuteSofter is how much softer muted notes sound, as a MIDI velocity, where
// General MIDI has no sound for them.
const MuteSofter = 8

// The programs of General MIDI's sound set, from 1, for a way of playing.
const (
	pizzicatoStrings = 46
	mutedTrumpet     = 60
)

var techniques = func() []Technique {
	of := func(families ...Family) func(*Instrument) bool {
		return func(i *Instrument) bool { return slices.Contains(families, i.Family) }
	}
	bowed, brass, bowedOrBrass := of(Strings), of(Brass), of(Strings, Brass)
	section := of(Strings, Brass, Woodwind, Voice)
	anybody := func(i *Instrument) bool { return i.Family != Bare }
	all := []Technique{
		{"pizz.", Bowing, false, "arco", bowed},
		{"arco", Bowing, true, "", bowed},
		{"con sord.", Muting, false, "senza sord.", bowedOrBrass},
		{"practice mute", Muting, false, "senza sord.", bowedOrBrass},
		{"senza sord.", Muting, true, "", bowedOrBrass},
		{"open", Muting, true, "", brass},
		{"solo", Number, false, "tutti", anybody},
		{"tutti", Number, true, "", anybody},
		{"div.", Number, false, "unis.", section},
		{"unis.", Number, true, "", section},
		{"a 2", Number, false, "", of(Brass, Woodwind)},
	}
	for _, mute := range []string{"straight mute", "cup mute", "harmon mute", "plunger", "plunger mute"} {
		all = append(all, Technique{mute, Muting, false, "open", brass})
	}
	return all
}()

// Technique returns the way of playing that the words mean to the instrument: the
// whole text, in whatever case, with its dot or without.
func (i *Instrument) Technique(words string) (*Technique, bool) {
	said := dropDot(words)
	for k := range techniques {
		if t := &techniques[k]; dropDot(t.Words) == said && t.knows(i) {
			return t, true
		}
	}
	return nil, false
}

func dropDot(words string) string { return strings.TrimSuffix(normalize(words), ".") }

// Played returns the General MIDI program, from 1, with which the instrument
// sounds in a way of playing, and how much softer, as a MIDI velocity.
func (i *Instrument) Played(t *Technique) (program, softer int) {
	switch {
	case t.Usual || t.Matter == Number:
	case t.Matter == Bowing:
		return pizzicatoStrings, 0
	case base(i.Name) == "trumpet":
		return mutedTrumpet, 0
	default:
		return i.Program, MuteSofter
	}
	return i.Program, 0
}

// InForce names what holds after it: "" after an ordinary way of playing.
func (t *Technique) InForce() string {
	if t.Usual {
		return ""
	}
	return t.Words
}
