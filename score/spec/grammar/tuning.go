package grammar

import (
	"tieover/score"
	"tieover/score/beat"
)

// Bounds of a tuning.
const (
	minStrings = 4
	maxStrings = 9
)

// Tuning reads "D2 A2 D3 G3 B3 E4".
func Tuning(text string) ([]score.Tone, *Slip) {
	var tuning []score.Tone
	for _, w := range Words(text) {
		tone, bad := parsePitch(w.Text)
		if bad != nil {
			return nil, bad.move(w.At)
		}
		if last := len(tuning) - 1; last >= 0 && tone.Key() < tuning[last].Key() {
			return nil, Wrong(w.At, "begin with the lowest string", "%v is below the string before it, %v", tone, tuning[last])
		}
		tuning = append(tuning, tone)
	}
	if n := len(tuning); n < minStrings || n > maxStrings {
		return nil, Wrong(0, "write what each string sounds, as in E1 A1 D2 G2", "a tuning of %s; 4 to 9 are possible", beat.Counted(n, "string"))
	}
	return tuning, nil
}
