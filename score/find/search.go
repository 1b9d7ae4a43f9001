package find

import (
	"cmp"
	"math"
	"slices"

	"tieover/score/process"
)

// Options says how far the search may go.
type Options struct {
	// Tolerance is how many exceptions a loop may have; the shortest such loop is
	// told even if it saves nothing. 0: as many as pay for themselves. align.None:
	// none.
	Tolerance int
}

// longestCycle is the most groups that a cycle with a process or an exception
// is looked for; a plain loop may have any number.
const longestCycle = 4096

// line is a rhythm as the search sees it.
type line struct {
	items  []Item // after the lead
	hits   []Hit  // from the start of the list
	end    int64
	lead   int64
	strike Strike

	// What is still looked for: groups of a cycle, and bits of a cycle of several
	// processes, where there is a plain loop.
	most     int
	mostBits float64
}

// newLine makes a line of items. Short strokes are where the list has them;
// otherwise each sounding item is one hit.
func newLine(l *List, items []Item, strike Strike, lead int64) *line {
	ln := &line{items: items, lead: lead, strike: strike, most: len(items), mostBits: math.Inf(1)}
	if strike == Short {
		ln.hits, ln.end = l.Hits, l.End
		return ln
	}
	now := lead
	for _, item := range items {
		if !item.Blank {
			ln.hits = append(ln.hits, Hit{At: now, Length: item.Size})
			ln.end = now + item.Size
		}
		now += item.Size
	}
	return ln
}

// Search returns descriptions of the list, the shortest first; among equally
// short ones the one with the shorter cycle. The last is always the list as it
// stands, so that it is the only one when there is no pattern; what is nearest
// stands in its Nearest then.
func Search(l *List, o Options) []*Description {
	found, literal := l.exact()
	if !slices.ContainsFunc(found, (*Description).isPlainLoop) {
		found = append(found, l.imperfect(literal, o)...)
	}
	slices.SortStableFunc(found, (*Description).compare)
	found = slices.CompactFunc(found, sameWords)
	return append(loopsFirst(found), literal)
}

// exactly returns the best description that fits exactly, nil if there is none.
func (l *List) exactly() *Description {
	found, _ := l.exact()
	if len(found) == 0 {
		return nil
	}
	return slices.MinFunc(found, (*Description).compare)
}

// compare orders descriptions, the better first.
func (d *Description) compare(other *Description) int {
	return cmp.Or(cmp.Compare(other.Saved, d.Saved), cmp.Compare(d.rank(), other.rank()),
		cmp.Compare(len(d.Groups), len(other.Groups)), cmp.Compare(d.Length(), other.Length()))
}

// exact returns every description worth telling that fits the list exactly, and
// the list as it stands.
func (l *List) exact() (found []*Description, literal *Description) {
	literal = asItStands(l)
	for _, ln := range lines(l) {
		for _, d := range ln.candidates(l) {
			found = append(found, d)
			for _, other := range append(l.withOrderedPitches(d), ln.turnedInPitches(d, l)...) {
				other.RhythmBits = other.rhythmBits(len(ln.items)) + l.accentBits(d.Strike)
				if other.settle(l); other.Bits() < d.Bits() {
					found = append(found, other)
				}
			}
		}
	}
	for _, ln := range lines(l) {
		for _, d := range ln.additive(l) {
			d.RhythmBits, d.PitchBits = d.rhythmBits(len(ln.items)), l.seriesBits(d.Series)
			found = append(found, d)
		}
	}
	literal.settle(l)
	base := literal.RhythmBits + l.seriesBits(l.literalSeries())
	literal.Saved = base - literal.Bits()
	for _, d := range found {
		d.Saved = base - d.Bits()
	}
	found = slices.DeleteFunc(found, func(d *Description) bool { return !d.worth() })
	return found, literal
}

// loopsFirst puts loops before cuts that nobody hears as such: of a single group to
// the loop's length (3+3+2 as threes that start over), and one heard once, where the
// loop with exceptions takes hardly more bits or has a single one.
func loopsFirst(found []*Description) []*Description {
	for i, cut := range found {
		if cut.CutEvery == 0 {
			continue
		}
		k := slices.IndexFunc(found, func(d *Description) bool {
			switch {
			case cut.IsCutOf(d):
				return true
			case len(d.Stretches) == 1:
				hardly := d.Exceptions() == 1 || cut.Saved-d.Saved <= leastBits
				return cut.isCutOnce(d.Stretches[0].Until) && hardly && slices.Equal(d.Groups, cut.Groups)
			}
			return false
		})
		if k > i {
			loop := found[k]
			return slices.Insert(slices.Delete(found, k, k+1), i, loop)
		}
	}
	return found
}

