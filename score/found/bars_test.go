package found

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/heard"
)

// barsFrom lays bars end to end: "4/4", or "4/4:1/4" for one of another length
// than its signature.
func barsFrom(t *testing.T, texts string) []heard.Bar {
	t.Helper()
	var bars []heard.Bar
	now := beat.Span{}
	for _, text := range strings.Fields(texts) {
		sign, long, ok := strings.Cut(text, ":")
		if !ok {
			long = sign
			if _, unit, _ := strings.Cut(sign, "/"); strings.Contains(sign, "+") {
				long = map[string]string{"3+2+2/8": "7/8", "2/4+3/8": "7/8"}[sign]
				require.NotEmpty(t, long, unit)
			}
		}
		length, ok := beat.ParseSpan(long)
		require.True(t, ok, text)
		bars = append(bars, heard.Bar{Number: "9", Start: now, Length: length, Meter: sign})
		now = now.Add(length)
	}
	return bars
}

// Two hands of one part in voices of their own: what reads them together says how to part
// them.
func TestOverlappingVoicesAreNamed(t *testing.T) {
	part := partOf("Piano", repeated(4, pitch('A', 4), pitch('B', 4))...)
	for _, a := range part.Attacks {
		a.Voice, a.Length = "5", a.Length.Times(2)
		part.Attacks = append(part.Attacks, a)
	}
	slices.SortStableFunc(part.Attacks, func(a, b heard.Attack) int { return a.Onset.Cmp(b.Onset) })
	m, wrong := Selection{}.Read(&heard.Score{Parts: []*heard.Part{part}}, []*heard.Part{part})
	require.Empty(t, wrong)
	assert.Contains(t, m.Notes, "Piano: sounds that overlap are taken to end where the next begins; it has voices 1 and 5: choose one with --voice, or take --all")
}

func TestMeters(t *testing.T) {
	for texts, want := range map[string]string{
		"4/4":                                 "1 4/4",
		"4/4 4/4 4/4":                         "1 4/4",
		"4/4 4/4 3/4 3/4":                     "1 4/4, 3 3/4",
		"4/4 3/4 4/4 3/4":                     "1 [4/4, 3/4]",
		"4/4 3/4 4/4":                         "1 4/4, 2 3/4, 3 4/4", // once and a half is no rotation
		"3/4:1/4 3/4 3/4 3/4:2/4":             "1 1/4, 2 3/4, 4 2/4", // a pickup, and the last bar without it
		"4/4:1/8 4/4 4/4 2/4 4/4 4/4 2/4 4/4": "1 1/8, 2 [4/4, 4/4, 2/4]",
		"3+2+2/8 3+2+2/8 2/4+3/8":             "1 3+2+2/8, 3 2/4+3/8",
		":3/2 :3/2":                           "1 6/4", // bars without a signature
		"100/8 4/4:17/16":                     "1 50/4, 2 17/16",
	} {
		var got []string
		changes, err := Meters(barsFrom(t, texts))
		require.NoError(t, err, texts)
		at := map[int]string{}
		for _, c := range changes {
			got = append(got, strings.TrimSpace(strings.Join([]string{strconv.Itoa(c.Bar), c.Meter}, " ")))
			at[c.Bar] = c.At.String()
		}
		assert.Equal(t, want, strings.Join(got, ", "), texts)
		assert.Equal(t, "0", at[1], texts)
	}
	changes, err := Meters(barsFrom(t, "4/4 3/4 2/4"))
	require.NoError(t, err)
	assert.Equal(t, []Change{{1, beat.Span{}, "4/4"}, {2, beat.Of(1, 1), "3/4"}, {3, beat.Of(7, 4), "2/4"}}, changes)
	_, err = Meters(barsFrom(t, "4/4:1/3"))
	assert.EqualError(t, err, "bar 9 lasts 1/3, which no meter of a spec does")
}
