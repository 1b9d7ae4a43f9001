// Package analysis computes what can be known about a section by counting:
// drift, realignments, the composite, what each grouping is and may be heard
// as, how the section could be barred. It decides nothing and changes nothing.
//
// What grows with the section's length is walked, never held; Facts holds what
// does not.
package analysis

import (
	"iter"
	"math/big"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Barline stands for the barline where a layer's index is expected.
const Barline = -1

// Facts is what is known about one settled section.
type Facts struct {
	Section *score.Section

	Layers []Layer // as the section's
	Pairs  []Pair  // every two layers, in order

	Together  score.Meeting // of the realigning set
	OnBarline score.Meeting // of the set, the barline added
	Home      *big.Int      // ticks to the first time that the rotation of meters begins anew there too; nil if unknown or one meter

	Composite Composite
	Barrings  []Barring // best first
	Window    Window    // what the barrings were counted over
	Pivots    []Pivot
	Clean     Clean
}

// Layer is what is known about one layer.
type Layer struct {
	Index   int
	Groups  []Grouping // one for each pattern
	Rhythm  *Grouping  // of the attacks of its first cycle, where a box or figures make them other than the groups
	Length  beat.Time  // of a cycle; 0 when cycles differ in length
	Cycles  int        // that sound in the section, whole or cut
	Attacks Places
	End     Ending
	Drift   []Drift // against the barline, then against each other layer
	Plain   []int   // sizes of groups that have no figure though others have, rising
}

// Places counts attacks by where they fall.
type Places struct{ All, OnBarline, OnBeat, OffBeat int } // OnBeat without OnBarline

// Ending is how a layer's last cycle ends.
type Ending struct {
	Cycle    int // its index; 0 when the layer never sounds
	Complete bool
	By       score.Cut
	At       beat.Time // where it stops
	Missing  beat.Time // what is missing of the cycle
	Group    int       // not complete: the group in which it stops, from 1 in played order
	Kept     beat.Time // of that group
	Of       beat.Time // that group's length
}

// Pair is what is known about two layers together.
type Pair struct {
	A, B      int // A < B
	Together  score.Meeting
	OnBarline score.Meeting
	Attacks   int // moments in the section at which both strike
}

// Of analyzes a settled section.
func Of(s *score.Section) *Facts {
	f := &Facts{Section: s, Together: s.Together(), OnBarline: s.Meet(s.Set, true)}
	for i := range s.Layers {
		f.Layers = append(f.Layers, layerOf(s, i))
	}
	f.Home = homeOf(s, f.Together)
	f.Composite = compositeOf(s)
	for a := range s.Layers {
		for b := a + 1; b < len(s.Layers); b++ {
			f.Pairs = append(f.Pairs, pairOf(s, a, b, f.Composite.both(a, b)))
		}
	}
	f.Barrings, f.Window = barringsOf(s)
	f.Pivots = pivotsOf(s)
	f.Clean = cleanOf(s, f.Layers)
	return f
}

// homeOf finds the first realignment that falls on the beginning of the meter's
// rotation: in the section, or by arithmetic where heads are equally far apart.
func homeOf(s *score.Section, m score.Meeting) *big.Int {
	if len(s.Meter) < 2 || !plainMeter(s) {
		return nil
	}
	turn := newMeasurer(s, s.Meter).(*rotation).length()
	for r := range s.Realignments() {
		if r.Time > 0 && r.Time%turn == 0 {
			return big.NewInt(int64(r.Time))
		}
	}
	if !m.Start || m.Period == nil || m.First.Cmp(m.Period) != 0 {
		return nil
	}
	both := new(big.Int).GCD(nil, nil, m.Period, big.NewInt(int64(turn)))
	return both.Mul(m.Period, both.Div(big.NewInt(int64(turn)), both))
}

func pairOf(s *score.Section, a, b, attacks int) Pair {
	p := Pair{A: a, B: b, Attacks: attacks}
	if s.Layers[a].Line != nil || s.Layers[b].Line != nil {
		return p
	}
	p.Together, p.OnBarline = s.Meet([]int{a, b}, false), s.Meet([]int{a, b}, true)
	cut := s.Layers[a].Loop != score.Run || s.Layers[b].Loop != score.Run
	reset := s.Layers[a].Until == score.UntilRealignment || s.Layers[b].Until == score.UntilRealignment
	if cut || reset && (p.Together.Walked || p.OnBarline.Walked) {
		together, onBarline := stepped(s, a, b)
		if cut || p.Together.Walked {
			p.Together = together
		}
		p.OnBarline = onBarline
	}
	return p
}

// stepped finds the first coincidence of the heads of two layers, and the first
// on a barline, by stepping through the section's cycles: a cut or a process that
// is reset at the section's realignments starts a layer over, so that arithmetic
// would not do.
func stepped(s *score.Section, a, b int) (together, onBarline score.Meeting) {
	together.Walked, onBarline.Walked = true, true
	next, stop := iter.Pull(heads(s, b))
	defer stop()
	other, more := next()
	for at := range heads(s, a) {
		for more && other < at {
			other, more = next()
		}
		switch {
		case !more || together.First != nil && onBarline.First != nil:
			return together, onBarline
		case other != at:
			continue
		case at == 0:
			together.Start, onBarline.Start = true, true
			continue
		}
		if together.First == nil {
			together.First = big.NewInt(int64(at))
		}
		if onBarline.First == nil && s.OnBarline(at) {
			onBarline.First = big.NewInt(int64(at))
		}
	}
	return together, onBarline
}

// heads yields the heads of a layer that sound or stand silent in the section.
func heads(s *score.Section, layer int) iter.Seq[beat.Time] {
	return func(yield func(beat.Time) bool) {
		for c := range s.Cycles(layer) {
			if at := c.Start + c.Head; !c.Landing && c.Head < c.Sounds && at >= s.Layers[layer].Enters && !yield(at) {
				return
			}
		}
	}
}

func layerOf(s *score.Section, i int) Layer {
	l := Layer{Index: i}
	for k := range s.Layers[i].Patterns {
		l.Groups = append(l.Groups, groupingOf(s, i, k))
	}
	place := newPlacer(s)
	var last score.Cycle
	for c := range s.Cycles(i) {
		l.Plain = withoutFigure(l.Plain, s.Layers[i], c)
		for k := range c.Attacks {
			l.Attacks.add(place.at(c.Start + c.Attacks[k].At))
		}
		if c.Landing {
			continue
		}
		switch {
		case l.Cycles == 0:
			l.Rhythm = rhythmOf(s, c)
			l.Length = c.Length
		case c.Length != l.Length:
			l.Length = 0
		}
		l.Cycles++
		last = *c
	}
	l.End = endOf(&last)
	if s.Layers[i].Line == nil {
		l.Drift = append(l.Drift, driftOf(s, i, Barline))
		for j := range s.Layers {
			if j != i && s.Layers[j].Line == nil {
				l.Drift = append(l.Drift, driftOf(s, i, j))
			}
		}
	}
	return l
}

// withoutFigure adds the sizes of sounding groups that have no figure, where
// the layer has any.
func withoutFigure(sizes []int, l *score.Layer, c *score.Cycle) []int {
	if len(l.Figures) == 0 || c.Landing {
		return sizes
	}
	for _, g := range c.Groups {
		if _, known := l.Figures[g.Size]; !known && !g.Blank {
			if k, there := slices.BinarySearch(sizes, g.Size); !there {
				sizes = slices.Insert(sizes, k, g.Size)
			}
		}
	}
	return sizes
}

func (p *Places) add(on place) {
	p.All++
	switch {
	case on.barline:
		p.OnBarline++
	case on.beat:
		p.OnBeat++
	default:
		p.OffBeat++
	}
}

func endOf(c *score.Cycle) Ending {
	e := Ending{Cycle: c.Index, At: c.End(), Complete: c.Cut == score.NotCut, By: c.Cut, Missing: c.Length - c.Sounds}
	if e.Complete {
		return e
	}
	for k, g := range c.Groups {
		if g.At < c.Sounds {
			e.Group, e.Of, e.Kept = k+1, g.Length, min(g.Length, c.Sounds-g.At)
		}
	}
	return e
}

// place is where in the meter a moment falls.
type place struct{ barline, beat bool }

// placer finds places; it is asked in time order.
type placer struct {
	s     *score.Section
	bar   score.Bar
	known bool
	beats []beat.Time // where the bar's beats start, from its start
}

func newPlacer(s *score.Section) *placer { return &placer{s: s} }

func (p *placer) at(t beat.Time) place {
	if !p.known || t >= p.bar.End() || t < p.bar.Start {
		p.bar, p.known = p.s.BarAt(t), true
		p.beats = beatStarts(p.beats[:0], p.s.Grid, p.bar.Signature)
	}
	_, on := slices.BinarySearch(p.beats, t-p.bar.Start)
	return place{barline: t == p.bar.Start, beat: on}
}

// beatStarts appends where the beats of a signature start, from the barline.
func beatStarts(starts []beat.Time, grid beat.Grid, sig score.Signature) []beat.Time {
	at := beat.Time(0)
	for _, length := range sig.Beats() {
		starts = append(starts, at)
		at += grid.Must(length)
	}
	return starts
}

// Clean is the first end at or after the section's at which no cycle is cut.
type Clean struct {
	Known bool // false when lengths or meters change or it is too far off to look for
	Bars  int  // barlines from the section's end to it; 0 when the section ends clean
	At    beat.Time
	Bar   int // the number of the bar that ends there
}

// cleanReach is how many bars ahead a clean end is looked for.
const cleanReach = 100_000

// cleanOf looks at each barline from the section's end on whether all cycles of
// constant length that run to the end would be complete there.
func cleanOf(s *score.Section, layers []Layer) Clean {
	if !plainMeter(s) {
		return Clean{}
	}
	ends, ok := runningOn(s, layers)
	if !ok {
		return Clean{}
	}
	meter := newMeasurer(s, s.Meter).(*rotation)
	bar := meter.index(s.Length) // that many bars are over
	at := meter.start(bar)
	for bars := 0; bars < cleanReach; bars++ {
		if at >= s.Length && !slices.ContainsFunc(ends, func(c score.Cycle) bool { return (at - c.Start).Mod(c.Length) != 0 }) {
			return Clean{Known: true, Bars: bars, At: at, Bar: s.FirstBar - 1 + bar}
		}
		bar++
		at = meter.start(bar)
	}
	return Clean{}
}

// runningOn returns, for each layer whose cycles run on to the section's end,
// one moment at which a cycle ends and the length of all. ok is false when a
// length changes.
func runningOn(s *score.Section, layers []Layer) (ends []score.Cycle, ok bool) {
	for i, l := range layers {
		layer := s.Layers[i]
		if layer.Line != nil || layer.Loop != score.Run || layer.LeaveAt != nil {
			continue
		}
		if l.Length == 0 || len(l.Groups) > 1 || l.Cycles == 0 || lengthens(layer) {
			return nil, false
		}
		ends = append(ends, score.Cycle{Start: l.End.At + l.End.Missing, Length: l.Length})
	}
	return ends, true
}

// lengthens reports whether a process changes the length of the cycle.
func lengthens(l *score.Layer) bool {
	return slices.ContainsFunc(l.Process, func(p score.Process) bool {
		return p.Kind == score.Append || p.Kind == score.Grow && p.From == 0
	})
}

// DriftAgainst returns the layer's drift against another or the Barline; the
// zero Drift when there is none.
func (l Layer) DriftAgainst(other int) Drift {
	for _, d := range l.Drift {
		if d.Against == other {
			return d
		}
	}
	return Drift{Against: other}
}
