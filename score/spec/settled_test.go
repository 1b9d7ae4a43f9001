package spec

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
	"tieover/score/instrument"
)

// Old value equals new value: the quarter tempo goes by new over old. The
// first rows are Elliott Carter's, Eight Etudes and a Fantasy (1950), mm. 16–17
// and Canaries; the others are arithmetic.
func TestTempoEquations(t *testing.T) {
	for _, c := range []struct {
		before beat.Span
		text   string
		after  beat.Span
	}{
		{beat.Of(84, 1), "whole = dotted whole", beat.Of(126, 1)}, // two halves = three halves
		{beat.Of(135, 1), "dotted sixteenth = eighth", beat.Of(180, 1)},
		{beat.Of(180, 1), "eighth = eighth", beat.Of(180, 1)},
		{beat.Of(180, 1), "quarter = dotted quarter", beat.Of(270, 1)},
		{beat.Of(270, 1), "dotted half = dotted quarter", beat.Of(135, 1)},
		{beat.Of(180, 1), "dotted quarter = quarter", beat.Of(120, 1)},
		{beat.Of(120, 1), "quarter+sixteenth = quarter", beat.Of(96, 1)},
		{beat.Of(120, 1), "dotted quarter = quarter", beat.Of(80, 1)},
		{beat.Of(60, 1), "triplet quarter = quarter", beat.Of(90, 1)},
		{beat.Of(60, 1), "quintuplet sixteenth = sixteenth", beat.Of(75, 1)},
		{beat.Of(80, 1), "septuplet sixteenth = sixteenth", beat.Of(140, 1)},
		{beat.Of(120, 1), "dotted eighth = quarter", beat.Of(160, 1)},
		{beat.Of(66, 1), "half = dotted quarter", beat.Of(99, 2)},
		{beat.Of(100, 1), "half+eighth = quarter", beat.Of(40, 1)}, // five eighths = a quarter
		{beat.Of(72, 1), "eighth = sixteenth", beat.Of(36, 1)},
	} {
		p := readText(t, "title: Towpath\ntempo: "+c.before.String()+"\nlength: 4 bars\nlayers:\n  - {name: Bell, groups: 3+2}\nplan:\n  - {at: bar 2, tempo: "+c.text+"}\n")
		got := p.Sections[0].Plan[0].Tempo
		assert.Equal(t, c.after, got.Quarters, c.text)
		assert.NotNil(t, got.Old)
		assert.NotNil(t, got.New)
	}
}

func TestAbbreviations(t *testing.T) {
	for name, want := range map[string]string{"Marimba": "Mar.", "marimba 2": "Mar. 2", "Gate": "Gate", "Second barge": "S. barge", "Marimbas": "Mar.", "Sluice pump 12": "S. pump 12", "7": "7", "Singer": "Sing."} {
		marimba, _ := instrument.Find("marimba")
		assert.Equal(t, want, abbreviate(name, marimba), name)
	}
	p := readText(t, "title: Towpath\nlength: 2 bars\nlayers:\n  - {name: Hand pump, groups: 3}\n  - {name: Heavy pump, groups: 2}\n  - {name: Wind pump, groups: 4}\n")
	var shorts []string
	for _, l := range p.Sections[0].Layers {
		shorts = append(shorts, l.Short)
	}
	assert.Equal(t, []string{"Hand pump", "Heavy pump", "W. pump"}, shorts)
}
