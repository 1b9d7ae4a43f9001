package found

import (
	"cmp"
	"math/bits"
	"slices"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
	"tieover/score/instrument"
)

// A sound that is over once it is struck is written as the first sign of its length with
// rests after it, so barlines and beats cut it otherwise each time. Which of the rests are
// silences the page does not say; what lasts equally long from attack to attack shows it.

// list makes a list of the voice's attacks. Of an instrument that is dry it is the reading
// of the rests that has a pattern: as they are written; the same between the same distances;
// all of them tails; or strokes, whose lengths say nothing.
func (v voice) list(part *heard.Part, from, to beat.Span) (*reading, error) {
	written, err := v.read(from, to)
	if err != nil || !v.isDry(part, written.List) || written.Joined || !hasTails(written.List) {
		return written, err
	}
	best, stroke := written, written.Pulse.Span()
	tried := []*find.List{written.List}
	for _, length := range []func(next, most beat.Span) beat.Span{
		longest,
		func(next, _ beat.Span) beat.Span { return next },
		func(beat.Span, beat.Span) beat.Span { return stroke },
	} {
		l, err := find.FromAttacks(v.relengthened(from, to, length), from, to)
		if err != nil || slices.ContainsFunc(tried, func(t *find.List) bool { return t.Pulse == l.Pulse && slices.Equal(t.Hits, l.Hits) }) {
			continue
		}
		tried = append(tried, l)
		if other := (&reading{List: l}); other.isPlainer(best) {
			best = other
		}
	}
	return best, nil
}

// isPlainer reports whether what was found in a list is to be preferred to what was found
// in another one of fewer tails: in clearly fewer bits it says all, or is strong where that
// one does not say all, either; or has a shorter cycle if that one does.
func (l *reading) isPlainer(than *reading) bool {
	switch {
	case l.best().Literal || l.best().Bits()+leastSaved > than.best().Bits():
		return false
	case than.saysAll():
		return l.saysAll() && l.cycle().Cmp(than.cycle()) < 0
	}
	return l.saysAll() || l.best().Strong()
}

// reading is a list with what was found in it.
type reading struct {
	*find.List
	early  string              // when the keys are let go, as fullLengths says it
	ranked []*find.Description // as find.Search returns them; nil until they are needed
}

// read makes a list of the voice's attacks as they are written, or of a MIDI file as they
// are meant.
func (v *voice) read(from, to beat.Span) (*reading, error) {
	if v.written == nil {
		early := ""
		if v.tick.Sign() > 0 {
			v.attacks, early = fullLengths(v.attacks, from, to, v.tick)
		}
		list, err := find.FromAttacks(v.attacks, from, to)
		if err != nil {
			return nil, err
		}
		v.written = &reading{List: list, early: early}
	}
	return v.written, nil
}

// best returns the shortest description of the list.
func (l *reading) best() *find.Description {
	if l.ranked == nil {
		l.ranked = find.Search(l.List, find.Options{})
	}
	return l.ranked[0]
}

// saysAll reports whether one loop or process gives the list without exceptions.
func (l *reading) saysAll() bool { return !l.best().Literal && l.best().IsExact() }

func (l *reading) cycle() beat.Span { return l.Pulse.Span().Times(l.best().Loop().Length()) }

// hasTails reports whether sounds of different lengths are followed by rests: rests after
// equal strokes are the way of writing strokes.
func hasTails(l *find.List) bool {
	equal, rests := true, false
	for i, h := range l.Hits {
		equal = equal && h.Length == l.Hits[0].Length
		rests = rests || i+1 < len(l.Hits) && l.Hits[i+1].At > h.At+h.Length
	}
	return rests && !equal
}

// isDry reports whether the voice is of an instrument whose sounds are over once they are
// struck: by its name, else its standard sound; of drums where nothing says which. A part
// with pitches is no drum, whatever it is called.
func (v voice) isDry(part *heard.Part, l *find.List) bool {
	name := cmp.Or(v.player, v.name)
	if v.on != nil {
		name = v.on.Name
	}
	pitched, drums := sortSounds([]*find.List{l})
	if on := findInstrument(name); on != nil && (v.on != nil || !pitched || !on.IsUnpitched()) {
		return on.IsDry()
	}
	if !pitched {
		return len(drums) > 0
	}
	given := part.Instruments
	if len(given) > 1 { // a player of several: those of this voice
		given = slices.DeleteFunc(slices.Clone(given), func(g heard.Instrument) bool {
			return !slices.ContainsFunc(v.attacks, func(a heard.Attack) bool { return a.On > 0 && part.Instruments[a.On-1] == g })
		})
	}
	return len(given) > 0 && !slices.ContainsFunc(given, func(g heard.Instrument) bool {
		on := givenInstrument(g, func(*instrument.Instrument) bool { return true })
		return on == nil || !on.IsDry()
	})
}

// distances are those from an attack to the one before and to the next one.
type distances struct{ before, next beat.Span }

// relengthened returns the attacks with another length each, which length gets from how
// far the next attack is and how long a sound between two such distances is written at
// most. The last is as long as others between the same, if there are any.
func (v voice) relengthened(from, to beat.Span, length func(next, most beat.Span) beat.Span) []heard.Attack {
	var line []heard.Attack
	for _, a := range v.attacks {
		if a.Onset.Cmp(from) >= 0 && a.Onset.Cmp(to) < 0 {
			line = append(line, a)
		}
	}
	apart := distancesOf(line, to)
	last := line[len(line)-1].Onset
	most := map[distances]beat.Span{}
	for i, a := range line {
		if a.Onset != last && a.Length.Cmp(most[apart[i]]) > 0 {
			most[apart[i]] = a.Length
		}
	}
	for i := range line {
		if known, ok := most[apart[i]]; ok {
			line[i].Length = length(apart[i].next, known)
		}
	}
	return line
}

// distancesOf returns those of each attack, also of several at one moment; from the last
// one to the end.
func distancesOf(line []heard.Attack, end beat.Span) []distances {
	apart := make([]distances, len(line))
	for i := 1; i < len(line); i++ {
		apart[i].before = line[i].Onset.Sub(line[i-1].Onset)
		if line[i].Onset == line[i-1].Onset {
			apart[i].before = apart[i-1].before
		}
	}
	for i, next := len(line)-1, end; i >= 0; i-- {
		if i+1 < len(line) && line[i].Onset != line[i+1].Onset {
			next = line[i+1].Onset
		}
		apart[i].next = next.Sub(line[i].Onset)
	}
	return apart
}

// longest takes a sound to be as long as it is ever written there, but where no single
// sign leads to the next attack and the written one fills half of the way: there it is the
// first sign of more.
func longest(next, most beat.Span) beat.Span {
	if odd := next.Num() >> bits.TrailingZeros64(uint64(next.Num())); odd > 3 && most.Times(2).Cmp(next) >= 0 {
		return next
	}
	return most
}
