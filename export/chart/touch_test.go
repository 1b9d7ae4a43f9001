package chart_test

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/score"
	"tieover/score/spec"
)

// By hand: the drum strikes every pulse, accented at its groups by default; the
// gate has a touch for each of its five strokes, of which the second is faint; the
// winch accents all and the first of two also is short. Only asked for do they
// appear.
func TestTouchesStandOverTheirStrokes(t *testing.T) {
	text := `
title: Soft locks
meter: 5/8
tempo: 60
length: 2 bars
layers:
  - {name: Drum, groups: 3+2, strike: all}
  - {name: Gate, groups: 5, strike: all, touches: accent ghost plain tenuto marcato}
  - {name: Winch, groups: 3+3, accent: all, touches: staccato plain}
  - {name: Rope, groups: 5}
`
	opt := chart.Default()
	assert.NotContains(t, written(t, text, opt), "accent")
	opt.Touches = true
	got := written(t, text, opt)
	assert.Contains(t, strings.Join(strings.Fields(got), " "), "> accent ^ marcato g ghost (faint) ' staccato - tenuto")
	_, rows, _ := strings.Cut(got, "\n\n")
	assert.True(t, strings.HasPrefix(rows, strings.TrimPrefix(`
bar        1          2           3
count     |1 2 3 4 5 |1 2 3 4 5 ||1
a Drum     #1         #2
           >     >    >     >     >
   5      |X o o x o |X o o x o ||X
b Gate     #1         #2
           > g   - ^  > g   - ^   >
   5      |X o o o o |X o o o o ||X
c Winch    #1           #2 late 1
           >     >      >     >
           '            '
   6      |X 2 3 x 2~|3 X 2 3 x ||
d Rope     #1         #2
   5      |X 2 3 4 5 |X 2 3 4 5 ||X
`, "\n")), rows)
	opt.Compact = true
	assert.Contains(t, written(t, text, opt), "\n     > g   - ^  > g   - ^   >\nb   |X o o o o |X o o o o ||X\n")
}

// Whatever the section, the second reader finds every touch over its stroke.
func TestTouchesOfRandomSections(t *testing.T) {
	random := rand.New(rand.NewPCG(23, 5))
	words := []string{"plain", "staccato", "tenuto", "marcato", "ghost", "accent", "accent+staccato", "tenuto+ghost"}
	signs := map[score.Touch]string{score.Staccato: "'", score.Tenuto: "-", score.Marcato: "^", score.Ghost: "g", score.Accented: ">"}
	for made := 0; made < 100; {
		text := randomSpec(random)
		for i := range 4 {
			key := "    accent: " + []string{"none", "group", "all"}[random.IntN(3)] + "\n"
			if random.IntN(2) == 0 {
				random.Shuffle(len(words), func(i, j int) { words[i], words[j] = words[j], words[i] })
				key += "    touches: " + strings.Join(words[:1+random.IntN(5)], " ") + "\n"
			}
			name := regexpName(i).FindString(text)
			text = strings.Replace(text, name, name+key, 1)
		}
		p, problems := spec.Read([]spec.File{{Name: "s", Text: []byte(text)}})
		if len(problems) > 0 || p.Sections[0].BarCount() > 60 {
			continue
		}
		made++
		s := p.Sections[0]
		opt := chart.Options{Width: 40 + random.IntN(100), Touches: true}
		var out strings.Builder
		require.NoError(t, chart.Write(&out, p, opt))
		got := readChart(out.String())
		if got.Loose {
			continue
		}
		for i := range s.Layers {
			want := map[heard]string{}
			for time, a := range s.Attacks(i) {
				b := s.BarAt(time)
				var marks string
				for _, one := range []score.Touch{score.Accented, score.Marcato, score.Ghost, score.Staccato, score.Tenuto} {
					if a.Touch&one != 0 || a.Accent && one == score.Accented {
						marks += signs[one]
					}
				}
				if marks != "" && !b.Landing {
					want[heard{b.Number, fraction(int(time-b.Start), int(s.Grid))}] = marks
				}
			}
			require.Equal(t, want, got.Touches[i], "%s\n%s", text, out.String())
		}
		require.False(t, slices.Contains(strings.Split(out.String(), "\n"), "   "), "no empty row")
	}
}

// regexpName finds the line that names layer i of a random section.
func regexpName(i int) *regexp.Regexp {
	return regexp.MustCompile(`  - name: .* ` + strconv.Itoa(i) + "\n")
}

// Rolls, tremolos and trills have one sign, which the legend says once.
func TestRollsInTheChart(t *testing.T) {
	opt := chart.Default()
	opt.Touches = true
	got := written(t, "title: Sluice\nmeter: 4/4\nlength: 1 bars\nlayers:\n  - {name: Bell, groups: 3+3+2, touches: roll trill+accent tremolo}\n", opt)
	assert.Contains(t, got, "t roll, tremolo, trill")
	assert.Contains(t, got, "\n         t     >     t     t\n               t\n   8    |X 2 3 x 2 3 x 2 ||X\n")
}

// A comma stands before each stroke that is led in to, before the bar's first over
// the barline, and beside another sign on a line of its own.
func TestGraceNotesInTheChart(t *testing.T) {
	opt := chart.Default()
	opt.Touches = true
	got := written(t, "title: Sluice\nmeter: 4/4\nlength: 1 bars\nlayers:\n  - {name: Bell, groups: 3+3+2, touches: flam plain accent+drag}\n"+
		"  - {name: Gate, pulse: 1/8, groups: 8, strike: all, accent: none, touches: accent flam}\n", opt)
	assert.Contains(t, got, ", grace notes")
	assert.NotContains(t, got, "flam")
	assert.Contains(t, got, "\n          ,           ,     ,\n                       >\n   8      |X 2 3 x 2 3 x 2 ||X\n")
	assert.Contains(t, got, "\n           >   >   >   >     >\n            ,   ,   ,   ,\n   8      |X o o o o o o o ||X\n")
}

// A bar of slashes shows its beats; the composite and the gaps are those of the loop.
func TestSlashesInTheChart(t *testing.T) {
	got := written(t, "title: Sluice\nmeter: 4/4\nlength: 3 bars\nlayers:\n  - {name: Bell, groups: 3+3+2}\n  - {name: Gate, groups: 5+3}\n"+
		"plan: [{at: bar 2, for: Bell, written: slashes, to: bar 3}]\n", chart.Default())
	assert.Contains(t, got, "\n   8      |X 2 3 x 2 3 x 2 |/   /   /   /   |X 2 3 x 2 3 x 2 ||X\n")
	assert.Contains(t, got, "\ntogether  |2 . . a . b a . |2 . . a . b a . |2 . . a . b a . ||2\n")
	assert.Contains(t, got, "/ a beat written as a slash")
}
