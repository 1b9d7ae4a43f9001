package find

import (
	"slices"

	"tieover/score/beat"
	"tieover/score/process"
)

// longestOrdered bounds the pitches of a series whose order changes from cycle to cycle.
const longestOrdered = 512

// orderedSeries returns a series that starts over with each cycle of the description, but
// with another pitch or turned round; nil when none explains every pitch. Every cycle but
// the last must be whole.
func (l *List) orderedSeries(s *Stretch) *Series {
	if s.CutEvery > 0 || s.Reset > 0 {
		return nil
	}
	var rows [][]int // the pitches of each cycle in spec order
	i := 0
	s.Strokes(l.End, func(stroke Stroke) bool {
		for len(rows) <= stroke.Cycle {
			rows = append(rows, nil)
		}
		row := rows[stroke.Cycle]
		for len(row) <= stroke.Order {
			row = append(row, -1) // in a last cycle that is not whole some may stay so
		}
		row[stroke.Order] = l.Hits[i].Chord
		rows[stroke.Cycle] = row
		i++
		return len(row) <= longestOrdered
	})
	return orderedRows(rows, i == len(l.Hits))
}

// orderedRows looks for a series in the pitches of each cycle. The first cycle that
// differs suggests a rotation or a retrograde; where that fails later, the other of the two
// may set in. all is whether the cycles have every attack.
func orderedRows(rows [][]int, all bool) *Series {
	if !all || len(rows) < fewestCycles || len(rows[0]) < 2 {
		return nil
	}
	series := rows[0]
	alike := 1
	for alike < len(rows) && deals(series, rows[alike]) {
		alike++
	}
	if alike == len(rows) || len(rows[alike]) != len(series) {
		return nil
	}
	var best *Series
	try := func(ps ...process.Rule) (s *Series, fails int) { // in which cycle
		s = &Series{Chords: series, Order: ps}
		if fails = s.firstMismatch(rows); fails == len(rows) && best == nil && s.isHeard(len(rows)) {
			best = s
		}
		return s, fails
	}
	for _, p := range orderChanges(series, rows[alike]) {
		p = delay(p, alike)
		s, fails := try(p)
		if fails == len(rows) || len(rows[fails]) != len(series) {
			continue
		}
		for _, other := range orderChanges(s.round(fails), rows[fails]) {
			if other.Kind != p.Kind {
				try(p, delay(other, fails))
			}
		}
	}
	back := slices.Clone(rows[alike])
	slices.Reverse(back)
	for _, p := range orderChanges(series, back) {
		if p.Kind == process.Rotate {
			p.After = alike
			try(p, process.Rule{Kind: process.Retrograde, After: alike + 1})
		}
	}
	return best
}

// round returns the pitches of a cycle (from 0) in the order in which they are
// dealt.
func (s *Series) round(cycle int) []int {
	turn, backwards, n := 0, false, len(s.Chords)
	for _, p := range s.Order {
		switch p.Kind {
		case process.Rotate:
			turn += cycle / p.After % n * int(p.By)
		case process.Retrograde:
			backwards = backwards != ((cycle+1)%p.After == 0)
		}
	}
	turn = beat.Mod(turn, n)
	chords := append(slices.Clone(s.Chords[turn:]), s.Chords[:turn]...)
	if backwards {
		slices.Reverse(chords)
	}
	return chords
}

// firstMismatch returns the first cycle whose pitches are not those of the series, or
// how many cycles there are.
func (s *Series) firstMismatch(rows [][]int) int {
	for c, row := range rows {
		if !deals(s.round(c), row) {
			return c
		}
	}
	return len(rows)
}

// deals reports whether a series dealt round gives the pitches that are known.
func deals(series, row []int) bool {
	for i, chord := range row {
		if chord >= 0 && chord != series[i%len(series)] {
			return false
		}
	}
	return true
}

// shortestSeries returns the beginning of the pitches of a cycle that, dealt round, gives
// them all.
func shortestSeries(chords []int) []int {
	length := 1
	for !deals(chords[:length], chords) {
		length++
	}
	return slices.Clip(chords[:length])
}

// isHeard reports whether so many cycles are enough to hear how the order changes; the
// last need not be whole.
func (s *Series) isHeard(cycles int) bool { return cycles > cyclesToHear(s.Order, false) }

// InTurn returns the pitches as each cycle has them, until the order is the first
// again, of so many cycles at most.
func (s *Series) InTurn(cycles int) [][]int {
	orders := make([][]int, min(int(s.home()), cycles))
	for i := range orders {
		orders[i] = s.round(i)
	}
	return orders
}

// home returns after how many cycles the order is the first again.
func (s *Series) home() int64 {
	all := int64(1)
	for _, p := range s.Order {
		n := int64(p.After)
		if p.Kind == process.Rotate {
			n *= int64(len(s.Chords)) / beat.GCD(int64(len(s.Chords)), max(p.By, -p.By))
		}
		all, _ = beat.LCM(all, n) // cycles and pitches are too few to pass the range
	}
	return all
}

// severalRounds returns a plain loop as a longer cycle of several rounds, if it then has
// pitches whose order changes from cycle to cycle: one loop, or none.
func (l *List) severalRounds(d *Description) []Stretch {
	s := d.Loop()
	if len(l.Chords) < 2 || !s.isPlain() || s.Strike == All {
		return nil
	}
	for k := 2; k*len(s.Groups) <= longestOrdered && k*fewestCycles <= s.Cycles; k++ {
		longer := *s
		longer.Groups = slices.Repeat(s.Groups, k)
		if kind+valuesBits(longer.Groups)+l.leastSeriesBits() >= d.Bits() {
			break // it takes more whatever its pitches are
		}
		if l.orderedSeries(&longer) != nil {
			longer.fits(l.Hits, l.End) // counts its cycles
			return []Stretch{longer}
		}
	}
	return nil
}

// retrogradeInPitches returns loops of the same rhythm that also turn cycles round, for a
// description whose pitches do not simply start over with each cycle: where the rhythm
// sounds the same backwards only the pitches show it.
func (ln *line) retrogradeInPitches(d *Description) []Stretch {
	s := d.Loop()
	if d.Series == nil || !d.Series.Own && len(d.Series.Order) == 0 || s.Strike == All || s.CutEvery > 0 || s.Reset > 0 ||
		s.Has(process.Retrograde) || len(s.Process) == mostProcesses {
		return nil
	}
	var all []Stretch
	for after := 2; after <= rarestTurn; after++ {
		turned := Stretch{Groups: s.Groups, Strike: s.Strike, At: s.At}
		turned.Process = append(slices.Clone(s.Process), process.Rule{Kind: process.Retrograde, After: after})
		if turned.rhythmBits(len(ln.items))+ln.list.leastSeriesBits() >= d.Bits() {
			break // it takes more whatever its pitches are
		}
		if turned.fits(ln.hits, ln.end) && turned.isHeard() {
			all = append(all, turned)
		}
	}
	return all
}

// rarestTurn bounds after how many cycles one is turned round if only pitches show it.
const rarestTurn = 8
