package midi

import (
	"cmp"
	"slices"

	"gitlab.com/gomidi/midi/v2"
	"gitlab.com/gomidi/midi/v2/smf"

	"tieover/layout/play"
	"tieover/score/beat"
)

// panController is the controller that places a channel from left to right.
const panController = 10

// ending is a sounding note that will end.
type ending struct {
	at           beat.Time
	channel, key uint8
}

// begin empties the track for the next part. Where a piece takes several ports, every
// track names its own, so that no reader has to guess.
func (t *track) begin(name string, port uint8, ports int) {
	*t = track{scale: t.scale, content: t.content[:0]}
	t.add(0, smf.MetaTrackSequenceName(name))
	if ports > 1 {
		t.add(0, smf.MetaPort(port))
	}
}

// voice fills the track of one layer.
func (t *track) voice(v *play.Voice, p place, end beat.Time) {
	settings := v.Settings
	var sounding []ending
	set := func(upTo beat.Time) {
		for ; len(settings) > 0 && settings[0].At <= upTo; settings = settings[1:] {
			sounding = t.silence(sounding, settings[0].At)
			t.set(settings[0], p)
		}
	}
	for e := range v.Events() {
		set(e.At)
		sounding = t.silence(sounding, e.At)
		channel := p.channel
		if e.Drums {
			channel = drumChannel
		}
		for _, key := range e.Keys {
			t.add(e.At, midi.NoteOn(channel, uint8(key), uint8(e.Velocity)))
			sounding = append(sounding, ending{e.At + e.Length, channel, uint8(key)})
		}
	}
	set(end)
	t.silence(sounding, end)
	t.close(end)
}

// set writes the program and pan of a voice.
func (t *track) set(s play.Setting, p place) {
	channel := p.channel
	if s.Manner == play.Drums {
		channel = drumChannel
	} else {
		t.add(s.At, midi.ProgramChange(channel, uint8(s.Program-1)))
	}
	t.add(s.At, midi.ControlChange(channel, panController, panned(s.Pan)))
}

// silence ends the notes that are over at a moment, in order, and returns the
// others. A key struck again at that moment has ended before.
func (t *track) silence(sounding []ending, at beat.Time) []ending {
	slices.SortStableFunc(sounding, func(a, b ending) int { return cmp.Compare(a.at, b.at) })
	n := 0
	for n < len(sounding) && sounding[n].at <= at {
		t.add(sounding[n].at, midi.NoteOff(sounding[n].channel, sounding[n].key))
		n++
	}
	return append(sounding[:0], sounding[n:]...)
}

// The metronome's keys in General MIDI: high and low wood block.
const (
	downbeatKey = 76
	beatKey     = 77
	downbeatVel = 100
	beatVel     = 72
)

// clicks fills the metronome's track.
func (t *track) clicks(f *play.Performance, whole bool) {
	t.add(0, midi.ControlChange(drumChannel, panController, panned(0)))
	for c := range f.Clicks(whole) {
		key, velocity := uint8(beatKey), uint8(beatVel)
		if c.Downbeat {
			key, velocity = downbeatKey, downbeatVel
		}
		t.add(c.At, midi.NoteOn(drumChannel, key, velocity))
		t.add(c.At+c.Length, midi.NoteOff(drumChannel, key))
	}
	t.close(f.Length)
}
