package score

import (
	"math/big"

	"tieover/score/beat"
)

// Seconds returns how long after the section's opening t sounds, exactly: a
// quarter lasts 60/tempo seconds.
func (s *Section) Seconds(t beat.Time) *big.Rat { return s.Clock().At(t) }

// Clock computes when moments of a section sound. Moments in time order cost little,
// however many speeds there are.
type Clock struct {
	s       *Section
	mark    int       // the speed that holds
	fastest beat.Span // of the section, in quarters; zero before it is needed
	passed  *big.Rat  // seconds from the section's opening to it
}

// Clock returns a clock at the section's opening.
func (s *Section) Clock() *Clock { return &Clock{s: s, passed: new(big.Rat)} }

// At returns how many seconds after the section's opening t sounds; t is not before
// it.
func (c *Clock) At(t beat.Time) *big.Rat {
	marks := c.s.speeds
	if t < marks[c.mark].Time {
		c.mark, c.passed = 0, new(big.Rat)
	}
	for ; c.mark+1 < len(marks) && marks[c.mark+1].Time <= t; c.mark++ {
		c.passed.Add(c.passed, c.secondsTo(marks[c.mark+1].Time))
	}
	since := c.secondsTo(t)
	return since.Add(since, c.passed)
}

// secondsTo returns how many seconds it is from the speed that holds to t.
func (c *Clock) secondsTo(t beat.Time) *big.Rat {
	mark := c.s.speeds[c.mark]
	quarters := c.s.Grid.Span(t - mark.Time).Times(4)
	q := mark.Quarters
	part := new(big.Rat).SetFrac64(quarters.Num(), quarters.Den())
	return part.Mul(part, new(big.Rat).SetFrac64(60*q.Den(), q.Num()))
}

// Sooner reports whether less than so many milliseconds lie between two moments.
func (c *Clock) Sooner(from, to beat.Time, ms int) bool {
	if c.fastest.Sign() == 0 {
		c.fastest = c.s.Fastest()
	}
	// So many ms are ms/60,000 of a minute, and a quarter is a fourth of a whole.
	need := c.fastest.Mul(beat.Of(int64(ms)*int64(c.s.Grid), 240000))
	if int64(to-from) > need.Num()/need.Den() {
		return false // not even at the fastest tempo
	}
	gap := new(big.Rat).Sub(c.s.Seconds(to), c.s.Seconds(from))
	return gap.Cmp(big.NewRat(int64(ms), 1000)) < 0
}
