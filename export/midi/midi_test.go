package midi

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gitlab.com/gomidi/midi/v2/smf"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

func find(t *testing.T, name string) *instrument.Instrument {
	t.Helper()
	i, ok := instrument.Find(name)
	require.True(t, ok, name)
	return i
}

// layer returns a layer of held groups in eighths.
func layer(name string, i *instrument.Instrument, groups []int, pitches ...score.Tone) *score.Layer {
	l := &score.Layer{Name: name, Short: name[:1], Instrument: i, Pulse: beat.Plain(beat.Of(1, 8)),
		Patterns: []score.Pattern{{}}}
	for _, g := range groups {
		l.Patterns[0].Groups = append(l.Patterns[0].Groups, score.Item{Size: g})
	}
	if len(pitches) > 0 {
		var chords []score.Chord
		for _, p := range pitches {
			chords = append(chords, score.Chord{p})
		}
		l.Series = [][]score.Chord{chords}
	}
	return l
}

func pitch(step byte, octave int8) score.Tone { return score.Tone{Step: step, Octave: octave} }

func section(meter score.Signature, layers ...*score.Layer) *score.Section {
	return &score.Section{
		Meter: score.Meter{meter}, Pulse: beat.Plain(beat.Of(1, 8)), Layers: layers,
		Tempo:      score.Tempo{Quarters: beat.Of(132, 1), Beat: beat.Of(1, 4), Rate: beat.Of(132, 1)},
		LengthRule: score.LengthRule{Kind: score.Realignments, N: 1}, Key: score.Key{None: true},
	}
}

func settled(t *testing.T, grid beat.Grid, sections ...*score.Section) *score.Piece {
	t.Helper()
	p := &score.Piece{Title: "Lock Keeper's Round", Rights: "free", Grid: grid, Sections: sections}
	require.Empty(t, p.Settle())
	return p
}

// round is 3+2+2+3 against 3+3+2+2+2 in 5/4: together again after 60 eighths.
func round(t *testing.T) *score.Section {
	s := section(score.PlainSignature(5, 4),
		layer("Marimba", find(t, "marimba"), []int{3, 2, 2, 3}, pitch('E', 5), pitch('B', 4), pitch('G', 4), pitch('D', 5)),
		layer("Vibraphone", find(t, "vibraphone"), []int{3, 3, 2, 2, 2}, pitch('C', 5), pitch('G', 4)))
	s.Name = "B"
	return s
}

func encode(t *testing.T, p *score.Piece, o Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, p, o))
	return b.Bytes()
}

// meta is one event that is no note, at its tick.
type meta struct {
	at    int64
	bytes string
}

func metas(t *testing.T, file []byte, track int) (list []meta, end int64) {
	t.Helper()
	s, err := smf.ReadFrom(bytes.NewReader(file))
	require.NoError(t, err)
	for _, e := range s.Tracks[track] {
		end += int64(e.Delta)
		var c, k, v uint8
		if !e.Message.GetNoteOn(&c, &k, &v) && !e.Message.GetNoteOff(&c, &k, &v) {
			list = append(list, meta{end, string(e.Message.Bytes())})
		}
	}
	return list, end
}

// The onsets are written down from the groups: every 10 eighths 0 3 5 7, every
// 12 eighths 0 3 6 8 10; an eighth is 240 of 480 ticks.
func TestRound(t *testing.T) {
	file := encode(t, settled(t, 8, round(t)), Options{})
	assert.Equal(t, raw(t, "4D546864 00000006 0001 0003 01E0"), file[:14])
	var want []struck
	for cycle := int64(0); cycle < 6; cycle++ {
		at := 2400 * cycle
		want = append(want, struck{at, at + 720, 0, 76, 81}, struck{at + 720, at + 1200, 0, 71, 81},
			struck{at + 1200, at + 1680, 0, 67, 81}, struck{at + 1680, at + 2400, 0, 74, 81})
	}
	for cycle := int64(0); cycle < 5; cycle++ {
		at := 2880 * cycle
		want = append(want, struck{at, at + 720, 1, 72, 81}, struck{at + 720, at + 1440, 1, 67, 81},
			struck{at + 1440, at + 1920, 1, 72, 81}, struck{at + 1920, at + 2400, 1, 67, 81}, struck{at + 2400, at + 2880, 1, 72, 81})
	}
	assert.Equal(t, want, notesOf(t, file))

	list, end := metas(t, file, 0)
	assert.Equal(t, int64(14400), end) // 60 eighths
	assert.Equal(t, []meta{
		{0, string(smf.MetaTrackSequenceName("Lock Keeper's Round"))},
		{0, string(smf.MetaCopyright("free"))},
		{0, string(raw(t, "FF 58 04 05 02 18 08"))},
		{0, string(raw(t, "FF 51 03 06 EF 91"))},
		{0, string(smf.MetaMarker("B"))},
		{14400, string(raw(t, "FF 2F 00"))},
	}, list)
	list, end = metas(t, file, 1)
	assert.Equal(t, int64(14400), end)
	assert.Equal(t, []meta{ // General MIDI program 13 is the marimba; pan 45 left
		{0, string(smf.MetaTrackSequenceName("Marimba"))},
		{0, string(raw(t, "C0 0C"))},
		{0, string(raw(t, "B0 0A 20"))},
		{14400, string(raw(t, "FF 2F 00"))},
	}, list)
	list, _ = metas(t, file, 2)
	assert.Equal(t, string(raw(t, "C1 0B")), list[1].bytes) // program 12, the vibraphone
	assert.Equal(t, string(raw(t, "B1 0A 60")), list[2].bytes)
}

