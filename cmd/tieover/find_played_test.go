package main

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// playedTrack is a track of a MIDI file as a sequencer writes it.
type playedTrack struct {
	name    string
	program byte    // from 0, as the file has it
	groups  []int64 // ticks from each note to the next, again and again
	keys    []byte  // in turn
	times   int     // that the groups are played
	sounds  func(group int64) (ticks int64)
}

// write makes a file of 480 ticks a quarter, in 4/4, of the tracks.
func (p playedTrack) write(t *testing.T, others ...playedTrack) (path string) {
	t.Helper()
	chunk := func(name string, body []byte) []byte {
		return append(binary.BigEndian.AppendUint32([]byte(name), uint32(len(body))), body...)
	}
	data := chunk("MThd", []byte{0, 1, 0, byte(1 + len(others)), 1, 0xE0})
	for _, track := range append([]playedTrack{p}, others...) {
		data = append(data, chunk("MTrk", track.body())...)
	}
	path = filepath.Join(t.TempDir(), "played.mid")
	require.NoError(t, os.WriteFile(path, data, 0o600))
	return path
}

func (p playedTrack) body() []byte {
	after := func(ticks int64) []byte { return []byte{0x80 | byte(ticks>>7), byte(ticks & 0x7F)} }
	body := slices.Concat([]byte{0, 0xFF, 3, byte(len(p.name))}, []byte(p.name), []byte{0, 0xC0, p.program})
	silent, played := int64(0), 0
	for range p.times {
		for _, group := range p.groups {
			key, sounds := p.keys[played%len(p.keys)], group
			if p.sounds != nil {
				sounds = p.sounds(group)
			}
			body = slices.Concat(body, after(silent), []byte{0x90, key, 80}, after(sounds), []byte{0x80, key, 0})
			silent, played = group-sounds, played+1
		}
	}
	return append(body, 0, 0xFF, 0x2F, 0)
}

// A track called Bass that chooses the fingered bass, 33 from 0 in General MIDI, is a bass
// guitar, also where it is read as taps; C4 to G4 are 60, 64 and 67.
func TestFindTakesThePlayedInstrument(t *testing.T) {
	bass := playedTrack{name: "Bass", program: 33, groups: []int64{720, 720, 480}, keys: []byte{60, 64, 67}, times: 8}
	file := bass.write(t)
	for _, args := range [][]string{{file, "--all"}, {"--onsets", file, "--all"}} {
		out := findText(t, "", append(args, "--spec")...)
		assert.Contains(t, out, "# Bass: taken for bass guitar, by its MIDI program 34\n", args)
		assert.Contains(t, out, "    instrument: bass guitar\n    groups: 3+3+2\n    pitches: C4 E4 G4\n", args)
	}
}

// 3+3+2 against 2+2+3 eighths, each note let go after nine tenths or a tick early: the
// loops are those of the onsets, and what was done with the lengths is said.
func TestFindTakesGapsOfASequencerForTails(t *testing.T) {
	for said, sounds := range map[string]func(int64) int64{
		"after 90 % of their length":    func(group int64) int64 { return group * 9 / 10 },
		"1/1920 of a whole note early":  func(group int64) int64 { return group - 1 },
		"after 88.75 % of their length": func(group int64) int64 { return group * 8875 / 10000 },
		"":                              nil,
	} {
		low := playedTrack{name: "Marimba", program: 12, groups: []int64{720, 720, 480}, keys: []byte{60, 64, 67}, times: 24, sounds: sounds}
		high := playedTrack{name: "Flute", program: 73, groups: []int64{480, 480, 720}, keys: []byte{72, 74, 76}, times: 24, sounds: sounds}
		code, out, messages := call(t, newFindCmd, "", low.write(t, high), "--all")
		assert.Equal(t, done, code)
		assert.Contains(t, out, "pulse: 1/8\nlength: 24 bars\n")
		assert.Contains(t, out, "    groups: 3+3+2\n    pitches: C4 E4 G4\n")
		assert.Contains(t, out, "    groups: 2+2+3\n    pitches: C5 D5 E5\n")
		if said == "" {
			assert.Empty(t, messages)
			continue
		}
		assert.Equal(t, "Marimba: all notes are let go "+said+"; taken as if held to their end\n"+
			"Flute: all notes are let go "+said+"; taken as if held to their end\n", messages)
	}
}
