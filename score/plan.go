package score

import (
	"slices"

	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/source"
)

// Place is a moment as a spec writes it. All numbers count from 1, but
// realignments count from 0 for the start.
type Place struct {
	Pos   source.Pos
	Kind  PlaceKind
	N     int64  // for AtBar: 0 is the pickup
	Beat  int    // for AtBar: the beat, 0 or 1 for the barline; the last ones of a bar are in the pickup, 0 is where that begins
	Layer string // for AtCycle and AtAttack in a plan: whose
	Cycle int64  // for AtAttack: the cycle that the attack is counted in, 0 for all from the layer's entry on
}

type PlaceKind int

const (
	AtBar PlaceKind = iota
	AtCycle
	AtPulse // of the section's pulse
	AtRealignment
	AtAttack // of a layer
)

// PlanEntry is what happens at one structural moment. Only the fields that the
// spec gives are set.
type PlanEntry struct {
	At   Place
	Time beat.Time // settled

	Mark  string // replaces the label of a realignment there
	Text  string
	Chord string // a chord symbol as written: "F#m7/E"

	Meter Meter            // nil: unchanged
	Tempo *Tempo           // nil: unchanged
	Key   *Key             // nil: unchanged
	Clef  *instrument.Clef // nil: unchanged

	Fermata bool // the beat there is held

	Dynamic string    // "p"
	Written *Written  // nil: unchanged
	Hairpin Hairpin   // begins here
	Slur    bool      // begins here
	To      *Place    // where the hairpin, the slur, the gradual tempo or the way of writing ends
	ToTime  beat.Time // settled
	For     []string  // layers and players that its signs of players are for; nil: see Serves
	ForAll  bool      // the spec says "for: all"
	swelled []string  // layers whose loudness the hairpin changes; settled
}

// spanName names what lasts to the entry's To.
func (e *PlanEntry) spanName() string {
	switch {
	case e.Hairpin != NoHairpin:
		return "hairpin"
	case e.Slur:
		return "slur"
	}
	if e.Written != nil {
		return "way of writing"
	}
	return e.Tempo.Words
}

// Concerns reports whether an entry's dynamic or hairpin is for the layer.
func (e *PlanEntry) Concerns(l *Layer) bool {
	return e.For == nil || slices.Contains(e.For, l.Name) || l.Player != "" && slices.Contains(e.For, l.Player)
}

// Serves reports whether an entry's other signs of players, as its text, are for
// the layer: those at one layer's cycle or attack are for that layer unless it
// says more.
func (e *PlanEntry) Serves(l *Layer) bool {
	if e.For == nil && !e.ForAll && e.At.Layer != "" {
		return l.Name == e.At.Layer
	}
	return e.Concerns(l)
}

// Whose lists the layers and players that the signs that Serves asks about are
// for; nil when they are everybody's.
func (e *PlanEntry) Whose() []string {
	if e.For == nil && !e.ForAll && e.At.Layer != "" {
		return []string{e.At.Layer}
	}
	return e.For
}

type Hairpin int

const (
	NoHairpin Hairpin = iota
	Crescendo
	Diminuendo
)

// Tempo is a tempo mark. Quarters, Beat and Rate are set once it is settled; the
// other fields are how the mark is printed.
type Tempo struct {
	Pos      source.Pos
	Kind     TempoKind
	Words    string    // "Lively", "rit."; "" for a number alone
	Quarters beat.Span // quarter notes a minute, exact; of a rit. or an accel. those it comes to
	Beat     beat.Span // the printed beat, dots included
	Rate     beat.Span // of those a minute
	Old, New *Value    // an equation: the old value lasts as long as the new one
}

// TempoKind says how a tempo mark is meant. All but a steady one print their
// words alone.
type TempoKind int

const (
	Steady      TempoKind = iota // a number or an equation, perhaps with words
	ATempo                       // the last steady one again
	Ritardando                   // slower and slower, to the end of the plan's entry
	Accelerando                  // faster and faster
)

// IsGradual reports whether the tempo changes all the time.
func (t *Tempo) IsGradual() bool { return t.Kind == Ritardando || t.Kind == Accelerando }

// IsNumber reports whether the mark says its tempo by itself.
func (t *Tempo) IsNumber() bool { return t.Kind == Steady && t.Old == nil }

