package main

import (
	"fmt"
	"strconv"
	"strings"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/source"
	"tieover/score/spec"
)

// loops is a few groupings given on the command line instead of a spec.
type loops struct {
	groups  []string
	meters  []string // taken in turn, one a bar
	pulses  []string // one for all, or one each
	offsets []string // likewise, in pulses
	tempo   string   // quarters a minute
}

// piece makes a piece of one section of them, of the given length; every
// mistake is found at once.
func (l loops) piece(length score.LengthRule) (*score.Piece, source.Problems) {
	var problems source.Problems
	s := &score.Section{LengthRule: length}
	for i, text := range l.meters {
		sig, bad := spec.ParseMeter(argumentName("--meter", i, len(l.meters)), text)
		problems = append(problems, bad...)
		s.Meter = append(s.Meter, sig)
	}
	tempo, ok := decimalSpan(l.tempo)
	if !ok {
		problems.Add(source.Pos{File: "--tempo"}, fmt.Sprintf("%q is no tempo", l.tempo), "write quarters a minute, as in 96 or 92.5")
	}
	s.Tempo = score.Tempo{Quarters: tempo, Beat: beat.Of(1, 4), Rate: tempo}
	for i, text := range l.groups {
		layer, bad := l.layer(i, text)
		problems = append(problems, bad...)
		s.Layers = append(s.Layers, layer)
	}
	problems = append(problems, l.counts()...)
	if len(l.groups) > spec.MaxLayers {
		problems.Add(source.Pos{File: "groupings"}, fmt.Sprintf("%d of them", len(l.groups)), fmt.Sprintf("give at most %d", spec.MaxLayers))
	}
	if len(problems) > 0 {
		return nil, problems
	}
	s.Pulse = s.Layers[0].Pulse
	p := &score.Piece{Title: strings.Join(l.groups, " against "), Sections: []*score.Section{s}}
	if p.Grid, ok = gridOf(s); !ok {
		problems.Add(source.Pos{File: "--pulse"}, "these pulses and meters have no common unit that notation can hold", "use fewer kinds of tuplets")
		return nil, problems
	}
	return p, p.Settle()
}

// counts checks that lists have one value or one for each grouping.
func (l loops) counts() source.Problems {
	var problems source.Problems
	for _, list := range []struct {
		flag   string
		values []string
	}{{"--pulse", l.pulses}, {"--offset", l.offsets}} {
		if n := len(list.values); n != 1 && n != len(l.groups) {
			problems.Add(source.Pos{File: list.flag}, fmt.Sprintf("%d values for %d groupings", n, len(l.groups)), "give one for all, or one each, joined by commas")
		}
	}
	return problems
}

func (l loops) layer(i int, text string) (*score.Layer, source.Problems) {
	items, problems := spec.ParseGroups(argumentName("grouping", i, len(l.groups)), text)
	pulse, bad := spec.ParsePulse(argumentName("--pulse", i, len(l.pulses)), pick(l.pulses, i))
	if i < len(l.pulses) {
		problems = append(problems, bad...)
	}
	offset, err := strconv.ParseInt(pick(l.offsets, i), 10, 32)
	if err != nil && i < len(l.offsets) {
		problems.Add(source.Pos{File: "--offset"}, fmt.Sprintf("%q is no number of pulses", pick(l.offsets, i)), "write 2 for two pulses late, -2 for two early")
	}
	name := strings.ToUpper(score.LayerLetter(i))
	return &score.Layer{
		Name: name, Short: name, Instrument: instrument.Rhythm, Pulse: pulse, Offset: offset,
		Patterns: []score.Pattern{{Groups: items}},
	}, problems
}

func pick(values []string, i int) string {
	if len(values) == 0 {
		return ""
	}
	return values[min(i, len(values)-1)]
}

func argumentName(what string, i, n int) string {
	if n < 2 {
		return what
	}
	return fmt.Sprintf("%s %d", what, i+1)
}

// decimalSpan reads a positive decimal number exactly.
func decimalSpan(text string) (s beat.Span, ok bool) {
	whole, part, _ := strings.Cut(text, ".")
	num, err := strconv.ParseInt(whole+part, 10, 32)
	if err != nil || num <= 0 || len(part) > 3 || whole == "" || whole[0] == '+' {
		return beat.Span{}, false
	}
	den := int64(1)
	for range part {
		den *= 10
	}
	return beat.Of(num, den), num <= 10_000*den
}

// gridOf returns the coarsest grid that holds all pulses, bars and beats.
func gridOf(s *score.Section) (beat.Grid, bool) {
	grid, ok := beat.Grid(4), true
	include := func(span beat.Span) {
		if ok {
			grid, ok = grid.Including(span.Den())
		}
	}
	for _, sig := range s.Meter {
		include(sig.Span())
		for _, b := range sig.Beats() {
			include(b)
		}
	}
	for _, l := range s.Layers {
		include(l.Pulse.Span())
		include(l.Pulse.Container())
	}
	return grid, ok
}
