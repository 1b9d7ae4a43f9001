package score

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score/beat"
	"tieover/score/process"
)

// Arithmetic and counting agree: heads of random layers, with offsets, lists,
// rotation and shift, are written down one by one from the definitions and
// compared.
func TestMeetAgainstCounting(t *testing.T) {
	sizes := rapid.SliceOfN(rapid.IntRange(1, 4), 1, 4)
	rapid.Check(t, func(t *rapid.T) {
		var layers []*Layer
		for i := range rapid.IntRange(1, 3).Draw(t, "layers") {
			l := layer(string(rune('a'+i)), groups(sizes.Draw(t, "groups")...))
			if rapid.IntRange(0, 3).Draw(t, "second") == 0 {
				l.Patterns = append(l.Patterns, groups(sizes.Draw(t, "groups 2")...))
			}
			l.Offset = rapid.Int64Range(-3, 5).Draw(t, "offset")
			switch rapid.IntRange(0, 3).Draw(t, "process") {
			case 0:
				l.Process = []Process{{Rule: process.Rule{Kind: process.Rotate, By: rapid.Int64Range(-2, 3).Draw(t, "by"), After: rapid.IntRange(1, 2).Draw(t, "after")}}}
			case 1:
				l.Process = []Process{{Rule: process.Rule{Kind: process.Shift, By: rapid.Int64Range(-2, 3).Draw(t, "by"), After: rapid.IntRange(1, 2).Draw(t, "after")}}}
			}
			layers = append(layers, l)
		}
		s := in(PlainSignature(rapid.IntRange(2, 5).Draw(t, "beats"), 4), LengthRule{Kind: Bars, N: 60}, layers...)
		p := &Piece{Grid: 48, Sections: []*Section{s}}
		require.Empty(t, p.Settle())

		want := []beat.Time{}
		bar := s.Bar(1).Length
	moment:
		for at := beat.Time(0); at <= s.Length; at += 6 {
			if s.WithBarline && at%bar != 0 {
				continue
			}
			for _, l := range layers {
				if !headAt(l, at/6) {
					continue moment
				}
			}
			want = append(want, at)
		}
		got := []beat.Time{}
		for r := range s.Realignments() {
			got = append(got, r.Time)
		}
		assert.Equal(t, want, got)
		walked := &meeting{s: s, layers: s.Set}
		walked.walk(s.WithBarline)
		if walked.Start {
			want = want[1:]
		}
		for k, at := range walked.residues {
			if at <= s.Length {
				assert.Equal(t, want[k], at)
			}
		}
	})
}

// headAt says whether a head of the layer falls on the given eighth, counting
// cycle by cycle.
func headAt(l *Layer, eighth beat.Time) bool {
	start, turn, lag := beat.Time(l.Offset), 0, beat.Time(0)
	for cycle := 0; start <= eighth; cycle++ {
		items := l.Patterns[cycle%len(l.Patterns)].Groups
		length, head := beat.Time(0), beat.Time(0)
		for _, item := range items {
			length += beat.Time(item.Size)
		}
		first := ((turn % len(items)) + len(items)) % len(items)
		for k := first; first > 0 && k < len(items); k++ {
			head += beat.Time(items[k].Size)
		}
		head = (head + lag%length + length) % length
		if start+head == eighth {
			return true
		}
		start += length
		if len(l.Process) > 0 && (cycle+1)%l.Process[0].After == 0 {
			if l.Process[0].Kind == process.Rotate {
				turn += int(l.Process[0].By)
			} else {
				lag += beat.Time(l.Process[0].By)
			}
		}
	}
	return false
}

// A head before the layer's entry is not heard: 3 against a loop of 8 that
// enters at 10 and began at 9, where the 3 begins too. Heads from there: 17, 25,
// 33; multiples of 3 among them: 33.
func TestHeadsBeforeTheEntryDoNotMeet(t *testing.T) {
	for _, deviates := range []bool{false, true} {
		late := layer("b", groups(8))
		late.EnterAt, late.Offset = &Place{Kind: AtBar, N: 6}, -1
		if eight := groups(8); deviates {
			late.Except = []Exception{{Cycle: 2, Pattern: &eight}}
		}
		s := in(PlainSignature(2, 8), LengthRule{Kind: Bars, N: 30}, layer("a", groups(3)), late)
		settle(t, s)
		m := s.Meet([]int{0, 1}, false)
		assert.Equal(t, deviates, m.Walked)
		assert.Equal(t, big.NewInt(33*6), m.First)
	}
}

