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

// Closing is a closing formula: a statement played three times with equal gaps
// between, so that it lands on a downbeat.
type Closing struct{ Statement, Gap int }

// Inclusive returns the same closing in inclusive counting, for one that is
// counted exclusively and has a gap: the landing stroke joins the statement.
// ok is false without a gap.
func (c Closing) Inclusive() (in Closing, ok bool) {
	return Closing{c.Statement + 1, c.Gap - 1}, c.Gap >= 1
}

// Closings returns all formulas of three statements and two gaps that begin at
// a downbeat and land on the one n units later, longest statement first:
// statements are positive, gaps at least 0.
func Closings(n int, counting Counting) []Closing {
	if counting == Inclusive {
		n++
	}
	var all []Closing
	for statement := n / 3; statement >= 1; statement-- {
		if rest := n - 3*statement; rest%2 == 0 {
			all = append(all, Closing{statement, rest / 2})
		}
	}
	return all
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