// isCutOnce reports whether the cycle is cut a single time before the end.
func (d *Description) isCutOnce(end int64) bool { return d.CutEvery > 0 && 2*d.CutEvery > end }

// isTurnedOnce reports whether nothing happens but that a single cycle, not the
// second, is turned round: it is rather an exception.
func (d *Description) isTurnedOnce() bool {
	return len(d.Process) == 1 && d.Process[0].Kind == process.Retrograde && d.Process[0].After > 2 && 2*d.Process[0].After > d.Cycles
}

func (d *Description) isPlainLoop() bool {
	return !d.Literal && len(d.Process) == 0 && d.CutEvery == 0 && d.Stretches == nil && d.Melody == nil
}

// accentBits is what accents that mark groups cost a description that does not
// explain them: a bit for each attack.
func (l *List) accentBits(s Strike) float64 {
	if s == All || l.groupsByAccent() == nil {
		return 0
	}
	return float64(len(l.Hits))
}

// asItStands is the shortest way to write the list out.
func asItStands(l *List) *Description {
	var best *Description
	for _, ln := range lines(l) {
		if ln.lead > 0 {
			continue
		}
		d := &Description{Literal: true, Groups: ln.items, Strike: ln.strike, Cycles: 1}
		if d.RhythmBits = d.rhythmBits(len(ln.items)) + l.accentBits(d.Strike); best == nil || d.RhythmBits < best.RhythmBits {
			best = d
		}
	}
	if l.hasOpenEnd() {
		best.RhythmBits = min(best.RhythmBits, l.tapped.Free.BareBits())
	}
	return best
}

// rank orders descriptions that are equally short: first plain loops, then
// those that keep the cycle's length in pulses.
func (d *Description) rank() int {
	switch {
	case d.Stretches != nil:
		return 3
	case d.Melody != nil:
		return 2
	case len(d.Process) == 0:
		return 0
	case !d.has(process.Grow) && !d.has(process.Append) && !d.has(process.Rotate):
		return 1
	}
	return 2
}

// sameWords reports whether two descriptions say the same.
func sameWords(a, b *Description) bool { return a.Bits() == b.Bits() && a.String() == b.String() }

// worth reports whether a description is more than a coincidence. A plain loop
// heard twice in full is a fact whatever it saves; everything else must pay for
// what it adds.
func (d *Description) worth() bool {
	if d.additive || len(d.Process) == 0 && d.CutEvery == 0 {
		return true
	}
	return d.Saved > leastBits
}

// leastBits is what a description with a cut, a process or an exception must
// save. Savings of more than 4 bits turn up in at most 0.3 % of chance lists.
const leastBits = 4

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

// aside is how many groups more than a plain loop has bits a cycle may have to be looked
// for where there is one: of different sizes they take a bit each, so that it can never
// be first, and of one size they say what the loop does.
const aside = 64

// candidates returns every description of the line that fits it exactly.
func (ln *line) candidates(l *List) []*Description {
	var found []*Description
	keep := func(d *Description) {
		d.Lead, d.Strike = ln.lead, ln.strike
		if d.tooSlow(ln.end - ln.lead) {
			return
		}
		if d.fits(ln.hits, ln.end) && (len(d.Process) == 0 || d.heard()) {
			d.cutAt(ln.hits[len(ln.hits)-1])
			d.RhythmBits = d.rhythmBits(len(ln.items)) + l.accentBits(d.Strike)
			d.settle(l)
			found = append(found, d)
		}
	}
	ln.loops(keep)
	if len(found) > 0 {
		ln.most = min(ln.most, int(found[0].Bits())+aside)
		ln.mostBits = found[0].Bits() - l.leastSeriesBits() // else it cannot be first
	}
	ln.cuts(keep)
	ln.processes(keep)
	ln.turned(keep)
	return found
}

// tooSlow reports whether there are too few cycles to hear what the processes
// do, whatever it is.
func (d *Description) tooSlow(pulses int64) bool {
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

// cutAt notes what is left of the last group where the list ends inside it; last is
// its attack.
func (d *Description) cutAt(last Hit) {
	whole := int64(0)
	d.strokes(last.At+last.Length+total(d.Groups)+1<<20, func(s stroke) bool {
		if s.at == last.At {
			whole = s.length
		}
		return s.at < last.At
	})
	if last.Length < whole {
		d.Tail = last.Length
	}
}

// settle adds the pitch series.
func (d *Description) settle(l *List) {
	d.Series = l.bestSeries(d)
	if d.Series != nil {
		d.PitchBits = l.seriesBits(d.Series)
	}
}
