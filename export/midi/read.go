package midi

import (
	"cmp"
	"encoding/binary"
	"fmt"
	"slices"

	"tieover/score/beat"
	"tieover/score/heard"
)

// What the reader takes.
const (
	readMaxBytes  = 64 << 20
	readMaxNotes  = 1_000_000
	readMaxTicks  = 1 << 32 // of a track
	readMaxTracks = 1024
	readDrums     = 9 // the channel of drums, from 0
)

// Read returns the notes of a Standard MIDI File, types 0 and 1: one part for
// each track and channel that has notes, in the bars of the file's meters. Times are exact: ticks over ticks a
// whole note. It trusts no length in the file.
func Read(data []byte) (*heard.Score, error) {
	if len(data) > readMaxBytes {
		return nil, fmt.Errorf("the MIDI file is larger than 64 MiB")
	}
	r := &midiReading{data: data}
	head, err := r.chunk("MThd")
	if err != nil {
		return nil, err
	}
	if len(head) < 6 {
		return nil, fmt.Errorf("the MIDI header has %d bytes instead of 6", len(head))
	}
	format, division := binary.BigEndian.Uint16(head), binary.BigEndian.Uint16(head[4:])
	switch {
	case format > 1:
		return nil, fmt.Errorf("a MIDI file of type %d cannot be read, only 0 and 1", format)
	case division == 0:
		return nil, fmt.Errorf("the MIDI file has 0 ticks in a quarter")
	case division&0x8000 != 0:
		return nil, fmt.Errorf("the MIDI file counts in frames, not in parts of a quarter")
	}
	r.whole = 4 * int64(division)
	out := &heard.Score{}
	for n := 1; len(r.data) > 0; n++ {
		if n > readMaxTracks {
			return nil, fmt.Errorf("the MIDI file has more than %d tracks", readMaxTracks)
		}
		body, err := r.chunk("MTrk")
		if err != nil {
			return nil, err
		}
		parts, err := r.track(body, n)
		if err != nil {
			return nil, fmt.Errorf("track %d: %w", n, err)
		}
		out.Parts = append(out.Parts, parts...)
		if r.empty > 0 {
			out.Remarks = append(out.Remarks, heard.Remark{Kind: heard.LeftOut, Part: fmt.Sprintf("track %d", n), Text: fmt.Sprintf("%d notes without length left out", r.empty)})
			r.empty = 0
		}
	}
	if len(out.Parts) == 0 {
		return nil, fmt.Errorf("the MIDI file has no notes")
	}
	bars, err := r.bars(endOf(out.Parts))
	if err != nil {
		return nil, err
	}
	for _, p := range out.Parts {
		p.Quarters, p.Bars = r.tempo, bars
	}
	return out, nil
}

// midiReading is a file while it is read.
type midiReading struct {
	data  []byte
	whole int64 // ticks in a whole note
	notes int
	tempo beat.Span // quarters a minute, the first in the file
	empty int       // notes of a track that end where they begin
	meter []meterAt
}

// chunk takes the next chunk of a kind; chunks of other kinds are passed over.
func (r *midiReading) chunk(kind string) ([]byte, error) {
	for {
		if len(r.data) < 8 {
			if kind == "MTrk" && len(r.data) == 0 {
				return nil, nil
			}
			return nil, fmt.Errorf("not a MIDI file, or cut off: no %s chunk", kind)
		}
		name, size := string(r.data[:4]), int64(binary.BigEndian.Uint32(r.data[4:8]))
		if name != kind && kind == "MThd" {
			return nil, fmt.Errorf("not a MIDI file: it does not begin with MThd")
		}
		if size > int64(len(r.data)-8) {
			return nil, fmt.Errorf("the %q chunk says it has %d bytes, but %d are left", name, size, len(r.data)-8)
		}
		body := r.data[8 : 8+size]
		r.data = r.data[8+size:]
		if name == kind {
			return body, nil
		}
		if len(r.data) == 0 {
			return nil, nil
		}
	}
}

// trackReading is one track while it is read.
type trackReading struct {
	*midiReading
	body   []byte
	now    int64
	status byte
	name   string
	open   [16][128][]int // indexes of sounding notes
	found  [16][]midiNote
}

type midiNote struct {
	at, length int64
	key        uint8
	ended      bool
}

func (r *midiReading) track(body []byte, n int) ([]*heard.Part, error) {
	t := &trackReading{midiReading: r, body: body}
	for len(t.body) > 0 {
		delta, err := t.variable()
		if err != nil {
			return nil, err
		}
		if t.now += delta; t.now > readMaxTicks {
			return nil, fmt.Errorf("it lasts more than %d ticks", int64(readMaxTicks))
		}
		over, err := t.event()
		if err != nil {
			return nil, err
		}
		if over {
			break
		}
	}
	return t.parts(n), nil
}

// variable reads a variable-length quantity of at most four bytes.
func (t *trackReading) variable() (int64, error) {
	n := int64(0)
	for i := 0; i < 4; i++ {
		b, err := t.take(1)
		if err != nil {
			return 0, err
		}
		n = n<<7 | int64(b[0]&0x7F)
		if b[0] < 0x80 {
			return n, nil
		}
	}
	return 0, fmt.Errorf("a number of more than four bytes")
}

func (t *trackReading) take(n int64) ([]byte, error) {
	if n > int64(len(t.body)) {
		return nil, fmt.Errorf("it is cut off")
	}
	b := t.body[:n]
	t.body = t.body[n:]
	return b, nil
}

