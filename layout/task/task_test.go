package task

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/spec/spectest"
)

// The sections of these tests, and the same loops as bare numbers, from which
// every answer is worked out a second time without the model: in eighths, bars
// of ten.
const text = `
title: Lock Keeper's Round
section: B
tempo: 132
meter: 5/4
length: 24 bars
layers:
  - {name: Marimba, groups: 3+2+2+3}
  - {name: Vibes, groups: 3+3+2+2+2}
  - {name: Chimes, groups: 2+2+1, strike: all}
  - {name: Bell, groups: 3+3}
  - name: Gong
    groups: 4+3+2
    process: {grow: {group: 1, by: 1, from: 2}, until: never}
    leaves: bar 5
`

const perBar = 10

var loops = map[string][]int{
	"Marimba": {3, 2, 2, 3}, "Vibes": {3, 3, 2, 2, 2}, "Chimes": {1, 1, 1, 1, 1}, "Bell": {3, 3}, "Horn": {4, 5, 2},
	"Gong": {4, 3, 2, 5, 2, 2, 6, 1, 2, 7, 2}, // its four cycles, 36 eighths of the 40 that it plays
}

// struck returns the eighths before end at which a loop strikes.
func struck(groups []int, end int) map[int]bool {
	at := map[int]bool{}
	for t, i := 0, 0; t < end; i++ {
		at[t] = true
		t += groups[i%len(groups)]
	}
	return at
}

func sum(groups []int) int {
	n := 0
	for _, g := range groups {
		n += g
	}
	return n
}

// all makes the exercises of one kind for many seeds and levels.
func all(t *testing.T, p *score.Piece, kind Kind, check func(e Exercise, level int)) {
	t.Helper()
	answers := map[string]bool{}
	for level := 1; level <= 3; level++ {
		for seed := range uint64(40) {
			made, left := Make(p, Options{Seed: seed, Level: level, Only: []Kind{kind}})
			require.Empty(t, left)
			require.Len(t, made, 1)
			assert.Equal(t, kind, made[0].Kind)
			assert.NotEmpty(t, made[0].Prompt)
			check(made[0], level)
			answers[strings.Join(made[0].Answer, "|")] = true
		}
	}
	assert.Greater(t, len(answers), 2, "%s: seeds draw different exercises", kind)
}

func names(v View) []string {
	var list []string
	for _, l := range v.Piece.Sections[0].Layers {
		list = append(list, l.Name)
	}
	return list
}

func TestCompositeCountedAgain(t *testing.T) {
	all(t, spectest.Read(t, text), Composite, func(e Exercise, level int) {
		players := names(e.Given)
		assert.Len(t, players, level+1)
		assert.Equal(t, 2*level, e.Given.To-e.Given.From+1)
		hits, shared := 0, 0
		for pulse := (e.Given.From - 1) * perBar; pulse < e.Given.To*perBar; pulse++ {
			n := 0
			for _, name := range players {
				if struck(loops[name], pulse+1)[pulse] {
					n++
				}
				if name == "Gong" {
					assert.LessOrEqual(t, e.Given.To, 4, "it leaves at bar 5")
				}
			}
			if n > 0 {
				hits++
			}
			if n > 1 {
				shared++
			}
		}
		assert.Equal(t, []string{fmt.Sprintf("attacks of the composite: %d", hits), fmt.Sprintf("of these struck together: %d", shared)}, e.Answer)

		// The notation: the key's last staff holds the composite, the student's is empty.
		require.NotNil(t, e.Given.Sheet)
		assert.Len(t, e.Given.Sheet.Parts, level+2)
		assert.Equal(t, hits, attacks(e.Solution.Sheet, level+1))
		assert.Zero(t, attacks(e.Given.Sheet, level+1))
		assert.Equal(t, 2*level, e.Given.Sheet.Bars)
	})
}

// attacks counts the notes of a part that no tie leads into.
func attacks(s *sheet.Sheet, part int) int {
	n := 0
	for b := range s.Parts[part].Bars() {
		for _, v := range b.Measure.Voices {
			for _, e := range v.Events {
				if note, ok := e.(*sheet.Note); ok && !note.TieIn {
					n++
				}
			}
		}
	}
	return n
}

