package find

import (
	"errors"
	"fmt"
	"slices"

	"tieover/score/beat"
	"tieover/score/find/align"
	"tieover/score/heard"
)

// Item is one value of a rhythm: a sounding length or a silence, in pulses.
type Item struct {
	Size  int64
	Blank bool
}

// Hit is one attack, in pulses from the start of the list.
type Hit struct {
	At, Length int64
	Chord      int // index into List.Chords
	Accent     bool
}

// List is the attacks of one line. Attacks do not overlap: a sound that goes
// on under the next one is taken to end there.
type List struct {
	Pulse  beat.Pulse
	Hits   []Hit
	End    int64          // when the last sound ends, in pulses
	Chords [][]heard.Tone // different chords, in order of appearance; one bare chord for a mere rhythm
	Joined bool           // some sound was shortened because the next begins under it

	tapped *align.Result // the reading of the taps that it was made from; nil without taps
}

// hasOpenEnd reports whether the last attack has one pulse only because its length is not
// known. That must not cost bits: a size found nowhere else would make every value dearer.
func (l *List) hasOpenEnd() bool { return l.tapped != nil && len(l.tapped.Readings) == 0 }

// maxAttacks bounds a list, so that a search takes seconds at most.
const maxAttacks = 200_000

// maxPulses bounds the time of a list in pulses.
const maxPulses = 1 << 40

// FromDurations makes a list of sounding lengths and silences in pulses.
func FromDurations(items []Item, pulse beat.Pulse) (*List, error) {
	l := &List{Pulse: pulse, Chords: [][]heard.Tone{{{}}}}
	now := int64(0)
	for i, item := range items {
		if item.Size < 1 || item.Size > 1<<20 {
			return nil, fmt.Errorf("duration %d is %d; each must be from 1 to %d pulses", i+1, item.Size, 1<<20)
		}
		if !item.Blank {
			l.Hits = append(l.Hits, Hit{At: now, Length: item.Size})
			l.End = now + item.Size
		}
		now += item.Size
	}
	return l, l.check()
}

// FromAttacks makes a list of the attacks from one moment of the piece until another.
// They are in order of onset. Its pulse is CommonPulse of onsets and lengths; the error says
// which of these have none, that nothing sounds, or that the list is too long.
func FromAttacks(attacks []heard.Attack, from, to beat.Span) (*List, error) {
	merged, joined := oneLine(attacks, from, to)
	if len(merged) == 0 {
		return nil, fmt.Errorf("nothing sounds there")
	}
	spans := make([]beat.Span, 2*len(merged))
	onsets, lengths := spans[:len(merged)], spans[len(merged):]
	for i, a := range merged {
		onsets[i], lengths[i] = a.Onset.Sub(from), a.Length
	}
	pulse, err := CommonPulse(spans)
	if err != nil {
		if _, notAtOnsets := CommonPulse(onsets); notAtOnsets != nil {
			return nil, fmt.Errorf("the attacks have %w", err)
		}
		return nil, fmt.Errorf("the lengths of the attacks have %w", err)
	}
	l := &List{Pulse: pulse, Joined: joined}
	known := map[string]int{}
	for _, a := range merged {
		at, _ := a.Onset.Sub(from).Over(pulse.Span()).IsWhole()
		length, _ := a.Length.Over(pulse.Span()).IsWhole()
		chord := l.chord(distinctTones(a.Tones), known)
		l.Hits = append(l.Hits, Hit{At: at, Length: length, Chord: chord, Accent: a.Accent})
		l.End = at + length
	}
	return l, l.check()
}

// chord returns the index of a chord, which is added to the list's if it is not known.
func (l *List) chord(tones []heard.Tone, known map[string]int) int {
	name := chordText(tones)
	i, seen := known[name]
	if !seen {
		i = len(l.Chords)
		known[name] = i
		l.Chords = append(l.Chords, tones)
	}
	return i
}

func chordText(tones []heard.Tone) string { return heard.Attack{Tones: tones}.Names() }

// distinctTones returns the tones, a unison of two voices once.
func distinctTones(tones []heard.Tone) []heard.Tone {
	if len(tones) < 2 {
		return tones
	}
	var once []heard.Tone
	for _, t := range tones {
		if !slices.Contains(once, t) {
			once = append(once, t)
		}
	}
	return once
}

// oneLine joins attacks that begin together into chords and ends each where
// the next begins. The attacks are in order of onset.
func oneLine(attacks []heard.Attack, from, to beat.Span) (line []heard.Attack, joined bool) {
	for _, a := range attacks {
		if a.Onset.Cmp(from) < 0 || a.Onset.Cmp(to) >= 0 {
			continue
		}
		if end := a.Onset.Add(a.Length); end.Cmp(to) > 0 {
			a.Length = to.Sub(a.Onset)
		}
		n := len(line)
		if n > 0 && line[n-1].Onset == a.Onset {
			last := &line[n-1]
			joined = joined || last.Length != a.Length
			if a.Length.Cmp(last.Length) > 0 {
				last.Length = a.Length
			}
			last.Tones = append(append([]heard.Tone{}, last.Tones...), a.Tones...)
			last.Accent = last.Accent || a.Accent
			continue
		}
		if n > 0 {
			if room := a.Onset.Sub(line[n-1].Onset); line[n-1].Length.Cmp(room) > 0 {
				line[n-1].Length, joined = room, true
			}
		}
		line = append(line, a)
	}
	return line, joined
}

