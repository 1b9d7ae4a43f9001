package midi

import (
	"encoding/hex"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/heard"
)

func bytesOf(t testing.TB, text string) []byte {
	t.Helper()
	data, err := hex.DecodeString(strings.Join(strings.Fields(text), ""))
	require.NoError(t, err)
	return data
}

// The format 0 example of Standard MIDI Files 1.0 (MIDI Manufacturers
// Association, RP-001), 96 ticks a quarter: C3 C4 from the start, G4 after a
// quarter, E5 after two; all end at tick 384 but for the E5, which is struck at
// 192. Running status and note-on with velocity are both in it.
const worked = `4D546864 00000006 0000 0001 0060
	4D54726B 0000003B 00FF580404021808 00FF510307A120 00C005 00C12E 00C246
	00923060 003C60 60914340 60904C20 8140823040 003C40 00814340 00804C40 00FF2F00`

func TestReadWorkedExample(t *testing.T) {
	score, err := Read(bytesOf(t, worked))
	require.NoError(t, err)
	var got []string
	for _, p := range score.Parts {
		for _, a := range p.Attacks {
			got = append(got, fmt.Sprintf("%s %v:%v %s", p.ID, a.Onset, a.Length, a.Names()))
		}
	}
	assert.Equal(t, []string{"1.1 1/2:1/2 E5", "1.2 1/4:3/4 G4", "1.3 0:1 C3", "1.3 0:1 C4"}, got)
	assert.Equal(t, "120", score.Parts[0].Quarters().String())
	for i, program := range []int{6, 47, 71} { // its programs 5, 46 and 70, counted from 0
		assert.Equal(t, []heard.Instrument{{Program: program}}, score.Parts[i].Instruments)
	}
}

// Tempos of 120 from the start and 60 after two quarters of 96 ticks; a program
// that is chosen after the first note; a name of two lines that is not UTF-8,
// and an instrument's.
func TestReadWhatATrackSays(t *testing.T) {
	score, err := Read(bytesOf(t, `4D546864 00000006 0001 0002 0060 4D54726B 00000013 00FF510307A120 8140FF51030F4240 00FF2F00
		4D54726B 00000021 00FF0306 436C0AE92000 00FF0404 4F626F65 00903C40 00C044 60803C40 00FF2F00`))
	require.NoError(t, err)
	part := score.Parts[0]
	assert.Equal(t, "Cl é", part.Name)
	assert.Equal(t, []heard.Instrument{{Name: "Oboe"}}, part.Instruments)
	assert.Equal(t, []heard.Tempo{{Quarters: beat.Of(120, 1)}, {At: beat.Of(1, 2), Quarters: beat.Of(60, 1)}}, part.Tempos)
}

// A file in 5/4 from the start and 3/8 from tick 720 of 96 a quarter: 7 quarters
// and a half, inside the second bar. The last note, of a whole, ends at tick 1104.
func TestReadBars(t *testing.T) {
	score, err := Read(bytesOf(t, `4D546864 00000006 0000 0001 0060 4D54726B 00000025
		00FF5804 05021808 00903C40 8550 FF5804 03031808 00 903C00 00903E40 8300 3E00 00FF2F00`))
	require.NoError(t, err)
	var got []string
	for _, bar := range score.Parts[0].Bars {
		got = append(got, fmt.Sprintf("%s %s %v+%v", bar.Number, bar.Meter, bar.Start, bar.Length))
	}
	assert.Equal(t, []string{"1 5/4 0+5/4", "2 5/4 5/4+5/8", "3 3/8 15/8+3/8", "4 3/8 9/4+3/8", "5 3/8 21/8+3/8"}, got)
	assert.Equal(t, "bar 3 beat 1", score.Parts[0].Where(score.Parts[0].Attacks[1].Onset).String())
}

