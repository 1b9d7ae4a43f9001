package score

import (
	"fmt"
	"iter"
	"sort"

	"tieover/score/beat"
)

// Bar is one bar of a section's meter: a stretch of time, not of paper.
type Bar struct {
	N         int // in the section, from 1; 0 for its pickup
	Number    int // in the piece, as printed; 0 for its pickup
	Start     beat.Time
	Length    beat.Time
	Skipped   beat.Time // of a first bar that begins inside: how much of it lies before Start; Signature is that of the whole bar
	Filled    beat.Time // how much of it the section lasts; less than Length only in the last bar
	Signature Signature
	Landing   bool // the added bar of End == Land
}

// End returns the barline at the bar's end.
func (b Bar) End() beat.Time { return b.Start + b.Length }

// barring is the grid of barlines: runs of meters, each from a barline on. The
// first may lie before the section's start, which then is inside a bar.
type barring struct {
	runs              []barRun
	pickup            Bar       // the whole bar whose end is the pickup; Length 0: none
	shortest, longest beat.Time // bars
}

type barRun struct {
	start beat.Time
	first int // number in the section of its first bar
	meter Meter
	ends  []beat.Time // where each bar of one rotation ends, from its start
}

// change lets another meter begin at bar n, which starts at start.
func (b *barring) change(grid beat.Grid, start beat.Time, n int, m Meter) {
	run := barRun{start: start, first: n, meter: m}
	end := beat.Time(0)
	for _, sig := range m {
		length := grid.Must(sig.Span())
		if len(b.runs) == 0 && end == 0 {
			b.shortest = length
		}
		b.shortest, b.longest = min(b.shortest, length), max(b.longest, length)
		end += length
		run.ends = append(run.ends, end)
	}
	if last := len(b.runs) - 1; last >= 0 && b.runs[last].start == start {
		b.runs = b.runs[:last]
	}
	b.runs = append(b.runs, run)
}

func (r barRun) rotation() beat.Time { return r.ends[len(r.ends)-1] }

// bar returns the kth bar of the run, from 0.
func (r barRun) bar(k int) Bar {
	turn, i := k/len(r.ends), k%len(r.ends)
	from := beat.Time(0)
	if i > 0 {
		from = r.ends[i-1]
	}
	length := r.ends[i] - from
	return Bar{
		N: r.first + k, Start: r.start + beat.Time(turn)*r.rotation() + from,
		Length: length, Filled: length, Signature: r.meter[i],
	}
}

// bar returns bar n of the section, from 1, as if the section never ended; 0 is the
// whole bar that ends in the pickup.
func (b *barring) bar(n int) Bar {
	if n == 0 && b.pickup.Length > 0 {
		return b.pickup
	}
	i := sort.Search(len(b.runs), func(i int) bool { return b.runs[i].first > n }) - 1
	return b.runs[i].bar(n - b.runs[i].first)
}

// at returns the bar that t falls in; t is not before the pickup.
func (b *barring) at(t beat.Time) Bar {
	if t < b.runs[0].start {
		return b.pickup
	}
	i := sort.Search(len(b.runs), func(i int) bool { return b.runs[i].start > t }) - 1
	run := b.runs[i]
	turns := (t - run.start) / run.rotation()
	rest := t - run.start - turns*run.rotation()
	k := sort.Search(len(run.ends), func(k int) bool { return run.ends[k] > rest })
	return run.bar(int(turns)*len(run.ends) + k)
}

// onBarline reports whether a bar starts at t, but for the pickup.
func (b *barring) onBarline(t beat.Time) bool {
	return t >= b.runs[0].start && b.at(t).Start == t
}

// nextBarline returns the first barline at or after t.
func (b *barring) nextBarline(t beat.Time) beat.Time {
	if t <= 0 {
		return 0
	}
	if bar := b.at(t); bar.Start != t {
		return bar.End()
	}
	return t
}

// OnBarline reports whether a bar of the section's meter starts at t, or its pickup;
// the section's end counts as a barline if the meter has one there.
func (s *Section) OnBarline(t beat.Time) bool {
	return s.barring.onBarline(t) || s.barring.pickup.Length > 0 && t == s.Opening()
}

// Bar returns bar n of the section, from 1, its pickup for 0. n is at most BarCount.
func (s *Section) Bar(n int) Bar { return s.dress(s.barring.bar(n)) }

// BarAt returns the bar that holds section time t, Opening <= t < Extent. A t at or
// past the extent gives the bar that the meter would have there, after a short
// last bar one that begins where that ends.
func (s *Section) BarAt(t beat.Time) Bar {
	b := s.barring.at(t)
	if t >= s.Length && b.Start < s.Length && !s.fillsLastBar() {
		b = s.barring.bar(b.N + 1)
		b.Start = s.Length
	}
	return s.dress(b)
}

