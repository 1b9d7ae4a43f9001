package score

import (
	"fmt"
	"iter"
	"math/big"
	"slices"

	"tieover/score/beat"
	"tieover/score/source"
)

// Turn is a moment at which a player takes up an instrument, the first or another.
type Turn struct {
	Section int       // index into the piece's sections
	Time    beat.Time // when the instrument first sounds, in the section
	Layer   *Layer    // whose sound that is
	Before  *Layer    // who sounded before, on another instrument; nil where the player has not played
	In      int       // the section in which that was
	Over    beat.Time // when it was over, in that section
	Again   bool      // the section is played again, and begins otherwise than it ends
}

// Turns walks where a player takes up an instrument, in order. The first is that
// with which the part begins. A section that is played again, and begins with
// another instrument than it ends with, has a turn more at its end.
func (p *Piece) Turns(player Player) iter.Seq[Turn] {
	return func(yield func(Turn) bool) {
		r := p.ReadTurns(player)
		for t, ok := r.Next(); ok && yield(t); t, ok = r.Next() {
		}
	}
}

// TurnReader makes the turns of a player one by one.
type TurnReader struct {
	p       *Piece
	player  Player
	section int           // of the moments
	moments *MomentReader // of the section at hand; nil between sections
	now     Moment
	next    int  // of its attacks
	first   Turn // that sounds in the section when it is played again
	held    Turn // what sounds last on the instrument at hand, as the Before of the next
}

// ReadTurns reads the turns that Turns walks.
func (p *Piece) ReadTurns(player Player) *TurnReader { return &TurnReader{p: p, player: player} }

// Next returns the next turn; false when there is none.
func (r *TurnReader) Next() (Turn, bool) {
	for {
		for r.next < len(r.now.Attacks) {
			if t, turns := r.attack(); turns {
				return t, true
			}
		}
		switch {
		case r.moments != nil:
			more := false
			if r.now, more = r.moments.Next(); more {
				r.next = 0
			} else if t, again := r.end(); again {
				return t, true
			}
		case r.section == len(r.p.Sections):
			return Turn{}, false
		case len(r.player.Layers[r.section]) == 0:
			r.section++
		default:
			r.moments, r.first = r.p.Sections[r.section].ReadMoments(r.player.Layers[r.section]), Turn{}
		}
	}
}

// attack takes the next attack, and reports whether it is a turn.
func (r *TurnReader) attack() (t Turn, turns bool) {
	l, a := r.p.Sections[r.section].Layers[r.now.Layers[r.next]], r.now.Attacks[r.next]
	r.next++
	t = Turn{r.section, r.now.Time, l, r.held.Before, r.held.In, r.held.Over, false}
	if r.first.Layer == nil && (t.Time >= 0 || r.p.Sections[r.section].End != Repeat) { // a repeat leaves the pickup out
		r.first = t
	}
	turns = t.Before == nil || t.Before.Instrument != l.Instrument
	if over := t.Time + a.Length; turns || r.section != r.held.In || over >= r.held.Over {
		r.held = Turn{Before: l, In: r.section, Over: over}
	}
	return t, turns
}

// end closes the section, and reports whether it is played again from another
// instrument.
func (r *TurnReader) end() (t Turn, again bool) {
	s := r.p.Sections[r.section]
	r.moments, r.section = nil, r.section+1
	t = r.first
	t.Before, t.In, t.Over, t.Again = r.held.Before, r.held.In, r.held.Over, true
	return t, s.End == Repeat && t.Layer != nil && t.Layer.Instrument != t.Before.Instrument
}

// Doubles reports whether the player has more than one instrument.
func (p Player) Doubles() bool { return len(p.Instruments) > 1 }

// leastChange is how many seconds a player needs to change instruments. Common
// practice.
const leastChange = 3

// doublings refuses players who would hold two instruments at once, or change them
// inside a bar, and warns of those who have little time to change: each pair of
// layers once.
func (p *Piece) doublings() (problems source.Problems) {
	for _, player := range p.Players() {
		if !player.Doubles() {
			continue
		}
		refused, warned := map[[2]*Layer]bool{}, map[[2]*Layer]bool{}
		for t := range p.Turns(player) {
			if t.Before == nil {
				continue
			}
			pair, back := [2]*Layer{t.Before, t.Layer}, [2]*Layer{t.Layer, t.Before}
			before, after := t.Before.Name, t.Layer.Name
			bar := p.Sections[t.Section].BarAt(t.Time)
			refuse := func(why, hint string) {
				refused[pair] = true
				problems.Add(t.Layer.Pos, fmt.Sprintf("%s and %s of player %q "+why, before, after, player.Name, bar.Number), hint)
			}
			switch {
			case refused[pair] || refused[back]:
			case t.overlaps(t.Time):
				refuse("sound together in bar %d; a player holds one instrument",
					"let one leave before the other enters, or give them two players")
			case t.overlaps(bar.Start):
				refuse("both sound in bar %d; a player changes instruments at a barline",
					fmt.Sprintf("let %s leave at bar %d, or %s enter at bar %d", before, bar.Number, after, bar.Number+1))
			case warned[pair]:
			default:
				left := p.toChange(t)
				if left.Cmp(big.NewRat(leastChange, 1)) >= 0 {
					continue
				}
				warned[pair] = true
				when := fmt.Sprintf("before bar %d", bar.Number)
				if t.Again {
					when = "when the section is repeated"
				}
				p.Warnings.Add(t.Layer.Pos, fmt.Sprintf("%s has %s s to change to %s %s", player.Name, decimal(left), t.Layer.Instrument.InWords(), when),
					fmt.Sprintf("let %s leave earlier, or %s enter later", before, after))
			}
		}
	}
	return problems
}

// overlaps reports whether the instrument before still sounds after a moment of the
// section in which the other is taken up.
func (t *Turn) overlaps(at beat.Time) bool { return t.In == t.Section && !t.Again && t.Over > at }

// toChange returns the seconds between the last sound on one instrument and the
// first on the next.
func (p *Piece) toChange(t Turn) *big.Rat {
	left := p.Sections[t.Section].Seconds(t.Time)
	if t.In == t.Section && !t.Again {
		return left.Sub(left, p.Sections[t.In].Seconds(t.Over))
	}
	between := p.Sections[t.In].rest(t.Over)
	if t.Again { // from bar 1 on
		left.Sub(left, p.Sections[t.Section].Seconds(0))
	} else {
		for _, s := range p.Sections[t.In+1 : t.Section] {
			once := s.Seconds(s.Extent())
			between.Add(between, once.Mul(once, big.NewRat(int64(s.Played()), 1)))
		}
	}
	return left.Add(left, between)
}

// rest returns how many seconds it is from a moment to the section's end.
func (s *Section) rest(from beat.Time) *big.Rat {
	end := s.Seconds(s.Extent())
	return end.Sub(end, s.Seconds(from))
}

// decimal writes seconds with one decimal, cut off: "1.5", and "0" for none.
func decimal(r *big.Rat) string {
	tenths := new(big.Int).Quo(new(big.Int).Mul(r.Num(), big.NewInt(10)), r.Denom()).Int64()
	if tenths%10 == 0 {
		return fmt.Sprint(tenths / 10)
	}
	return fmt.Sprintf("%d.%d", tenths/10, tenths%10)
}

// takes adds an instrument to those of the player.
func (p *Player) takes(l *Layer) {
	if !slices.Contains(p.Instruments, l.Instrument) {
		p.Instruments = append(p.Instruments, l.Instrument)
	}
}
