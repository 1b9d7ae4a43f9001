package analysis_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/beat"
	"tieover/score/sample"
	"tieover/score/spec"
)

// played is a section written out by hand: everything in lists.
type played struct {
	s       *score.Section
	text    string
	bars    []score.Bar
	attacks map[beat.Time][]int // who strikes, by moment
	heads   []map[beat.Time]bool
}

func play(s *score.Section) played {
	p := played{s: s, attacks: map[beat.Time][]int{}}
	for b := range s.Bars() {
		p.bars = append(p.bars, b)
	}
	for i := range s.Layers {
		for at := range s.Attacks(i) {
			p.attacks[at] = append(p.attacks[at], i)
		}
		heads := map[beat.Time]bool{}
		for c := range s.Cycles(i) {
			if at := c.Start + c.Head; !c.Landing && c.Head < c.Sounds && at >= s.Layers[i].Enters {
				heads[at] = true
			}
		}
		p.heads = append(p.heads, heads)
	}
	return p
}

// places checks that a placer says what the section does, wherever it has been
// before.
func (p played) places(t *rapid.T) {
	placer := NewPlacer(p.s)
	for at := range p.attacks { // in any order
		where, got := p.s.Where(at), placer.At(at)
		require.Equal(t, Place{where.Bar, where.Beat, p.s.Grid.Must(where.Past)}, got, p.text)
	}
}

// What is known about random sections is what counting finds.
func TestAgainstCounting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		piece, problems := spec.Read([]spec.File{{Name: "random.yaml", Text: []byte(text)}})
		require.Empty(t, problems, text)
		p := play(piece.Sections[0])
		p.text = text
		f := Of(p.s)
		p.places(t)
		p.composite(t, f)
		p.drift(t)
		p.pairs(t, f)
		p.barrings(t, f)
	})
}

func (p played) composite(t *rapid.T, f *Facts) {
	n, byCount := 0, make([]int, len(p.s.Layers)+1)
	for m := range Moments(p.s) {
		assert.Equal(t, p.attacks[m.Time], m.Layers)
		n++
	}
	for _, who := range p.attacks {
		byCount[len(who)]++
	}
	assert.Equal(t, len(p.attacks), n)
	assert.Equal(t, byCount, f.Composite.ByCount)
	perBar := 0
	bar := 0
	for b := range AttacksPerBar(p.s) {
		for at := range p.attacks {
			if at >= p.bars[bar].Start && at < p.bars[bar].End() {
				perBar++
			}
		}
		assert.Equal(t, perBar, b.Attacks, "bar %d", b.Bar)
		perBar, bar = 0, bar+1
	}
	assert.Len(t, p.bars, bar)
}

func (p played) drift(t *rapid.T) {
	for i, l := range p.s.Layers {
		if l.Line != nil {
			continue
		}
		n, total := 0, beat.Time(0)
		for step := range Walk(p.s, i, Barline) {
			n++
			assert.True(t, p.heads[i][step.Head], "a head that is none")
			start := beat.Time(0)
			for _, b := range p.bars {
				if b.Start <= step.Head {
					start = b.Start - b.Skipped // of a pickup the whole bar counts
				}
			}
			assert.Equal(t, step.Head-start, step.Place)
			total += step.Step
			assert.Equal(t, total, step.Total)
			assert.Less(t, -step.Length, 2*step.Step)
			assert.LessOrEqual(t, 2*step.Step, step.Length)
		}
		assert.Len(t, p.heads[i], n)
		for j, other := range p.s.Layers {
			if j != i && other.Line == nil {
				p.driftAgainst(t, i, j)
			}
		}
	}
}

// driftAgainst looks for the cycle that each head falls in among all of them.
func (p played) driftAgainst(t *rapid.T, layer, against int) {
	placed := map[beat.Time]Step{}
	for step := range Walk(p.s, layer, against) {
		placed[step.Head] = step
	}
	for head := range p.heads[layer] {
		step, found := placed[head]
		within := false
		for c := range p.s.Cycles(against) {
			if !c.Landing && c.Start <= head && head < c.End() {
				within = true
				assert.Equal(t, head-c.Start, step.Place, p.text)
				assert.Equal(t, c.Length, step.Length, p.text)
			}
		}
		assert.Equal(t, within, found, p.text)
	}
}

func (p played) pairs(t *rapid.T, f *Facts) {
	for _, pair := range f.Pairs {
		both := 0
		for _, who := range p.attacks {
			a, b := false, false
			for _, i := range who {
				a, b = a || i == pair.A, b || i == pair.B
			}
			if a && b {
				both++
			}
		}
		assert.Equal(t, both, pair.Attacks)
		if pair.Together.First == nil {
			continue
		}
		first := beat.Time(-1)
		for at := range p.heads[pair.A] {
			if at > 0 && p.heads[pair.B][at] && (first < 0 || at < first) {
				first = at
			}
		}
		if first >= 0 {
			assert.Equal(t, first, beat.Time(pair.Together.First.Int64()), "%s and %s of\n%s", p.s.Layers[pair.A].Name, p.s.Layers[pair.B].Name, p.text)
		}
	}
}

// barrings counts barlines one by one.
func (p played) barrings(t *rapid.T, f *Facts) {
	if !f.Window.Whole {
		return
	}
	for _, b := range f.Barrings {
		var lines []beat.Time
		at := beat.Time(0)
		if b.Meter.String() == p.s.Meter.String() {
			for _, bar := range p.bars {
				lines = append(lines, bar.Start)
			}
		} else {
			for k := 0; at < p.s.Length; k++ {
				lines = append(lines, at)
				at += p.s.Grid.Must(b.Meter[k%len(b.Meter)].Span())
			}
		}
		ties, broken := 0, 0
		for i := range p.s.Layers {
			for c := range p.s.Cycles(i) {
				if c.Landing {
					continue
				}
				for _, a := range c.Attacks {
					ties += inside(lines, c.Start+a.At, min(p.s.Length, c.Start+a.At+a.Length))
				}
				for _, g := range c.Groups {
					if !g.Blank && g.At < c.Sounds && inside(lines, max(min(p.s.Layers[i].Enters, 0), c.Start+g.At), c.Start+min(g.At+g.Length, c.Sounds)) > 0 {
						broken++
					}
				}
			}
		}
		assert.Equal(t, ties, b.Ties, "%v", b.Meter)
		assert.Equal(t, broken, b.Broken, "%v", b.Meter)
	}
}

func inside(lines []beat.Time, from, to beat.Time) int {
	n := 0
	for _, at := range lines {
		if at > from && at < to {
			n++
		}
	}
	return n
}
