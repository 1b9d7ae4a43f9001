package score_test

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/sample"
)

// By hand: bars 1 and 2 of 4/4 at 60, bar 3 at 120, then 240 quarters a minute: bar 2
// begins after 4 s, bar 3 after 8, bar 4 after 10, its third beat half a second later.
// The clock may be asked in any order.
func TestClock(t *testing.T) {
	s := read(t, "title: T\nmeter: 4/4\ntempo: 60\nlength: 5 bars\nlayers: [{name: a, groups: 3+2}]\nplan:\n  - {at: bar 4, tempo: 240}\n  - {at: bar 3, tempo: 120}\n").Sections[0]
	clock := s.Clock()
	bar := s.Bar(2).Start
	for _, c := range []struct {
		at   beat.Time
		want *big.Rat
	}{{3*bar + bar/2, big.NewRat(21, 2)}, {0, new(big.Rat)}, {bar, big.NewRat(4, 1)}, {2 * bar, big.NewRat(8, 1)}, {3 * bar, big.NewRat(10, 1)}, {bar / 4, big.NewRat(1, 1)}} {
		assert.Equal(t, c.want.RatString(), clock.At(c.at).RatString())
		assert.Equal(t, c.want.RatString(), s.Seconds(c.at).RatString())
	}
}

// By hand, in 4/4. From 132 to 84 over a bar: a beat's middle lies at 1/8, 3/8, 5/8
// and 7/8 of the way down the 48, at 126, 114, 102 and 90. Without a tempo where it
// ends a rit. comes to four fifths, 96 of 120, and stays there; so it does where
// that tempo is a faster one or "a tempo". An accel. comes to five fourths. What
// begins inside a beat has a first piece of half a beat: over a beat and a half
// from 120 to 96 the middles lie at 1/6 and 2/3.
func TestGradualTempos(t *testing.T) {
	for plan, want := range map[string]string{
		"{at: bar 2, tempo: rit., to: bar 3}, {at: bar 3, tempo: 84}":                                                        "0 132, 8 126, 10 114, 12 102, 14 90, 16 84",
		"{at: bar 2, tempo: 120}, {at: bar 2, tempo: rit., to: bar 2 beat 3}":                                                "0 132, 8 114, 10 102, 12 96",
		"{at: bar 1, tempo: 120}, {at: bar 2, tempo: rit., to: bar 2 beat 3}, {at: bar 2 beat 3, tempo: Faster 144}":         "0 120, 8 114, 10 102, 12 144",
		"{at: bar 1, tempo: 120}, {at: bar 2, tempo: rit., to: bar 2 beat 3}, {at: bar 2 beat 3, tempo: a tempo}":            "0 120, 8 114, 10 102, 12 120",
		"{at: bar 1, tempo: 120}, {at: bar 2, tempo: rall., to: bar 3}, {at: bar 3, tempo: 80}, {at: bar 4, tempo: a tempo}": "0 120, 8 115, 10 105, 12 95, 14 85, 16 80, 24 120",
		"{at: bar 1, tempo: 120}, {at: bar 2, tempo: accel., to: bar 2 beat 4}":                                              "0 120, 8 125, 10 135, 12 145, 14 150",
		"{at: bar 1, tempo: 120}, {at: a attack 4, tempo: rit., to: bar 2 beat 3}":                                           "0 120, 9 116, 10 104, 12 96",
	} {
		s := read(t, "title: T\nmeter: 4/4\ntempo: 132\nlength: 5 bars\nlayers: [{name: a, groups: 3+3+3}]\nplan: ["+plan+"]\n").Sections[0]
		var got []string
		for _, v := range s.Speeds() {
			got = append(got, fmt.Sprintf("%v %v", s.Grid.Span(v.Time).Over(beat.Of(1, 8)), v.Quarters))
		}
		assert.Equal(t, want, strings.Join(got, ", "), plan)
	}
}

// By hand: a bar of 132 lasts 20/11 s, then 60/126 + 60/114 + 60/102 + 60/90 s.
func TestASlowingBarLasts(t *testing.T) {
	s := read(t, "title: T\nmeter: 4/4\ntempo: 132\nlength: 5 bars\nlayers: [{name: a, groups: 3+3+3}]\nplan: [{at: bar 2, tempo: rit., to: bar 3}, {at: bar 3, tempo: 84}]\n").Sections[0]
	want := big.NewRat(20, 11)
	for _, q := range []int64{126, 114, 102, 90} {
		want.Add(want, big.NewRat(60, q))
	}
	assert.Equal(t, want.RatString(), s.Seconds(s.Bar(3).Start).RatString())
}

// "a tempo" at the start of a section is the last steady tempo of the one before,
// though that ended slower.
func TestATempoInTheNextSection(t *testing.T) {
	first := "title: T\nmeter: 4/4\ntempo: Lively 132\nlength: 4 bars\nlayers: [{name: a, groups: 3+3+3}]\nplan: [{at: bar 3, tempo: rit., to: bar 5}]\n"
	p := read(t, first, "title: T\nmeter: 4/4\ntempo: a tempo\nlength: 4 bars\nlayers: [{name: a, groups: 3+3+3}]\n")
	assert.Equal(t, beat.Of(132, 1), p.Sections[1].Speeds()[0].Quarters)
	last := p.Sections[0].Speeds()
	assert.Equal(t, "429/4", last[len(last)-1].Quarters.String(), "132 - 26.4 · 15/16, and nothing behind the end")
}