// 64 layers of coprime lengths around a thousand: the answer has hundreds of
// digits and comes at once. Checked against the plain product: primes only.
func TestAstronomicalMeeting(t *testing.T) {
	var layers []*Layer
	product := big.NewInt(1)
	for n := 1009; len(layers) < 64; n++ {
		if !big.NewInt(int64(n)).ProbablyPrime(10) {
			continue
		}
		layers = append(layers, layer(big.NewInt(int64(n)).String(), groups(n)))
		product.Mul(product, big.NewInt(int64(n)))
	}
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 4}, layers...)
	p := &Piece{Grid: 8, Sections: []*Section{s}}
	require.Empty(t, p.Settle())
	m := s.Together()
	assert.Zero(t, product.Cmp(m.Period))
	assert.Zero(t, product.Cmp(m.First))
}

// Sections after one another: bar numbers run on, a section that another
// follows may end with a short bar, the last one's bar is filled with rests.
func TestSectionsFollowEachOther(t *testing.T) {
	a := in(PlainSignature(4, 4), LengthRule{Kind: Pulses, N: 17}, layer("a", groups(3, 2)))
	b := in(PlainSignature(3, 4), LengthRule{Kind: Pulses, N: 8}, layer("a", groups(3, 2)))
	a.Name, b.Name = "A", "B"
	p := settle(t, a, b)
	var bars []string
	for _, s := range p.Sections {
		for bar := range s.Bars() {
			bars = append(bars, bar.Signature.String())
		}
	}
	assert.Equal(t, []string{"4/4", "4/4", "1/8", "3/4", "3/4"}, bars)
	assert.Equal(t, 4, b.FirstBar)
	assert.Equal(t, beat.Time(17*6), b.Start)
	require.Len(t, p.Warnings, 1)
	assert.Equal(t, "the section ends inside bar 5, after 1/4 of it; rests fill the bar", p.Warnings[0].Text)
}

// Rests after the end would sound as a gap before the repeat: the last bar is
// as long as the music.
func TestRepeatedSectionEndsWithItsMusic(t *testing.T) {
	a := in(PlainSignature(4, 4), LengthRule{Kind: Pulses, N: 17}, layer("a", groups(3, 2)))
	a.End = Repeat
	p := settle(t, a)
	assert.Equal(t, "1/8", a.Bar(3).Signature.String())
	assert.Equal(t, a.Length, a.Extent())
	assert.Equal(t, "bar 4 beat 1", a.Where(a.Length).String(), "bar 3 is over")
	assert.Empty(t, p.Warnings)
}

// Rows of the general drift table (arithmetic): repeats of L and of M until
// they meet, and the lcm.
func TestDriftTable(t *testing.T) {
	for _, row := range []struct{ l, m, repeats, cycles, total int }{
		{11, 8, 8, 11, 88}, {9, 8, 8, 9, 72}, {5, 8, 8, 5, 40}, {6, 8, 4, 3, 24}, {12, 8, 2, 3, 24},
		{10, 16, 8, 5, 80}, {11, 14, 14, 11, 154}, {9, 16, 16, 9, 144}, {11, 16, 16, 11, 176}, {12, 16, 4, 3, 48},
		{13, 16, 16, 13, 208}, {15, 16, 16, 15, 240}, {17, 16, 16, 17, 272}, {7, 32, 32, 7, 224},
		{23, 32, 32, 23, 736}, {35, 32, 32, 35, 1120}, {10, 7, 7, 10, 70}, {13, 12, 12, 13, 156},
		{8, 3, 3, 8, 24}, {26, 6, 3, 13, 78}, {33, 6, 2, 11, 66},
	} {
		s := in(PlainSignature(1, 4), LengthRule{Kind: Realignments, N: 1}, layer("L", groups(row.l)), layer("M", groups(row.m)))
		settle(t, s)
		var last Realignment
		for r := range s.Realignments() {
			last = r
		}
		assert.Equal(t, row.total, eighths(t, s.Length))
		assert.Equal(t, []int{row.repeats + 1, row.cycles + 1}, last.Cycles, "%d against %d", row.l, row.m)
	}
}

