package found

import (
	"fmt"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// partOf is a part of quarters, one after the other, in bars of 2/4.
func partOf(name string, tones ...heard.Tone) *heard.Part {
	p := &heard.Part{Name: name, Clef: "G2"}
	for i, tone := range tones {
		at := beat.Of(int64(i), 4)
		p.Attacks = append(p.Attacks, heard.Attack{Onset: at, Length: beat.Of(1, 4), Tones: []heard.Tone{tone}, Voice: "1"})
		if i%2 == 0 {
			p.Bars = append(p.Bars, heard.Bar{Number: strconv.Itoa(i/2 + 1), Pass: 1, Start: at, Length: beat.Of(1, 2),
				Beats: []beat.Span{beat.Of(1, 4), beat.Of(1, 4)}, Meter: "2/4"})
		}
	}
	return p
}

func pitch(step byte, octave int8) heard.Tone { return heard.Tone{Step: step, Octave: octave} }

func drum(name string, key uint8) heard.Tone { return heard.Tone{Name: name, MIDI: key + 1} }

func repeated(n int, tones ...heard.Tone) (all []heard.Tone) {
	for range n {
		all = append(all, tones...)
	}
	return all
}

func TestReadSelectsBarsAndVoices(t *testing.T) {
	part := partOf("Gate", repeated(4, pitch('A', 4), pitch('B', 4))...) // four bars
	part.Attacks[5].Voice, part.Attacks[7].Voice = "2", "2"
	score := &heard.Score{Parts: []*heard.Part{part}}
	read := func(s Selection) (Music, []error) { return s.Read(score, score.Parts) }

	m, wrong := read(Selection{})
	require.Empty(t, wrong)
	require.Len(t, m.Lines, 1)
	assert.Equal(t, "Found", m.Plan.Title)
	assert.Len(t, m.Lines[0].List.Hits, 8)

	m, _ = read(Selection{From: 2, To: 3})
	assert.Len(t, m.Lines[0].List.Hits, 4)
	assert.Equal(t, []beat.Span{beat.Of(1, 2), beat.Of(3, 2)}, []beat.Span{m.Lines[0].From, m.Lines[0].To})
	assert.Equal(t, "bar 3 beat 1", m.Lines[0].Where(2), "the pulse is a quarter")

	m, _ = read(Selection{Divide: true})
	require.Len(t, m.Lines, 2)
	assert.Equal(t, []string{"Gate, voice 1", "Gate, voice 2"}, []string{m.Lines[0].Name, m.Lines[1].Name})
	assert.Equal(t, "Gate", m.Lines[1].Player)
	assert.Len(t, m.Lines[1].List.Hits, 2)

	m, _ = read(Selection{Voice: "2"})
	assert.Equal(t, "Gate, voice 2", m.Lines[0].Name)
	m, wrong = read(Selection{Voice: "3"})
	assert.Empty(t, m.Lines)
	require.Len(t, wrong, 1)
	assert.ErrorContains(t, wrong[0], "Gate, voice 3: ")

	for want, s := range map[string]Selection{
		"Gate: it has no bars 9":   {From: 9, To: 9},
		"Gate: it has no bars 9-":  {From: 9},
		"Gate: it has no bars 7-9": {From: 7, To: 9},
	} {
		_, wrong := read(s)
		require.Len(t, wrong, 1)
		assert.EqualError(t, wrong[0], want)
	}
}

// A spec has three decimals of a tempo, and one tempo at the start.
func TestReadTakesTheTempo(t *testing.T) {
	first, second := partOf("Gate", pitch('A', 4), pitch('B', 4)), partOf("Lock", pitch('A', 4), pitch('B', 4))
	second.Tempos = []heard.Tempo{{Quarters: beat.Of(400, 3)}, {At: beat.Of(1, 4), Quarters: beat.Of(90, 1)}}
	score := &heard.Score{Title: "Low\nwater", Parts: []*heard.Part{first, second}, Remarks: []heard.Remark{}}
	m, wrong := Selection{}.Read(score, score.Parts)
	require.Empty(t, wrong)
	assert.Equal(t, "Low water", m.Plan.Title)
	assert.Equal(t, "133.333", m.Plan.Tempo)
	assert.Equal(t, []string{"the tempo changes; only the first is taken over", "the tempo 133.333333 is written as 133.333"}, m.Notes)

	first.Tempos = []heard.Tempo{{Quarters: beat.Of(1921, 16)}} // 120.0625
	m, _ = Selection{}.Read(score, score.Parts)
	assert.Equal(t, "120.063", m.Plan.Tempo, "half is rounded up")
	assert.Equal(t, []string{"the tempo 120.0625 is written as 120.063"}, m.Notes)

	for want, mark := range map[string]heard.Tempo{ // 90 quarters a minute are 60 dotted ones and 180 eighths
		"dotted quarter = 60": {Quarters: beat.Of(90, 1), Beat: beat.Of(3, 8)},
		"eighth = 180":        {Quarters: beat.Of(90, 1), Beat: beat.Of(1, 8)},
		"90":                  {Quarters: beat.Of(90, 1), Beat: beat.Of(1, 4)},
	} {
		first.Tempos = []heard.Tempo{mark}
		m, _ = Selection{}.Read(score, score.Parts)
		assert.Equal(t, want, m.Plan.Tempo)
		assert.Empty(t, m.Notes)
	}
}

func TestTakeMeters(t *testing.T) {
	part := partOf("Gate", repeated(3, pitch('A', 4), pitch('B', 4))...)
	m, _ := Selection{From: 2}.Read(&heard.Score{}, []*heard.Part{part})
	m.TakeMeters()
	assert.Equal(t, "2/4", m.Plan.Meter)
	assert.Equal(t, beat.Of(1, 2), m.Plan.Bar)
	part.Bars[2].Meter, part.Bars[2].Length = "", beat.Of(1, 3)
	m.TakeMeters()
	assert.Contains(t, m.Notes[0], "the bars are not taken over: bar 3 lasts 1/3")
}

// Which instrument is taken, and what is said of it. Ranges and keys are
// common practice: a flute goes down to C4, General MIDI's program 12 is the
// vibraphone, 72 a clarinet, 59 a tuba, 33 and 34 basses, 66 the alto saxophone, and its percussion keys 38 and 37 are snare and side stick, 75 the
// claves.
func TestLayersChooseInstruments(t *testing.T) {
	high, low := repeated(4, pitch('C', 5), pitch('G', 5)), repeated(4, pitch('E', 2), pitch('A', 2))
	said := func(p *heard.Part, all ...heard.Instrument) *heard.Part { p.Instruments = all; return p }
	clef := func(p *heard.Part, sign string) *heard.Part { p.Clef = sign; return p }
	for _, c := range []struct {
		part *heard.Part
		want string
		note string
		bare bool
	}{
		{part: partOf("Marimba II", high...), want: "marimba"},
		{part: partOf("Gate", high...), want: "piano", note: "Gate: the file does not say which instrument it is; piano is a guess"},
		{part: said(partOf("Gate", high...), heard.Instrument{Name: "Vibraphone"}), want: "vibraphone"},
		{part: said(partOf("Gate", high...), heard.Instrument{Name: "Tin", Program: 12}), want: "vibraphone", note: "Gate: taken for vibraphone, by its MIDI program 12"},
		{part: said(partOf("Gate", high...), heard.Instrument{Program: 72}), want: "clarinet", note: "Gate: taken for clarinet, by its MIDI program 72"},
		{part: said(partOf("Gate", repeated(4, pitch('C', 3), pitch('G', 3))...), heard.Instrument{Program: 72}), want: "bass clarinet", note: "Gate: taken for bass clarinet, by its MIDI program 72"},
		{part: said(partOf("Gate", repeated(4, pitch('C', 3), pitch('G', 3))...), heard.Instrument{Program: 59}), want: "tuba", note: "Gate: taken for tuba, by its MIDI program 59"},
		{part: said(partOf("Gate", repeated(4, pitch('C', 3), pitch('C', 5))...), heard.Instrument{Program: 59}), want: "euphonium", note: "Gate: taken for euphonium, by its MIDI program 59"},
		{part: partOf("Flute", repeated(4, pitch('C', 2), pitch('G', 2))...), want: "piano", note: "Flute: has notes outside the range of flute; written for piano"},
		{part: clef(partOf("Gate", repeated(4, pitch('C', 3), pitch('G', 3))...), "C4"), want: "cello", note: "Gate: the file does not say which instrument it is; cello is a guess"},
		{part: clef(partOf("Gate", repeated(4, pitch('C', 4), pitch('G', 4))...), "C3"), want: "viola", note: "Gate: the file does not say which instrument it is; viola is a guess"},
		{part: partOf("Voice 2", repeated(4, pitch('C', 4), pitch('G', 4))...), want: "alto", note: "Voice 2: taken for alto, the voice in whose range it lies"},
		{part: partOf("Bass", low...), want: "bass"},
		{part: said(partOf("Bass", low...), heard.Instrument{Name: "Bass", Sound: "voice.bass", Program: 53}), want: "bass"},
		{part: said(partOf("Bass", low...), heard.Instrument{Program: 1}), want: "bass"},
		{part: said(partOf("Bass", low...), heard.Instrument{Program: 34}), want: "bass guitar", note: "Bass: taken for bass guitar, by its MIDI program 34"},
		{part: said(partOf("Bass", low...), heard.Instrument{Name: "Bass", Sound: "strings.contrabass", Program: 34}), want: "double bass"},
		{part: said(partOf("Bass", repeated(4, pitch('C', 4), pitch('G', 4))...), heard.Instrument{Program: 33}), want: "double bass", note: "Bass: taken for double bass, by its MIDI program 33"},
		{part: partOf("Bass", repeated(4, pitch('E', 1), pitch('G', 1))...), want: "bass guitar", note: "Bass: has notes outside the range of the voice bass; bass guitar is a guess"},
		{part: said(partOf("Alto", repeated(4, pitch('C', 4), pitch('G', 4))...), heard.Instrument{Program: 66}), want: "alto saxophone", note: "Alto: taken for alto saxophone, by its MIDI program 66"},
		{part: partOf("Gate", repeated(4, drum("", 38), drum("", 37))...), want: "snare drum"},
		{part: partOf("Gate", repeated(4, drum("claves", 75), drum("claves", 75))...), want: "claves", bare: true},
		{part: partOf("Claves", repeated(4, heard.Tone{}, heard.Tone{})...), want: "claves", bare: true},
		{part: partOf("Gate", repeated(4, heard.Tone{}, heard.Tone{})...)},
		{part: partOf("Gate", repeated(4, drum("", 38), pitch('A', 4))...), note: "Gate: has pitches and other sounds, which no one instrument has; written as a rhythm"},
		{part: partOf("Gate", repeated(4, drum("", 38), drum("", 75))...), note: "Gate: no instrument has all its sounds; written as a rhythm"},
	} {
		m, wrong := Selection{}.Read(&heard.Score{}, []*heard.Part{c.part})
		require.Empty(t, wrong)
		layers, notes := Layers(searched(m).Lines)
		assert.Equal(t, c.want, layers[0].Instrument, c.part.Name)
		assert.Equal(t, c.bare, layers[0].Bare, c.part.Name)
		if c.note == "" {
			assert.Empty(t, notes)
			continue
		}
		assert.Equal(t, []string{c.note}, notes)
	}
}

func searched(m Music) Music {
	for i, line := range m.Lines {
		m.Lines[i].Ranked = find.Search(line.List, find.Options{})
	}
	return m
}

// The text is read again before it is returned, so the words in it are enough
// here: two quarters by turns on claves and flute.
func TestSpec(t *testing.T) {
	parts := []*heard.Part{partOf("Claves", repeated(4, drum("", 75), drum("", 75))...), partOf("Gate", repeated(4, pitch('C', 5), pitch('G', 5))...)}
	m, _ := Selection{}.Read(&heard.Score{Title: "Low Water"}, parts)
	m.TakeMeters()
	text, notes, err := searched(m).Spec()
	require.NoError(t, err)
	assert.Equal(t, []string{"Gate: the file does not say which instrument it is; piano is a guess"}, notes)
	for _, want := range []string{
		"# Gate: the file does not say which instrument it is; piano is a guess\n", "# Claves: ",
		"title: Low Water\nmeter: 2/4\npulse: 1/4\nlength: 4 bars\n",
		"  - name: Claves\n    instrument: claves\n", "  - name: Gate\n    instrument: piano\n", "pitches: C5 G5\n",
	} {
		assert.Contains(t, text, want)
	}
}

func TestSpecSaysWhatItCannotHold(t *testing.T) {
	var many []*heard.Part
	for i := range 65 {
		many = append(many, partOf(fmt.Sprintf("Gate %d", i+1), pitch('C', 5), pitch('D', 5)))
	}
	m, _ := Selection{}.Read(&heard.Score{}, many)
	_, _, err := searched(m).Spec()
	assert.ErrorIs(t, err, ErrTooManyLayers)
	assert.EqualError(t, err, "65 parts and voices; a spec holds 64")

	cluster := partOf("Gate", pitch('C', 3), pitch('C', 3))
	for i := range 17 {
		cluster.Attacks[1].Tones = append(cluster.Attacks[1].Tones[:i], pitch("CDEFGAB"[i%7], int8(3+i/7)))
	}
	m, _ = Selection{}.Read(&heard.Score{}, []*heard.Part{cluster})
	_, _, err = searched(m).Spec()
	assert.EqualError(t, err, "Gate, bar 1 beat 2: a chord of 17 notes; a spec holds 16, so divide it among several parts or voices")
}
