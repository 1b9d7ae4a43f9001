package found

import (
	"fmt"
	"slices"
	"strings"

	"tieover/score/beat"
	"tieover/score/heard"
)

// dropBeats returns the part without slashes that only mark beats, and the bars between two
// moments that have such, as "bars 1-4, bar 9"; "" if none has. A rhythm in slashes stays,
// without pitches.
func dropBeats(part *heard.Part, from, to beat.Span) (left *heard.Part, bars string) {
	own := *part
	own.Attacks = slices.DeleteFunc(slices.Clone(part.Attacks), func(a heard.Attack) bool { return a.Beat })
	if !slices.ContainsFunc(own.Attacks, func(a heard.Attack) bool { return !a.Slash }) {
		for i := range own.Attacks {
			own.Attacks[i].Tones = []heard.Tone{{}}
		}
	}
	if len(own.Attacks) == len(part.Attacks) {
		return &own, ""
	}
	var runs []string
	first, last := -1, -1
	say := func() {
		switch {
		case first < 0:
		case first == last:
			runs = append(runs, "bar "+part.Bars[first].Shown())
		default:
			runs = append(runs, fmt.Sprintf("bars %s-%s", part.Bars[first].Shown(), part.Bars[last].Shown()))
		}
		first = -1
	}
	i := 0
	for k, bar := range part.Bars {
		end := bar.Start.Add(bar.Length)
		has := false
		for ; i < len(part.Attacks) && part.Attacks[i].Onset.Cmp(end) < 0; i++ {
			has = has || part.Attacks[i].Beat
		}
		has = has && bar.Pass <= 1 && bar.Start.Cmp(from) >= 0 && bar.Start.Cmp(to) < 0
		if !has {
			say()
			continue
		}
		if last = k; first < 0 {
			first = k
		}
	}
	say()
	return &own, strings.Join(runs, ", ")
}
