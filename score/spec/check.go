package spec

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/source"
	"tieover/score/spec/grammar"
)

// barlineWord stands for the barline in `realign:`.
const barlineWord = "barline"

// layerNamed reports a name that no layer of the section has.
func (r *reader) layerNamed(d *draft, name score.Named, what string) *voice {
	for _, v := range d.voices {
		if v.Name == name.Name {
			return v
		}
	}
	r.wrong(name.Pos, d.nameHint(name.Name), "%s names %q, but no layer is called that", what, grammar.Shortened(name.Name))
	return nil
}

// nameHint says what to write in place of a name that no layer has.
func (d *draft) nameHint(name string) string {
	if strings.Contains(name, ",") {
		return "several names stand in [A, B]"
	}
	var all []string
	for _, v := range d.voices {
		all = append(all, v.Name)
	}
	return cmp.Or(grammar.DidYouMean(name, all), "the layers are "+grammar.Shortened(strings.Join(all, ", ")))
}

// checkRealign holds the names of `realign:` to the layers.
func (r *reader) checkRealign(d *draft) {
	for _, name := range d.SetNames {
		if name.Name == barlineWord {
			continue
		}
		l := r.layerNamed(d, name, "realign")
		switch {
		case l == nil:
		case l.Loop == score.CutRealignment:
			r.wrong(name.Pos, "leave it out of realign", "layer %q starts over at realignments, so it cannot make them", l.Name)
		case l.notes != nil:
			r.wrong(name.Pos, "leave it out of realign", "layer %q is a line without cycles and cannot realign", l.Name)
		case l.EnterAt.WaitsForRealignment() || l.LeaveAt.WaitsForRealignment():
			r.wrong(name.Pos, "leave it out of realign", "layer %q enters or leaves at a realignment, so it cannot decide where that is", l.Name)
		}
	}
	if len(d.SetNames) == 1 && d.SetNames[0].Name == barlineWord {
		r.wrong(d.SetNames[0].Pos, "name at least one layer beside it", "the barline cannot realign alone")
	}
}

// checkPlayers sees to it that what a player plays can be read in one part: on as
// many staves, and all of it on an instrument or none. That no two sound together is
// seen when the piece is settled.
func (r *reader) checkPlayers(d *draft) {
	first := map[string]*score.Layer{}
	for _, l := range d.Layers {
		player := l.PlayerName()
		if player == "" || l.Instrument == nil {
			continue
		}
		switch other := first[player]; {
		case other == nil:
			first[player] = l
		case other.Name != l.Name:
			onePart(other, l, r.wrong)
		}
	}
}

// checkHands warns of the first chord of each layer that the hands on two staves cannot
// hold: one hand if the player has other layers, which have a staff each, else two.
func (r *reader) checkHands(d *draft) {
	for _, v := range d.voices {
		if v.Instrument == nil || v.Instrument.Staves < 2 {
			continue
		}
		chords := v.Chords()
		for _, n := range v.notes { // which are no line yet
			chords = append(chords, n.Tones)
		}
		alone := !slices.ContainsFunc(d.Layers, func(l *score.Layer) bool {
			return l != v.Layer && l.PlayerName() == v.Layer.PlayerName() && l.Instrument == v.Instrument
		})
		for _, c := range chords {
			wide := tooWide(c, alone)
			if wide == nil {
				continue
			}
			at := v.chords[&c[0]]()
			_, _, two := wide.Hands()
			switch {
			case !alone:
				r.warn(at, "divide it between the player's layers", "%v is too wide for one hand, and a layer stands on one staff of the %s", wide, v.Instrument.Name)
			case two:
				r.warn(at, "change an octave", "%v is too wide for one hand, and grace notes are divided only before a chord that is", wide)
			default:
				r.warn(at, "change an octave", "%v is too wide for two hands", wide)
			}
			break
		}
	}
}

// tooWide returns what is struck, or the first of the grace notes before it, if it is too
// wide for one hand and not divided; else nil. A layer that is alone on two staves has
// chords divided that two hands hold, and grace notes before these.
func tooWide(c score.Chord, alone bool) score.Chord {
	graces, struck := c.Led()
	_, _, divided := struck.Hands()
	for _, one := range append([]score.Chord{struck}, graces...) {
		_, _, two := one.Hands()
		if one.Span() > score.HandSpan && !(alone && divided && two) {
			return one
		}
	}
	return nil
}

// onePart says what is wrong where two layers cannot be in one player's part.
func onePart(one, other *score.Layer, wrong func(at source.Pos, hint, format string, args ...any)) {
	bare, named := one, other
	if other.Instrument.Family == instrument.Bare {
		bare, named = other, one
	}
	switch a, b := one.Instrument, other.Instrument; {
	case a == b:
	case bare.Instrument.Family == instrument.Bare:
		wrong(other.Pos, "write instrument: there too, or give them two players",
			"layer %q of player %q has no instrument, and layer %q has %s", bare.Name, one.PlayerName(), named.Name, named.Instrument.InWords())
	case one.Tuning != nil || other.Tuning != nil:
		wrong(other.Pos, "remove tab, or give them two players",
			"player %q changes from %s to %s, and tab is for one instrument", one.PlayerName(), a.Name, b.Name)
	case a.Staves != b.Staves:
		wrong(other.Pos, "give them two players",
			"player %q cannot change from %s to %s: one of them is read on two staves", one.PlayerName(), a.Name, b.Name)
	}
}

