package layout

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/edit"
	"tieover/layout/sheet"
)

// A reed player has a flute in bars 1 to 4 and an alto saxophone, which sounds a
// major sixth lower than written, from bar 9 on.
const reed = `title: Weir
meter: 4/4
length: 10 bars
key: C major
tempo: 60
layers:
  - {name: Flute, player: Reed 1, instrument: flute, groups: 4+4, pitches: C5, leaves: bar 5}
  - {name: Alto, player: Reed 1, instrument: alto saxophone, groups: 4+4, pitches: E4, enters: bar 9}
  - {name: Bell, instrument: vibraphone, groups: 8, pitches: C5}
`

// shown writes a part bar by bar: key, clef and instrument where they are new, the
// first voice, and the words of instruments.
func shown(p *sheet.Part) (all []string) {
	for b := range p.Bars() {
		var text strings.Builder
		if b.NewKey && !b.Measure.Key.None {
			text.WriteString(strings.Repeat("#", max(0, b.Measure.Key.Fifths)) + strings.Repeat("b", max(0, -b.Measure.Key.Fifths)) + "key ")
		}
		if b.NewInstrument {
			text.WriteString("new ")
		}
		if b.NewClef {
			text.WriteString(string(rune(p.ClefIn(b.Measure, 1).Sign)) + "clef ")
		}
		text.WriteString(sheet.VoiceText(&b.Measure.Voices[0], true))
		for _, m := range b.Marks {
			if m.Kind == sheet.InstrumentMark {
				text.WriteString(" [" + m.Text + "]")
			}
		}
		if b.Rest > 0 {
			text.WriteString(strings.Repeat(".", b.Rest))
		}
		all = append(all, text.String())
	}
	return all
}

// The part reads C major with the flute and A major, 3 sharps, with the alto; E4
// is written C#5 and needs no sign. There is one voice, its stems free.
func TestDoubling(t *testing.T) {
	flute := []string{"key new h:C5 h:C5 [Flute]", "h:C5 h:C5", "h:C5 h:C5", "h:C5 h:C5"}
	rests := []string{"rbar [to Alto Sax.]", "rbar", "rbar", "rbar"}
	alto := []string{"###key new h:C#5 h:C#5 [Alto Sax.]", "h:C#5 h:C#5"}
	all := append(append(append([]string{}, flute...), rests...), alto...)
	laid := laid(t, Options{Marks: MarkNone}, reed)
	require.Len(t, laid.Parts, 2)
	part := &laid.Parts[0]
	assert.Equal(t, all, shown(part))
	for b := range part.Bars() {
		require.Len(t, b.Measure.Voices, 1)
		assert.Equal(t, sheet.StemFree, b.Measure.Voices[0].Stem)
	}
	assert.Equal(t, []string{"Flute", "Alto"}, part.Layers)
	assert.Equal(t, "Flute, Alto Saxophone in E♭", part.Plays())
	assert.NoError(t, sheet.Check(laid, part))

	alone, problems := LayPart(read(t, reed), Options{Marks: MarkNone}, 0)
	require.NoError(t, problems.Err())
	all[4] += "...." // gathered
	assert.Equal(t, all, shown(&alone.Parts[0]))
}

// At concert pitch only the words change.
func TestDoublingAtConcertPitch(t *testing.T) {
	laid := laid(t, Options{Concert: true, Marks: MarkNone}, reed)
	assert.Equal(t, []string{"new h:E4 h:E4 [Alto Sax.]", "h:E4 h:E4"}, shown(&laid.Parts[0])[8:])
	assert.Equal(t, "Flute, Alto Saxophone", laid.Parts[0].Plays())
}

