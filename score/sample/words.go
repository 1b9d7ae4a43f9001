package sample

import (
	"fmt"
	"strings"
)

// What names and texts are made of: markup, quotes, other scripts.
var (
	titles = []string{
		"Lock Keeper's Round", "Towpath", `"Sluice & <Gate>"`, `'She said "open"'`, "Écluse de nuit", `"水門"`, `"בית שער"`, `"🚣 barge"`, "1984",
	}
	texts = []string{"slowly", `"quiet, then < loud & clear"`, "Nº 3", `"حارس"`, "yes", `"a: b # c"`}

	// ratios are pulses in tuplets, each with a base that keeps notes readable.
	ratios = []string{
		"1/8 in 3:2", "1/16 in 5:4", "1/16 in 7:4", "1/16 in 9:8", "1/8 in 4:3", "1/8 in 2:3", "1/8 in 5:3", "1/16 in 7:6",
	}
)

// instrument is a layer's name with what it plays on. One name always plays
// one instrument, so that sections share parts.
type instrument struct {
	layer   string
	key     string   // value of `instrument:`, "" for a bare rhythm
	pitches []string // to choose from; nil when it needs none
	chords  []string
	clefs   []string // to choose from; nil where it can have no other
	player  string
	tab     string // keys that show it in tablature; the same for all sections
}

var pitched = []instrument{
	{layer: "Marimba", key: "marimba", pitches: []string{"E5", "B4", "G4", "D5", "C#4", "Bb3"}, chords: []string{"G3+D4", "C4+E4+G4"}, clefs: []string{"treble", "bass"}},
	{layer: "Vibraphone", key: "vibraphone", pitches: []string{"A4", "C5", "F#4", "Eb5"}, chords: []string{"A3+E4"}, clefs: []string{"treble"}},
	{layer: "Clarinet", key: "clarinet", pitches: []string{"E4", "F#4", "Bb4", "D5", "G#4"}, clefs: []string{"treble", "alto"}},
	{layer: `"Horn & Gate"`, key: "horn", pitches: []string{"F3", "C4", "Eb4", "G4"}},
	{layer: "Bass clarinet", key: "bass clarinet", pitches: []string{"C3", "G2", "Bb2", "D3"}},
	{layer: "Low string", key: "double bass", pitches: []string{"E1", "A1", "D2", "G2"}, clefs: []string{"bass", "tenor", "treble"}},
	{layer: "Flute", key: "flute", pitches: []string{"D5", "E5", "G5", "B5", "C6"}, clefs: []string{"treble", "alto", "treble 8"}},
	{layer: "Guitar", key: "guitar", pitches: []string{"E3", "G3", "B3", "D4", "F#4"}, chords: []string{"D3+A3+D4", "B3+E4"}, clefs: []string{"treble"}, tab: "tab: yes, tuning: D2 A2 D3 G3 B3 E4"},
	{layer: "Bass guitar", key: "bass guitar", pitches: []string{"E2", "G2", "A2", "B2"}, clefs: []string{"bass"}, tab: "tab: yes"},
	{layer: "Harp", key: "harp", pitches: []string{"G2", "C4", "Eb5"}, chords: []string{"C2+G4", "G2+D3+Bb4"}},
	{layer: "Right hand", key: "piano", pitches: []string{"C5", "E5", "G5", "Bb4"}, chords: []string{"C5+E5", "D5+F5+A5", "C3+G5"}, player: "Pianist"},
	{layer: "Left hand", key: "piano", pitches: []string{"C3", "G2", "E3", "F3"}, chords: []string{"C3+G3", "G2+F3+C5"}, player: "Pianist"},
}

var bare = []instrument{{layer: "Pole"}, {layer: "Rope"}, {layer: `"Écluse"`}, {layer: "Oar"}}

var drums = []instrument{
	{layer: "Hands", key: "drum set", pitches: []string{"snare", "closed hi-hat", "ride", "high tom"}, chords: []string{"snare+crash"}, player: "Drummer"},
	{layer: "Feet", key: "drum set", pitches: []string{"kick", "pedal hi-hat"}, player: "Drummer"},
	{layer: "Congas", key: "congas", pitches: []string{"high", "low", "slap"}},
	{layer: "Claves", key: "claves"},
	{layer: "Bell", key: "cowbell"},
	{layer: "Timpani", key: "timpani", pitches: []string{"D2", "G2", "A2"}},
}

func groups(sizes []int) string {
	texts := make([]string, len(sizes))
	for i, n := range sizes {
		texts[i] = fmt.Sprint(n)
	}
	return strings.Join(texts, "+")
}
