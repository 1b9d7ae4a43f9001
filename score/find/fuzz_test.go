package find

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/score/beat"
)

// FuzzSearch reads each byte as a value of a rhythm: the low five bits its
// pulses, the high bit a silence. Whatever the rhythm, every description
// without exceptions plays exactly the list, and the list itself is always among
// them.
func FuzzSearch(f *testing.F) {
	f.Add([]byte{3, 2, 2, 3, 2, 2, 3, 2, 2, 3, 2, 2}, uint8(0))
	f.Add([]byte{3, 3, 2, 3, 4, 2, 3, 5, 2, 3, 6, 2}, uint8(0))
	f.Add([]byte{0x82, 1, 0x82, 1, 0x81, 1, 0x82, 1, 0x82, 1}, uint8(1))
	f.Add([]byte{1, 2, 3, 2, 3, 1, 3, 1, 2, 1, 2, 3}, uint8(2))
	f.Add([]byte{1, 1, 2, 1, 1, 2, 3, 1, 1, 2, 3, 4, 1, 1}, uint8(0))
	f.Fuzz(func(t *testing.T, data []byte, tolerance uint8) {
		if len(data) > 80 {
			t.Skip("long lists only take long, and a worker that takes ten seconds counts as hung")
		}
		var items []Item
		for _, b := range data {
			items = append(items, Item{Size: 1 + int64(b&31), Blank: b&128 != 0})
		}
		list, err := FromDurations(items, beat.Plain(beat.Of(1, 8)))
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		all := Search(list, Options{Exceptions: int(tolerance % 8)})
		require.NotEmpty(t, all)
		require.True(t, all[len(all)-1].Literal)
		for _, d := range all {
			require.NotEmpty(t, d.String())
			require.False(t, math.IsNaN(d.Bits()) || math.IsInf(d.Bits(), 0))
			require.True(t, !d.IsExact() || d.Loop().fits(list.Hits, list.End), "%v plays something else", d)
		}
	})
}

// FuzzOnsets reads each pair of bytes as a step in milliseconds: whatever was
// tapped, a pulse is found or the message says why not.
func FuzzOnsets(f *testing.F) {
	f.Add([]byte{1, 44, 1, 44, 2, 88, 1, 44}, uint16(0))
	f.Add([]byte{0, 0, 0, 0, 255, 255}, uint16(120))
	f.Add([]byte{0, 1, 0, 1, 0, 1, 0, 1}, uint16(2000))
	f.Fuzz(func(t *testing.T, data []byte, tempo uint16) {
		if len(data) > 100 {
			t.Skip("long lists only take long, and a worker that takes ten seconds counts as hung")
		}
		onsets, now := []float64{0}, 0.0
		for i := 0; i+1 < len(data); i += 2 {
			now += float64(int(data[i])<<8|int(data[i+1])) / 1000
			onsets = append(onsets, now)
		}
		list, taps, err := FromOnsets(onsets, TapOptions{Tempo: float64(tempo % 2001)})
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		require.NotNil(t, taps)
		for i, h := range list.Hits {
			require.Positive(t, h.Length)
			require.True(t, i == 0 || list.Hits[i-1].At < h.At, "%v", list.Hits)
		}
		require.NotEmpty(t, Search(list, Options{}))
	})
}
