package bar

import (
	"tieover/score"
	"tieover/score/beat"
)

// Slashes returns the beats of a bar, each as one sign; a group of an additive bar that
// no sign is as long as is divided into twos, with the rest of it at its end. Skipped is
// how much of the bar lies before a pickup; 0 of a whole bar.
func Slashes(sig score.Signature, skipped beat.Time, v NoteValues) []Segment {
	var all []Segment
	at := -skipped
	for _, length := range sig.Beats() {
		end := at + v.Grid.Must(length)
		at = max(at, min(end, 0))
		unit := v.Grid.Must(beat.Of(1, 1)) / beat.Time(sig.Terms[0].Unit)
		for at < end {
			one := end - at
			if !v.single(one) {
				one = min(one, 2*unit)
			}
			all = append(all, Segment{At: at, Length: one, Tones: score.Chord{{}}})
			at += one
		}
	}
	return all
}