// commonMeasure returns the greatest length of which both are multiples; zero is a
// multiple of all.
func commonMeasure(a, b beat.Span) beat.Span {
	if a.Sign() == 0 {
		return b
	}
	if b.Sign() == 0 {
		return a
	}
	den, ok := beat.LCM(a.Den(), b.Den())
	if !ok || den > 1<<20 {
		return beat.Of(1, 1<<20) // refused when the pulse is named
	}
	return beat.Of(beat.GCD(a.Num()*(den/a.Den()), b.Num()*(den/b.Den())), den)
}

// ErrNoPulse is in the error of what no note value counts.
var ErrNoPulse = errors.New("no common pulse")

// CommonPulse returns the longest pulse in which all spans are whole, at least one of
// which is not zero: 1/2^k of a whole note, in a tuplet if it must be. 3/8 and 3/4 have
// the pulse 1/8. The error is ErrNoPulse.
func CommonPulse(spans []beat.Span) (beat.Pulse, error) {
	unit := beat.Span{}
	for _, s := range spans {
		unit = commonMeasure(unit, s)
	}
	odd, power := unit.Den(), int64(1)
	for odd%2 == 0 {
		odd, power = odd/2, power*2
	}
	if odd == 1 && power <= 128 {
		return beat.Plain(beat.Of(1, power)), nil
	}
	normal := int64(1)
	for normal*2 < odd {
		normal *= 2
	}
	base := beat.Of(odd, unit.Den()*normal)
	if odd > 16 || base.Den() > 128 {
		return beat.Pulse{}, fmt.Errorf("%w: 1/%d of a whole note would be needed", ErrNoPulse, unit.Den())
	}
	return beat.Pulse{Base: base, Actual: int(odd), Normal: int(normal)}, nil
}

func (l *List) check() error {
	switch {
	case len(l.Hits) == 0:
		return fmt.Errorf("nothing sounds in the list")
	case len(l.Hits) > maxAttacks:
		return fmt.Errorf("the list has %d attacks; at most %d are searched", len(l.Hits), maxAttacks)
	case l.End > maxPulses:
		return fmt.Errorf("the list is %d pulses long; at most %d are searched", l.End, int64(maxPulses))
	}
	return nil
}

// Items returns the list as sounding lengths and silences without a gap, from
// its start to the end of its last sound.
func (l *List) Items() []Item { return itemsBetween(l.Hits, 0, l.End, false) }

// gaps returns the list from attack to attack, as if every sound were held;
// the last lasts as long as it sounds. A silence before the first attack stays.
func (l *List) gaps() []Item { return itemsBetween(l.Hits, 0, l.End, true) }

// itemsBetween returns hits as sounds and silences from one moment until another; held is
// whether each lasts until the next. Without hits there are none.
func itemsBetween(hits []Hit, from, until int64, held bool) []Item {
	if len(hits) == 0 {
		return nil
	}
	items := make([]Item, 0, len(hits)+1)
	if hits[0].At > from {
		items = append(items, Item{hits[0].At - from, true})
	}
	for i, h := range hits {
		next := until
		if i+1 < len(hits) {
			next = hits[i+1].At
		}
		size := next - h.At
		if !held {
			size = min(h.Length, size)
		}
		items = append(items, Item{Size: size})
		if silent := next - h.At - size; silent > 0 {
			items = append(items, Item{silent, true})
		}
	}
	return items
}

// isShort reports whether every attack lasts one pulse although some are
// farther apart.
func (l *List) isShort() bool {
	apart := false
	for i, h := range l.Hits {
		if h.Length != 1 {
			return false
		}
		apart = apart || i+1 < len(l.Hits) && l.Hits[i+1].At > h.At+1
	}
	return apart
}

// groupsByAccent returns the list from accent to accent if every pulse is
// struck and the accents mark groups; nil if not.
func (l *List) groupsByAccent() []Item {
	if !l.Hits[0].Accent || l.Hits[0].At != 0 {
		return nil
	}
	var items []Item
	plain := false
	for i, h := range l.Hits {
		if h.Length != 1 || i > 0 && h.At != l.Hits[i-1].At+1 {
			return nil
		}
		if h.Accent {
			items = append(items, Item{Size: 1})
		} else {
			items[len(items)-1].Size++
			plain = true
		}
	}
	if !plain {
		return nil
	}
	return items
}
