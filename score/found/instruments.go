package found

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"tieover/score/find"
	"tieover/score/heard"
	"tieover/score/instrument"
)

// Layers makes lines the layers of a spec, each with an instrument; notes name every
// instrument that the file does not.
func Layers(lines []Line) (layers []Layer, notes []string) {
	for _, line := range lines {
		layers = append(layers, Layer{Name: line.Name, Player: line.Player, List: line.List, Ranked: line.Ranked})
	}
	noted := map[string]bool{}
	for i := range layers {
		name := partName(&layers[i])
		if note := giveInstrument(&layers[i], lines[i], playerLists(lines, i)); note != "" && !noted[name] {
			noted[name] = true
			notes = append(notes, name+": "+note)
		}
	}
	separate(layers)
	return layers, notes
}

// partName is the name of the part that a layer comes from.
func partName(f *Layer) string { return cmp.Or(f.Player, f.Name) }

// playerLists returns the lists of all lines that share line i's player and
// instrument.
func playerLists(lines []Line, i int) []*find.List {
	var all []*find.List
	for k, line := range lines {
		if k == i || line.Player != "" && line.Player == lines[i].Player && isSameInstrument(line.On, lines[i].On) {
			all = append(all, line.List)
		}
	}
	return all
}

// giveInstrument sets the instrument of a layer: the file's, if it can sound all the lists;
// else one that can; else none, for a mere rhythm. note says so when the file does not name
// the instrument.
func giveInstrument(f *Layer, line Line, all []*find.List) (note string) {
	pitched, drums := sortSounds(all)
	part, named := cmp.Or(line.Part, line.Played), findInstrument(partName(f))
	if line.On != nil {
		single := *part
		single.Instruments = []heard.Instrument{*line.On}
		part, named = &single, findInstrument(line.On.Name)
	}
	switch {
	case pitched && len(drums) > 0:
		return "has pitches and other sounds, which no one instrument has; written as a rhythm"
	case pitched:
		var on *instrument.Instrument
		on, note = choosePitched(part, named, all)
		f.Instrument = on.Name
	case len(drums) > 0:
		on := findKit(named, drums)
		if on == nil {
			return "no instrument has all its sounds; written as a rhythm"
		}
		f.Instrument, f.Bare = on.Name, len(on.Drums) == 1
		f.Sound = func(t heard.Tone) string { return on.Drums[drumIndex(on, t)].Name }
	case part != nil && named != nil && len(named.Drums) == 1:
		f.Instrument, f.Bare = named.Name, true
	}
	return note
}

var desk = regexp.MustCompile(`(?i)[\s.]*\b([0-9]+|I{1,3}|IV|V)\.?$`)

// findInstrument returns the instrument that a part's name names, a number at its end
// left out; nil if none.
func findInstrument(name string) *instrument.Instrument {
	on, ok := instrument.Find(strings.TrimSpace(name))
	if !ok {
		on, ok = instrument.Find(desk.ReplaceAllString(strings.TrimSpace(name), ""))
	}
	if !ok {
		return nil
	}
	return on
}

// choosePitched chooses an instrument that reaches the pitches, by the surest sign there is:
// the part's name, then the instrument's name, standard sound and MIDI program in the file,
// then the clef. Where the name is a register that instruments have as well as voices, as
// "Bass" and "Alto" are, an instrument that the file gives comes first.
func choosePitched(part *heard.Part, named *instrument.Instrument, all []*find.List) (on *instrument.Instrument, note string) {
	can := func(i *instrument.Instrument) bool { return !i.IsUnpitched() && reachesAll(all, i) }
	// Keyboards are no sign: files let them play what is sung.
	other := func(i *instrument.Instrument) bool {
		return i.Family != instrument.Voice && i.Family != instrument.Keyboard && can(i)
	}
	if named != nil && named.Family == instrument.Voice {
		if on, note := chooseGiven(part, other); on != nil {
			return on, note
		}
	}
	if named != nil && can(named) {
		return named, ""
	}
	if on := chooseVoice(part, all); on != nil && can(on) {
		return on, "taken for " + on.Name + ", the voice in whose range it lies"
	}
	if on, note := chooseGiven(part, can); on != nil {
		return on, note
	}
	on, _ = instrument.Find("piano")
	guitar, _ := instrument.Find("bass guitar")
	switch {
	case named != nil && named.Name == "bass" && can(guitar):
		return guitar, "has notes outside the range of the voice bass; bass guitar is a guess"
	case named != nil && !named.IsUnpitched():
		return on, "has notes outside the range of " + named.Name + "; written for piano"
	case part == nil:
		return on, ""
	}
	if guess, ok := instrument.Find(clefInstrument(part.Clef)); ok && can(guess) {
		on = guess
	}
	return on, "the file does not say which instrument it is; " + on.Name + " is a guess"
}

// chooseGiven returns the instrument that the part's file gives by a name or a standard
// sound, else by a MIDI program, which note says, and that can play; nil if none.
func chooseGiven(part *heard.Part, can func(*instrument.Instrument) bool) (on *instrument.Instrument, note string) {
	if part == nil {
		return nil, ""
	}
	for _, given := range part.Instruments {
		if on := givenInstrument(given, can); on != nil {
			return on, ""
		}
	}
	for _, given := range part.Instruments {
		if all := instrument.OfProgram(given.Program); slices.ContainsFunc(all, can) {
			on := all[slices.IndexFunc(all, can)]
			return on, fmt.Sprintf("taken for %s, by its MIDI program %d", on.Name, given.Program)
		}
	}
	return nil, ""
}

// givenInstrument returns the instrument that the file gives by its name, else by its
// standard sound, and that can play; nil if none.
func givenInstrument(given heard.Instrument, can func(*instrument.Instrument) bool) *instrument.Instrument {
	if on := findInstrument(given.Name); on != nil && can(on) {
		return on
	}
	return first(func(i *instrument.Instrument) bool { return given.Sound != "" && i.Sound == given.Sound && can(i) })
}

// chooseVoice returns the voice in the middle of whose range the pitches lie, for a part
// that is called a voice without saying which; nil for others.
func chooseVoice(part *heard.Part, all []*find.List) *instrument.Instrument {
	if part == nil || !slices.Contains([]string{"voice", "voices", "vocal", "vocals", "singer", "singers", "choir", "chorus"},
		strings.ToLower(desk.ReplaceAllString(strings.TrimSpace(part.Name), ""))) {
		return nil
	}
	low, high := 127, 0
	for t := range tones(all) {
		key, _ := t.Key()
		low, high = min(low, key), max(high, key)
	}
	var best *instrument.Instrument
	off := func(on *instrument.Instrument) int { return max(on.Low+on.High-low-high, low+high-on.Low-on.High) }
	for _, on := range instrument.All() {
		if strings.HasPrefix(on.Sound, "voice.") && on.Low <= low && high <= on.High && (best == nil || off(on) < off(best)) {
			best = on
		}
	}
	return best
}

// clefInstrument names the instrument of a clef that few use; "" for other clefs.
func clefInstrument(clef string) string {
	switch clef {
	case "C3":
		return "viola"
	case "C4", "F4":
		return "cello"
	}
	return ""
}

// first returns the first instrument of the table that fits, nil if none does.
func first(fits func(*instrument.Instrument) bool) *instrument.Instrument {
	all := instrument.All()
	if i := slices.IndexFunc(all, fits); i >= 0 {
		return all[i]
	}
	return nil
}
