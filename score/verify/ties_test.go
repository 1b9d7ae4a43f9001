package verify

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
	"tieover/score/heard"
)

// One half of a tied pair with another pitch, a lost tie, a bar that was emptied: one line
// each, though ties lose their other ends. C5 at 7 is tied into bar 2, that at 14 into bar 3.
func TestOneSlipAtATieIsOneDifference(t *testing.T) {
	begins := heard.Remark{Kind: heard.Loose, Part: "Barge", Bar: "1", Of: "begins", At: beat.Of(1, 1), Text: "a tie begins on C5 of bar 1 but ends nowhere"}
	ends := heard.Remark{Kind: heard.Loose, Part: "Barge", Bar: "2", Of: "ends", At: beat.Of(1, 1), Text: "bar 2: a tie ends on C5 but begins nowhere"}
	later := ends
	later.Bar, later.At = "3", beat.Of(2, 1)
	const after = ", 10 4 G5, 14 3 C5, 17 4 G5, 21 3 C5, 24 4 G5, 28 3 C5, 31 1 G5"
	for name, c := range map[string]struct {
		barge   string
		remarks []heard.Remark
		want    string
	}{
		"the first half has another pitch":  {"0 3 C5, 3 4 G5, 7 1 D5, 8 2 C5" + after, []heard.Remark{begins, ends}, "pitch bar 1 beat 4½: Barge has D5, spec says C5"},
		"the second half has another pitch": {"0 3 C5, 3 4 G5, 7 1 C5, 8 2 D5" + after, []heard.Remark{begins, ends}, "pitch bar 2 beat 1: Barge has D5, spec says C5"},
		"where the tie begins is lost":      {"0 3 C5, 3 4 G5, 7 1 C5, 8 2 C5" + after, []heard.Remark{ends}, "tie Barge: bar 2: a tie ends on C5 but begins nowhere"},
		"where the tie ends is lost":        {"0 3 C5, 3 4 G5, 7 1 C5, 8 2 C5" + after, []heard.Remark{begins}, "tie Barge: a tie begins on C5 of bar 1 but ends nowhere"},
		"the whole tie is lost":             {"0 3 C5, 3 4 G5, 7 1 C5, 8 2 C5" + after, nil, "extra bar 2 beat 1: Barge has an extra C5"},
		"bar 2 is emptied": {"0 3 C5, 3 4 G5, 7 1 C5, 16 1 C5, 17 4 G5, 21 3 C5, 24 4 G5, 28 3 C5, 31 1 G5", []heard.Remark{begins, later},
			"missing bar 2: Barge has only rests, spec has 2 notes"},
		"bars 2 and 3 are emptied": {"0 3 C5, 3 4 G5, 7 1 C5, 24 4 G5, 28 3 C5, 31 1 G5", []heard.Remark{begins},
			"missing bars 2 and 3: Barge has only rests, spec has 4 notes"},
	} {
		s := &heard.Score{Parts: []*heard.Part{part(t, "Barge", c.barge), part(t, "Gate", lockGate)}, Remarks: c.remarks}
		assert.Equal(t, []string{c.want}, told(t, piece(t, lock), s, Options{}), name)
	}
}
