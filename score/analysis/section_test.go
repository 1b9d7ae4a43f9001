package analysis_test

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// grid of the sections made here: an eighth has six ticks.
const grid beat.Grid = 48

const eighth beat.Time = 6

// loop makes a layer of groups in eighths.
func loop(name string, sizes ...int) *score.Layer {
	var p score.Pattern
	for _, n := range sizes {
		p.Groups = append(p.Groups, score.Item{Size: n})
	}
	return &score.Layer{Name: name, Short: name, Pulse: beat.Plain(beat.Of(1, 8)),
		Instrument: instrument.Rhythm, Patterns: []score.Pattern{p}}
}

// section settles layers in a meter; it lasts so many eighths.
func section(t *testing.T, meter score.Signature, eighths int64, layers ...*score.Layer) *score.Section {
	t.Helper()
	quarters := beat.Of(120, 1)
	s := &score.Section{
		Tempo: score.Tempo{Quarters: quarters, Beat: beat.Of(1, 4), Rate: quarters},
		Pulse: beat.Plain(beat.Of(1, 8)), Meter: score.Meter{meter}, Layers: layers,
		LengthRule: score.LengthRule{Kind: score.Pulses, N: eighths},
	}
	p := &score.Piece{Title: "Test", Grid: grid, Sections: []*score.Section{s}}
	require.Empty(t, p.Settle())
	return s
}

// atTempo settles a section anew at so many quarters a minute.
func atTempo(t *testing.T, s *score.Section, quarters int64) {
	t.Helper()
	s.Tempo.Quarters = beat.Of(quarters, 1)
	require.Empty(t, (&score.Piece{Grid: grid, Sections: []*score.Section{s}}).Settle())
}

// row is one line of a table in testdata, by column; each names its source.
type row map[string]string

func table(t *testing.T, name string) []row {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name + ".tsv")
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	head := strings.Split(lines[0], "\t")
	var rows []row
	for _, line := range lines[1:] {
		r := row{}
		for i, cell := range strings.Split(line, "\t") {
			r[head[i]] = cell
		}
		require.NotEmpty(t, r["source"], line)
		rows = append(rows, r)
	}
	require.NotEmpty(t, rows)
	return rows
}

func (r row) int(t *testing.T, column string) int {
	t.Helper()
	n, err := strconv.Atoi(r[column])
	require.NoError(t, err, column)
	return n
}

// numbers reads "3+2+2" or "0 3 5".
func numbers(t *testing.T, text string) []int {
	t.Helper()
	var all []int
	for _, f := range strings.FieldsFunc(text, func(c rune) bool { return c == '+' || c == ' ' }) {
		n, err := strconv.Atoi(f)
		require.NoError(t, err, text)
		all = append(all, n)
	}
	return all
}

func eighths(t beat.Time) int {
	if t%eighth != 0 {
		panic(fmt.Sprint(t, " is no whole number of eighths"))
	}
	return int(t / eighth)
}

// steps collects a walk in eighths.
func steps(s *score.Section, layer, against int) (places, moves, totals []int) {
	for st := range Walk(s, layer, against) {
		places = append(places, eighths(st.Place))
		if !st.First {
			moves = append(moves, eighths(st.Step))
			totals = append(totals, eighths(st.Total))
		}
	}
	return places, moves, totals
}
