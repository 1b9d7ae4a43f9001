package analysis

import (
	"math/big"

	"tieover/score"
	"tieover/score/beat"
)

// Color is a pitch series that runs on over the rhythm: so many pitches (the
// color) against so many attacks (the talea).
type Color struct {
	Layer   int
	Pitches int       // in the series; a chord counts as one
	Attacks int       // until the rhythm is where it began
	Rhythm  beat.Time // how long that is

	// Both begin together again after so many attacks, that is so many rounds of
	// the series and of the rhythm, which last so long.
	Together, Colors, Taleae int64
	Lasts                    *big.Int // ticks

	Restarts bool // a realignment starts the series over, so it may never get so far
}

// colorsOf lists the series that run on and do not simply repeat with the
// rhythm. A rhythm that never comes back to where it began has no such meeting.
func colorsOf(s *score.Section) []Color {
	var all []Color
	for i, l := range s.Layers {
		if l.Line != nil || l.Restart == score.RestartCycle || len(l.Series) != 1 || l.Loop != score.Run || len(l.Except) > 0 ||
			l.Until == score.UntilRealignment {
			continue
		}
		rhythm, attacks, ok := l.Round()
		pitches := int64(len(l.Series[0]))
		if !ok || attacks == 0 || attacks == pitches {
			continue
		}
		together, fits := beat.LCM(pitches, attacks)
		if !fits {
			continue
		}
		c := Color{Layer: i, Pitches: int(pitches), Attacks: int(attacks), Rhythm: rhythm,
			Together: together, Colors: together / pitches, Taleae: together / attacks,
			Restarts: l.Restart == score.RestartRealignment}
		c.Lasts = new(big.Int).Mul(big.NewInt(int64(rhythm)), big.NewInt(c.Taleae))
		all = append(all, c)
	}
	return all
}
