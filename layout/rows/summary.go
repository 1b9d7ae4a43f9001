package rows

import (
	"tieover/score"
	"tieover/score/beat"
)

// Summary is what a section's rows contain, for a legend that explains only
// what appears and for the closing lines.
type Summary struct {
	Signs   [Inner + 1]bool
	Touches score.Touch // all that appear
	Led     bool        // some grace note does
	Slurred bool        // some slur does
	Lowest  int         // of the counts of sounding pulses; 0 when nothing is counted
	Highest int
	Held    bool           // a sound is held over a barline
	Numbers bool           // cycles are numbered
	Heads   [Home + 1]bool // where heads come, by kind
	Pulses  bool           // rows say how long their cycles are
	Most    int            // most layers that strike at once
	Attacks []int64
	Longest beat.Time // gap between two moments of the composite

	Landing      *Landing // nil when the last bar is not among those, or the section ends inside it
	Layers       []LayerSummary
	Realignments []score.Realignment // the first three that do not come with every bar
	Count        int64               // of all such
	Last         score.Realignment   // the last of them
}

// LayerSummary is how often a layer goes round.
type LayerSummary struct {
	Whole   int64 // complete cycles
	Cut     int64 // cut short by a loop rule
	Ends    int64 // pulses of a cycle that the end or the layer's leaving cuts; 0 when none
	Of      int64 // pulses of that whole cycle
	Highest int   // of its counts of sounding pulses
	Changes bool  // the sizes change from cycle to cycle
}

// Summary gathers what appears in the section's bars first to last, and walks no
// further; what it counts of the whole section is counted by arithmetic where
// cycles are alike.
func (ch *Chart) Summary(first, last int) *Summary {
	s := &Summary{}
	for _, i := range ch.Layers {
		s.Attacks = append(s.Attacks, ch.attacks(i))
		s.Layers = append(s.Layers, ch.layer(i))
	}
	for b := range ch.Bars() {
		if b.N > last {
			break
		}
		if b.N < first {
			continue
		}
		for i := range b.Rows {
			s.row(&b.Rows[i], &s.Layers[i])
		}
		for _, h := range b.Together {
			s.Most = max(s.Most, len(h.Layers))
			s.Longest = max(s.Longest, h.Gap)
		}
	}
	if last >= ch.BarCount() {
		s.landing(ch)
	}
	for r := range ch.Section.RealignmentTimes() {
		if r.Label == "" && !r.Apart { // the start, or too frequent to be told
			continue
		}
		if len(s.Realignments) < 3 {
			s.Realignments = append(s.Realignments, r)
		}
		s.Count++
		s.Last = r
	}
	return s
}

// attacks counts what a layer strikes in the bars, with a landing inside the last.
func (ch *Chart) attacks(i int) int64 {
	s := ch.Section
	if s.End != score.Land || s.Bar(ch.BarCount()).End() == s.Length {
		return int64(s.AttackCount(i))
	}
	n := int64(0)
	for range s.Attacks(i) {
		n++
	}
	return n
}

// landing adds what falls after the last bar.
func (s *Summary) landing(ch *Chart) {
	l, ok := ch.Landing()
	if !ok {
		return
	}
	s.Landing = &l
	n := 0
	for _, c := range l.Rows {
		if c.Sign.Struck() {
			n++
			s.cell(&c)
		}
	}
	s.Most = max(s.Most, n)
}

// row takes in a layer in one bar.
func (s *Summary) row(row *Row, layer *LayerSummary) {
	s.Held = s.Held || row.Held
	s.Pulses = s.Pulses || row.Pulses > 0
	for _, start := range row.Starts {
		if !start.Plain && start.Number > 0 {
			s.Numbers = true
			s.Heads[start.Lateness.Kind] = true
		}
	}
	for i := range row.Cells {
		c := &row.Cells[i]
		s.cell(c)
		if c.Sign == Sounding {
			layer.Highest = max(layer.Highest, c.Count)
			s.Highest = max(s.Highest, c.Count)
			if s.Lowest == 0 || c.Count < s.Lowest {
				s.Lowest = c.Count
			}
		}
	}
}