// Tempo pivots: the old value lasts as long as the new one, so the new quarter
// tempo is old · new/old value. Rows: E. Carter, Eight Etudes and a Fantasy
// (1950), Fantasy mm. 16–17, as cited from A. Winold in R. DeLone (ed.), Aspects
// of Twentieth-Century Music (1975), pp. 230–231; Canaries, class notes; the
// rest second computation.
func TestTempoPivots(t *testing.T) {
	plain := func(n, d int64) Value { return Value{Base: beat.Of(n, d), Actual: 1, Normal: 1} }
	for _, c := range []struct {
		before   int64
		old, new Value
		want     beat.Span
	}{
		{84, plain(1, 1), plain(3, 2), beat.Of(126, 1)}, // two halves = three halves
		{135, plain(3, 32), plain(1, 8), beat.Of(180, 1)},
		{180, plain(1, 4), plain(3, 8), beat.Of(270, 1)},
		{270, plain(3, 4), plain(3, 8), beat.Of(135, 1)},
		{180, plain(3, 8), plain(1, 4), beat.Of(120, 1)},
		{120, Value{Base: beat.Of(1, 4), Actual: 1, Normal: 1, Tied: beat.Of(1, 16)}, plain(1, 4), beat.Of(96, 1)},
		{60, Value{Base: beat.Of(1, 4), Actual: 3, Normal: 2}, plain(1, 4), beat.Of(90, 1)},
		{60, Value{Base: beat.Of(1, 16), Actual: 5, Normal: 4}, plain(1, 16), beat.Of(75, 1)},
		{80, Value{Base: beat.Of(1, 16), Actual: 7, Normal: 4}, plain(1, 16), beat.Of(140, 1)},
		{66, plain(1, 2), plain(3, 8), beat.Of(99, 2)},
		{72, plain(1, 8), plain(1, 16), beat.Of(36, 1)},
	} {
		s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 2}, layer("a", groups(8)))
		s.Tempo.Quarters = beat.Of(c.before, 1)
		s.Plan = []PlanEntry{{At: Place{Kind: AtBar, N: 2}, Tempo: &Tempo{Old: &c.old, New: &c.new}}}
		settle(t, s)
		assert.Equal(t, c.want, s.Tempos()[1].Tempo.Quarters)
	}
}

// After 120 quarters in 4/4 comes 6/8 with quarter = dotted quarter: a dotted
// quarter lasts as long as a quarter did, so there are 120 of them, 180 quarters.
// In 2+3/8 the beats are unequal, and quarters are counted; in 2/2 halves are.
func TestPivotCountsTheNewBeat(t *testing.T) {
	for _, c := range []struct {
		meter Signature
		beat  beat.Span
		rate  beat.Span
	}{
		{PlainSignature(6, 8), beat.Of(3, 8), beat.Of(120, 1)},
		{PlainSignature(2, 2), beat.Of(1, 2), beat.Of(90, 1)},
		{Signature{Terms: []Term{{Groups: []int{2, 3}, Unit: 8}}}, beat.Of(1, 4), beat.Of(180, 1)},
	} {
		s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 2}, layer("a", groups(8)))
		s.Tempo.Quarters = beat.Of(120, 1)
		quarter, dotted := Value{Base: beat.Of(1, 4), Actual: 1, Normal: 1}, Value{Base: beat.Of(3, 8), Actual: 1, Normal: 1}
		s.Plan = []PlanEntry{{At: Place{Kind: AtBar, N: 2}, Meter: Meter{c.meter}, Tempo: &Tempo{Old: &quarter, New: &dotted}}}
		settle(t, s)
		got := s.Tempos()[1].Tempo
		assert.Equal(t, []beat.Span{beat.Of(180, 1), c.beat, c.rate}, []beat.Span{got.Quarters, got.Beat, got.Rate}, c.meter.String())
	}
}

// A single layer is left without marks only where it meets every barline. By
// hand, in eighths: 8 is a bar of 4/4, and begun 16 late it first begins two bars
// after the start, which is marked; 8 in 4/4 and 5/4 by turns begins at 8 and 72
// and meets the barlines 8, 72, 80, but not 18; 16 begun 8 late meets every other
// barline; 2 meets all of 3/4 and 2/4 by turns.
func TestMarksOfASingleLayer(t *testing.T) {
	for _, c := range []struct {
		meter  Meter
		size   int
		offset int64
		want   bool
	}{
		{Meter{PlainSignature(4, 4)}, 8, 0, false},
		{Meter{PlainSignature(4, 4)}, 4, 0, false},
		{Meter{PlainSignature(4, 4)}, 8, 8, false},
		{Meter{PlainSignature(4, 4)}, 8, 16, true},
		{Meter{PlainSignature(4, 4)}, 7, 0, true},
		{Meter{PlainSignature(4, 4), PlainSignature(5, 4)}, 8, 0, true},
		{Meter{PlainSignature(4, 4)}, 16, 8, true},
		{Meter{PlainSignature(3, 4), PlainSignature(2, 4)}, 2, 0, false},
		{Meter{PlainSignature(3, 4), PlainSignature(2, 4)}, 10, 0, true},
	} {
		l := layer("a", groups(c.size))
		l.Offset = c.offset
		s := in(c.meter[0], LengthRule{Kind: Bars, N: 16}, l)
		s.Meter = c.meter
		settle(t, s)
		assert.Equal(t, !c.want, s.EveryBar(), "%v of %d, offset %d", c.meter, c.size, c.offset)
	}
}
