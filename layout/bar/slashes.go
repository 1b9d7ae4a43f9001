package bar

import (
	"tieover/score"
	"tieover/score/beat"
)

// Slashes are the beats of a bar, each as one sign; a summand of an additive bar
// that no sign can have is divided into twos, with what is left at its end. So much of
// the bar's beginning is skipped.
func Slashes(sig score.Signature, skipped beat.Time, v NoteValues) []Segment {
	var all []Segment
	at := -skipped
	for _, length := range sig.Beats() {
		end := at + v.Grid.Must(length)
		at = max(at, min(end, 0))
		unit := v.Grid.Must(beat.Of(1, 1)) / beat.Time(sig.Terms[0].Unit)
		for at < end {
			one := end - at
			if _, ok := v.value(one, 1, 1); !ok {
				one = min(one, 2*unit)
			}
			all = append(all, Segment{At: at, Length: one, Tones: score.Chord{{}}})
			at += one
		}
	}
	return all
}
