package score

import (
	"cmp"
	"slices"

	"tieover/score/beat"
)

// TempoAt is a tempo mark and where it begins.
type TempoAt struct {
	Time  beat.Time
	Tempo Tempo
	Until beat.Time // of a gradual one: where it ends
	Steps []Speed   // of a gradual one: beat by beat, then what it came to, if that goes on
}

// Tempos returns the section's tempo marks in order, the first at its opening and steady.
// Speeds has the speeds between them. Callers must not change them.
func (s *Section) Tempos() []TempoAt { return s.tempi }

// tempos settles the tempo marks.
func (st *settler) tempos() {
	s := st.s
	if !st.opening() {
		return
	}
	s.tempi = []TempoAt{{Time: s.Opening(), Tempo: s.Tempo}}
	var marks []*PlanEntry
	for i := range s.Plan {
		if s.Plan[i].Tempo != nil {
			marks = append(marks, &s.Plan[i])
		}
	}
	slices.SortStableFunc(marks, func(a, b *PlanEntry) int { // a gradual one begins from a steady one at the same place
		return cmp.Or(cmp.Compare(a.Time, b.Time), cmp.Compare(a.Tempo.Kind, b.Tempo.Kind))
	})
	var gradual *PlanEntry // the last
	for _, e := range marks {
		if gradual != nil && e.Time < gradual.ToTime {
			st.fail(e.Tempo.Pos, "let it end there, or move one of the two", "a tempo stands inside the %s that goes on to %s", gradual.Tempo.Words, gradual.To)
			return
		}
		t := st.settleTempo(e, marks)
		e.Tempo = &t
		mark := TempoAt{Time: e.Time, Tempo: t}
		if t.IsGradual() {
			gradual, mark.Until = e, e.ToTime
		} else if last := len(s.tempi) - 1; s.tempi[last].Time == e.Time {
			s.tempi = s.tempi[:last]
		}
		s.tempi = append(s.tempi, mark)
	}
	s.repeatTempo()
	st.speeds()
}

// repeatTempo adds the tempo of the pickup once more at bar 1 where a repeat goes back
// there from another.
func (s *Section) repeatTempo() {
	next := slices.IndexFunc(s.tempi, func(m TempoAt) bool { return m.Time >= 0 })
	if !s.repeatsWithoutPickup() || next < 0 || s.tempi[next].Time == 0 || s.tempi[next-1].Until > 0 {
		return
	}
	now := s.tempi[next-1].Tempo
	if s.tempi[len(s.tempi)-1].Tempo.Quarters != now.Quarters {
		again := Tempo{Pos: now.Pos}
		again.goAs(now)
		s.tempi = slices.Insert(s.tempi, next, TempoAt{Tempo: again})
	}
}

// settleTempo works out the tempo of a plan entry from the marks before it. An
// equation takes the tempo before it: the new quarter tempo is the old one times
// new value over old value.
func (st *settler) settleTempo(e *PlanEntry, marks []*PlanEntry) Tempo {
	s := st.s
	before := s.tempi[len(s.tempi)-1].Tempo
	t := *e.Tempo
	switch {
	case t.IsGradual():
		t.goAs(*PlainTempo(t.comesTo(before.Quarters, marks, e.ToTime), before.Beat))
	case t.Kind == ATempo:
		t.goAs(s.steady())
	case t.Old != nil:
		t.follow(before, s.barring.at(e.Time).Signature)
	}
	if !simple(t.Quarters) {
		st.fail(t.Pos, "write the new tempo as a number", "after this the tempo is no longer a simple fraction")
		t.goAs(before)
	}
	if t.Quarters.Cmp(beat.Of(4, 1)) < 0 || t.Quarters.Cmp(beat.Of(2000, 1)) > 0 {
		st.fail(t.Pos, "stay between 4 and 2,000 quarters a minute", "the tempo here is %v quarters a minute", t.Quarters)
	}
	return t
}

// RateText is the rate as it is printed; "c. 133.33" where decimals cannot say it.
func (t *Tempo) RateText() string {
	text, exact := t.Rate.Decimal()
	if !exact {
		return "c. " + text
	}
	return text
}

