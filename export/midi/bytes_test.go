package midi

import (
	"bufio"
	"bytes"
	"encoding/hex"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gitlab.com/gomidi/midi/v2"
	"gitlab.com/gomidi/midi/v2/smf"

	"tieover/layout/play"
	"tieover/score"
	"tieover/score/beat"
)

func raw(t *testing.T, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(strings.NewReplacer(" ", "", "\n", "", "\t", "").Replace(s))
	require.NoError(t, err)
	return b
}

// The form FF 51 03 and the row of 120 are of Standard MIDI Files 1.0 (RP-001);
// the other rows are 60,000,000 over the tempo, to the nearest microsecond.
func TestTempoBytes(t *testing.T) {
	for _, row := range []struct {
		quarters beat.Span
		want     string
	}{
		{beat.Of(120, 1), "FF 51 03 07 A1 20"},
		{beat.Of(60, 1), "FF 51 03 0F 42 40"},
		{beat.Of(54, 1), "FF 51 03 10 F4 47"},
		{beat.Of(66, 1), "FF 51 03 0D DF 23"},
		{beat.Of(72, 1), "FF 51 03 0C B7 35"},
		{beat.Of(80, 1), "FF 51 03 0B 71 B0"},
		{beat.Of(84, 1), "FF 51 03 0A E6 2E"},
		{beat.Of(90, 1), "FF 51 03 0A 2C 2B"},
		{beat.Of(96, 1), "FF 51 03 09 89 68"},
		{beat.Of(100, 1), "FF 51 03 09 27 C0"},
		{beat.Of(108, 1), "FF 51 03 08 7A 24"},
		{beat.Of(126, 1), "FF 51 03 07 44 1E"},
		{beat.Of(132, 1), "FF 51 03 06 EF 91"},
		{beat.Of(135, 1), "FF 51 03 06 C8 1C"},
		{beat.Of(144, 1), "FF 51 03 06 5B 9B"},
		{beat.Of(160, 1), "FF 51 03 05 B8 D8"},
		{beat.Of(168, 1), "FF 51 03 05 73 17"},
		{beat.Of(180, 1), "FF 51 03 05 16 15"},
		{beat.Of(200, 1), "FF 51 03 04 93 E0"},
		{beat.Of(270, 1), "FF 51 03 03 64 0E"},
		{beat.Of(375, 2), "FF 51 03 04 E2 00"},
	} {
		got, err := tempo(row.quarters)
		require.NoError(t, err)
		assert.Equal(t, raw(t, row.want), []byte(got), "tempo %v", row.quarters)
	}
}

// Three bytes end at 16,777,215 microseconds, which is 3.5763 quarters a minute.
func TestTempoLimits(t *testing.T) {
	got, err := tempo(beat.Of(358, 100))
	require.NoError(t, err)
	assert.Equal(t, raw(t, "FF 51 03 FF BB E1"), []byte(got)) // 60,000,000/3.58 = 16,759,777
	_, err = tempo(beat.Of(357, 100))
	assert.ErrorContains(t, err, "3.5763")
	_, err = tempo(beat.Of(200_000_000, 1))
	assert.Error(t, err)
}

// The form FF 58 04 and the rows of 4/4 and 6/8 are of Standard MIDI Files 1.0
// (RP-001). How a click falls in the others is a choice.
func TestMeterBytes(t *testing.T) {
	plain := score.PlainSignature
	sum := func(unit int, groups ...int) score.Signature {
		return score.Signature{Terms: []score.Term{{Groups: groups, Unit: unit}}}
	}
	for _, row := range []struct {
		signature score.Signature
		want      string
	}{
		{plain(4, 4), "FF 58 04 04 02 18 08"},
		{plain(6, 8), "FF 58 04 06 03 24 08"},
		{plain(7, 8), "FF 58 04 07 03 0C 08"},
		{plain(5, 8), "FF 58 04 05 03 0C 08"},
		{sum(8, 3, 2, 3), "FF 58 04 08 03 0C 08"},
		{plain(9, 16), "FF 58 04 09 04 06 08"},
		{plain(12, 8), "FF 58 04 0C 03 24 08"},
		// by the definition of the four bytes
		{plain(3, 8), "FF 58 04 03 03 0C 08"},
		{plain(2, 2), "FF 58 04 02 01 30 08"},
		{plain(1, 1), "FF 58 04 01 00 60 08"},
		{plain(5, 128), "FF 58 04 05 07 03 08"},
		{score.Signature{Terms: []score.Term{{Groups: []int{2}, Unit: 4}, {Groups: []int{3}, Unit: 8}}}, "FF 58 04 07 03 0C 08"},
	} {
		got, err := meter(play.MeterOf(row.signature))
		require.NoError(t, err)
		assert.Equal(t, raw(t, row.want), []byte(got), "%v", row.signature)
	}
	_, err := meter(play.Meter{Count: 256, Unit: 8})
	assert.ErrorContains(t, err, "255")
}