// event reads one event. over is true at the end of the track.
func (t *trackReading) event() (over bool, err error) {
	if len(t.body) == 0 {
		return false, fmt.Errorf("it is cut off")
	}
	if t.body[0] >= 0x80 {
		t.status = t.body[0]
		t.body = t.body[1:]
	} else if t.status < 0x80 || t.status >= 0xF0 {
		return false, fmt.Errorf("a data byte stands where an event should begin")
	}
	switch {
	case t.status == 0xFF:
		return t.meta()
	case t.status == 0xF0 || t.status == 0xF7:
		size, err := t.variable()
		if err == nil {
			_, err = t.take(size)
		}
		return false, err
	case t.status > 0xF0:
		return false, fmt.Errorf("a status byte %#x that no file may hold", t.status)
	}
	size := int64(2)
	if kind := t.status & 0xF0; kind == 0xC0 || kind == 0xD0 {
		size = 1
	}
	data, err := t.take(size)
	if err != nil {
		return false, err
	}
	for _, b := range data {
		if b >= 0x80 {
			return false, fmt.Errorf("an event is cut off by another")
		}
	}
	return false, t.channel(data)
}

func (t *trackReading) channel(data []byte) error {
	on := t.status&0xF0 == 0x90 && data[1] > 0
	off := t.status&0xF0 == 0x80 || t.status&0xF0 == 0x90 && data[1] == 0
	channel, key := t.status&0x0F, data[0]
	switch {
	case on:
		if t.notes++; t.notes > readMaxNotes {
			return fmt.Errorf("more than %d notes", readMaxNotes)
		}
		t.open[channel][key] = append(t.open[channel][key], len(t.found[channel]))
		t.found[channel] = append(t.found[channel], midiNote{at: t.now, key: key})
	case off:
		if waiting := t.open[channel][key]; len(waiting) > 0 { // the first struck ends first
			note := &t.found[channel][waiting[0]]
			note.length, note.ended = t.now-note.at, true
			t.open[channel][key] = waiting[1:]
		}
	}
	return nil
}

func (t *trackReading) meta() (over bool, err error) {
	kind, err := t.take(1)
	if err != nil {
		return false, err
	}
	size, err := t.variable()
	if err != nil {
		return false, err
	}
	data, err := t.take(size)
	if err != nil {
		return false, err
	}
	t.status = 0 // a meta event ends running status
	switch kind[0] {
	case 0x2F:
		return true, nil
	case 0x03:
		t.name = string(data)
	case 0x58:
		if len(data) == 4 && data[0] > 0 && data[1] <= 7 {
			t.meter = append(t.meter, meterAt{t.now, int(data[0]), 1 << data[1]})
		}
	case 0x51:
		if len(data) == 3 && t.tempo.Sign() == 0 {
			if micros := int64(data[0])<<16 | int64(data[1])<<8 | int64(data[2]); micros > 0 {
				t.tempo = tempoOf(micros)
			}
		}
	}
	return false, nil
}

// tempoOf returns the quarters a minute of a quarter's microseconds: the
// tempo with the fewest decimals, at most three, that is written as these.
func tempoOf(micros int64) beat.Span {
	for _, scale := range []int64{1, 10, 100, 1000} {
		n := (60_000_000*scale + micros/2) / micros
		if n > 0 && (60_000_000*scale+n/2)/n == micros {
			return beat.Of(n, scale)
		}
	}
	return beat.Of(60_000_000, micros)
}

// parts makes a part of each channel with notes.
func (t *trackReading) parts(n int) []*heard.Part {
	var parts []*heard.Part
	used := 0
	for _, notes := range t.found {
		if len(notes) > 0 {
			used++
		}
	}
	for channel, notes := range t.found {
		if len(notes) == 0 {
			continue
		}
		name := cmp.Or(t.name, fmt.Sprintf("Track %d", n))
		if used > 1 {
			name += fmt.Sprintf(", channel %d", channel+1)
		}
		part := &heard.Part{ID: fmt.Sprintf("%d.%d", n, channel+1), Name: name}
		for _, note := range notes {
			if !note.ended {
				note.length = t.now - note.at
			}
			if note.length == 0 {
				t.empty++
				continue
			}
			tone := spelled(note.key)
			if channel == readDrums {
				tone = heard.Tone{MIDI: note.key + 1, Name: fmt.Sprintf("key %d", note.key)}
			}
			part.Attacks = append(part.Attacks, heard.Attack{
				Onset: beat.Of(note.at, t.whole), Length: beat.Of(note.length, t.whole), Tones: []heard.Tone{tone}, Voice: "1",
			})
		}
		slices.SortStableFunc(part.Attacks, func(a, b heard.Attack) int { return a.Onset.Cmp(b.Onset) })
		parts = append(parts, part)
	}
	return parts
}

// spelled names a key; a file of keys does not say how, so the five black ones
// take their usual names.
func spelled(key uint8) heard.Tone {
	names := [12]heard.Tone{
		{Step: 'C'}, {Step: 'C', Alter: 1}, {Step: 'D'}, {Step: 'E', Alter: -1}, {Step: 'E'}, {Step: 'F'},
		{Step: 'F', Alter: 1}, {Step: 'G'}, {Step: 'A', Alter: -1}, {Step: 'A'}, {Step: 'B', Alter: -1}, {Step: 'B'},
	}
	tone := names[key%12]
	tone.Octave = int8(key/12) - 1
	return tone
}
