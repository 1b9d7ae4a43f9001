package score

import (
	"iter"
	"slices"

	"tieover/score/beat"
	"tieover/score/process"
)

// walker makes a layer's cycles one after another.
type walker struct {
	s     *Section
	layer int
	l     *Layer
	st    *process.State

	index, number int           // of the next cycle
	since         int           // cycles since the last realignment, the next one included
	start         beat.Time     // of the next cycle
	limit         beat.Time     // no cycle begins from here on, none goes on
	cutAt         beat.Time     // the first cut after the start of the cycle that was timed last
	first         bool          // no cycle has been made yet
	afterCut      bool          // the next cycle follows a cut: nothing rings into it
	before        process.Shape // of the cycle before, to see changes

	seen  int // realignments passed at cycle starts
	deal  dealer
	cache map[cycleKey]bodyDone
	last  cycleKey // the one made or found last, and its content
	done  bodyDone
}

// cycleKey is all that the content of a cycle depends on.
type cycleKey struct {
	pattern, exception, passes int
	shift, head                int64
	reversed                   bool
	series, dealt              int
	from, sounds               beat.Time
}

type bodyDone struct {
	groups  []Group
	attacks []Attack
	carry   beat.Time
}

// cacheSize bounds the cycles a walker remembers; when full it forgets all.
const cacheSize = 1024

func newWalker(s *Section, layer int) *walker {
	l := s.Layers[layer]
	s = s.homeOf(layer)
	return &walker{
		s: s, layer: layer, l: l, st: l.newState(),
		index: 1, number: 1, since: 1, first: true, afterCut: true,
		start: l.First, limit: min(l.Leaves, s.Length), cutAt: -never,
		deal:  dealer{l: l, realignments: s.meeting},
		cache: map[cycleKey]bodyDone{},
	}
}

// silent is the carry into a cycle that nothing rings into.
const silent beat.Time = -1

// next makes the next cycle, timed but not yet joined to the one after it. ok
// is false when the layer is over. carry is how long a box that begins with
// holds lets the attack before go on into it, or silent.
func (w *walker) next() (c Cycle, carry beat.Time, ok bool) {
	c, as, ok := w.time()
	if !ok {
		return Cycle{}, 0, false
	}
	c.Changed = w.first || !as.shape.PlaysLike(w.before)
	w.before = as.shape

	done := w.body(&c, as)
	c.Groups, c.Attacks = done.groups, done.attacks
	carry = done.carry
	if w.afterCut || w.rests(as.exception) {
		carry = silent
	}
	w.advance(&c)
	return c, carry, true
}

// time makes the next cycle without its groups and attacks, and what to make these
// of. ok is false when the layer is over.
func (w *walker) time() (c Cycle, as playedAs, ok bool) {
	if w.start >= w.limit {
		return Cycle{}, playedAs{}, false
	}
	w.passRealignments()
	as = w.choose()
	c = Cycle{Layer: w.layer, Index: w.index, Number: w.number, Start: w.start,
		Length: beat.Time(as.shape.Pulses) * w.l.Unit, Head: beat.Time(as.shape.Head) * w.l.Unit}
	w.cut(&c)
	return c, as, true
}

// walk yields the cycles as time makes them; each is the caller's to keep.
func (w *walker) walk() iter.Seq2[*Cycle, playedAs] {
	return func(yield func(*Cycle, playedAs) bool) {
		for {
			c, as, ok := w.time()
			if !ok || !yield(&c, as) {
				return
			}
			w.advance(&c)
		}
	}
}

// passRealignments starts the printed count over, and the processes if the
// spec says so, at the first cycle at or after each realignment.
func (w *walker) passRealignments() {
	n := w.s.meeting.count(w.start)
	if n > w.seen && !w.first {
		w.since = 1
		if w.s.anyApart(w.seen+1, n) {
			w.number = 1
		}
		if w.l.Until == UntilRealignment {
			w.st.Reset()
		}
	}
	w.seen = n
}

// playedAs is what a cycle plays.
type playedAs struct {
	pattern   *Pattern
	shape     process.Shape
	series    int // which of the layer's
	exception int // from 1; 0 when none made it so
}