func (s *Summary) cell(c *Cell) {
	s.Signs[c.Sign] = true
	s.Led = s.Led || c.Led
	s.Slurred = s.Slurred || c.Slur.Starts
	for _, t := range c.Touches() {
		s.Touches |= t
	}
}

// layer counts a layer's cycles: by arithmetic once they all have been seen that
// it takes by turns, else one by one.
func (ch *Chart) layer(i int) (sum LayerSummary) {
	l := ch.Section.Layers[i]
	n := 0
	var turn []beat.Time // lengths of the first cycles
	var start beat.Time
	for c := range ch.Section.Cycles(i) {
		sum.Changes = sum.Changes || c.Changed && n > 0 && !c.Landing
		if n == 0 {
			start = c.Start
		}
		if l.IsEven() && n == len(l.Patterns) && c.Cut == score.NotCut && !c.Landing {
			return ch.countEven(sum, l, start, turn)
		}
		turn = append(turn, c.Length)
		n++
		switch {
		case c.Landing:
		case c.Cut == score.CutByLoop:
			sum.Cut++
		case c.Cut == score.NotCut && c.Start >= l.Enters:
			sum.Whole++
		case c.Cut != score.NotCut:
			sum.Ends, sum.Of = int64(c.Sounds/l.Unit), int64(c.Length/l.Unit)
		}
	}
	return sum
}

// countEven counts cycles that tile the layer's time from start in turns of these
// lengths, until the layer leaves.
func (ch *Chart) countEven(sum LayerSummary, l *score.Layer, start beat.Time, turn []beat.Time) LayerSummary {
	length := beat.Time(0)
	for _, c := range turn {
		length += c
	}
	time := min(l.Leaves, ch.Section.Length) - start
	sum.Whole = int64(time / length * beat.Time(len(turn)))
	rest := time % length
	k := 0
	for ; rest >= turn[k]; k++ {
		rest -= turn[k]
		sum.Whole++
	}
	for at, k := start, 0; at < l.Enters; at, k = at+turn[k], (k+1)%len(turn) {
		sum.Whole-- // begun before the layer came in
	}
	if rest > 0 {
		sum.Ends, sum.Of = int64(rest/l.Unit), int64(turn[k]/l.Unit)
	}
	return sum
}

// Whole returns a cycle's groups so that their sizes add up to the cycle: one
// that a shift lays over the cycle's edge stands once, where it begins, and the
// rest of one that was not struck is silence.
func Whole(groups []score.Group, unit beat.Time) []score.Group {
	var out []score.Group
	last := groups[len(groups)-1]
	for i, g := range groups {
		if g.Tail && i == 0 && len(groups) > 1 && last.Spec == g.Spec {
			continue
		}
		if g.Tail {
			g.Blank, g.Size = true, int(g.Length/unit)
		}
		if n := len(out); n > 0 && g.Tail && out[n-1].Blank {
			out[n-1].Size += g.Size
			continue
		}
		out = append(out, g)
	}
	return out
}

// Sizes writes groups as a spec does, "3+2+rest 2", or "" when there are more
// than most.
func Sizes(groups []score.Group, most int) string {
	if len(groups) > most {
		return ""
	}
	return beat.SumOf(groups, func(g score.Group) (int, bool) { return g.Size, g.Blank })
}

// Grouping writes a layer's first pattern in at most so many groups; more are
// left out and shown by two dots.
func Grouping(l *score.Layer, most int) string {
	if len(l.Patterns) == 0 {
		return "free line"
	}
	groups, more := l.Patterns[0].Groups, ""
	if len(groups) > most {
		groups, more = groups[:most], "+.."
	}
	return beat.SumOf(groups, func(g score.Item) (int, bool) { return g.Size, g.Blank }) + more
}
