package spec

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/spec/grammar"
)

// readPitches reads a layer's pitch series, once its instrument is known.
func (r *reader) readPitches(v *voice) {
	n := v.keys["pitches"]
	if v.Instrument == nil || v.keys.has("line") {
		if n != nil && v.keys.has("line") {
			r.wrong(r.at(n), "write the pitches into the line", "a line has its own pitches")
		}
		return
	}
	if n == nil {
		if v.named && !v.Instrument.IsUnpitched() && !v.keys.has("pitches") {
			r.wrong(v.Pos, fmt.Sprintf("add pitches:, as in %s; or leave out instrument: for a rhythm staff", middle(v.Instrument)),
				"%s has no pitches for its %s", v.byName(), v.Instrument.InWords())
		}
		return
	}
	if !v.named {
		r.wrong(r.at(n), guess(v.Name), "%s has pitches but no instrument", v.byName())
		return
	}
	if !r.notEmpty(n, "pitches") {
		return
	}
	if n.Kind == yaml.MappingNode {
		v.SeriesBy = score.EachRealignment
		found, ok := readMap(r, n, "pitches", pitchesKeys(), v)
		if ok && !found.has("realignment") {
			r.wrong(r.at(n), "as in pitches: {realignment: [E5 B4, G4 D5]}", "pitches has no realignment")
		}
		if n = found["realignment"]; n == nil || !r.notEmpty(n, "realignment") {
			return
		}
	}
	for _, item := range items(n) {
		if s, ok := r.series(item, v); ok {
			v.Series = append(v.Series, s)
		}
	}
	if len(v.Series) > 1 && v.Restart == score.RestartNever {
		r.wrong(r.at(v.keys["restart"]), "write one series, or restart: cycle", "a list of pitch series cannot restart never")
	}
	if len(items(n)) == len(v.Series) {
		r.checkSurplus(n, v)
	}
}

// pitchesKeys are those of pitches that change otherwise than cycle by cycle.
func pitchesKeys() []field[voice] { return []field[voice]{{"realignment", nil}} }

func guess(name string) string {
	if i, ok := instrument.Find(name); ok {
		return "add instrument: " + i.Name
	}
	return "add instrument:, as in instrument: marimba"
}

// middle is an octave of plain pitches in an instrument's range, as an example.
func middle(i *instrument.Instrument) string {
	octave := (i.Low+i.High)/2/12 - 1
	return fmt.Sprintf("pitches: C%d G%d", octave, octave)
}

// longHint is how many letters a hint may have to be given more than once.
const longHint = 100

// series reads one pitch series and warns of what the instrument cannot play.
func (r *reader) series(n *yaml.Node, v *voice) ([]score.Chord, bool) {
	s, ok := r.text(n, "pitches")
	if !ok {
		return nil, false
	}
	chords, bad := grammar.Series(s, v.Instrument)
	given := map[string]bool{}
	for _, b := range bad {
		if len(b.Hint) > longHint && given[b.Hint] {
			b.Hint = "see above"
		}
		given[b.Hint] = true
		r.slip(n, b)
	}
	if len(bad) > 0 {
		return nil, false
	}
	r.checkRange(n, v, chords)
	r.placeChords(n, v, s, chords)
	r.needGraces(n, v, chords...)
	return chords, true
}

// needGraces makes the grid hold grace notes, if there are any.
func (r *reader) needGraces(n *yaml.Node, v *voice, chords ...score.Chord) {
	if slices.ContainsFunc(chords, func(c score.Chord) bool { return len(c) > 0 && c[0].Grace > 0 }) {
		v.section.need(r, n, "1/32 for grace notes", beat.Of(1, 32))
	}
}

// checkRange warns of pitches outside the usual range, each once.
func (r *reader) checkRange(n *yaml.Node, v *voice, chords []score.Chord) {
	if v.Tuning != nil { // what its strings do not have is refused
		return
	}
	i := v.Instrument
	seen := map[score.Tone]bool{}
	for _, chord := range chords {
		for _, t := range chord {
			if t.Grace = 0; !t.IsPitched() || seen[t] {
				continue
			}
			seen[t] = true
			switch key := t.Key(); {
			case key < i.Low:
				r.warn(r.at(n), "check the octave; pitches are sounding pitches", "%v is below the usual range of the %s", t, i.Name)
			case key > i.High:
				r.warn(r.at(n), "check the octave; pitches are sounding pitches", "%v is above the usual range of the %s", t, i.Name)
			}
		}
	}
}

// checkSurplus warns of pitches that never sound because the series restarts
// before they are reached.
func (r *reader) checkSurplus(n *yaml.Node, v *voice) {
	if v.Restart != score.RestartCycle || v.keys["process"] != nil || v.keys["except"] != nil || len(v.Patterns) == 0 {
		return
	}
	attacks, ok := v.mostAttacks()
	for k, s := range v.Series {
		if ok && len(s) > attacks {
			r.warn(r.at(items(n)[k]), "shorten the series, or write restart: never",
				"%s for at most %s a cycle: the rest never sound", fmt.Sprint(len(s))+" pitches", beat.Counted(attacks, "attack"))
		}
	}
}

// checkTouches warns of touches that no attack has, since each cycle begins them
// again.
func (r *reader) checkTouches(v *voice) {
	if n := v.keys["touches"]; n != nil && v.keys["process"] == nil && v.keys["except"] == nil && len(v.Patterns) > 0 {
		if attacks, ok := v.mostAttacks(); ok && attacks > 0 && len(v.Touches) > attacks {
			r.warn(r.at(n), "shorten the list: touches begin again with each cycle",
				"%d touches for at most %s a cycle: the rest are never heard", len(v.Touches), beat.Counted(attacks, "attack"))
		}
	}
}

// mostAttacks counts the attacks of the layer's fullest cycle; ok is false when
// some cycle could not be read.
func (v *voice) mostAttacks() (attacks int, ok bool) {
	for _, p := range v.Patterns {
		if len(p.Groups) == 0 {
			return 0, false
		}
		attacks = max(attacks, v.attacks(p))
	}
	return attacks, true
}

// attacks counts the attacks of one whole cycle.
func (v *voice) attacks(p score.Pattern) int {
	if p.Box != nil {
		return strikes(p.Box)
	}
	total := 0
	for _, g := range p.Groups {
		figure, stated := v.Figures[g.Size]
		switch {
		case g.Blank:
		case stated:
			total += strikes(figure)
		case v.Strike == score.StrikeAll:
			total += g.Size
		default:
			total++
		}
	}
	return total
}

func strikes(signs []score.Sign) int {
	n := 0
	for _, s := range signs {
		if s == score.SignAttack {
			n++
		}
	}
	return n
}
