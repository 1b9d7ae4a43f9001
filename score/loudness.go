package score

// Loudness is own choice, made of one figure of the MusicXML standard: 100 % is
// MIDI velocity 90, its forte. A step between two dynamics is a tenth of that.
const (
	Forte        = 90 // a MIDI velocity
	LoudnessStep = Forte / 10

	// What one attack has more than its dynamic.
	AccentLouder  = LoudnessStep
	MarcatoLouder = 2 * LoudnessStep // sf and sfz too
	GhostLouder   = -3 * LoudnessStep

	// Unmarked is the dynamic of a layer that has none.
	Unmarked = "mf"
)

// Dynamics returns the signs that say how loud to go on, softest first.
func Dynamics() []string {
	return []string{"pppp", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "ffff"}
}

var velocities = func() map[string]int {
	const forteAt = 6 // its place among Dynamics
	v := map[string]int{}
	for i, d := range Dynamics() {
		v[d] = Forte + (i-forteAt)*LoudnessStep
	}
	return v
}()

// Velocity returns the MIDI velocity of a dynamic, 1 to 127; false if the sign
// does not say how loud to go on.
func Velocity(dynamic string) (int, bool) {
	v, ok := velocities[dynamic]
	return v, ok
}

// Audible holds a velocity within MIDI's 1 to 127.
func Audible(velocity int) int { return min(127, max(1, velocity)) }
