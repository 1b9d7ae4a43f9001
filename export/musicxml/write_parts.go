package musicxml

import (
	"strconv"

	"github.com/beevik/etree"

	"tieover/score/instrument"
)

// partList lists the parts; neighbours of one family stand under a bracket
// with joined barlines.
func (e *encoder) partList() *etree.Element {
	list := elem("part-list")
	parts := e.sheet.Parts
	channels := e.channels()
	for i := range parts {
		family := parts[i].Instrument.Family
		joinsLast := i > 0 && parts[i-1].Instrument.Family == family
		joinsNext := i+1 < len(parts) && parts[i+1].Instrument.Family == family
		grouped := family != instrument.Bare
		if grouped && joinsNext && !joinsLast {
			list.AddChild(with(elem("part-group", leaf("group-symbol", "bracket"), leaf("group-barline", "yes")),
				"number", "1", "type", "start"))
		}
		list.AddChild(e.scorePart(i, channels[i]))
		if grouped && joinsLast && !joinsNext {
			list.AddChild(with(elem("part-group"), "number", "1", "type", "stop"))
		}
	}
	return list
}

// channel is where a part plays: one of 16 channels of a port, both from 1.
type channel struct{ port, number int }

// drumChannel is the channel that General MIDI keeps for percussion.
const drumChannel = 10

// channels gives each pitched instrument of each part a channel of its own, on
// further ports when fifteen are taken, and percussion the channel made for it. So a
// player's instruments sound right whether a reader follows the changes or not.
func (e *encoder) channels() [][]channel {
	made := make([][]channel, len(e.sheet.Parts))
	pitched := 0
	for k := range e.sheet.Parts {
		for _, i := range e.sheet.Parts[k].All() {
			if i.IsUnpitched() {
				made[k] = append(made[k], channel{1, drumChannel})
				continue
			}
			n := pitched%15 + 1
			if n >= drumChannel {
				n++
			}
			made[k] = append(made[k], channel{pitched/15 + 1, n})
			pitched++
		}
	}
	return made
}

// scorePart says who plays a part on which instruments, on a channel each.
func (e *encoder) scorePart(index int, channels []channel) *etree.Element {
	p := &e.sheet.Parts[index]
	part := with(elem("score-part", leaf("part-name", e.text("part name", p.Name))), "id", partID(index))
	if p.Short != "" {
		part.AddChild(leaf("part-abbreviation", e.text("short part name", p.Short)))
	}
	var sounds []sound
	for k, i := range p.All() {
		for _, s := range soundsOf(i) {
			s.channel = channels[k]
			sounds = append(sounds, s)
		}
	}
	for n, s := range sounds {
		part.AddChild(with(elem("score-instrument", leaf("instrument-name", e.text("instrument name", s.label)),
			when(s.id != "", leaf("instrument-sound", s.id)), elem("solo")), "id", instrumentID(index, n+1)))
	}
	for n, s := range sounds {
		id := instrumentID(index, n+1)
		if s.channel.port > 1 {
			part.AddChild(with(elem("midi-device"), "id", id, "port", strconv.Itoa(s.channel.port)))
		}
		part.AddChild(with(elem("midi-instrument", number("midi-channel", s.channel.number),
			number("midi-program", s.program), when(s.key > 0, number("midi-unpitched", s.key))), "id", id))
	}
	return part
}

// sound is one line of a part's list of instruments.
type sound struct {
	label, id    string
	program, key int // both from 1; key 0 for a pitched sound
	channel      channel
}

func soundsOf(i *instrument.Instrument) []sound {
	if i.IsUnpitched() {
		made := make([]sound, len(i.Drums))
		for n, d := range i.Drums {
			made[n] = sound{label: d.Label, id: d.Sound, program: 1, key: d.Key + 1}
		}
		return made
	}
	return []sound{{label: i.Label, id: i.Sound, program: i.Program}}
}

// soundID returns the id of a sound of an instrument of the part, from 1.
func (e *encoder) soundID(on *instrument.Instrument, n int) string {
	for _, i := range e.part.Instruments {
		if i == on {
			break
		}
		n += max(1, len(i.Drums))
	}
	return instrumentID(e.index, n)
}
