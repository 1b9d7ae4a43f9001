package layout

import (
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// partPlan is what stays the same through a part, while the player holds one
// instrument.
type partPlan struct {
	player  score.Player // with that instrument and its layers alone
	voices  []*bar.VoicePlan
	feeds   []feed // by voice
	staves  []sheet.Staff
	pitched bool
	wanted  bar.Transposer    // without a key
	usual   []instrument.Clef // of the staves, where the spec chooses none
}

// planVoices gives each layer of a part a staff, a voice and a stem direction:
// on two staves the first layer above and the others below, a kit's feet under
// its hands, of several pitched lines of one staff the higher half up and the others down.
func (p *partPlan) planVoices(layers []*score.Layer, ins *instrument.Instrument) {
	staves := max(1, ins.Staves)
	perStaff := make([]int, staves+1)
	feet := make([]bool, len(layers))
	for i, l := range layers {
		staff := 1
		if staves == 2 && len(layers) > 1 && i >= (len(layers)+1)/2 {
			staff = 2
		}
		if staves == 2 && len(layers) == 1 && medianKey(l, ins) < 60 {
			staff = 2
		}
		feet[i] = ins.IsUnpitched() && mostlyFeet(l, ins)
		perStaff[staff]++
		p.voices = append(p.voices, &bar.VoicePlan{Layer: l.Name, Staff: staff, Number: 4*(staff-1) + perStaff[staff]})
	}
	for staff := 1; staff <= staves; staff++ {
		p.stems(staff, layers, feet, ins)
	}
	for s := 1; s <= staves; s++ {
		p.usual = append(p.usual, p.clefOf(s, layers, ins))
		p.staves = append(p.staves, sheet.Staff{Clef: p.usual[s-1], Lines: max(1, ins.Lines)})
	}
}

// restAbove gives the upper of two staves a voice of rests where no layer stands on
// it: it is read as silent, and carries the signs for all.
func (p *partPlan) restAbove() {
	if len(p.staves) == 2 && p.voices[0].Staff == 2 {
		p.voices = append([]*bar.VoicePlan{{Staff: 1, Number: 1}}, p.voices...)
	}
}

// oneStaff leaves only the staff that a part of one voice is written on.
func (p *partPlan) oneStaff() {
	v := p.voices[0]
	p.staves, p.usual = p.staves[v.Staff-1:v.Staff], p.usual[v.Staff-1:v.Staff]
	v.Staff, v.Number = 1, 1
}

// stems gives the voices of one staff their stem directions.
func (p *partPlan) stems(staff int, layers []*score.Layer, feet []bool, ins *instrument.Instrument) {
	var order []int // the staff's voices, highest first; drums as the spec lists them
	for i, v := range p.voices {
		if v.Staff == staff {
			order = append(order, i)
		}
	}
	if !ins.IsUnpitched() {
		slices.SortStableFunc(order, func(a, b int) int { return medianKey(layers[b], ins) - medianKey(layers[a], ins) })
	}
	for rank, i := range order {
		v := p.voices[i]
		switch {
		case feet[i]:
			v.Stem = sheet.StemDown
		case ins.Lines == 1 || ins.IsUnpitched() && len(order) > 1:
			v.Stem = sheet.StemUp
		case len(order) > 1 && rank < (len(order)+1)/2:
			v.Stem = sheet.StemUp
		case len(order) > 1:
			v.Stem = sheet.StemDown
		}
	}
}

// mostlyFeet reports whether most tones of the layer are played with the feet.
func mostlyFeet(l *score.Layer, ins *instrument.Instrument) bool {
	feet, all := 0, 0
	for _, t := range tonesOf(l) {
		if t.Drum > 0 && int(t.Drum) <= len(ins.Drums) { // not a sound of another drum set
			all++
			if ins.Drums[t.Drum-1].Feet {
				feet++
			}
		}
	}
	return 2*feet > all
}

// clefOf chooses one clef for a staff by the median of what its layers write:
// the instrument's own, or the bass or treble clef where that median would lie
// more than two ledger lines off and the instrument reads both: a keyboard or
// mallet instrument whose range covers E3 to C5. On two staves an empty one has
// the bass clef below.
func (p *partPlan) clefOf(staff int, layers []*score.Layer, ins *instrument.Instrument) instrument.Clef {
	own := ins.Clef
	if staff == 2 {
		own = instrument.Clef{Sign: 'F', Line: 4}
	}
	both := ins.Family == instrument.Keyboard || ins.Family == instrument.Percussion || ins.Staves == 2
	if ins.IsUnpitched() || !both || ins.Low > 52 || ins.High < 72 {
		return own
	}
	var places []int
	for i, l := range layers {
		if p.voices[i].Staff != staff {
			continue
		}
		for _, t := range tonesOf(l) {
			if t.IsPitched() {
				w, _, _ := p.wanted.Written(t)
				places = append(places, sheet.Steps(w.Step, int(w.Octave)))
			}
		}
	}
	if len(places) == 0 {
		return own
	}
	slices.Sort(places)
	median := places[len(places)/2]
	best := own
	for _, c := range []instrument.Clef{{Sign: 'G', Line: 2}, {Sign: 'F', Line: 4}} {
		if distance(own, median) > 8 && distance(c, median) < distance(best, median) {
			best = c
		}
	}
	return best
}

// distance is how many steps a place lies from the middle line: four reach the
// staff's edge, eight the second ledger line.
func distance(c instrument.Clef, place int) int {
	middle := sheet.Steps(sheet.Staff{Clef: c, Lines: 5}.Middle())
	return max(place-middle, middle-place)
}

// tonesOf lists the tones of a layer's series and lines, as written.
func tonesOf(l *score.Layer) []score.Tone {
	var tones []score.Tone
	add := func(chords []score.Chord) {
		for _, c := range chords {
			tones = append(tones, c...)
		}
	}
	for _, s := range l.Series {
		add(s)
	}
	for _, e := range l.Except {
		add(e.Series)
	}
	for _, n := range l.Line {
		tones = append(tones, n.Tones...)
	}
	return tones
}

// medianKey is the middle of the layer's pitches, 60 if it has none.
func medianKey(l *score.Layer, ins *instrument.Instrument) int {
	var keys []int
	for _, t := range tonesOf(l) {
		if t.IsPitched() {
			keys = append(keys, t.Key())
		}
	}
	if len(keys) == 0 {
		return 60
	}
	slices.Sort(keys)
	return keys[len(keys)/2]
}

// lyricLines counts, for each layer, the lines of words that stand above its own on
// its staff: those of the layers before it, so that no line has the words of two.
func (p *partPlan) lyricLines(sections []*score.Section) map[string]int {
	above, taken := map[string]int{}, make([]int, len(p.staves))
	for _, v := range p.voices {
		names := v.Layers
		if names == nil {
			names = []string{v.Layer}
		}
		for _, name := range names {
			above[name] = taken[v.Staff-1]
			taken[v.Staff-1] += p.linesOf(sections, name)
		}
	}
	return above
}

// linesOf is how many lines of words the player's layers of a name have at most.
func (p *partPlan) linesOf(sections []*score.Section, name string) int {
	most := 0
	for i, s := range sections {
		for _, j := range p.player.Layers[i] {
			if l := s.Layers[j]; l.Name == name {
				most = max(most, len(l.Verses), min(1, len(l.Syllables)))
			}
		}
	}
	return most
}
