package score_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	"tieover/score/beat"
)

// By hand. The beats of 5+5/8 are no note value, so quarters are counted: 120 become 180
// where a dotted quarter lasts as long as a quarter did. 80 dotted
// quarters are 120 quarters; a quarter as long as a triplet quarter makes them 180 again,
// and one as long as a dotted quarter 120, which are 80 dotted ones.
func TestTempoInWords(t *testing.T) {
	s := read(t, `title: T
meter: 5+5/8
length: 9 bars
layers: [{name: a, groups: 3+2}]
plan:
  - {at: bar 2, tempo: quarter = dotted quarter}
  - {at: bar 3, tempo: rit., hairpin: crescendo, to: bar 4}
  - {at: bar 5, tempo: a tempo, hairpin: diminuendo, to: bar 6}
  - {at: bar 6, tempo: "Lively, dotted quarter = 80"}
  - {at: bar 7, meter: 4/4, tempo: triplet quarter = quarter}
  - {at: bar 8, meter: 6/8, tempo: "dotted quarter = quarter"}
`).Sections[0]
	var entries, marks []string
	for i := range s.Plan {
		entries = append(entries, s.Plan[i].TempoInWords(beat.American))
	}
	for _, m := range s.Tempos() {
		marks = append(marks, m.Tempo.InWords(beat.British)+m.Tempo.EquationInWords(beat.British))
	}
	assert.Equal(t, []string{"quarter = 180 (quarter = dotted quarter)", "rit. to bar 4", "a tempo",
		"Lively, dotted quarter = 80", "quarter = 180 (triplet quarter = quarter)", "dotted quarter = 80 (dotted quarter = quarter)"}, entries)
	assert.Equal(t, []string{"crotchet = 120", "crotchet = 180 (crotchet = dotted crotchet)", "rit.", "a tempo",
		"Lively, dotted crotchet = 80", "crotchet = 180 (triplet crotchet = crotchet)", "dotted crotchet = 80 (dotted crotchet = crotchet)"}, marks)
	assert.Equal(t, "quarter = 53 1/3", score.PlainTempo(beat.Of(160, 3), beat.Of(1, 4)).InWords(beat.American))
}
