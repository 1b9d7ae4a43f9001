package midi

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tieover/score/beat"
	"tieover/score/heard"
)

// trackReading is one track while it is read.
type trackReading struct {
	*midiReading
	body   []byte
	now    int64
	status byte
	name   string
	player string         // the instrument's name
	open   [16][128][]int // indexes of sounding notes
	found  [16][]midiNote
	voice  [16]int // program from 1 with which the first note sounds; 0: none was chosen
	chosen [16]int // the program now
}

type midiNote struct {
	at, length int64
	key        uint8
	ended      bool
}

func (r *midiReading) track(body []byte, n int) ([]*heard.Part, error) {
	t := &trackReading{midiReading: r, body: body}
	for len(t.body) > 0 {
		delta, err := t.variable()
		if err != nil {
			return nil, err
		}
		if t.now += delta; t.now > maxTicks {
			return nil, fmt.Errorf("it lasts more than %d ticks", int64(maxTicks))
		}
		over, err := t.event()
		if err != nil {
			return nil, err
		}
		if over {
			break
		}
	}
	return t.parts(n), nil
}

// variable reads a variable-length quantity of at most four bytes.
func (t *trackReading) variable() (int64, error) {
	n := int64(0)
	for i := 0; i < 4; i++ {
		b, err := t.take(1)
		if err != nil {
			return 0, err
		}
		n = n<<7 | int64(b[0]&0x7F)
		if b[0] < 0x80 {
			return n, nil
		}
	}
	return 0, fmt.Errorf("a number of more than four bytes")
}

func (t *trackReading) take(n int64) ([]byte, error) {
	if n > int64(len(t.body)) {
		return nil, fmt.Errorf("it is cut off")
	}
	b := t.body[:n]
	t.body = t.body[n:]
	return b, nil
}

// event reads one event. over is true at the end of the track.
func (t *trackReading) event() (over bool, err error) {
	if len(t.body) == 0 {
		return false, fmt.Errorf("it is cut off")
	}
	if t.body[0] >= 0x80 {
		t.status = t.body[0]
		t.body = t.body[1:]
	} else if t.status < 0x80 || t.status >= 0xF0 {
		return false, fmt.Errorf("a data byte stands where an event should begin")
	}
	switch {
	case t.status == 0xFF:
		return t.meta()
	case t.status == 0xF0 || t.status == 0xF7:
		size, err := t.variable()
		if err == nil {
			_, err = t.take(size)
		}
		return false, err
	case t.status > 0xF0:
		return false, fmt.Errorf("a status byte %#x that no file may hold", t.status)
	}
	size := int64(2)
	if kind := t.status & 0xF0; kind == 0xC0 || kind == 0xD0 {
		size = 1
	}
	data, err := t.take(size)
	if err != nil {
		return false, err
	}
	for _, b := range data {
		if b >= 0x80 {
			return false, fmt.Errorf("an event is cut off by another")
		}
	}
	return false, t.channel(data)
}

func (t *trackReading) channel(data []byte) error {
	kind, channel, key := t.status&0xF0, t.status&0x0F, data[0]
	switch {
	case kind == 0xC0:
		t.chosen[channel] = int(data[0]) + 1
	case kind == 0x90 && data[1] > 0:
		if t.notes++; t.notes > maxNotes {
			return fmt.Errorf("more than %d notes", maxNotes)
		}
		if len(t.found[channel]) == 0 {
			t.voice[channel] = t.chosen[channel]
		}
		t.open[channel][key] = append(t.open[channel][key], len(t.found[channel]))
		t.found[channel] = append(t.found[channel], midiNote{at: t.now, key: key})
	case kind == 0x80 || kind == 0x90: // struck with velocity 0 is an end too
		if waiting := t.open[channel][key]; len(waiting) > 0 { // the first struck ends first
			note := &t.found[channel][waiting[0]]
			note.length, note.ended = t.now-note.at, true
			t.open[channel][key] = waiting[1:]
		}
	}
	return nil
}

