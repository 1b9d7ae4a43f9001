package main

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/heard/musicxml"
)

// Two sections without a name. A, eight bars of 4/4: cycles of 5 and 6 eighths
// begin together after 30 and 60 eighths, the first time at what the plan calls
// a ford. B, twelve bars of 3/4: cycles of 5 and 7 eighths, together after 35
// and 70.
var osierBeds = []string{`title: Osier Beds
meter: 4/4
length: 8 bars
layers:
  - {name: Reed, groups: 3+2}
  - {name: Pole, groups: 3+3}
plan:
  - {at: bar 2, mark: wade}
  - {at: realignment 1, mark: ford}
`, `meter: 3/4
length: 12 bars
layers:
  - {name: Reed, groups: 3+2}
  - {name: Pole, groups: 3+4}
plan:
  - {at: bar 4, mark: wander}
`}

// One list decides what is called what, and when: it stands in the score, each
// part, the composite, the sound file, the chart and the page alike, and verify
// asks for it. Moments are eighths from the piece's start, by hand; B begins
// after 64.
func TestSignposts(t *testing.T) {
	want := []string{"A 0", "wade 8", "ford 30", "A2 60", "B 64", "wander 82", "B1 99", "B2 134"}
	dir := t.TempDir()
	var specs []string
	for i, text := range osierBeds {
		specs = append(specs, filepath.Join(dir, fmt.Sprintf("%d.yaml", i)))
		require.NoError(t, os.WriteFile(specs[i], []byte(text), 0o600))
	}
	files := buildInto(t, specs, "--marks", "none", "--only", "musicxml,midi,chart,page")

	for _, name := range []string{"score.musicxml", "parts/reed.musicxml", "parts/pole.musicxml", "composite.musicxml"} {
		read, err := musicxml.Read(context.Background(), strings.NewReader(files[name]))
		require.NoError(t, err)
		var got []string
		for _, m := range read.Marks {
			if !strings.HasPrefix(m.Text, "beat ") {
				got = append(got, fmt.Sprint(m.Text, " ", m.At.Mul(beat.Of(8, 1))))
			}
		}
		assert.Equal(t, want, got, name)
	}
	assert.Equal(t, want, markersOf(t, files["section.mid"]))

	chart := files["chart.txt"]
	for _, words := range []string{"OSIER BEDS, A ", "ford after 30 eighths = bar 4 beat 4", "A2 after 60 eighths = bar 8 beat 3",
		"OSIER BEDS, B ", "B1 after 35 eighths = bar 14 beat 3 1/2", "B2 after 70 eighths = bar 20 beat 3"} {
		assert.Contains(t, strings.Join(strings.Fields(chart), " ")+" ", words)
	}
	page := files["page.html"]
	for _, words := range []string{`"Section A"`, `"label":"ford"`, `"label":"A2"`, `"Section B"`, `"label":"B1"`, `"label":"B2"`} {
		assert.Contains(t, page, words)
	}
	for _, text := range []string{"wade", "ford", "wander"} { // the drawn boxes
		assert.Contains(t, page, ">"+text+"<")
	}

	path := filepath.Join(dir, "score.musicxml")
	for _, sign := range want {
		name, _, _ := strings.Cut(sign, " ")
		lost := strings.Replace(files["score.musicxml"], ">"+name+"</", ">gone</", 1)
		require.NotEqual(t, files["score.musicxml"], lost, name)
		require.NoError(t, os.WriteFile(path, []byte(lost), 0o600))
		var out, messages bytes.Buffer
		code := run(append([]string{"verify"}, append(specs, path)...), streams{strings.NewReader(""), &out, &messages})
		assert.Equal(t, 3, code)
		assert.Contains(t, out.String(), "the mark "+name+" is missing")
	}
}

// markersOf reads the markers of a MIDI file's first track, which has nothing
// but meta events (Standard MIDI Files 1.0: FF, a type, a length, the text; type
// 6 is a marker), with their time in eighths.
func markersOf(t *testing.T, file string) []string {
	t.Helper()
	data := []byte(file)
	eighth := int(binary.BigEndian.Uint16(data[12:])) / 2
	track := data[22 : 22+binary.BigEndian.Uint32(data[18:])]
	number := func() (n int) {
		for {
			b := track[0]
			track = track[1:]
			if n = n<<7 | int(b&0x7f); b < 0x80 {
				return n
			}
		}
	}
	var all []string
	for now := 0; len(track) > 0; {
		now += number()
		require.Equal(t, byte(0xff), track[0])
		kind := track[1]
		track = track[2:]
		length := number()
		if kind == 6 {
			require.Zero(t, now%eighth)
			all = append(all, fmt.Sprint(string(track[:length]), " ", now/eighth))
		}
		track = track[length:]
	}
	return all
}
