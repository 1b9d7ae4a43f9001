package beat

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// Listed joins names as a sentence does: "A", "A and B", "A, B and C"; joint is
// the last word between them, "and" or "or".
func Listed(names []string, joint string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " " + joint + " " + names[last]
}

// Inflect chooses the word that agrees with a number: one for 1, else many.
func Inflect[N integer](n N, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// Noun puts a noun in the plural unless n is 1.
func Noun[N integer](n N, one string) string {
	many := one + "s"
	switch {
	case strings.HasSuffix(one, "ch"):
		many = one + "es"
	case strings.HasSuffix(one, "y") && !strings.HasSuffix(one, "ay"):
		many = one[:len(one)-1] + "ies"
	}
	return Inflect(n, one, many)
}

// Counted writes a number with its noun: "1 attack", "3 attacks".
func Counted[N integer](n N, noun string) string { return fmt.Sprintf("%d %s", n, Noun(n, noun)) }

// CountedBig is Counted with commas between thousands: "1,200 bars".
func CountedBig(n *big.Int, noun string) string {
	if !n.IsInt64() {
		return Thousands(n) + " " + Noun(2, noun)
	}
	return Thousands(n) + " " + Noun(n.Int64(), noun)
}

// Thousands writes a number with commas between thousands.
func Thousands(n *big.Int) string {
	s := new(big.Int).Abs(n).String()
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	if n.Sign() < 0 {
		return "-" + s
	}
	return s
}

// Ordinal writes a number as a place in a row: "1st", "12th", "23rd".
func Ordinal(n int64) string {
	ending := "th"
	if n/10%10 != 1 {
		switch n % 10 {
		case 1:
			ending = "st"
		case 2:
			ending = "nd"
		case 3:
			ending = "rd"
		}
	}
	return strconv.FormatInt(n, 10) + ending
}