// Opening returns where the section's first bar begins: at 0, or before it with a
// pickup. Nothing sounds before it.
func (s *Section) Opening() beat.Time {
	if s.Pickup.Sign() == 0 {
		return 0
	}
	return -s.Grid.Must(s.Pickup)
}

// FirstN is the number in the section of its first bar: 1, or 0 with a pickup.
func (s *Section) FirstN() int { return s.barring.at(s.Opening()).N }

// FirstNumber is the number in the piece of its first bar, as printed.
func (s *Section) FirstNumber() int { return s.Bar(s.FirstN()).Number }

// BarCount returns how many bars the section has, the landing bar included; a pickup
// is none.
func (s *Section) BarCount() int {
	if s.written != nil {
		return s.barring.lastBefore(s.written.Extent())
	}
	n := s.barring.lastBefore(s.Length)
	if s.landsInOwnBar() {
		n++
	}
	return n
}

// lastBefore returns the bar that ends at t, or holds it.
func (b *barring) lastBefore(t beat.Time) int {
	n := b.at(t).N
	if b.onBarline(t) {
		n--
	}
	return n
}

// Bars walks all bars of the section in order, its pickup first.
func (s *Section) Bars() iter.Seq[Bar] {
	return func(yield func(Bar) bool) {
		last := s.BarCount()
		for n := s.FirstN(); n <= last; n++ {
			if !yield(s.Bar(n)) {
				return
			}
		}
	}
}

// Extent returns how long the section's bars last from bar 1 on: Length, the filling
// of the piece's last bar, and the landing bar.
func (s *Section) Extent() beat.Time { return s.Bar(s.BarCount()).End() }

func (s *Section) landsInOwnBar() bool { return s.End == Land && s.OnBarline(s.Length) }

// fillsLastBar reports whether rests fill a bar that the section's end falls
// into. They must not where the music goes on, in another section or from the
// start again: they would change it.
func (s *Section) fillsLastBar() bool {
	return s.End == Land || s.Last && s.End != Repeat || s.written != nil
}

// dress gives a bar of the meter its number and, at the section's end or where it
// begins inside a bar, its short length.
func (s *Section) dress(b Bar) Bar {
	b.Number = s.FirstBar + b.N - 1
	if from := s.Opening(); b.Start < from {
		b.Skipped = from - b.Start
		b.Start, b.Length, b.Filled = from, b.Length-b.Skipped, b.Length-b.Skipped
	}
	switch {
	case b.Start >= s.Length:
		b.Filled = 0
		b.Landing = s.landsInOwnBar()
	case b.End() > s.Length:
		b.Filled = s.Length - b.Start
		if !s.fillsLastBar() {
			b.Length = b.Filled
			b.Signature = ShortSignature(s.Grid.Span(b.Length))
		}
	}
	return b
}

// ShortSignature returns the signature of a bar that is so long: one cut short by the
// section's end, or a pickup. Its denominator can be written, as Settle has seen to.
func ShortSignature(length beat.Span) Signature {
	unit := max(length.Den(), 4)
	return PlainSignature(int(length.Num()*unit/length.Den()), int(unit))
}

// beatTimes returns where the beats of a bar begin, those that it skips included, and
// where the last of them ends.
func (s *Section) beatTimes(b Bar) []beat.Time {
	times := []beat.Time{b.Start - b.Skipped}
	for i, length := range b.Signature.Beats() {
		times = append(times, times[i]+s.Grid.Must(length))
	}
	return times
}

// Where is a moment as a player finds it.
type Where struct {
	Bar  int       // in the piece
	Beat int       // from 1, as Signature.Beats counts
	Past beat.Span // after that beat; zero on it
	Half bool      // exactly half of that beat is past
}

// Where says which bar and beat section time t falls on.
func (s *Section) Where(t beat.Time) Where {
	bar := s.BarAt(t)
	w := Where{Bar: bar.Number}
	into := s.Grid.Span(t - bar.Start + bar.Skipped)
	for _, length := range bar.Signature.Beats() {
		w.Beat++
		if into.Cmp(length) < 0 {
			w.Past, w.Half = into, into.Times(2) == length
			return w
		}
		into = into.Sub(length)
	}
	w.Past = into
	return w
}

// String writes "bar 5 beat 2", "bar 5 beat 2½" or "bar 5 beat 2 +1/16".
func (w Where) String() string { return w.words("½") }

// ASCII is String with "1/2" for the half sign.
func (w Where) ASCII() string { return w.words(" 1/2") }

func (w Where) words(half string) string {
	at := fmt.Sprintf("bar %d beat %d", w.Bar, w.Beat)
	switch {
	case w.Half:
		return at + half
	case w.Past.Sign() > 0:
		return at + " +" + w.Past.String()
	}
	return at
}
