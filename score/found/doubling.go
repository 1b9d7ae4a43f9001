package found

import (
	"cmp"
	"maps"
	"slices"

	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/instrument"
)

// splitInstruments returns a voice as one line for each instrument that its player takes
// up; unchanged where the file has only one, or where two of them sound in one bar and so
// are not one player's.
func (v voice) splitInstruments(part *heard.Part) []voice {
	player := cmp.Or(v.player, v.name)
	t := newTurns(part)
	var lines []voice
	for k, on := range instrumentOfEach(part, v.attacks) {
		i, free := t.take(on, v.attacks[k])
		if !free {
			return []voice{v}
		}
		if i == len(lines) {
			lines = append(lines, voice{player: player, on: on})
			if on != nil {
				lines[i].name = v.name + ", " + Tidy(on.Name)
			}
		}
		lines[i].attacks = append(lines[i].attacks, v.attacks[k])
	}
	if len(lines) < 2 || slices.ContainsFunc(lines, func(line voice) bool { return line.on == nil }) {
		return []voice{v}
	}
	return lines
}

// oneAtATime reports whether no two instruments of a part sound in one bar.
func oneAtATime(lines []voice, part *heard.Part) bool {
	t := newTurns(part)
	for _, line := range lines {
		for k, on := range instrumentOfEach(part, line.attacks) {
			if _, free := t.take(on, line.attacks[k]); !free {
				return false
			}
		}
	}
	return true
}

// turns is which instrument of a part sounds in which bar.
type turns struct {
	bars        []heard.Bar
	instruments []*heard.Instrument // so far
	owner       []int               // of each bar: its instrument, from 1; 0 for none
}

func newTurns(part *heard.Part) *turns {
	return &turns{bars: part.Bars, owner: make([]int, len(part.Bars))}
}

// take gives an instrument the bars that an attack sounds in, and returns which one of
// those so far it is, a new one being the last; free is false where a bar is another's.
func (t *turns) take(on *heard.Instrument, a heard.Attack) (index int, free bool) {
	index = slices.IndexFunc(t.instruments, func(other *heard.Instrument) bool { return isSameInstrument(other, on) })
	if index < 0 {
		index = len(t.instruments)
		t.instruments = append(t.instruments, on)
	}
	over := a.Onset.Add(a.Length)
	first, _ := slices.BinarySearchFunc(t.bars, a.Onset, func(b heard.Bar, at beat.Span) int {
		if b.Start.Add(b.Length).Cmp(at) <= 0 {
			return -1
		}
		return 1
	})
	for i := first; i < len(t.bars) && t.bars[i].Start.Cmp(over) < 0; i++ {
		if t.owner[i] != 0 && t.owner[i] != index+1 {
			return index, false
		}
		t.owner[i] = index + 1
	}
	return index, true
}

// instrumentOfEach returns the instrument of each attack: of pitches the file's; of drums
// the smallest that has all that is struck until another is needed; nil where it is not
// known.
func instrumentOfEach(part *heard.Part, attacks []heard.Attack) []*heard.Instrument {
	all := make([]*heard.Instrument, len(attacks))
	struck, since := map[heard.Tone]bool{}, 0
	settle := func(to int) {
		on := findKit(nil, slices.Collect(maps.Keys(struck)))
		for k := since; k < to && on != nil; k++ {
			if all[k] == nil && attacks[k].Tones[0].Step == 0 {
				all[k] = &heard.Instrument{Name: on.Label}
			}
		}
		clear(struck)
		since = to
	}
	for k, a := range attacks {
		if a.Tones[0].Step != 0 {
			if a.On > 0 {
				all[k] = &part.Instruments[a.On-1]
			}
			continue
		}
		with := slices.AppendSeq(slices.Clone(a.Tones), maps.Keys(struck))
		if len(struck) > 0 && findKit(nil, with) == nil {
			settle(k)
		}
		for _, t := range a.Tones {
			struck[t] = true
		}
	}
	settle(len(attacks))
	return all
}

// isSameInstrument reports whether two instruments of a player, or none, are the same.
func isSameInstrument(a, b *heard.Instrument) bool { return a == b || a != nil && b != nil && *a == *b }

// separate gives layers that one player cannot have in a spec each a player of its own: a
// rhythm beside an instrument, one staff beside two.
func separate(layers []Layer) {
	first := map[string]*instrument.Instrument{}
	apart := map[string]bool{}
	for i, f := range layers {
		on, _ := instrument.Find(f.Instrument) // nil for a rhythm
		before, known := first[f.Player]
		switch {
		case f.Player == "":
		case !known:
			first[layers[i].Player] = on
		case before != on:
			apart[f.Player] = apart[f.Player] || on == nil || before == nil || on.Staves != before.Staves
		}
	}
	for i := range layers {
		if apart[layers[i].Player] {
			layers[i].Player = ""
		}
	}
}
