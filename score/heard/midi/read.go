package midi

import (
	"encoding/binary"
	"fmt"
	"slices"

	"tieover/score/heard"
)

// What the reader takes.
const (
	maxBytes  = 64 << 20
	maxNotes  = 1_000_000
	maxTicks  = 1 << 32 // of a track
	maxTracks = 1024
	drums     = 9 // the channel of drums, from 0
)

// Read returns the notes of a Standard MIDI File, types 0 and 1: one part for each track and
// channel that has notes, in the bars of the file's meters. Times are exact: ticks over
// ticks a whole note. It trusts no length in the file.
func Read(data []byte) (*heard.Score, error) {
	if len(data) > maxBytes {
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
		if n > maxTracks {
			return nil, fmt.Errorf("the MIDI file has more than %d tracks", maxTracks)
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
	slices.SortStableFunc(r.tempos, func(a, b heard.Tempo) int { return a.At.Cmp(b.At) })
	bars, err := r.bars(out.End())
	if err != nil {
		return nil, err
	}
	for _, p := range out.Parts {
		p.Tempos, p.Bars = r.tempos, bars
	}
	return out, nil
}

// midiReading is a file while it is read.
type midiReading struct {
	data   []byte
	whole  int64 // ticks in a whole note
	notes  int
	tempos []heard.Tempo
	empty  int // notes of a track that end where they begin
	meter  []meterAt
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
	}
}
