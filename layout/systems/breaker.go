package systems

import "tieover/layout/sheet"

// Breaker decides where new systems of a score begin: periods between realignments that
// fit together share a system, long ones are cut in equal pieces, and a system has a
// single bar only where two cannot be squeezed into it. The zero value begins a piece.
type Breaker struct {
	system int  // bars since the last break
	start  int  // bar with which the present period begins
	length int  // its bars
	pieces int  // systems it is cut into
	broken bool // a system begins with the period
}

// Period begins a period of so many bars with bar n, counted from 1 in its section, where
// a system has room for so many bars. Length 0 says that they are not known: then a
// system begins, unless the one before had a single bar. opens says that the section
// begins.
func (b *Breaker) Period(n, length, room int, opens bool) {
	b.start, b.length, b.pieces = n, length, 1
	if length == 0 {
		b.broken = opens || b.system >= 2
		return
	}
	b.broken = b.system >= 2 && (opens || b.system+length > room)
	if length > room {
		if !b.broken && !opens { // it joins a lone bar before
			b.start, b.length = n-b.system, length+b.system
		}
		most := max(1, b.length/2)
		if b.length*sheet.Squeezed > most*room*sheet.Full {
			most = b.length
		}
		b.pieces = min((b.length+room-1)/room, most)
	}
}

// Bar passes bar n of the section, and reports whether a system begins with it. Bars
// come in order, pickups left out.
func (b *Breaker) Bar(n int) (begins bool) {
	begins = b.begins(n) && b.system > 0
	if begins {
		b.system = 0
	}
	b.system++
	return begins
}

func (b *Breaker) begins(n int) bool {
	if n == b.start {
		return b.broken
	}
	if b.pieces == 1 || n > b.start+b.length {
		return false
	}
	past := n - b.start // is it where some piece begins, piece·length/pieces rounded down?
	piece := (past*b.pieces + b.length - 1) / b.length
	return piece < b.pieces && piece*b.length/b.pieces == past
}
