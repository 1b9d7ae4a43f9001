package midi

import (
	"bufio"
	"encoding/binary"

	"gitlab.com/gomidi/midi/v2/smf"

	"tieover/score/beat"
)

// longestDelta is the largest number that the file's variable-length form holds.
const longestDelta = 0x0FFFFFFF

// track is one track in time order, as bytes of the file.
type track struct {
	scale   int64
	content []byte
	at      int64 // file ticks of the last event
	running byte  // the status that the next event may leave out; 0 for none
}

// add appends a message at a moment, which is not before the last one.
func (t *track) add(at beat.Time, message []byte) { t.append(t.wait(at), message) }

// close ends the track at a moment.
func (t *track) close(at beat.Time) { t.append(t.wait(at), smf.EOT) }

// append adds a message so many ticks after the last. A channel message whose
// status is that of the one before leaves it out; meta events end that.
func (t *track) append(delta uint32, message []byte) {
	t.content = appendNumber(t.content, delta)
	status := message[0]
	switch {
	case status >= 0xF0:
		t.running = 0
	case status == t.running:
		message = message[1:]
	default:
		t.running = status
	}
	t.content = append(t.content, message...)
}

// appendNumber writes a number in groups of seven bits, the highest first, all
// but the last with the top bit set.
func appendNumber(content []byte, n uint32) []byte {
	for shift := 21; shift > 0; shift -= 7 {
		if n>>shift > 0 {
			content = append(content, byte(n>>shift)|0x80)
		}
	}
	return append(content, byte(n)&0x7F)
}

// wait returns the ticks from the last event to at. A longer wait than one
// number holds is bridged with empty texts.
func (t *track) wait(at beat.Time) uint32 {
	now := int64(at) * t.scale
	delta := now - t.at
	if delta < 0 {
		panic("midi: events out of order")
	}
	for delta > longestDelta {
		t.append(longestDelta, smf.MetaText(""))
		delta -= longestDelta
	}
	t.at = now
	return uint32(delta)
}

// writeTo writes the track as a chunk of the file. out keeps the first error for Flush.
func (t *track) writeTo(out *bufio.Writer) {
	_, _ = out.WriteString("MTrk")
	_, _ = out.Write(binary.BigEndian.AppendUint32(nil, uint32(len(t.content))))
	_, _ = out.Write(t.content)
}

// writeHeader begins a file of type 1.
func writeHeader(out *bufio.Writer, tracks int, division uint16) {
	_, _ = out.WriteString("MThd\x00\x00\x00\x06\x00\x01")
	_, _ = out.Write(binary.BigEndian.AppendUint16(nil, uint16(tracks)))
	_, _ = out.Write(binary.BigEndian.AppendUint16(nil, division))
}
