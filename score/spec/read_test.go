package spec

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/source"
)

func readText(t *testing.T, text string) *score.Piece {
	t.Helper()
	p, problems := Read([]File{{Name: "test.yaml", Text: []byte(text)}})
	require.Empty(t, problems)
	return p
}

const round = `title: Lock Keeper's Round
section: B
tempo: 132
meter: 5/4
length: 2 realignments
layers:
  - name: Marimba
    instrument: marimba
    groups: 3+2+2+3
    pitches: E5 B4 G4 D5
  - name: Vibraphone
    instrument: vibraphone
    groups: 3+3+2+2+2
    pitches: G3+D4 F#4
    strike: all
`

func TestReadRound(t *testing.T) {
	p := readText(t, round)
	assert.Equal(t, "Lock Keeper's Round", p.Title)
	assert.Equal(t, beat.Grid(8), p.Grid, "eighths are the finest value")
	s := p.Sections[0]
	assert.Equal(t, "B", s.Name)
	assert.Equal(t, beat.Of(132, 1), s.Tempo.Quarters)
	assert.Equal(t, "5/4", s.Meter.String())
	assert.Equal(t, score.LengthRule{Pos: source.Pos{File: "test.yaml", Line: 5, Column: 9}, Kind: score.Realignments, N: 2}, s.LengthRule)
	require.Len(t, s.Layers, 2)
	m, v := s.Layers[0], s.Layers[1]
	assert.Equal(t, "Mar.", m.Short)
	assert.Equal(t, []score.Item{{Size: 3}, {Size: 2}, {Size: 2}, {Size: 3}}, m.Patterns[0].Groups)
	assert.Equal(t, "E5", m.Series[0][0].String())
	assert.Equal(t, "G3+D4", v.Series[0][0].String())
	assert.Equal(t, "F#4", v.Series[0][1].String())
	assert.Equal(t, beat.Time(1), m.Unit)
	assert.Equal(t, score.StrikeAll, v.Strike)
	assert.Equal(t, score.AccentGroup, v.Accent, "accents mark the groups when every pulse is struck")
	assert.Equal(t, source.Pos{File: "test.yaml", Line: 7, Column: 5}, m.Pos)
}
