package chart

// breaks returns where a bar is cut into stretches of at most room columns: at
// the last beat that fits, else wherever no text is cut in two.
func (t *barText) breaks(room int) []int {
	inside := t.inside()
	var at []int
	from := 0
	for t.width-from > room {
		to := from
		for _, c := range t.cuts {
			if c > to && c <= from+room && !inside[c] {
				to = c
			}
		}
		for c := from + room; to == from && c > from; c-- {
			if !inside[c] {
				to = c
			}
		}
		if to == from {
			to = from + room
		}
		at = append(at, to)
		from = to
	}
	return at
}

// inside marks the columns at which a cut would divide a text.
func (t *barText) inside() []bool {
	marked := make([]bool, t.width+1)
	mark := func(tokens []token) {
		for _, k := range tokens {
			for c := k.col + 1; c < k.col+len(k.text) && c <= t.width; c++ {
				marked[c] = true
			}
		}
	}
	for _, c := range t.count {
		mark(c)
	}
	for _, r := range t.rows {
		mark(r.cells)
		for _, n := range r.names {
			mark(n)
		}
	}
	mark(t.together)
	mark(t.gaps)
	return marked
}