// Value is a note value in a tempo equation; Actual and Normal are 1 unless it
// is a tuplet value.
type Value struct {
	Base           beat.Span
	Actual, Normal int
	Tied           beat.Span // a second value tied on; zero when none
}

// Span returns how long the value lasts.
func (v Value) Span() beat.Span {
	return v.Base.Mul(beat.Of(int64(v.Normal), int64(v.Actual))).Add(v.Tied)
}

// Name says the value in words: "dotted quarter", "triplet quarter",
// "sixteenth in 5:4", "quarter+sixteenth".
func (v Value) Name(terms beat.Terms) string {
	name := beat.Pulse{Base: v.Base, Actual: v.Actual, Normal: v.Normal}.Name(1, terms)
	if v.Tied.Sign() != 0 {
		name += "+" + Value{Base: v.Tied, Actual: 1, Normal: 1}.Name(terms)
	}
	return name
}

// Key is a key signature.
type Key struct {
	None   bool   // no signature; accidentals wherever needed
	Fifths int    // sharps, or negative flats, -7 to 7
	Mode   string // "major", "minor", "dorian" …; "" if only the count was given
}

// clash is a sign that two entries of the plan cannot both have at one moment.
type clash struct {
	plural string
	has    func(e *PlanEntry) bool
	whose  func(e *PlanEntry, l *Layer) bool // nil: it is everybody's
	names  func(e *PlanEntry) []string       // whom it is for; with them it may correct one for all above it; nil: none may
}

// clashes lists what one moment can have once. Texts may stand over one another; two
// gradual tempos, and two slurs, are refused where they overlap, wherever they begin.
func clashes() []clash {
	concerned := func(e *PlanEntry) []string { return e.For }
	return []clash{
		{"marks", func(e *PlanEntry) bool { return e.Mark != "" }, nil, nil},
		{"meters", func(e *PlanEntry) bool { return e.Meter != nil }, nil, nil},
		{"tempos", func(e *PlanEntry) bool { return e.Tempo != nil && !e.Tempo.IsGradual() }, nil, nil},
		{"keys", func(e *PlanEntry) bool { return e.Key != nil }, nil, nil},
		{"fermatas", func(e *PlanEntry) bool { return e.Fermata }, nil, nil},
		{"chords", func(e *PlanEntry) bool { return e.Chord != "" }, (*PlanEntry).Serves, nil},
		{"dynamics", func(e *PlanEntry) bool { return e.Dynamic != "" }, (*PlanEntry).Concerns, concerned},
		{"hairpins", func(e *PlanEntry) bool { return e.Hairpin != NoHairpin }, (*PlanEntry).Concerns, concerned},
		{"clefs", func(e *PlanEntry) bool { return e.Clef != nil }, (*PlanEntry).Serves, nil},
		{"ways of writing", func(e *PlanEntry) bool { return e.Written != nil }, (*PlanEntry).Serves, (*PlanEntry).Whose},
	}
}

// clashes refuses a second sign of a kind at one moment, as the spec refuses a key that
// is written twice. The plan is in time order, entries at one moment as they are listed.
func (st *settler) clashes() {
	plan := st.s.Plan
	for _, c := range clashes() {
		var same []*PlanEntry // at the moment at hand, that have it
		for i := range plan {
			e := &plan[i]
			if !c.has(e) {
				continue
			}
			if len(same) > 0 && same[0].Time < e.Time {
				same = same[:0]
			}
			for _, first := range same {
				if st.clash(c, first, e) {
					break
				}
			}
			same = append(same, e)
		}
	}
}

// clash reports whether an entry has what one before it has for the same layer, which it
// refuses.
func (st *settler) clash(c clash, first, e *PlanEntry) bool {
	if c.whose == nil {
		st.fail(e.At.Pos, "keep one of them", "two %s stand at %s, the first on line %d", c.plural, e.At, first.At.Pos.Line)
		return true
	}
	if c.names != nil && c.names(first) == nil && c.names(e) != nil {
		return false
	}
	for _, l := range st.s.Layers {
		if c.whose(first, l) && c.whose(e, l) {
			st.fail(e.At.Pos, "keep one of them, or say for whom each is", "%s has two %s at %s, the first on line %d",
				l.Name, c.plural, e.At, first.At.Pos.Line)
			return true
		}
	}
	return false
}
