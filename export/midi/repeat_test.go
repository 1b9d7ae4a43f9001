package midi

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gitlab.com/gomidi/midi/v2/smf"

	"tieover/score/spec/spectest"
)

// Four bars of 4/4 at 120 last 8 seconds; played four times, 32. The section has
// one attack a bar.
func TestRepeatFourTimes(t *testing.T) {
	p := spectest.Read(t, "title: Mill\nmeter: 4/4\ntempo: 120\nlength: 4 bars\nend: repeat 4\nlayers:\n  - {name: Bell, instrument: cowbell, groups: 8}\n")
	var b bytes.Buffer
	require.NoError(t, Write(&b, p, Options{}))
	file, err := smf.ReadFrom(&b)
	require.NoError(t, err)
	ticks := file.TimeFormat.(smf.MetricTicks)
	strokes, at := 0, uint32(0)
	for _, track := range file.Tracks {
		now := uint32(0)
		for _, e := range track {
			now += e.Delta
			var channel, key, velocity uint8
			if e.Message.GetNoteOn(&channel, &key, &velocity) && velocity > 0 {
				strokes++
			}
		}
		at = max(at, now)
	}
	assert.Equal(t, 16, strokes)
	assert.Equal(t, uint32(ticks.Resolution())*4*16, at, "64 quarters, each half a second")
}
