package task

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score/spec/spectest"
)

// The values written in the key, added up again: every bar is full, and the
// sounds, ties undone, are the groups.
func TestBeamedLinesAddedUpAgain(t *testing.T) {
	all(t, spectest.Read(t, text), Beam, func(e Exercise, level int) {
		require.GreaterOrEqual(t, len(e.Answer), level+2)
		var sounds []int
		for _, line := range e.Answer[1:] {
			_, values, _ := strings.Cut(line, ": ")
			full := 0
			for _, word := range strings.Fields(values) {
				for i, part := range strings.Split(word, "~") {
					n := sixteenths(part)
					full += n
					switch {
					case part == "":
					case i > 0:
						sounds[len(sounds)-1] += n
					default:
						sounds = append(sounds, n)
					}
				}
			}
			assert.Equal(t, 2*perBar, full, line)
		}
		groups := loops[names(e.Solution)[0]]
		if strings.Contains(e.Prompt, "every pulse struck") {
			assert.Equal(t, runs(groups, len(e.Answer)-1), beamed(e.Answer[1:]), "%v %v", e.Answer, groups)
			groups = []int{1}
		}
		for i, n := range sounds[:len(sounds)-1] { // the last may be cut by the end
			assert.Equal(t, 2*groups[i%len(groups)], n, "%v %v", e.Answer, groups)
		}
		require.NotNil(t, e.Given.Sheet)
		for b := range e.Given.Sheet.Parts[0].Bars() {
			for _, event := range b.Measure.Voices[0].Events {
				if n, ok := event.(*sheet.Note); ok {
					assert.Empty(t, n.Beams)
				}
			}
		}
		assert.Equal(t, 1, e.Given.Sheet.Bars)
	})
}

// runs are the numbers of eighths under one beam if every eighth is struck: each
// group, divided where a barline falls.
func runs(groups []int, bars int) []int {
	var list []int
	for t, i := 0, 0; t < bars*perBar; i++ {
		end := min(t+groups[i%len(groups)], bars*perBar)
		for t < end {
			n := min(end, (t/perBar+1)*perBar) - t
			list = append(list, n)
			t += n
		}
	}
	return list
}

// beamed reads these numbers from the lines of the key: "(e e e) e".
func beamed(lines []string) []int {
	var list []int
	for _, line := range lines {
		_, values, _ := strings.Cut(line, ": ")
		open := false
		for _, word := range strings.Fields(values) {
			if !open {
				list = append(list, 0)
			}
			list[len(list)-1]++
			open = (open || strings.HasPrefix(word, "(")) && !strings.HasSuffix(word, ")")
		}
	}
	return list
}

// sixteenths reads one value: q. is six.
func sixteenths(value string) int {
	n := 0
	for _, r := range value {
		switch r {
		case 'w', 'h', 'q', 'e', 's':
			n = map[rune]int{'w': 16, 'h': 8, 'q': 4, 'e': 2, 's': 1}[r]
		case '.':
			n += n / 2
		}
	}
	return n
}

// Loops of 8, 8 and 8 eighths in 4/4: the composite prints two of them with their
// barlines, so the third is barred, and struck at every pulse nothing is tied. Where
// both are printed, one of them is, every pulse struck.
func TestAPrintedLineIsBarredOnlyWithEveryPulseStruck(t *testing.T) {
	const two = "title: T\ntempo: 60\nmeter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+3+2}\n  - {name: B, groups: 5+3}\n"
	for seed := range uint64(12) {
		o := Options{Level: 1, Seed: seed, Only: []Kind{Composite, Beam}}
		made, left := Make(spectest.Read(t, two+"  - {name: C, groups: 4+4}\n"), o)
		require.Empty(t, left)
		assert.NotContains(t, names(made[0].Given), names(made[1].Solution)[0])

		made, left = Make(spectest.Read(t, two), o)
		require.Empty(t, left)
		assert.Contains(t, made[1].Prompt, "without barlines, every pulse struck. Write it in 4/4, 2 bars: draw the barlines and beam by the groups.")
	}
	e, why := one(t, Beam, 1, "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 1+1+4+3}\n") // the three begins at 6 and is held over the barline at 8
	require.Empty(t, why)
	assert.Contains(t, e.Prompt, "This is A without barlines. Write it in 4/4, 2 bars: draw the barlines, tie what is held over them, and beam by the groups.")
}
