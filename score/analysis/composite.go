package analysis

import (
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Composite sums up the rhythm that all layers make together.
type Composite struct {
	Attacks int   // moments at which anybody strikes
	ByCount []int // index n: moments at which exactly n layers strike
	Gaps    []Gap // how often each duration occurs, shortest first

	Fewest, Most PerBar  // the first bars that have the fewest and the most attacks, a pickup and a landing bar left out
	Alone        Alone   // what one player can do of it
	Landing      []int   // who strikes at the section's end, if it lands
	together     [][]int // at how many moments both a and b strike, a < b
}

// PerBar is how many attacks of the composite a bar has.
type PerBar struct{ Bar, Attacks int }

// Gap is a duration of the composite, to the next attack of anybody, and how
// often it occurs. The last one lasts to the section's end.
type Gap struct {
	Length beat.Time
	Times  int
}

// Moment is one attack of the composite.
type Moment struct {
	Time   beat.Time
	Length beat.Time   // to the next attack of anybody, or to the section's end
	Layers []int       // who strikes, rising
	Tones  score.Chord // that have a pitch
	By     []int       // the layer of each tone
	Sounds score.Chord // all that sounds, pitched or not
}

// Moments yields the composite in time order. The slices are only good until
// the next moment. Tones and sounds are in the order of the layers.
func Moments(s *score.Section) iter.Seq[Moment] {
	return func(yield func(Moment) bool) {
		var now Moment
		held := false
		until := func(end beat.Time) bool {
			now.Length = end - now.Time
			return yield(now)
		}
		for m := range s.Moments() {
			if held && !until(m.Time) {
				return
			}
			held = true
			now = Moment{Time: m.Time, Layers: append(now.Layers[:0], m.Layers...), Tones: now.Tones[:0], By: now.By[:0],
				Sounds: now.Sounds[:0]}
			for i, a := range m.Attacks {
				now.Sounds = append(now.Sounds, a.Tones...)
				for _, t := range a.Tones {
					if t.IsPitched() {
						now.Tones, now.By = append(now.Tones, t), append(now.By, m.Layers[i])
					}
				}
			}
		}
		switch {
		case !held:
		case now.Time >= s.Length:
			until(s.Extent())
		default:
			until(s.Length)
		}
	}
}

func compositeOf(s *score.Section) Composite {
	c := Composite{ByCount: make([]int, len(s.Layers)+1)}
	for range s.Layers {
		c.together = append(c.together, make([]int, len(s.Layers)))
	}
	gaps := map[beat.Time]int{}
	alone := newSoloist(s)
	bars := newBarCounter(s)
	last := s.Bar(s.BarCount())
	note := func(p PerBar) bool {
		if p.Bar >= s.FirstBar && (!last.Landing || p.Bar < last.Number) {
			c.note(p)
		}
		return true
	}
	for m := range Moments(s) {
		c.Attacks++
		c.ByCount[len(m.Layers)]++
		gaps[m.Length]++
		alone.add(m.Time, m.Sounds)
		for i, a := range m.Layers {
			for _, b := range m.Layers[i+1:] {
				c.together[a][b]++
			}
		}
		bars.add(m.Time, note)
		if m.Time >= s.Length {
			c.Landing = slices.Clone(m.Layers)
		}
	}
	bars.finish(note)
	c.Alone = alone.done()
	for length, times := range gaps {
		c.Gaps = append(c.Gaps, Gap{length, times})
	}
	slices.SortFunc(c.Gaps, func(a, b Gap) int { return int(a.Length - b.Length) })
	return c
}

// note keeps the extremes.
func (c *Composite) note(p PerBar) {
	if c.Fewest.Bar == 0 || p.Attacks < c.Fewest.Attacks {
		c.Fewest = p
	}
	if c.Most.Bar == 0 || p.Attacks > c.Most.Attacks {
		c.Most = p
	}
}

// AttacksPerBar yields how many attacks of the composite each bar has, in
// order; bars are numbered as in the piece.
func AttacksPerBar(s *score.Section) iter.Seq[PerBar] {
	return func(yield func(PerBar) bool) {
		bars := newBarCounter(s)
		for m := range Moments(s) {
			if !bars.add(m.Time, yield) {
				return
			}
		}
		bars.finish(yield)
	}
}

// barCounter counts moments by bar; they come in time order.
type barCounter struct {
	s       *score.Section
	n, last int       // the current bar of the section, and its last
	end     beat.Time // of the current one
	attacks int
}

func newBarCounter(s *score.Section) *barCounter {
	n := s.FirstN()
	return &barCounter{s: s, n: n, last: s.BarCount(), end: s.Bar(n).End()}
}

// add counts a moment and hands over the bars that end before it.
func (b *barCounter) add(t beat.Time, done func(PerBar) bool) bool {
	for t >= b.end && b.n < b.last {
		if !b.close(done) {
			return false
		}
	}
	b.attacks++
	return true
}

// finish hands over the bars that are left.
func (b *barCounter) finish(done func(PerBar) bool) {
	for b.n <= b.last {
		if !b.close(done) {
			return
		}
	}
}

func (b *barCounter) close(done func(PerBar) bool) bool {
	p := PerBar{Bar: b.s.FirstBar + b.n - 1, Attacks: b.attacks}
	b.n, b.attacks = b.n+1, 0
	if b.n <= b.last {
		b.end = b.s.Bar(b.n).End()
	}
	return done(p)
}

// Sounding is a pitch and the layer that plays it.
type Sounding struct {
	Pitch string
	Layer int
}

// Soundings returns what sounds at the moment from the lowest pitch to the
// highest, each layer's own; a unison is in the order of the layers.
func (m Moment) Soundings() []Sounding {
	order := make([]int, len(m.Tones))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return m.Tones[a].Key() - m.Tones[b].Key() })
	var all []Sounding
	for _, i := range order {
		all = append(all, Sounding{m.Tones[i].String(), m.By[i]})
	}
	return all
}

// Ascending returns the names of the tones from the lowest to the highest, each
// once.
func Ascending(tones score.Chord) []string {
	sorted := slices.Clone(tones)
	slices.SortStableFunc(sorted, func(a, b score.Tone) int { return a.Key() - b.Key() })
	var names []string
	for _, t := range slices.Compact(sorted) {
		names = append(names, t.String())
	}
	return names
}