// By hand, at 120 a beat of half a second. A fermata on beat 4 of bar 2 lets bar 3
// begin at 4.5 s. One in the middle of beat 4 leaves the half before it alone, and
// the half that is left takes a quarter and three quarters of a second. One inside a
// rit. doubles what that has there: beat 2 of four from 132 to 84 goes at 57.
func TestFermatas(t *testing.T) {
	at := func(plan string) *score.Section {
		return read(t, "title: T\nmeter: 4/4\ntempo: 120\nlength: 5 bars\nlayers: [{name: a, groups: 4+3+1}]\nplan: ["+plan+"]\n").Sections[0]
	}
	s := at("{at: bar 2 beat 4, fermata: yes}")
	assert.Equal(t, "9/2", s.Seconds(s.Bar(3).Start).RatString())
	assert.Equal(t, "7/2", s.Seconds(s.Bar(2).Start+s.Bar(2).Length*3/4).RatString())
	assert.Len(t, s.Tempos(), 1, "nothing is printed but the sign")
	s = at("{at: a attack 6, fermata: yes}")
	assert.Equal(t, "15/4", s.Seconds(s.Bar(2).Start+s.Bar(2).Length*7/8).RatString())
	assert.Equal(t, "9/2", s.Seconds(s.Bar(3).Start).RatString())
	s = at("{at: bar 1, tempo: 132}, {at: bar 2, tempo: rit., to: bar 3}, {at: bar 3, tempo: 84}, {at: bar 2 beat 2, fermata: yes}")
	var got []string
	for _, v := range s.Speeds() {
		got = append(got, v.Quarters.String())
	}
	assert.Equal(t, []string{"132", "126", "57", "102", "90", "84"}, got)
}

// A clock that has run agrees with the sum over all tempos before the moment.
func TestClockAgainstTheSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		s := read(t, text).Sections[0]
		clock := s.Clock()
		for b := range s.Bars() {
			if b.N > 100 {
				break // each sum walks all before it
			}
			require.Equal(t, summed(s, b.Start).RatString(), clock.At(b.Start).RatString(), text)
		}
	})
}

// summed adds up, piece for piece, how long the time before the moment lasts. A
// piece ends wherever a beat or a tempo mark does; in a gradual tempo it goes as
// fast as its middle on the straight line.
func summed(s *score.Section, t beat.Time) *big.Rat {
	cuts := map[beat.Time]bool{t: true}
	for _, m := range s.Tempos() {
		cuts[m.Time], cuts[m.Until] = true, true
	}
	for _, e := range s.Plan {
		cuts[e.Time] = true
	}
	beats := beatsOf(s)
	for _, b := range beats {
		cuts[b[0]] = true
	}
	sum, from := new(big.Rat), s.Opening()
	for _, to := range slices.Sorted(maps.Keys(cuts)) {
		if to > t || to <= from {
			continue
		}
		quarters := s.Grid.Span(to - from).Times(4)
		lasts := big.NewRat(60*quarters.Num(), quarters.Den())
		lasts.Quo(lasts, pace(s, from, to))
		for _, e := range s.Plan { // what is left of its beat lasts a beat longer
			if !e.Fermata {
				continue
			}
			for _, b := range beats {
				if b[0] <= e.Time && e.Time < b[1] && e.Time <= from && from < b[1] {
					left, whole := int64(b[1]-e.Time), int64(b[1]-b[0])
					lasts.Mul(lasts, big.NewRat(left+whole, left))
				}
			}
		}
		sum.Add(sum, lasts)
		from = to
	}
	return sum
}

// beatsOf lists where the beats of a section begin and end.
func beatsOf(s *score.Section) (all [][2]beat.Time) {
	for bar := range s.Bars() {
		at := bar.Start - bar.Skipped
		for _, length := range bar.Signature.Beats() {
			all = append(all, [2]beat.Time{at, at + s.Grid.Must(length)})
			at += s.Grid.Must(length)
		}
	}
	return all
}

// pace is how many quarters a minute a piece of time goes at.
func pace(s *score.Section, from, to beat.Time) *big.Rat {
	var now, before *big.Rat
	var mark score.TempoAt
	for _, m := range s.Tempos() {
		if m.Time <= from {
			mark, before = m, now
			now = big.NewRat(m.Tempo.Quarters.Num(), m.Tempo.Quarters.Den())
		}
	}
	if !mark.Tempo.IsGradual() || from >= mark.Until {
		return now
	}
	rise := new(big.Rat).Sub(now, before)
	rise.Mul(rise, big.NewRat(int64(from+to-2*mark.Time), int64(2*(mark.Until-mark.Time))))
	return rise.Add(rise, before)
}
