package musicxml

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
)

// readForm is what a bar says about the order in which bars are played.
type readForm struct {
	forward  bool // a repeat begins
	backward bool // a repeat ends
	times    int  // how often the repeat is played; 0 when not said

	ending     []int // times through at which the bar is played; nil: always
	endingOver bool  // the ending's last bar

	segno, coda, toCoda string // their names; "" when absent
	dalSegno            string
	daCapo, fine        bool
}

// direction reads marks, tempos and jumps.
func (b *barReading) direction(e *element) error {
	at, err := b.moment(e)
	if err != nil {
		return err
	}
	for _, kind := range e.kids {
		if kind.name != "direction-type" {
			continue
		}
		for _, sign := range kind.kids {
			if sign.name == "rehearsal" || sign.name == "words" {
				b.words(at, sign.text)
			}
			if sign.name == "metronome" {
				b.tempo(metronome(sign, at), false)
			}
		}
	}
	if sound := e.kid("sound"); sound != nil {
		return b.soundAt(sound, at)
	}
	return nil
}

// moment returns when a sign takes effect: now, moved by its offset.
func (b *barReading) moment(e *element) (int64, error) {
	offset := e.kid("offset")
	if offset == nil {
		return b.now, nil
	}
	top, bottom, ok := decimal(offset.text)
	if !ok {
		return 0, failed(offset.line, "the offset %q is not a number", offset.text)
	}
	ticks, err := b.ticks(top, bottom, offset.line)
	return max(0, b.now+ticks), err // on the grid that the ticks may have made finer
}

// words keeps a text as a mark, in a box or not: programs that save a score
// again may drop the box.
func (b *barReading) words(at int64, text string) {
	if text != "" && len(b.bar.marks) < 100 {
		b.bar.marks = append(b.bar.marks, readMark{at, text})
	}
	b.bar.heading = b.bar.heading || at == 0 && isHeading(text)
}

// metronome returns the tempo of a plain mark, zero for an equation or a text.
func metronome(e *element, at int64) readTempo {
	values := map[string]beat.Span{
		"whole": beat.Of(1, 1), "half": beat.Of(1, 2), "quarter": beat.Of(1, 4), "eighth": beat.Of(1, 8), "16th": beat.Of(1, 16),
	}
	value, ok := values[e.kidText("beat-unit")]
	top, bottom, number := decimal(e.kidText("per-minute"))
	if !ok || !number || top <= 0 {
		return readTempo{at: at}
	}
	add := value
	for _, k := range e.kids {
		if k.name == "beat-unit-dot" && add.Den() < 256 {
			add = add.Mul(beat.Of(1, 2))
			value = value.Add(add)
		}
	}
	return readTempo{at, beat.Of(top, bottom).Mul(value.Times(4)), value}
}

// tempo keeps a tempo; of two at one moment that which is played, else the first. What a
// mark counts stays where the other one is as fast.
func (b *barReading) tempo(t readTempo, played bool) {
	if t.quarters.Sign() <= 0 {
		return
	}
	i := slices.IndexFunc(b.bar.tempos, func(other readTempo) bool { return other.at == t.at })
	switch {
	case i < 0 && len(b.bar.tempos) < 1000:
		b.bar.tempos = append(b.bar.tempos, t)
	case i >= 0 && b.bar.tempos[i].quarters == t.quarters:
		b.bar.tempos[i].counts = cmp.Or(b.bar.tempos[i].counts, t.counts)
	case i >= 0 && played:
		b.bar.tempos[i] = t
	}
}

// fourPlaces cuts a decimal after its fourth place: a tempo that is a third of
// something is written with any number of them.
func fourPlaces(text string) string {
	point := strings.IndexByte(text, '.')
	if point < 0 || len(text) <= point+5 || strings.Trim(text[point+5:], "0123456789") != "" {
		return text
	}
	return text[:point+5]
}

// sound reads a <sound> that is no part of a direction.
func (b *barReading) sound(e *element) error {
	at, err := b.moment(e)
	if err != nil {
		return err
	}
	return b.soundAt(e, at)
}

// soundAt reads the playback side of a direction: tempo and jumps.
func (b *barReading) soundAt(e *element, at int64) error {
	if text := e.get("tempo"); text != "" {
		top, bottom, ok := decimal(fourPlaces(text))
		if !ok || top < 0 {
			return failed(e.line, "the tempo %q is not a number", text)
		}
		if top > 0 {
			b.tempo(readTempo{at: at, quarters: beat.Of(top, bottom)}, true) // the sound is exact, the mark is for the eye
		}
	}
	form := &b.bar.form
	for name, to := range map[string]*string{"segno": &form.segno, "coda": &form.coda, "tocoda": &form.toCoda, "dalsegno": &form.dalSegno} {
		if text := e.get(name); text != "" {
			*to = text
		}
	}
	form.daCapo = form.daCapo || e.get("dacapo") == "yes"
	form.fine = form.fine || e.get("fine") != ""
	return nil
}

// barline reads repeats and endings.
func (b *barReading) barline(e *element) error {
	form := &b.bar.form
	b.bar.over = b.bar.over || e.kidText("bar-style") == "light-heavy"
	if repeat := e.kid("repeat"); repeat != nil {
		switch repeat.get("direction") {
		case "forward":
			form.forward = true
		case "backward":
			form.backward = true
			if text := repeat.get("times"); text != "" {
				times, ok := wholeNumber(text)
				if !ok || times < 1 {
					return failed(repeat.line, "a repeat is to be played %q times", text)
				}
				form.times = int(min(times, maxBars))
			}
		}
	}
	ending := e.kid("ending")
	if ending == nil {
		return nil
	}
	numbers, ok := endingNumbers(ending.get("number"))
	if !ok {
		return failed(ending.line, "the ending %q is not a list of numbers", ending.get("number"))
	}
	switch ending.get("type") {
	case "start":
		b.part.state.ending = numbers
	case "stop", "discontinue":
		form.endingOver = true
	}
	return nil
}

// endingNumbers reads "1", "1,2", "1, 2" and "1-3".
func endingNumbers(text string) (numbers []int, ok bool) {
	for _, item := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' || r == '.' }) {
		low, high, ranged := strings.Cut(item, "-")
		if !ranged {
			high = low
		}
		from, err := strconv.Atoi(low)
		to, err2 := strconv.Atoi(high)
		if err != nil || err2 != nil || from < 1 || to < from || to > 100 {
			return nil, false
		}
		for n := from; n <= to && len(numbers) < 100; n++ {
			numbers = append(numbers, n)
		}
	}
	return numbers, len(numbers) > 0
}
