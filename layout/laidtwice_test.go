package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/sample"
	"tieover/score/spec"
)

// Whoever lays a part and writes it walks it twice: to prove it and choose its
// systems, and to write it. A walk opens each voice once a section, and this
// piece has one section.
func TestLaidTwice(t *testing.T) {
	p := read(t, round(50))
	players := p.Players()
	together, problems := Composite{}.part(p, Options{})
	require.Empty(t, problems)
	over := Options{BeamOverBarlines: true}
	for _, c := range []struct {
		name  string
		o     Options
		parts []*part
		alone bool
	}{
		{"score", Options{}, partsIn(t, p, Options{}, players, false), false},
		{"part", Options{}, partsIn(t, p, Options{}, players[3:4], true), true},
		{"part, systems by realignments", Options{Breaks: BreakRealign}, partsIn(t, p, Options{Breaks: BreakRealign}, players[3:4], true), true},
		{"part under a partner", Options{Partner: "L0"}, partsIn(t, p, Options{Partner: "L0"}, players[3:4], true), true},
		{"composite", Options{}, []*part{together}, true},
		{"score, beams over barlines", over, partsIn(t, p, over, players, false), false},
		{"part, beams over barlines", over, partsIn(t, p, over, players[3:4], true), true},
	} {
		walks := make([]int, len(c.parts))
		for i, pt := range c.parts {
			open := pt.plan.feeds[0]
			pt.plan.feeds[0] = func(section int) *cursor {
				walks[i]++
				return open(section)
			}
		}
		laid, problems := proven(p, c.o, c.parts, nil, c.alone)
		require.Empty(t, problems)
		for i := range laid.Parts {
			bars := 0
			laid.Parts[i].Breaks()
			for range laid.Parts[i].Bars() {
				bars++
			}
			assert.Equal(t, 50, bars, c.name)
			assert.Equal(t, 2, walks[i], c.name)
		}
	}
}

// A score laid with its parts is proven by their walks: its own only write it.
func TestScoreIsProvenByItsParts(t *testing.T) {
	p := read(t, round(50))
	some := func(player score.Player) bool { return player.Name == "L2" || player.Name == "L7" }
	together, problems := scoreParts(p, Options{})
	require.Empty(t, problems)
	walks := 0
	for _, pt := range together {
		open := pt.plan.feeds[0]
		pt.plan.feeds[0] = func(section int) *cursor {
			walks++
			return open(section)
		}
	}
	whole, parts := layTogether(p, Options{}, Options{Edition: sheet.Play, Page: sheet.PageRoom{First: 20, Others: 25}}, together, some)
	require.NotNil(t, whole)
	assert.Equal(t, 6, walks, "of those whose parts are not wanted")
	assert.Len(t, whole.Parts, 8)
	assert.Equal(t, 50, whole.Bars)
	for i, part := range parts {
		if name := whole.Parts[i].Name; name == "L2" || name == "L7" {
			assert.Equal(t, name, part.Parts[0].Name)
		} else {
			assert.Nil(t, part)
		}
	}
	for name, alone := range map[string]Options{
		"a partner above it": {Partner: "L1"}, "bars of its own": {Barring: Barring{View: Own}}, "other beams": {Beams: BeamMeter},
	} {
		whole, _ := layTogether(p, Options{}, alone, together, some)
		assert.Nil(t, whole, name)
	}
	own := Options{Barring: Barring{View: Own}}
	whole, _ = layTogether(p, own, own, together, some)
	assert.Nil(t, whole, "a score has no bars of one part")
}

// What is laid together is what is laid apart, and so are the problems.
func TestLaidTogetherAsApart(t *testing.T) {
	together := 0
	rapid.Check(t, func(t *rapid.T) {
		var files []spec.File
		for _, text := range sample.YAMLs(t) {
			files = append(files, spec.File{Name: "sample.yaml", Text: []byte(text)})
		}
		p, problems := spec.Read(files)
		if len(problems) > 0 {
			t.Skip(problems.Err())
		}
		o := randomOptions(t)
		alone := o
		o.Edition, alone.Edition = sheet.Study, sheet.Play
		left := map[string]bool{}
		whole, parts, problems := LayAll(p, o, alone, func(player score.Player) bool {
			out, known := left[player.Name]
			if !known {
				out = rapid.IntRange(0, 3).Draw(t, "left out") == 0
				left[player.Name] = out
			}
			return !out
		})
		want, wanted := Lay(p, o)
		if len(wanted) > 0 {
			require.Equal(t, wanted, problems)
			require.Nil(t, whole)
			return
		}
		requireSameSheet(t, want, whole)
		for i := range want.Parts {
			if left[want.Parts[i].Name] {
				require.Nil(t, parts[i])
				continue
			}
			want, more := LayPart(p, alone, i)
			if wanted = append(wanted, more...); len(more) == 0 {
				requireSameSheet(t, want, parts[i])
				together++
			}
		}
		require.Equal(t, wanted, problems)
	})
	require.Positive(t, together)
}

func requireSameSheet(t *rapid.T, want, got *sheet.Sheet) {
	require.Equal(t, sheet.Dump(want), sheet.Dump(got))
	require.Equal(t, want.Bars, got.Bars)
	require.Equal(t, want.Respelled, got.Respelled)
	for i := range want.Parts {
		require.Equal(t, want.Parts[i].Begins, got.Parts[i].Begins)
	}
}

func partsIn(t *testing.T, p *score.Piece, o Options, only []score.Player, alone bool) []*part {
	t.Helper()
	parts, problems := lay(p, o, only, alone)
	require.Empty(t, problems)
	return parts
}

// Nine in the time of eight thirty-seconds: the barline after seven of these falls inside
// the eighth of the nine, so that neither score nor part can be written.
func TestLayAllOfWhatCannotBeWritten(t *testing.T) {
	p := read(t, "title: Weir\nmeter: 7/32\nlength: 6 bars\nlayers:\n  - {name: Sluice, pulse: 1/32 in 9:8, groups: 2+3}\n  - {name: Gate, groups: 4+4}\n")
	whole, parts, problems := LayAll(p, Options{}, Options{Edition: sheet.Play}, func(score.Player) bool { return true })
	assert.Nil(t, whole)
	assert.Nil(t, parts)
	assert.ErrorContains(t, problems.Err(), `layer "Sluice" cannot be written: `)
	assert.NotContains(t, problems.Err().Error(), "Gate")
	_, alone := LayPart(p, Options{}, 0)
	assert.ErrorContains(t, alone.Err(), `layer "Sluice" cannot be written: `)
}
