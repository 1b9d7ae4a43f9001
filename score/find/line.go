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

// try keeps a loop if it fits and its processes have time to be heard.
func (ln *line) try(s Stretch) {
	s.At, s.Strike = ln.lead, ln.strike
	if !s.isTooSlow(ln.end-ln.lead) && s.fits(ln.hits, ln.end) && (len(s.Process) == 0 || s.isHeard()) {
		ln.found = append(ln.found, ln.weigh(&s))
	}
}

// weigh makes a loop that fits a description, and counts its bits.
func (ln *line) weigh(s *Stretch) *Description {
	s.cutAt(ln.hits[len(ln.hits)-1])
	d := &Description{Stretches: []Stretch{*s}, RhythmBits: s.rhythmBits(len(ln.items)) + ln.list.accentBits(s.Strike)}
	d.settle(ln.list)
	return d
}

// isTooSlow reports whether the pulses are too few to hear twice what the processes do,
// even if they fit.
func (s *Stretch) isTooSlow(pulses int64) bool {
	twice := s.Reset*s.Length() - s.Length()/2 // the last may end with a silence
	for _, p := range s.Process {
		if p.Kind == process.Grow && p.By < 0 && p.From == 0 { // the cycles get shorter, those before the first change excepted
			return int64(p.After)*(2*s.Length()+p.By) > pulses
		}
		if p.Kind != process.Retrograde {
			twice = max(twice, int64(p.After)*s.Length())
		}
	}
	return 2*twice > pulses
}

// cutAt sets the tail where the list ends inside the group of its last attack.
func (s *Stretch) cutAt(last Hit) {
	whole := int64(0)
	s.Strokes(last.At+last.Length+s.Length()+1<<20, func(stroke Stroke) bool {
		if stroke.At == last.At {
			whole = stroke.Length
		}
		return stroke.At < last.At
	})
	if last.Length < whole {
		s.Tail = last.Length
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

// isHeard reports whether the processes of a loop that fits have had time to show, and
// twice all that where they start over.
func (s *Stretch) isHeard() bool {
	cycles, need := s.wholeCycles(), cyclesToHear(s.Process, s.Reset > 0)
	if s.Reset > 0 {
		if len(s.Groups) == 1 {
			return false // 1, 2, 3 from the start again is heard as a cycle of 1+2+3
		}
		return s.Reset >= int64(need) && int64(cycles) >= 2*s.Reset
	}
	return cycles >= need
}

// wholeCycles counts the cycles that are complete.
func (s *Stretch) wholeCycles() int {
	if s.Rest > 0 {
		return s.Cycles - 1
	}
	return s.Cycles
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
