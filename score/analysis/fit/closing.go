package fit

// Counting says how the length of a statement is counted.
type Counting int

const (
	// Inclusive statements end with the stroke that lands: three of them and
	// two gaps reach one unit past the cycle.
	Inclusive Counting = iota
	// Exclusive statements stop before the landing stroke, which is extra.
	Exclusive
)

// Closing is a closing formula: a statement played several times with equal
// gaps between, so that it lands on a downbeat.
type Closing struct{ Statement, Gap int }

// Total is the length of three statements and two gaps.
func (c Closing) Total() int { return 3*c.Statement + 2*c.Gap }

// Inclusive returns the same closing in inclusive counting, for one that is
// counted exclusively and has a gap: the landing stroke joins the statement.
// ok is false without a gap.
func (c Closing) Inclusive() (in Closing, ok bool) {
	return Closing{c.Statement + 1, c.Gap - 1}, c.Gap >= 1
}

// Closings returns all formulas of three statements and two gaps that begin at
// a downbeat and land on the one n units later, longest
// statement first.
func Closings(n int, counting Counting) []Closing {
	if counting == Inclusive {
		n++
	}
	return Solve(n, 3, 2)
}

// Solve returns all positive statements and gaps of at least 0 for which so
// many statements and so many gaps last total units, longest statement first.
func Solve(total, statements, gaps int) []Closing {
	var all []Closing
	for p := total / statements; p >= 1; p-- {
		if rest := total - statements*p; rest%gaps == 0 {
			all = append(all, Closing{p, rest / gaps})
		}
	}
	return all
}

// Lands returns where the landing stroke falls in a cycle of n units, from 0,
// for a formula of total units that starts at place start.
func Lands(start, total, n int, counting Counting) int {
	at := start + total
	if counting == Inclusive {
		at--
	}
	return ((at % n) + n) % n
}

// Shortest returns the formula of three statements and two gaps of total units
// whose gap is smallest; ok is false for a total too short for any.
func Shortest(total int) (c Closing, ok bool) {
	if all := Solve(total, 3, 2); len(all) > 0 {
		return all[0], true
	}
	return Closing{}, false
}

// Growing is the length of statements of different sizes with a gap between
// each two.
func Growing(gap int, statements ...int) int {
	return sum(statements) + gap*max(0, len(statements)-1)
}

// After returns the closings with the loop itself as the statement that land
// exactly at the end: so many whole cycles, then the loop three times with two
// gaps (Exclusive). Smallest gap first; the gap is at most the loop's length.
func After(length, total int) []Lead {
	var all []Lead
	for cycles := total/length - 3; cycles >= 0; cycles-- {
		rest := total - (cycles+3)*length
		if rest/2 > length {
			break
		}
		if rest%2 == 0 {
			all = append(all, Lead{cycles, Closing{length, rest / 2}})
		}
	}
	return all
}

// Lead is a closing formula and the whole cycles played before it.
type Lead struct {
	Cycles  int
	Closing Closing
}