func TestRealignmentsWalkedAgain(t *testing.T) {
	for _, c := range []struct {
		layers string
		loops  [][]int
	}{
		{"  - {name: A, groups: 3+2+2+3}\n  - {name: B, groups: 3+3+2+2+2}\n", [][]int{{3, 2, 2, 3}, {3, 3, 2, 2, 2}}},
		{"  - {name: A, groups: 3+3}\n  - {name: B, groups: 3+3+2}\n  - {name: C, groups: 5+4+3}\n", [][]int{{3, 3}, {3, 3, 2}, {5, 4, 3}}},
		{"  - {name: A, groups: 3+2+2}\n", [][]int{{3, 2, 2}, {10}}},
		{"  - {name: A, groups: 4+6}\n  - {name: B, groups: 20}\n", [][]int{{4, 6}, {20}}},
	} {
		p := spectest.Read(t, "title: T\nmeter: 5/4\ntempo: 60\nlength: 40 bars\nlayers:\n"+c.layers)
		for level := 1; level <= 3; level++ {
			for seed := range uint64(10) {
				made, left := Make(p, Options{Seed: seed, Level: level, Only: []Kind{Realign}})
				require.Empty(t, left)
				e := made[0]
				var want []string
				for pulse := 1; pulse < e.Given.To*perBar; pulse++ {
					met := true
					for _, groups := range c.loops {
						met = met && pulse%sum(groups) == 0
					}
					if met {
						want = append(want, eighth(pulse))
					}
				}
				require.Len(t, e.Answer, len(want), "%s level %d", c.layers, level)
				assert.NotEmpty(t, want)
				assert.LessOrEqual(t, len(want), level, "no more than the level says")
				assert.Len(t, e.Blanks, len(want), "none lies after the last bar shown")
				for i, w := range want {
					assert.Contains(t, e.Answer[i], fmt.Sprintf("%d. %s, after ", i+1, w))
				}
				assert.Zero(t, marked(e.Given.Sheet), "the student's notation has no labels")
				assert.NotZero(t, marked(e.Solution.Sheet))
			}
		}
	}
}

// eighth says which bar and beat of 5/4 an eighth from the start is.
func eighth(n int) string {
	s := fmt.Sprintf("bar %d beat %d", n/perBar+1, n%perBar/2+1)
	if n%2 == 1 {
		s += " 1/2"
	}
	return s
}

func marked(s *sheet.Sheet) int {
	n := 0
	for b := range s.Parts[0].Bars() {
		for _, m := range b.Marks {
			if m.Kind == sheet.Rehearsal || m.Kind == sheet.Boxed {
				n++
			}
		}
	}
	return n
}

// The grouping is found again from the attacks alone: the shortest run of gaps
// that repeats.
func TestGroupsFoundAgain(t *testing.T) {
	all(t, spectest.Read(t, text+"  - {name: Horn, groups: 4+5+2}\n"), Groups, func(e Exercise, level int) {
		for i, name := range names(e.Given) {
			at := struck(loops[name], e.Given.To*perBar)
			var gaps []int
			last := 0
			for pulse := 1; pulse < e.Given.To*perBar; pulse++ {
				if at[pulse] {
					gaps = append(gaps, pulse-last)
					last = pulse
				}
			}
			assert.Equal(t, string(rune('a'+i))+": "+period(gaps), e.Answer[i], name)
		}
	})
}

func period(gaps []int) string {
	for k := 1; ; k++ {
		repeats := true
		for i := k; i < len(gaps) && repeats; i++ {
			repeats = gaps[i] == gaps[i-k]
		}
		if repeats {
			words := make([]string, k)
			for i := range words {
				words[i] = strconv.Itoa(gaps[i])
			}
			return strings.Join(words, "+")
		}
	}
}

// The cut is found again by playing the loop pulse by pulse.
func TestCutsPlayedAgain(t *testing.T) {
	all(t, spectest.Read(t, text), Cut, func(e Exercise, level int) {
		name := names(e.Solution)[0]
		groups := loops[name]
		if name == "Chimes" {
			groups = []int{2, 2, 1} // struck on every pulse, cut by its groups
		}
		end := (e.Solution.To - 1) * perBar
		whole, group, pulse := 0, 0, 0 // cycles played, group being played, pulses of it played
		for range end {
			if pulse++; pulse == groups[group] {
				group, pulse = group+1, 0
			}
			if group == len(groups) {
				whole, group = whole+1, 0
			}
		}
		at := fmt.Sprintf("the cut falls: in group %d, after %d of its %d pulses", group+1, pulse, groups[group])
		if pulse == 0 {
			at = fmt.Sprintf("the cut falls: after group %d", group)
		}
		assert.Equal(t, []string{
			fmt.Sprintf("whole cycles: %d", whole),
			fmt.Sprintf("pulses of the cut cycle that sound: %d of %d", sum(groups[:group])+pulse, sum(groups)), at}, e.Answer)
	})
}

func TestTheSameSeedMakesTheSame(t *testing.T) {
	p := spectest.Read(t, text)
	print := func(o Options) string {
		made, _ := Make(p, o)
		var b strings.Builder
		for _, e := range made {
			fmt.Fprintln(&b, e.Kind, e.Prompt, e.Answer, e.Given.From, e.Given.To)
		}
		return b.String()
	}
	whole := print(Options{Seed: 5, Level: 2})
	assert.Equal(t, whole, print(Options{Seed: 5, Level: 2}))
	assert.NotEqual(t, whole, print(Options{Seed: 6, Level: 2}))
	assert.Contains(t, whole, print(Options{Seed: 5, Level: 2, Only: []Kind{Cut}}), "leaving kinds out changes nothing else")
}
