package content

// chain is a group of beams that goes over barlines, as far as it is known.
type chain struct {
	span   span
	pieces []piece
}

// piece is what one bar has of it.
type piece struct {
	bar int
	key crossing
}

// JoinBeams gives beams over barlines one direction in all bars of a run.
func (d *Reader) JoinBeams(run []Row) {
	for p := range d.Sheet.Parts {
		stems := make([]map[crossing]bool, len(run))
		chains := map[int]*chain{} // by voice
		turned := false
		for b := range run {
			c := run[b].Contents[p]
			for v, bounds := range c.voices {
				if bounds[0] < bounds[1] && c.Items[bounds[0]].Free() {
					turned = d.follow(p, c, b, v, chains, stems) || turned
				}
			}
		}
		for b := range stems {
			if turned && stems[b] != nil {
				run[b].Contents[p] = d.barOf(p, &run[b].Bars[p], stems[b])
				d.fill(&run[b])
			}
		}
	}
}

// follow takes what a bar has of a group over its barlines, and settles the
// stems of a group that ends.
func (d *Reader) follow(part int, c *Bar, bar, v int, chains map[int]*chain, stems []map[crossing]bool) (turned bool) {
	first := &c.Items[c.voices[v][0]]
	number := first.Voice.Number
	in, out := c.edgeGroup(v, false), c.edgeGroup(v, true)
	o := chains[number]
	if o != nil && in >= 0 {
		o.span = o.span.with(c.beams[in])
		o.pieces = append(o.pieces, piece{bar, crossing{number, false}})
	}
	if o != nil && in >= 0 && in == out { // it goes on
		o.pieces = append(o.pieces, piece{bar, crossing{number, true}})
		return false
	}
	if o != nil {
		up := o.span.up(&d.Staves[d.Tops[part]+first.Staff])
		for _, p := range o.pieces {
			if stems[p.bar] == nil {
				stems[p.bar] = map[crossing]bool{}
			}
			stems[p.bar][p.key] = up
		}
		delete(chains, number)
		turned = true
	}
	if out >= 0 {
		chains[number] = &chain{c.beams[out], []piece{{bar, crossing{number, true}}}}
	}
	return turned
}
