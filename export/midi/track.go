package midi

import (
	"gitlab.com/gomidi/midi/v2/smf"

	"tieover/score/beat"
)

// longestDelta is the largest number that the file's variable-length form holds.
const longestDelta = 0x0FFFFFFF

// track collects the events of one track in time order.
type track struct {
	scale  int64
	events smf.Track
	at     int64 // file ticks of the last event
}

// add appends a message at a moment, which is not before the last one.
func (t *track) add(at beat.Time, message []byte) {
	t.events.Add(t.wait(at), message)
}

// close ends the track at a moment.
func (t *track) close(at beat.Time) { t.events.Close(t.wait(at)) }

// wait returns the ticks from the last event to at. A longer wait than one
// number holds is bridged with empty texts.
func (t *track) wait(at beat.Time) uint32 {
	now := int64(at) * t.scale
	delta := now - t.at
	if delta < 0 {
		panic("midi: events out of order")
	}
	for delta > longestDelta {
		t.events.Add(longestDelta, smf.MetaText(""))
		delta -= longestDelta
	}
	t.at = now
	return uint32(delta)
}