// choose returns what the next cycle plays.
func (w *walker) choose() playedAs {
	series := w.series(w.since)
	if w.l.changesSeries() {
		series = w.deal.inForce(w.start)
	}
	n, e := w.l.exceptAt(w.index)
	if e != nil && e.Pattern != nil {
		return playedAs{e.Pattern, e.Pattern.shape(), series, n}
	}
	i := (w.index - 1) % len(w.l.Patterns)
	return playedAs{&w.l.Patterns[i], w.st.Shape(i), series, n}
}

// series returns which of the layer's series, taken in turn, the next cycle has: the
// nth since a realignment.
func (w *walker) series(n int) int {
	if w.l.Restart != RestartRealignment {
		n = w.index
	}
	return (n - 1) % max(1, len(w.l.Series))
}

// cut finds what ends the cycle: its length, a loop rule, or the limit.
func (w *walker) cut(c *Cycle) {
	c.Sounds = c.Length
	if w.cutAt <= c.Start {
		w.cutAt = w.nextCut(c.Start)
	}
	if w.cutAt < c.End() {
		c.Sounds, c.Cut = w.cutAt-c.Start, CutByLoop
	}
	c.endAt(w.limit, w.s.Length)
}

// endAt lets the cycle end at a limit, where the layer leaves or the section ends.
func (c *Cycle) endAt(limit, sectionEnd beat.Time) {
	if c.End() > limit {
		c.Sounds, c.Cut = limit-c.Start, CutByEnd
		if limit < sectionEnd {
			c.Cut = CutByLeaving
		}
	}
}

// nextCut returns the first moment after t, and after the layer's entry, at
// which the layer starts over.
func (w *walker) nextCut(t beat.Time) beat.Time {
	if w.l.Loop == CutRealignment {
		return w.s.meeting.next(max(t, w.l.Enters))
	}
	return w.s.nextCut(w.l, t)
}

// body builds the cycle's groups and attacks, or finds them in the cache.
func (w *walker) body(c *Cycle, as playedAs) bodyDone {
	from := max(0, w.l.Enters-c.Start)
	key := cycleKey{pattern: (w.index - 1) % len(w.l.Patterns), exception: as.exception,
		shift: as.shape.Shift, head: as.shape.Head, reversed: as.shape.Backwards,
		series: as.series, dealt: w.deal.phase(), from: from, sounds: c.Sounds}
	if w.l.resizes() {
		key.passes = w.st.Passes()
	}
	fixed := w.deal.fixedIn(c)
	if fixed {
		hit := key == w.last && w.done.groups != nil // most cycles are like the one before
		if !hit {
			w.last = key
			w.done, hit = w.cache[key]
		}
		if hit {
			w.deal.skip(len(w.done.attacks))
			return w.done
		}
	}
	b := w.l.build(as.pattern, as.shape)
	done := bodyDone{groups: b.groups, carry: b.carry}
	rest := w.rests(as.exception)
	kept := slices.DeleteFunc(b.attacks, func(a raw) bool {
		return rest || a.at < from || a.at >= c.Sounds
	})
	var own []Chord
	if as.exception > 0 {
		own = w.l.Except[as.exception-1].Series
	}
	for i, a := range kept {
		if i+1 < len(kept) {
			a.length = min(a.length, kept[i+1].at-a.at)
		}
		if c.Cut != NotCut {
			a.length = min(a.length, c.Sounds-a.at)
		}
		done.attacks = append(done.attacks, w.deal.attack(c, a, as.series, own))
	}
	if fixed {
		if len(w.cache) >= cacheSize {
			clear(w.cache)
		}
		w.cache[key] = done
		w.last, w.done = key, done
	}
	return done
}

// rests reports whether an exception, from 1, silences its cycle.
func (w *walker) rests(exception int) bool {
	return exception > 0 && w.l.Except[exception-1].Rest
}

// advance moves to the cycle after c.
func (w *walker) advance(c *Cycle) {
	w.first, w.afterCut = false, c.Cut != NotCut
	w.index++
	w.number++
	w.since++
	w.start = c.Start + c.Length
	if c.Cut == CutByLoop {
		w.start = c.End()
	}
	if w.cutAt == w.start {
		w.number = 1
		w.afterCut = true
	}
	w.st.Step()
}