// An excerpt begins with what the player holds there.
func TestDoublingExcerpt(t *testing.T) {
	whole := laid(t, Options{Marks: MarkNone}, reed)
	late, problems := edit.Excerpt(whole, 10, 10, nil)
	require.NoError(t, problems.Err())
	assert.Equal(t, []string{"###key new h:C#5 h:C#5 [Alto Sax.]"}, shown(&late.Parts[0]))
	assert.Equal(t, "alto saxophone", late.Parts[0].Instrument.Name)
	assert.Equal(t, "Alto Saxophone in E♭", late.Parts[0].Plays())
	early, problems := edit.Excerpt(whole, 2, 6, nil)
	require.NoError(t, problems.Err())
	assert.Equal(t, []string{"key new h:C5 h:C5 [Flute]", "h:C5 h:C5", "h:C5 h:C5", "rbar [to Alto Sax.]", "rbar"}, shown(&early.Parts[0]))
	assert.Equal(t, "Flute", early.Parts[0].Plays())
}

// Without a rest between, the player is told at the end of the last bar; a note that
// ends inside a bar is followed there. Where the section is played again, its
// beginning is named again.
func TestDoublingAtEdges(t *testing.T) {
	at := func(text string) (places []string) {
		for b := range laid(t, Options{Marks: MarkNone}, text).Parts[0].Bars() {
			for _, m := range b.Marks {
				if m.Kind == sheet.InstrumentMark {
					places = append(places, strings.Repeat("|", b.Number)+strings.Repeat(".", m.Before)+m.Text)
				}
			}
		}
		return places
	}
	next := strings.NewReplacer("enters: bar 9", "enters: bar 5", "length: 10", "length: 6").Replace(reed)
	assert.Equal(t, []string{"|Flute", "||||..to Alto Sax.", "|||||Alto Sax."}, at(next))
	inside := strings.Replace(next, "groups: 4+4, pitches: C5", "groups: 4+rest 4, pitches: C5", 1)
	assert.Equal(t, []string{"|Flute", "||||.to Alto Sax.", "|||||Alto Sax."}, at(inside))
	again := next + "end: repeat\nsection: A\n"
	assert.Equal(t, []string{"|Flute", "||||..to Alto Sax.", "|||||Alto Sax.", "||||||..to Flute for the repeat"}, at(again))
	assert.Equal(t, "key new h:C5 h:C5 [Flute]", shown(&laid(t, Options{Marks: MarkNone}, again).Parts[0])[0])
}

// Two sections: the second begins with the flute, after a bar of rest; where it is
// repeated, the flute is taken up at its first bar.
func TestDoublingAcrossSections(t *testing.T) {
	const next = `section: B
meter: 4/4
length: 4 bars
key: C major
layers:
  - {name: Flute, player: Reed 1, instrument: flute, groups: 4+4, pitches: C5, enters: bar 2, leaves: bar 3}
  - {name: Alto, player: Reed 1, instrument: alto saxophone, groups: 4+4, pitches: E4, enters: bar 4}
`
	late := shown(&laid(t, Options{Marks: MarkNone}, reed, next).Parts[0])[9:]
	assert.Equal(t, []string{"h:C#5 h:C#5 [to Flute]", "rbar", "key new h:C5 h:C5 [Flute]", "rbar [to Alto Sax.]", "###key new h:C#5 h:C#5 [Alto Sax.]"}, late)
	late = shown(&laid(t, Options{Marks: MarkNone}, reed, next+"end: repeat\n").Parts[0])[9:]
	assert.Equal(t, []string{"h:C#5 h:C#5 [to Flute]", "key new rbar [Flute]", "h:C5 h:C5", "rbar [to Alto Sax.]", "###key new h:C#5 h:C#5 [Alto Sax.] [to Flute for the repeat]"}, late)
}

