package find

import (
	"math"

	"tieover/score/process"
)

// line is one way to see the rhythm of a list, and what was found in it.
type line struct {
	list    *List
	items   []Item // after the lead
	attacks []Hit  // the sounding items
	hits    []Hit  // what sounds: the list's where strokes are short, else the attacks
	end     int64
	lead    int64
	strike  Strike

	// Bounds that a plain loop sets: the groups of a cycle, and the bits of the first cycle
	// of several processes.
	most     int
	mostBits float64

	found []*Description
}

// newLine makes a line of items after a silence of so many pulses.
func newLine(l *List, items []Item, strike Strike, lead int64) *line {
	ln := &line{list: l, items: items, lead: lead, strike: strike, most: len(items), mostBits: math.Inf(1)}
	now := lead
	for _, item := range items {
		if !item.Blank {
			ln.attacks = append(ln.attacks, Hit{At: now, Length: item.Size})
			ln.end = now + item.Size
		}
		now += item.Size
	}
	if ln.hits = ln.attacks; strike == Short {
		ln.hits, ln.end = l.Hits, l.End
	}
	return ln
}

// lines returns the ways to look at a list: as sounds and silences, from
// attack to attack if all are one pulse long, from accent to accent if every
// pulse is struck; each with and without a silence at the start.
func lines(l *List) []*line {
	var all []*line
	add := func(items []Item, strike Strike) {
		all = append(all, newLine(l, items, strike, 0))
		if items[0].Blank {
			all = append(all, newLine(l, items[1:], strike, items[0].Size))
		}
	}
	add(l.Items(), Hold)
	if l.isShort() {
		add(l.gaps(), Short)
	}
	if groups := l.groupsByAccent(); groups != nil {
		add(groups, All)
	}
	return all
}

// spareGroups is how many more groups than a plain loop takes bits a cycle beside it may
// have. One with more can never be shorter: groups of different sizes take a bit each, and
// groups of one size say the same as the loop.
const spareGroups = 64

// candidates returns every description of the line that fits it exactly.
func (ln *line) candidates() []*Description {
	ln.loops()
	if len(ln.found) > 0 {
		ln.most = min(ln.most, int(ln.found[0].Bits())+spareGroups)
		ln.mostBits = ln.found[0].Bits() - ln.list.leastSeriesBits() // else it cannot be first
	}
	ln.cuts()
	ln.processes()
	ln.equalLengths()
	return ln.found
}

// try keeps a description if it fits and its processes have time to be heard.
func (ln *line) try(d *Description) {
	d.Lead, d.Strike = ln.lead, ln.strike
	if !d.isTooSlow(ln.end-ln.lead) && d.fits(ln.hits, ln.end) && (len(d.Process) == 0 || d.isHeard()) {
		ln.weigh(d)
		ln.found = append(ln.found, d)
	}
}

// weigh counts the bits of a description that fits.
func (ln *line) weigh(d *Description) {
	d.cutAt(ln.hits[len(ln.hits)-1])
	d.RhythmBits = d.rhythmBits(len(ln.items)) + ln.list.accentBits(d.Strike)
	d.settle(ln.list)
}

// isTooSlow reports whether the pulses are too few to hear twice what the processes do,
// even if they fit.
func (d *Description) isTooSlow(pulses int64) bool {
	twice := d.Reset*d.Length() - d.Length()/2 // the last may end with a silence
	for _, p := range d.Process {
		if p.Kind == process.Grow && p.By < 0 && p.From == 0 { // the cycles get shorter, those before the first change excepted
			return int64(p.After)*(2*d.Length()+p.By) > pulses
		}
		if p.Kind != process.Retrograde {
			twice = max(twice, int64(p.After)*d.Length())
		}
	}
	return 2*twice > pulses
}

// cutAt sets the tail where the list ends inside the group of its last attack.
func (d *Description) cutAt(last Hit) {
	whole := int64(0)
	d.Strokes(last.At+last.Length+total(d.Groups)+1<<20, func(s Stroke) bool {
		if s.At == last.At {
			whole = s.Length
		}
		return s.At < last.At
	})
	if last.Length < whole {
		d.Tail = last.Length
	}
}

// settle chooses the pitch series.
func (d *Description) settle(l *List) {
	d.Series = l.bestSeries(d)
	if d.Series != nil {
		d.PitchBits = l.seriesBits(d.Series)
	}
}

// fewestCycles is how many cycles a process must be heard for.
const fewestCycles = 3

// isHeard reports whether the processes of a description that fits have had time to
// show, and twice all that where they start over.
func (d *Description) isHeard() bool {
	cycles := d.Cycles
	if d.Rest > 0 {
		cycles--
	}
	need := cyclesToHear(d.Process, d.Reset > 0)
	if d.Reset > 0 {
		if len(d.Groups) == 1 {
			return false // 1, 2, 3 from the start again is heard as a cycle of 1+2+3
		}
		return d.Reset >= int64(need) && int64(cycles) >= 2*d.Reset
	}
	return cycles >= need
}

// cyclesToHear returns how many cycles it takes to hear what the rules do: three, and two
// changes of each unless turning the cycle round is all that happens.
func cyclesToHear(rules []process.Rule, reset bool) int {
	need := fewestCycles
	for _, p := range rules {
		switch {
		case p.Kind != process.Retrograde:
			need = max(need, 2*p.After+1)
		case len(rules) > 1 || reset: // among other changes once is chance
			need = max(need, 2*p.After)
		default:
			need = max(need, p.After)
		}
	}
	return need
}