// By the definition of FF 59 02 in Standard MIDI Files 1.0 (RP-001), from memory:
// sharps, or flats below zero, -7 to 7, then 1 for minor.
func TestKeyBytes(t *testing.T) {
	for want, k := range map[string]play.Key{
		"FF 59 02 00 00": {}, "FF 59 02 02 00": {Fifths: 2}, "FF 59 02 01 01": {Fifths: 1, Minor: true},
		"FF 59 02 FE 00": {Fifths: -2}, "FF 59 02 F9 00": {Fifths: -7}, "FF 59 02 07 01": {Fifths: 7, Minor: true},
	} {
		assert.Equal(t, raw(t, want), []byte(key(k)), want)
	}
}

// The variable-length numbers of Standard MIDI Files 1.0 (RP-001), as deltas
// of a written file; the rows below 1,000 beside 64 and 127 are calculated.
func TestDeltas(t *testing.T) {
	for _, row := range []struct {
		delta int64
		want  string
	}{
		{0, "00"}, {64, "40"}, {127, "7F"}, {128, "81 00"}, {8192, "C0 00"}, {16383, "FF 7F"},
		{16384, "81 80 00"}, {1048576, "C0 80 00"}, {2097151, "FF FF 7F"}, {2097152, "81 80 80 00"},
		{134217728, "C0 80 80 00"}, {268435455, "FF FF FF 7F"},
		{96, "60"}, {192, "81 40"}, {240, "81 70"}, {288, "82 20"}, {384, "83 00"}, {480, "83 60"},
		{960, "87 40"}, {1920, "8F 00"}, {3840, "9E 00"}, {10080, "CE 60"}, {20160, "81 9D 40"}, {35280, "82 93 50"},
		// the next one takes two deltas, the first before an empty text
		{268435456, "FF FF FF 7F FF 01 00 01"},
	} {
		lone := &track{scale: 1}
		lone.close(beat.Time(row.delta))
		assert.Equal(t, raw(t, row.want+"FF 2F 00"), lone.content, "delta %d", row.delta)
	}
}

// The library's own file of a voice, as it writes running status, is the judge of
// ours.
func TestFileIsTheLibrarys(t *testing.T) {
	messages := [][]byte{midi.ProgramChange(3, 7), midi.NoteOn(3, 60, 90), midi.NoteOn(3, 64, 90), smf.MetaText("A1"), midi.NoteOff(3, 60), midi.NoteOn(9, 38, 1), midi.NoteOn(3, 60, 90)}
	file := smf.NewSMF1()
	file.TimeFormat = smf.MetricTicks(480)
	var theirs smf.Track
	ours := &track{scale: 1}
	for i, m := range messages {
		theirs.Add(uint32(i*100), m)
		ours.add(beat.Time(ours.at)+beat.Time(i*100), m)
	}
	theirs.Close(70_000)
	ours.close(beat.Time(ours.at) + 70_000)
	require.NoError(t, file.Add(theirs))
	var want, got bytes.Buffer
	_, err := file.WriteTo(&want)
	require.NoError(t, err)
	out := bufio.NewWriter(&got)
	writeHeader(out, 1, 480)
	ours.writeTo(out)
	require.NoError(t, out.Flush())
	assert.Equal(t, want.Bytes(), got.Bytes())
}

// From the definition of controller 10: 0 is hard left, 64 middle, 127 hard right.
func TestPan(t *testing.T) {
	for pan, want := range map[int]byte{-90: 0, -45: 32, 0: 64, 45: 96, 90: 127, -1: 63, 1: 65} {
		assert.Equal(t, want, panned(pan), "pan %d", pan)
	}
}

func TestResolution(t *testing.T) {
	for _, row := range []struct {
		grid     beat.Grid
		scale    int64
		division uint16
	}{
		{4, 480, 480}, // quarters only
		{8, 240, 480},
		{24, 80, 480},    // eighth triplets
		{28, 69, 483},    // sevenths
		{10080, 1, 2520}, // fine enough as it is
		{2 * 65532, 1, 32766},
	} {
		scale, division, err := resolution(row.grid)
		require.NoError(t, err)
		assert.Equal(t, row.scale, scale, "grid %d", row.grid)
		assert.Equal(t, row.division, division, "grid %d", row.grid)
	}
	_, _, err := resolution(4 * 32768)
	assert.ErrorContains(t, err, "32767")
}