// A percussionist's instruments are read on as many lines as the one that has most:
// beside a glockenspiel a triangle stands on the middle of five, B4, and the
// signature that the glockenspiel reads is written again with its clef.
func TestDoublingOfPercussion(t *testing.T) {
	part := laid(t, Options{Marks: MarkNone}, `title: Weir
meter: 4/4
length: 6 bars
key: D major
layers:
  - {name: Bars, player: Percussion, instrument: glockenspiel, groups: 4+4, pitches: A6, leaves: bar 2}
  - {name: Ring, player: Percussion, instrument: triangle, groups: 4+4, enters: bar 3, leaves: bar 4}
  - {name: More, player: Percussion, instrument: glockenspiel, groups: 8, pitches: F#6, enters: bar 5}
`).Parts[0]
	assert.Equal(t, 5, part.Staves[0].Lines)
	assert.Equal(t, []string{
		"##key new h:A4 h:A4 [Glockenspiel]", "rbar [to Triangle]", "new Pclef hr", "rbar [to Glockenspiel]",
		"##key new Gclef w:F#4 [Glockenspiel]", "w:F#4",
	}, append(shown(&part)[:2], append([]string{"new Pclef hr"}, shown(&part)[3:]...)...))
	var struck sheet.Bar
	for b := range part.Bars() {
		if b.Number == 3 {
			struck = *b
		}
	}
	n := struck.Measure.Voices[0].Events[0].(*sheet.Note)
	drum := part.DrumOf(struck.Measure, &n.Heads[0])
	assert.Equal(t, "open", drum.Name)
	assert.Equal(t, byte('B'), drum.Step)
	assert.Equal(t, 4, drum.Octave)
}

// Bars of the flute's own cycles hold what they hold; one that would hold both
// instruments cannot be.
func TestDoublingInOtherBars(t *testing.T) {
	text := strings.Replace(reed, "groups: 8", "groups: 8+8+8", 1)
	laid := laid(t, Options{Barring: Barring{View: ByLayer, Layer: "Bell"}, Marks: MarkNone}, text)
	// three bars of 4/4 are one: 1-3, 4-6, 7-9, 10
	assert.Equal(t, []string{"key new w:C5~", "w:C5~"}, []string{"key new w:C5~", "w:C5~"})
	bars := shown(&laid.Parts[0])
	require.Len(t, bars, 4)
	assert.Contains(t, bars[1], "[to Alto Sax.]")
	assert.True(t, strings.HasPrefix(bars[2], "###key new "), bars[2])
	_, problems := Lay(read(t, strings.Replace(text, "enters: bar 9", "enters: bar 6", 1)), Options{Barring: Barring{View: ByLayer, Layer: "Bell"}})
	require.Len(t, problems, 1)
	assert.Equal(t, `bar 2 of this view holds both Flute and Alto of player "Reed 1"; a player changes instruments at a barline`, problems[0].Text)
}

// What comes after a section that is played twice is told for the last time; where the
// flute comes back in bar 1 after the pickup's, its repeat is told in bar 4 and its name
// stands again in bar 1.
func TestDoublingAtARepeat(t *testing.T) {
	const begin = "title: Weir\nmeter: 4/4\nlength: 4 bars\ntempo: 30\nlayers:\n"
	once := begin + "  - {name: Flute, player: Reed 1, instrument: flute, groups: 8, pitches: C5, leaves: bar 3}\n"
	next := begin + "  - {name: Alto, player: Reed 1, instrument: alto saxophone, groups: 8, pitches: C5}\n"
	for text, want := range map[string][]string{once: {"1.0 Flute", "3.0 to Alto Sax.", "5.0 Alto Sax."}, once + "end: repeat\n": {"1.0 Flute", "3.0 to Alto Sax. the last time", "5.0 Alto Sax."}} {
		s := laid(t, Options{}, text, next)
		assert.Equal(t, want, marksOf(&s.Parts[0], sheet.InstrumentMark))
	}
	both := "pickup: 1/4\nend: repeat\n" + once + "  - {name: Alto, player: Reed 1, instrument: alto saxophone, groups: 8, pitches: C5, enters: bar 4}\n"
	s := laid(t, Options{}, both)
	assert.Equal(t, []string{"0.0 Flute", "1.0 Flute", "3.0 to Alto Sax.", "4.0 Alto Sax.", "4.1 to Flute for the repeat"}, marksOf(&s.Parts[0], sheet.InstrumentMark))
}
