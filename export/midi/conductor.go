package midi

import (
	"cmp"
	"math/bits"
	"slices"

	"gitlab.com/gomidi/midi/v2/smf"

	"tieover/layout/play"
	"tieover/score"
	"tieover/score/beat"
)

// conductor makes the first track: title and rights, then meters, keys, tempos and
// markers in time order; at one time in this order.
func conductor(f *play.Performance, scale int64) (*track, error) {
	type event struct {
		at      beat.Time
		message smf.Message
	}
	var all []event
	for m := range f.Meters() {
		message, err := meter(m)
		if err != nil {
			return nil, err
		}
		all = append(all, event{m.At, message})
	}
	for _, k := range f.Keys {
		all = append(all, event{k.At, key(k)})
	}
	for _, t := range f.Tempos {
		message, err := tempo(t.Quarters)
		if err != nil {
			return nil, err
		}
		all = append(all, event{t.At, message})
	}
	for _, m := range f.Markers {
		all = append(all, event{m.At, smf.MetaMarker(m.Text)})
	}
	slices.SortStableFunc(all, func(a, b event) int { return cmp.Compare(a.at, b.at) })
	t := &track{scale: scale}
	t.add(0, smf.MetaTrackSequenceName(f.Title))
	if f.Rights != "" {
		t.add(0, smf.MetaCopyright(f.Rights))
	}
	for _, e := range all {
		t.add(e.at, e.message)
	}
	t.close(f.Length)
	return t, nil
}

// key writes a key signature (Standard MIDI Files 1.0: FF 59 02): sharps, or flats
// as a negative number, and 1 for minor. It knows no other modes than major and
// minor: D dorian is no sharps and 0.
func key(k play.Key) smf.Message {
	minor := byte(0)
	if k.Minor {
		minor = 1
	}
	return smf.MetaUndefined(0x59, []byte{byte(int8(k.Fifths)), minor})
}

// slowest is the most microseconds that a tempo's three bytes hold.
const slowest = 1<<24 - 1

// tempo writes how many microseconds a quarter lasts, to the nearest one, half
// up (Standard MIDI Files 1.0: FF 51 03).
func tempo(quarters beat.Span) (smf.Message, error) {
	// 60,000,000/(n/d) = 60,000,000·d/n
	n, d := quarters.Num(), quarters.Den()
	const minute = 60_000_000
	high, low := bits.Mul64(2*minute, uint64(d))
	if high != 0 {
		return nil, unfit("tempo %v: a MIDI file cannot hold it; give another tempo, or leave midi out with --only", quarters)
	}
	us := (low + uint64(n)) / (2 * uint64(n))
	if us < 1 || us > slowest {
		return nil, unfit("tempo %v quarters a minute: a MIDI file holds tempos from 3.5763 to 60,000,000; "+
			"give another tempo, or leave midi out with --only", quarters)
	}
	return smf.MetaUndefined(0x51, []byte{byte(us >> 16), byte(us >> 8), byte(us)}), nil
}

// meter writes a time signature (Standard MIDI Files 1.0: FF 58 04): count,
// power of two of the unit, MIDI clocks of a metronome click, 32nds a quarter.
// The groups of an additive meter have no place in it.
func meter(m play.Meter) (smf.Message, error) {
	if m.Count > 255 {
		return nil, unfit("a bar of %d/%d: a MIDI time signature counts to 255; "+
			"use a longer unit or split the bar", m.Count, m.Unit)
	}
	power := bits.TrailingZeros(uint(m.Unit))
	return smf.MetaUndefined(0x58, []byte{byte(m.Count), byte(power), clocks(m), 8}), nil
}

// clocks returns the MIDI clocks, 24 a quarter, between two clicks of a reader's
// metronome: the dotted quarter of compound meters over 8, else the unit. Units
// that have no whole number of clocks click in 32nds.
func clocks(m play.Meter) byte {
	if m.Unit == 8 && m.Beat == beat.Of(3, 8) && m.Count > 3 {
		return 36
	}
	return byte(max(3, 96/m.Unit))
}

// panned returns the controller value of a pan: 0 left, 64 middle, 127 right.
func panned(pan int) byte {
	if pan < 0 {
		return byte(64 + (pan*64-45)/90)
	}
	return byte(64 + (pan*63+45)/90)
}

// drumChannel is channel 10, counted from 0: General MIDI percussion.
const drumChannel = 9

// place is the port and channel of a voice.
type place struct{ port, channel uint8 }

// onePort is how many pitched voices a port has channels for: all but the drums'.
const onePort = 15

// Ports returns how many MIDI ports a piece takes: one for every 15 pitched
// layers.
func Ports(p *score.Piece) int {
	f := play.Of(p, 0)
	return portsOf(channels(f))
}

func portsOf(places []place) int {
	most := uint8(0)
	for _, p := range places {
		most = max(most, p.port)
	}
	return int(most) + 1
}

// channels deals ports and channels to the voices: every pitched one a channel
// of its own, 15 a port; all drums on channel 10 of the first port.
func channels(f *play.Performance) []place {
	places := make([]place, len(f.Voices))
	n := 0
	for i := range f.Voices {
		if !isPitched(&f.Voices[i]) {
			places[i] = place{0, drumChannel}
			continue
		}
		channel := n % onePort
		if channel >= drumChannel {
			channel++
		}
		places[i] = place{uint8(n / onePort), uint8(channel)}
		n++
	}
	return places
}

func isPitched(v *play.Voice) bool {
	return slices.ContainsFunc(v.Settings, func(s play.Setting) bool { return s.Manner != play.Drums })
}
