package midi

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gitlab.com/gomidi/midi/v2/smf"

	"tieover/score/spec/spectest"
)

// tempi lists the tempo messages of a file, in quarters from its start and
// microseconds a quarter.
func tempi(t *testing.T, text string) string {
	p := spectest.Read(t, text)
	var b bytes.Buffer
	require.NoError(t, Write(&b, p, Options{}))
	file, err := smf.ReadFrom(&b)
	require.NoError(t, err)
	var all []string
	now := uint32(0)
	for _, e := range file.Tracks[0] {
		now += e.Delta
		if e.Message.Is(smf.MetaTempoMsg) {
			data := e.Message.Bytes()[3:]
			us := int(data[0])<<16 | int(data[1])<<8 | int(data[2])
			all = append(all, fmt.Sprintf("%d:%d", now/uint32(file.TimeFormat.(smf.MetricTicks).Resolution()), us))
		}
	}
	return strings.Join(all, " ")
}

// By hand: a quarter of 132 lasts 60,000,000/132 = 454,545.45 microseconds; of 126,
// 114, 102, 90 and 84 then 476,190, 526,316, 588,235, 666,667 and 714,286.
func TestEachBeatOfARitHasItsTempo(t *testing.T) {
	assert.Equal(t, "0:454545 4:476190 5:526316 6:588235 7:666667 8:714286 12:454545", tempi(t, `title: Mill
meter: 4/4
tempo: 132
length: 4 bars
layers: [{name: Bell, instrument: cowbell, groups: 8}]
plan: [{at: bar 2, tempo: rit., to: bar 3}, {at: bar 3, tempo: 84}, {at: bar 4, tempo: a tempo}]
`))
}
