package page

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

func layer(name, sound string, groups []int, pitches ...score.Tone) *score.Layer {
	i, ok := instrument.Find(sound)
	if !ok {
		i = instrument.Rhythm
	}
	l := &score.Layer{Name: name, Short: name, Instrument: i, Pulse: beat.Plain(beat.Of(1, 8)), Patterns: []score.Pattern{{}}}
	for _, g := range groups {
		l.Patterns[0].Groups = append(l.Patterns[0].Groups, score.Item{Size: g})
	}
	if len(pitches) > 0 {
		l.Series = [][]score.Chord{{}}
	}
	for _, p := range pitches {
		l.Series[0] = append(l.Series[0], score.Chord{p})
	}
	return l
}

func section(meter score.Signature, realignments int64, layers ...*score.Layer) *score.Section {
	return &score.Section{
		Meter: score.Meter{meter}, Pulse: beat.Plain(beat.Of(1, 8)), Layers: layers,
		Tempo:      score.Tempo{Quarters: beat.Of(132, 1), Beat: beat.Of(1, 4), Rate: beat.Of(132, 1)},
		LengthRule: score.LengthRule{Kind: score.Realignments, N: realignments},
	}
}

// round is 3+2+2+3 against 3+3+2+2+2 in 5/4, together again after 60 eighths.
func round() *score.Section {
	s := section(score.PlainSignature(5, 4), 2,
		layer("Marimba", "marimba", []int{3, 2, 2, 3}, score.Tone{Step: 'E', Octave: 5}, score.Tone{Step: 'B', Octave: 4},
			score.Tone{Step: 'G', Octave: 4}, score.Tone{Step: 'D', Octave: 5}),
		layer("Vibraphone", "vibraphone", []int{3, 3, 2, 2, 2}, score.Tone{Step: 'C', Octave: 5}, score.Tone{Step: 'G', Octave: 4}))
	s.Name = "B"
	s.Plan = []score.PlanEntry{{At: score.Place{Kind: score.AtRealignment, N: 1}, Text: "second lock: bring out the vibraphone"}}
	return s
}

func settled(t *testing.T, grid beat.Grid, sections ...*score.Section) *score.Piece {
	t.Helper()
	p := &score.Piece{Title: "Lock Keeper's Round", Composer: "the towpath band", Grid: grid, Sections: sections}
	require.Empty(t, p.Settle())
	return p
}

func TestScratch(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Write(&b, settled(t, 8, round()), Options{}))
	require.NoError(t, os.MkdirAll("/tmp/play", 0o755))
	require.NoError(t, os.WriteFile("/tmp/play/round.html", b.Bytes(), 0o644))
}
