package report_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/report"
	"tieover/score/spec/spectest"
)

// A published piece run whole: Messiaen, Quatuor pour la fin du Temps (1941), I.
// Counts and totals as printed: 17 values against 29 chords meet after 493, the
// cello's 15 values against 5 pitches, 33 eighths that start by turns on and off
// the beat of 3/4, all together after more than 230 minutes (K. Kothman, teaching
// notes 2012; an analysis sheet, second-hand). Single values and the tempo of 54
// from memory; the values satisfy both printed totals. 13 bars until the piano's 26
// eighths begin with the bar again, 4,147 bars in all: by hand, lcm(26, 6) / 6 and
// lcm(29 × 26, 33) / 6.
func TestPublishedPiece(t *testing.T) {
	p := spectest.Read(t, `title: Published
tempo: 54
meter: 3/4
length: 1 return
layers:
  - name: Piano
    instrument: piano
    pulse: 1/16
    groups: 4+4+4+2+3+2+2+2+2+3+3+3+1+2+3+4+8
    pitches: `+strings.Repeat("C4 D4 E4 F4 ", 7)+`G4
    restart: never
  - name: Cello
    instrument: cello
    groups: 4+3+4+4+1+1+3+1+1+1+1+3+1+1+4
    pitches: C4 E4 D4 F#4 Bb3
    restart: never
`)
	got := strings.Join(strings.Fields(text(t, p, report.Options{})), " ")
	for _, want := range []string{
		"3/4, quarter = 54, 4,147 bars, 230:23.3 long",
		"Piano has 29 pitches for 17 attacks: both begin together again after 493 attacks, that is 17 rounds of the pitches and 29 of the rhythm, 754 eighths",
		"Cello has 5 pitches for 15 attacks: both begin together again after 15 attacks, that is 3 rounds of the pitches and 1 of the rhythm",
		"Everything stands as it began (a return) after 24,882 eighths = 4,147 bars.",
		"Cello: each cycle begins half a bar (3 eighths, a dotted quarter) later in the bar than the one before; back at the same place after 2 cycles.",
		"back at the same place after 3 cycles. Places in the bar, in sixteenths: 0 4 8.",
	} {
		assert.Contains(t, got, want)
	}
}
