package readback

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/found"
	"tieover/score/verify"
)

// two is 3+2 three times beside 2+1 five times, in eighths: 15 each.
func two(t *testing.T) found.Music {
	line := func(name string, sizes ...int) found.Line {
		var items []find.Item
		for _, n := range sizes {
			items = append(items, find.Item{Size: int64(n)})
		}
		l, err := find.FromDurations(items, beat.Plain(beat.Of(1, 8)))
		require.NoError(t, err)
		return found.Line{Name: name, List: l, Ranked: find.Search(l, find.Options{})}
	}
	return found.Music{Lines: []found.Line{line("Gate", 3, 2, 3, 2, 3, 2), line("Weir", 2, 1, 2, 1, 2, 1, 2, 1, 2, 1)}}
}

func TestFind(t *testing.T) {
	var b strings.Builder
	require.NoError(t, Find(&b, two(t), 1))
	for _, want := range []string{"Gate: 6 attacks in 15 eighths\n", " 1. 3+2 (5 pulses), 3 times\n", "\nWeir: 10 attacks in 15 eighths\n", " 1. 2+1 (3 pulses), 5 times\n",
		"\n\nall begin together again after 15 eighths"} {
		assert.Contains(t, b.String(), want)
	}
	assert.NotContains(t, b.String(), " 2. ", "no more than asked for")
}

func TestFindJSON(t *testing.T) {
	var b strings.Builder
	require.NoError(t, FindJSON(&b, two(t), 1))
	var got Findings
	require.NoError(t, json.Unmarshal([]byte(b.String()), &got))
	require.Len(t, got.Lines, 2)
	for i, want := range []struct {
		name, groups string
		cycles       int
	}{{"Gate", "3+2", 3}, {"Weir", "2+1", 5}} {
		line := got.Lines[i]
		assert.Equal(t, want.name, line.Name)
		require.Len(t, line.Descriptions, 1)
		assert.Equal(t, want.groups, line.Descriptions[0].Groups)
		assert.Equal(t, want.cycles, line.Descriptions[0].Cycles)
	}
}

func TestVerify(t *testing.T) {
	r := &verify.Result{Compared: []string{"Gate", "Weir"}, Notes: 16, Remarks: []string{"a tremolo is left out"}, NotCompared: []string{"tempo", "dynamics"}}
	var b strings.Builder
	require.NoError(t, Verify(&b, r))
	assert.Equal(t, "(a tremolo is left out)\nThe same music: Gate, Weir, 16 notes (not compared: tempo, dynamics).\n", b.String())

	r.Differences = make([]verify.Difference, 1)
	b.Reset()
	require.NoError(t, Verify(&b, r))
	assert.Contains(t, b.String(), "\n1 difference (compared: Gate, Weir, 16 notes; not compared: tempo, dynamics).\n")
	r.Differences = make([]verify.Difference, 2)
	b.Reset()
	require.NoError(t, Verify(&b, r))
	assert.Contains(t, b.String(), "\n2 differences (compared: ")
}

func TestVerifyJSON(t *testing.T) {
	var b strings.Builder
	require.NoError(t, VerifyJSON(&b, &verify.Result{Compared: []string{"<Gate>"}, Notes: 16, NotCompared: []string{"tempo"}}))
	assert.JSONEq(t, `{"version": 1, "same": true, "compared": ["<Gate>"], "notes": 16, "differences": [], "leftOut": [], "notCompared": ["tempo"]}`, b.String())
	assert.Contains(t, b.String(), "<Gate>", "as it is read by people, too")
}

type broken struct{}

var errBroken = errors.New("broken")

func (broken) Write([]byte) (int, error) { return 0, errBroken }

func TestWriters(t *testing.T) {
	m, r := two(t), &verify.Result{}
	for i, err := range []error{Find(broken{}, m, 1), FindJSON(broken{}, m, 1), Verify(broken{}, r), VerifyJSON(broken{}, r)} {
		assert.ErrorIs(t, err, errBroken, i)
	}
}