// A bar of 1/4, then 4/4 from tick 96 of 96 a quarter for two bars: a pickup. So is what a
// second 4/4 leaves of the first. Of two bars of 1/4, or before one bar, there is none.
func TestReadPickup(t *testing.T) {
	for _, c := range []struct{ first, second, end, want string }{
		{"0102", "60", "8600", "0 4/4 1/4-3/4, 1 4/4 1-0, 2 4/4 1-0"},
		{"0402", "60", "8600", "0 4/4 1/4-3/4, 1 4/4 1-0, 2 4/4 1-0"},
		{"0102", "60", "8300", "1 1/4 1/4-0, 2 4/4 1-0"},
		{"0102", "8140", "8600", "1 1/4 1/4-0, 2 1/4 1/4-0, 3 4/4 1-0, 4 4/4 1-0"},
	} {
		size := fmt.Sprintf("%08X", 35+len(c.second)/2)
		score, err := Read(bytesOf(t, "4D546864 00000006 0000 0001 0060 4D54726B "+size+
			" 00FF5804"+c.first+"1808 00903C40 "+c.second+" FF580404021808 00 903C00 00903E40 "+c.end+" 3E00 00FF2F00"))
		require.NoError(t, err)
		var got []string
		for _, bar := range score.Parts[0].Bars {
			got = append(got, fmt.Sprintf("%s %s %v-%v", bar.Number, bar.Meter, bar.Length, bar.Skipped))
		}
		assert.Equal(t, c.want, strings.Join(got, ", "))
	}
}

// Microseconds a quarter, rounded and cut off: 60000000 by 110 is 545454.54, by 90 666666.66.
func TestReadTempos(t *testing.T) {
	for micros, want := range map[int64]string{500000: "120", 454545: "132", 1111111: "54", 320000: "375/2", 714286: "84", 545455: "110", 545454: "110", 666666: "90"} {
		assert.Equal(t, want, tempoOf(micros).String())
	}
}

func TestReadRefusesBrokenFiles(t *testing.T) {
	for text, want := range map[string]string{
		"":                                 "not a MIDI file, or cut off: no MThd chunk",
		"52494646 00000006 00000000":       "not a MIDI file: it does not begin with MThd",
		"4D546864 000000FF 0000":           `the "MThd" chunk says it has 255 bytes, but 2 are left`,
		"4D546864 00000006 0002 0001 0060": "a MIDI file of type 2 cannot be read, only 0 and 1",
		"4D546864 00000006 0000 0001 E728": "the MIDI file counts in frames, not in parts of a quarter",
		"4D546864 00000006 0000 0001 0000": "the MIDI file has 0 ticks in a quarter",
		"4D546864 00000006 0000 0001 0060": "the MIDI file has no notes",
		"4D546864 00000006 0000 0001 0060 4D54726B 00000005 FFFFFFFF7F":       "track 1: a number of more than four bytes",
		"4D546864 00000006 0000 0001 0060 4D54726B 00000003 009030":           "track 1: it is cut off",
		"4D546864 00000006 0000 0001 0060 4D54726B 00000003 003C40":           "track 1: a data byte stands where an event should begin",
		"4D546864 00000006 0000 0001 0060 4D54726B 00000004 00903C90":         "track 1: an event is cut off by another",
		"4D546864 00000006 0000 0001 0060 4D54726B 00000007 00FF 03 8FFFFF7F": "track 1: it is cut off",
		"4D546864 00000006 0000 0001 0060 4D54726B 00000002 00F4":             "track 1: a status byte 0xf4 that no file may hold",
	} {
		_, err := Read(bytesOf(t, text))
		if assert.Error(t, err, text) {
			assert.Equal(t, want, err.Error())
		}
	}
}

// FuzzRead: no file makes the reader panic or breaks the order of its attacks.
func FuzzRead(f *testing.F) {
	f.Add(bytesOf(f, worked))
	f.Add(bytesOf(f, "4D546864 00000006 0001 0001 0060 4D54726B 0000000C 00903C40 60803C00 00FF2F00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		score, err := Read(data)
		if err != nil {
			return
		}
		for _, p := range score.Parts {
			for i, a := range p.Attacks {
				require.Positive(t, a.Length.Sign())
				require.True(t, i == 0 || p.Attacks[i-1].Onset.Cmp(a.Onset) <= 0)
			}
		}
	})
}