// Two bars of 5/4 before the music: 10 beats of 480 ticks. Then 30 more beats.
func TestCountInAndClick(t *testing.T) {
	file := encode(t, settled(t, 8, round(t)), Options{CountIn: 2})
	list, end := metas(t, file, 0)
	assert.Equal(t, int64(4800+14400), end)
	assert.Equal(t, meta{4800, string(smf.MetaMarker("B"))}, list[4])
	assert.Equal(t, int64(0), list[2].at, "the meter holds from the count-in on")
	assert.Equal(t, int64(0), list[3].at, "so does the tempo")
	notes := notesOf(t, file)
	assert.Equal(t, struck{4800, 5520, 0, 76, 81}, notes[0])
	var beats []struck
	for i := int64(0); i < 10; i++ {
		b := struck{480 * i, 480*i + 240, 9, 77, 72} // the grid of eighths has no 32nds: one tick
		if i%5 == 0 {
			b.key, b.vel = 76, 100
		}
		beats = append(beats, b)
	}
	assert.Equal(t, beats, notes[49:])

	notes = notesOf(t, encode(t, settled(t, 8, round(t)), Options{Click: true}))
	assert.Len(t, notes, 49+30)
	assert.Equal(t, uint8(76), notes[49+25].key) // bar 6
	assert.Equal(t, uint8(77), notes[49+26].key)
	assert.Error(t, Write(&bytes.Buffer{}, settled(t, 8, round(t)), Options{CountIn: 17}))
}

// Sixteen pitched layers are one more than a port has channels for.
func TestSixteenPitchedLayers(t *testing.T) {
	s := section(score.PlainSignature(4, 4))
	for i := range 16 {
		s.Layers = append(s.Layers, layer(string(rune('A'+i)), find(t, "marimba"), []int{2, 2}, pitch('C', 4)))
	}
	s.Layers = append(s.Layers, layer("Tap", find(t, "woodblock"), []int{4}))
	file := encode(t, settled(t, 8, s), Options{})
	channels := map[uint8]int{}
	for _, n := range notesOf(t, file) {
		channels[n.channel]++
	}
	assert.Len(t, channels, 16)
	assert.Equal(t, 4, channels[0], "two layers on two ports, two notes each")
	assert.Equal(t, 1, channels[9], "percussion only")
	list, _ := metas(t, file, 16)
	assert.Equal(t, string(raw(t, "FF 21 01 01")), list[1].bytes)
	for _, track := range []int{1, 15, 17} { // the drums, too, say which port they are on
		list, _ = metas(t, file, track)
		assert.Equal(t, string(raw(t, "FF 21 01 00")), list[1].bytes)
	}
	assert.Equal(t, 2, Ports(settled(t, 8, s)))

	s.Layers = s.Layers[1:] // fifteen and the drums fit on one, which is not named
	list, _ = metas(t, encode(t, settled(t, 8, s), Options{}), 1)
	assert.NotEqual(t, byte(0x21), list[1].bytes[1])
	assert.Equal(t, 1, Ports(settled(t, 8, s)))
}

// Texts pass through untouched, whatever they are made of.
func TestTexts(t *testing.T) {
	for _, name := range []string{`<b>&"'`, "סירה", "船⛵", string(bytes.Repeat([]byte("ü"), 200))} {
		s := round(t)
		s.Layers[0].Name = name
		list, _ := metas(t, encode(t, settled(t, 8, s), Options{}), 1)
		assert.Equal(t, string(smf.MetaTrackSequenceName(name)), list[0].bytes)
	}
}

// Two layers of four attacks a bar reach 2,000,000 after 250,000 bars; the next
// pulse brings two more.
func TestMostAttacks(t *testing.T) {
	s := section(score.PlainSignature(4, 4), layer("A", find(t, "marimba"), []int{2, 2, 2, 2}, pitch('C', 4)),
		layer("B", find(t, "woodblock"), []int{2, 2, 2, 2}))
	s.LengthRule = score.LengthRule{Kind: score.Pulses, N: 8 * 250_000}
	assert.NoError(t, Fits(settled(t, 8, s), Options{}))
	s.LengthRule.N++
	err := Fits(settled(t, 8, s), Options{})
	assert.ErrorAs(t, err, &Unfit{})
	assert.ErrorContains(t, err, "2000000 attacks")
}

// What the format cannot say is told before anything is written.
func TestUnfit(t *testing.T) {
	s := round(t)
	s.Tempo.Quarters = beat.Of(3, 1)
	var b bytes.Buffer
	assert.ErrorAs(t, Write(&b, settled(t, 8, s), Options{}), &Unfit{})
	assert.Zero(t, b.Len())
	s = round(t)
	s.Meter = score.Meter{{Terms: []score.Term{{Groups: []int{64}, Unit: 1}, {Groups: []int{1}, Unit: 4}}}} // 257/4
	assert.ErrorAs(t, Write(&b, settled(t, 8, s), Options{}), &Unfit{})
	assert.Zero(t, b.Len())
}

// The key stands with the meter at the start of its section: E minor, one sharp.
func TestKeyIsWritten(t *testing.T) {
	s := round(t)
	s.Key = score.Key{Fifths: 1, Mode: "minor"}
	list, _ := metas(t, encode(t, settled(t, 8, s), Options{}), 0)
	assert.Contains(t, list, meta{0, string(raw(t, "FF 59 02 01 01"))})
	list, _ = metas(t, encode(t, settled(t, 8, round(t)), Options{}), 0)
	for _, m := range list {
		assert.NotContains(t, m.bytes, "\xff\x59", "a section without a key writes none")
	}
}
