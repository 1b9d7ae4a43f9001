package midi

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gitlab.com/gomidi/midi/v2/smf"
)

// The worked example of Standard MIDI Files 1.0 (RP-001), 96 ticks a quarter, as
// one track, and as four with the deltas that its own chunk lengths ask for.
const (
	workedOne = `4D 54 68 64 00 00 00 06 00 00 00 01 00 60
		4D 54 72 6B 00 00 00 3B
		00 FF 58 04 04 02 18 08  00 FF 51 03 07 A1 20
		00 C0 05  00 C1 2E  00 C2 46
		00 92 30 60  00 3C 60  60 91 43 40  60 90 4C 20
		81 40 82 30 40  00 3C 40  00 81 43 40  00 80 4C 40  00 FF 2F 00`
	workedFour = `4D 54 68 64 00 00 00 06 00 01 00 04 00 60
		4D 54 72 6B 00 00 00 14  00 FF 58 04 04 02 18 08  00 FF 51 03 07 A1 20  83 00 FF 2F 00
		4D 54 72 6B 00 00 00 10  00 C0 05  81 40 90 4C 20  81 40 4C 00  00 FF 2F 00
		4D 54 72 6B 00 00 00 0F  00 C1 2E  60 91 43 40  82 20 43 00  00 FF 2F 00
		4D 54 72 6B 00 00 00 15  00 C2 46  00 92 30 60  00 3C 60  83 00 30 00  00 3C 00  00 FF 2F 00`
)

type struck struct {
	on, off  int64
	channel  uint8
	key, vel uint8
}

// notesOf pairs the notes of a file, in the order in which they end.
func notesOf(t *testing.T, file []byte) []struck {
	t.Helper()
	s, err := smf.ReadFrom(bytes.NewReader(file))
	require.NoError(t, err)
	var notes []struck
	for _, tr := range s.Tracks {
		now := int64(0)
		open := map[[2]uint8]struck{}
		for _, e := range tr {
			now += int64(e.Delta)
			var channel, key, vel uint8
			switch {
			case e.Message.GetNoteStart(&channel, &key, &vel):
				require.NotContains(t, open, [2]uint8{channel, key}, "struck again while it sounds")
				open[[2]uint8{channel, key}] = struck{now, 0, channel, key, vel}
			case e.Message.GetNoteEnd(&channel, &key):
				n, ok := open[[2]uint8{channel, key}]
				require.True(t, ok, "an end without a note")
				delete(open, [2]uint8{channel, key})
				n.off = now
				notes = append(notes, n)
			}
		}
		require.Empty(t, open)
	}
	return notes
}

// The music of the example: low C and middle C for a whole note, G from the
// second quarter, E from the third, all until tick 384.
func TestWorkedExample(t *testing.T) {
	want := []struck{{0, 384, 2, 0x30, 0x60}, {0, 384, 2, 0x3C, 0x60}, {96, 384, 1, 0x43, 0x40}, {192, 384, 0, 0x4C, 0x20}}
	assert.ElementsMatch(t, want, notesOf(t, raw(t, workedOne)))
	assert.ElementsMatch(t, want, notesOf(t, raw(t, workedFour)))
}
