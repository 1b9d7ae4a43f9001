package score

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Own choice: forte is velocity 90, as MusicXML 4.0 says of 100 % in its
// attribute "dynamics"; every step is a tenth of it, nine. By hand.
func TestLoudness(t *testing.T) {
	want := map[string]int{
		"pppp": 36, "ppp": 45, "pp": 54, "p": 63, "mp": 72, "mf": 81, "f": 90, "ff": 99, "fff": 108, "ffff": 117,
	}
	assert.Len(t, Dynamics(), len(want))
	for dynamic, velocity := range want {
		got, ok := Velocity(dynamic)
		assert.True(t, ok, dynamic)
		assert.Equal(t, velocity, got, dynamic)
	}
	for _, once := range []string{"fp", "sf", "sfz", ""} {
		_, ok := Velocity(once)
		assert.False(t, ok, once)
	}
	assert.Equal(t, "mf", Unmarked)
	assert.Equal(t, []int{9, 18, -27, 9}, []int{AccentLouder, MarcatoLouder, GhostLouder, LoudnessStep})
	assert.Equal(t, []int{1, 1, 127, 127}, []int{Audible(-5), Audible(1), Audible(127), Audible(128)})
}