func (t *trackReading) meta() (over bool, err error) {
	kind, err := t.take(1)
	if err != nil {
		return false, err
	}
	size, err := t.variable()
	if err != nil {
		return false, err
	}
	data, err := t.take(size)
	if err != nil {
		return false, err
	}
	t.status = 0 // a meta event ends running status
	switch kind[0] {
	case 0x2F:
		return true, nil
	case 0x03:
		t.name = printable(data)
	case 0x04:
		t.player = printable(data)
	case 0x58:
		if len(data) == 4 && data[0] > 0 && data[1] <= 7 {
			t.meter = append(t.meter, meterAt{t.now, int(data[0]), 1 << data[1]})
		}
	case 0x51:
		if len(data) == 3 {
			if micros := int64(data[0])<<16 | int64(data[1])<<8 | int64(data[2]); micros > 0 {
				t.tempos = append(t.tempos, heard.Tempo{At: beat.Of(t.now, t.whole), Quarters: tempoOf(micros)})
			}
		}
	}
	return false, nil
}

// printable returns a text of the file on one line, without what cannot be
// printed; bytes that are not UTF-8 are taken as Latin-1.
func printable(data []byte) string {
	text := string(data)
	if !utf8.ValidString(text) {
		runes := make([]rune, len(data))
		for i, b := range data {
			runes[i] = rune(b)
		}
		text = string(runes)
	}
	text = strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}

// tempoOf returns the quarters a minute of a quarter's microseconds: the
// tempo with the fewest decimals, at most three, that is written as these; programs round
// them or cut them off.
func tempoOf(micros int64) beat.Span {
	for _, scale := range []int64{1, 10, 100, 1000} {
		n := (60_000_000*scale + micros/2) / micros
		if n > 0 && ((60_000_000*scale+n/2)/n == micros || 60_000_000*scale/n == micros) {
			return beat.Of(n, scale)
		}
	}
	return beat.Of(60_000_000, micros)
}

// parts makes a part of each channel with notes.
func (t *trackReading) parts(n int) []*heard.Part {
	var parts []*heard.Part
	used := 0
	for _, notes := range t.found {
		if len(notes) > 0 {
			used++
		}
	}
	for channel, notes := range t.found {
		if len(notes) == 0 {
			continue
		}
		name := cmp.Or(t.name, fmt.Sprintf("Track %d", n))
		if used > 1 {
			name += fmt.Sprintf(", channel %d", channel+1)
		}
		part := &heard.Part{ID: fmt.Sprintf("%d.%d", n, channel+1), Name: name, Tick: beat.Of(1, t.whole)}
		if said := (heard.Instrument{Name: t.player, Program: t.voice[channel]}); channel != drums && said != (heard.Instrument{}) {
			part.Instruments = []heard.Instrument{said}
		}
		for _, note := range notes {
			if !note.ended {
				note.length = t.now - note.at
			}
			if note.length == 0 {
				t.empty++
				continue
			}
			tone := spelled(note.key)
			if channel == drums {
				tone = heard.Tone{MIDI: note.key + 1, Name: fmt.Sprintf("key %d", note.key)}
			}
			part.Attacks = append(part.Attacks, heard.Attack{
				Onset: beat.Of(note.at, t.whole), Length: beat.Of(note.length, t.whole), Tones: []heard.Tone{tone}, Voice: "1",
			})
		}
		slices.SortStableFunc(part.Attacks, func(a, b heard.Attack) int { return a.Onset.Cmp(b.Onset) })
		parts = append(parts, part)
	}
	return parts
}

// spelled names a key; a file of keys does not say how, so the five black ones
// take their usual names.
func spelled(key uint8) heard.Tone {
	names := [12]heard.Tone{
		{Step: 'C'}, {Step: 'C', Alter: 1}, {Step: 'D'}, {Step: 'E', Alter: -1}, {Step: 'E'}, {Step: 'F'},
		{Step: 'F', Alter: 1}, {Step: 'G'}, {Step: 'A', Alter: -1}, {Step: 'A'}, {Step: 'B', Alter: -1}, {Step: 'B'},
	}
	tone := names[key%12]
	tone.Octave = int8(key/12) - 1
	return tone
}