// checkLayer looks at keys that contradict or miss each other.
func (r *reader) checkLayer(v *voice) {
	if n := v.keys["accent"]; n != nil && v.Accent == score.AccentGroup && v.Strike == score.StrikeHold && v.keys["figures"] == nil && v.keys["box"] == nil && v.keys["line"] == nil {
		r.warn(r.at(n), "leave it out, or use strike: all", "accent: group accents every note of strike: hold")
	}
	if v.keys["restart"] != nil && v.keys["pitches"] == nil && v.keys["line"] == nil {
		r.warn(r.at(v.keys["restart"]), "leave it out", "restart has nothing to restart: the layer has no pitches")
	}
	if n := v.keys["lyrics"]; n != nil && v.keys["syllables"] != nil {
		r.wrong(r.at(n), "keep one", "lyrics and syllables cannot both stand under %s", v.Name)
	}
	r.checkTouches(v)
	r.checkClef(v.keys["clef"], v.Clef, v.Layer)
	if n := v.keys["slurs"]; v.Slurring.By != score.SlurNone {
		r.checkSlurs(n, v.Layer)
		if v.keys["line"] != nil && v.Slurring.By != score.SlurCounts {
			r.wrong(r.at(n), "write counts, as 3+1+2", "a line has neither groups nor cycles to slur")
		}
	}
	if n := v.keys["strike"]; n != nil && v.keys["box"] != nil {
		r.warn(r.at(n), "leave it out", "strike means nothing beside box")
	}
	if v.EnterAt != nil && v.LeaveAt != nil && v.EnterAt.Kind == v.LeaveAt.Kind &&
		(v.LeaveAt.N < v.EnterAt.N || v.LeaveAt.N == v.EnterAt.N && max(v.LeaveAt.Beat, 1) <= max(v.EnterAt.Beat, 1)) {
		r.wrong(v.LeaveAt.Pos, "let it leave later", "%s leaves before it has entered", v.byName())
	}
}

// abbreviate makes a short name: the instrument's where the name begins with
// it, else the initials of all words but the last, which loses its end.
// Numbers stay.
func abbreviate(name string, on *instrument.Instrument) string {
	if on != nil && on.Family != instrument.Bare {
		for _, called := range []string{on.Label, on.Name} {
			n := len(called)
			if len(name) >= n && strings.EqualFold(name[:n], called) && (len(name) == n || name[n] == ' ') {
				return on.Short + name[n:]
			}
		}
	}
	parts := strings.Fields(name)
	last := len(parts) - 1
	for last > 0 && strings.Trim(parts[last], "0123456789") == "" {
		last--
	}
	for i, w := range parts[:last+1] {
		switch letters := []rune(w); {
		case i < last && len(letters) > 1:
			parts[i] = string(letters[:1]) + "."
		case i == last && len(letters) > 5:
			parts[i] = strings.TrimRight(string(letters[:4]), "aeiou") + "."
		}
	}
	return strings.Join(parts, " ")
}

// tellApart sees to it that no two players of a section have one short name:
// written ones that are alike are refused, made ones become full names.
func (r *reader) tellApart(voices []*voice) {
	owners := map[string]*voice{}
	for _, v := range voices {
		if v.keys["short"] == nil || v.Short == "" {
			continue
		}
		if other := owners[v.Short]; other != nil && other.Layer.PlayerName() != v.Layer.PlayerName() {
			r.wrong(r.at(v.keys["short"]), "give each a short name of its own", "%q is short for both %s and %s", grammar.Shortened(v.Short), grammar.Shortened(other.Name), grammar.Shortened(v.Name))
		}
		owners[v.Short] = v
	}
	made := map[string]map[string]bool{} // players by the short names made for them
	for _, v := range voices {
		if v.keys["short"] == nil {
			if made[v.Short] == nil {
				made[v.Short] = map[string]bool{}
			}
			made[v.Short][v.Layer.PlayerName()] = true
		}
	}
	for _, v := range voices {
		if v.keys["short"] != nil {
			continue
		}
		taken := func(name string) bool {
			o := owners[name]
			return o != nil && o.Layer.PlayerName() != v.Layer.PlayerName()
		}
		if len(made[v.Short]) > 1 || taken(v.Short) {
			v.Short = v.Name
		}
		for n := 2; taken(v.Short); n++ {
			v.Short = fmt.Sprintf("%s %d", v.Name, n)
		}
		owners[v.Short] = v
	}
}