// InWords says a mark: "quarter = 132", "Lively, quarter = 132", "dotted quarter = 53 1/3",
// exact; "rit." and "a tempo" alone.
func (t *Tempo) InWords(terms beat.Terms) string {
	if t.Kind != Steady {
		return t.Words
	}
	rate, exact := t.Rate.Decimal()
	if !exact {
		rate = t.Rate.Mixed()
	}
	name, _ := beat.NoteName(t.Beat, terms) // every tempo counts a plain or dotted value
	text := name + " = " + rate
	if t.Words != "" {
		text = t.Words + ", " + text
	}
	return text
}

// EquationInWords says the equation of a mark, " (quarter = dotted quarter)"; "" if it
// has none.
func (t *Tempo) EquationInWords(terms beat.Terms) string {
	if t.Old == nil {
		return ""
	}
	return " (" + t.Old.Name(terms) + " = " + t.New.Name(terms) + ")"
}

// TempoInWords says the entry's tempo mark with its equation, a gradual one with its end.
func (e *PlanEntry) TempoInWords(terms beat.Terms) string {
	if e.Tempo.IsGradual() {
		return e.Tempo.Words + " to " + e.To.String()
	}
	return e.Tempo.InWords(terms) + e.Tempo.EquationInWords(terms)
}

// PlainTempo returns a steady tempo of so many quarters a minute, printed as the rate of
// a note value.
func PlainTempo(quarters, value beat.Span) *Tempo {
	return &Tempo{Beat: value, Quarters: quarters, Rate: quarters.Over(value.Over(beat.Of(1, 4)))}
}

// goAs gives the tempo the speed of another.
func (t *Tempo) goAs(o Tempo) { t.Beat, t.Quarters, t.Rate = o.Beat, o.Quarters, o.Rate }

// simple reports whether a tempo can be computed with further.
func simple(quarters beat.Span) bool { return quarters.Den() < 1<<24 && quarters.Num() < 1<<34 }

// comesTo returns the quarters a minute that a gradual tempo comes to: those of
// a number at its end, if that is slower for a ritardando, or faster for an
// accelerando; else four fifths, or five fourths.
func (t *Tempo) comesTo(from beat.Span, marks []*PlanEntry, end beat.Time) beat.Span {
	to, way := from.Mul(beat.Of(4, 5)), -1
	if t.Kind == Accelerando {
		to, way = from.Mul(beat.Of(5, 4)), 1
	}
	for _, e := range marks {
		if e.Time == end && e.Tempo.IsNumber() && e.Tempo.Quarters.Cmp(from) == way {
			to = e.Tempo.Quarters
		}
	}
	return to
}

// steady is the tempo that "a tempo" means now: the last steady one that a gradual
// one led away from, even if that led to a number; without any, the last.
func (s *Section) steady() Tempo {
	left := slices.ContainsFunc(s.tempi, func(m TempoAt) bool { return m.Tempo.IsGradual() })
	for _, m := range slices.Backward(s.tempi) {
		switch {
		case m.Tempo.IsGradual():
			left = false
		case !left:
			return m.Tempo
		}
	}
	return s.Tempo // not reached: the first is steady
}

// opening settles the tempo of the section's start, which an equation and "a
// tempo" take from the section before it.
func (st *settler) opening() bool {
	s := st.s
	if s.Tempo.IsNumber() {
		return true
	}
	if i := slices.Index(st.piece.Sections, s); i > 0 && len(st.piece.Sections[i-1].tempi) > 0 {
		last := st.piece.Sections[i-1]
		if s.Tempo.Old != nil {
			s.Tempo.follow(last.tempi[len(last.tempi)-1].Tempo, s.barring.at(0).Signature)
		} else {
			s.Tempo.goAs(last.steady())
		}
		return true
	}
	what := "an equation"
	if s.Tempo.Old == nil {
		what = s.Tempo.Words
	}
	st.fail(s.Tempo.Pos, "give it as a number, such as tempo: 120", "%s needs a tempo before it, and this is the start of the piece", what)
	return false
}

// follow computes an equation's tempo from the one before; it is counted in the
// beat of the meter then in force, in quarters where the beats are unequal or no plain or
// dotted value.
func (t *Tempo) follow(before Tempo, meter Signature) {
	beats := meter.Beats()
	value := beats[0]
	if _, _, single := beat.NoteValue(value); !single || slices.ContainsFunc(beats, func(b beat.Span) bool { return b != value }) {
		value = beat.Of(1, 4)
	}
	t.goAs(*PlainTempo(before.Quarters.Mul(t.New.Span()).Over(t.Old.Span()), value))
}
