package main

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/midi"
	"tieover/score"
	heardmidi "tieover/score/heard/midi"
)

// The plainest encoders of a chart and of MIDI, beside which ours are measured.
// They know the loops of canal only: one section in 4/4, eighths, pitched layers.

// plainChart writes the attacks of a piece as rows of two columns an eighth, four
// bars a line: X where a cycle begins, x for other attacks.
func plainChart(w io.Writer, p *score.Piece) error {
	out := bufio.NewWriter(w)
	s := p.Sections[0]
	eighth := int(p.Grid) / 8
	slots := s.BarCount() * 8
	rows := make([][]string, len(s.Layers))
	for i, l := range s.Layers {
		rows[i] = make([]string, slots)
		for k := range rows[i] {
			rows[i][k] = "."
		}
		for at, a := range s.Attacks(i) {
			rows[i][int(at)/eighth] = map[bool]string{true: "X", false: "x"}[a.Group == 0]
		}
		rows[i] = append(rows[i], l.Name)
	}
	for from := 0; from < slots; from += 32 {
		fmt.Fprintf(out, "\nbar %d\n", from/8+1)
		for _, row := range rows {
			fmt.Fprintf(out, "%-12s", row[slots])
			for k := from; k < min(slots, from+32); k++ {
				if k%8 == 0 {
					fmt.Fprint(out, "|")
				}
				fmt.Fprintf(out, "%s ", row[k])
			}
			fmt.Fprintln(out, "|")
		}
	}
	return out.Flush()
}

// plainMIDI writes one track a layer: all messages listed, sorted and written.
func plainMIDI(w io.Writer, p *score.Piece) error {
	s := p.Sections[0]
	out := bufio.NewWriter(w)
	out.WriteString("MThd\x00\x00\x00\x06\x00\x01")
	_ = binary.Write(out, binary.BigEndian, []uint16{uint16(len(s.Layers) + 1), uint16(p.Grid / 4)})
	track := func(content []byte) {
		content = append(content, 0, 0xFF, 0x2F, 0)
		out.WriteString("MTrk")
		_ = binary.Write(out, binary.BigEndian, uint32(len(content)))
		out.Write(content)
	}
	track([]byte{0, 0xFF, 0x58, 4, 4, 2, 24, 8})
	for i, l := range s.Layers {
		type message struct {
			at   int
			text [3]byte
		}
		var all []message
		for at, a := range s.Attacks(i) {
			for _, tone := range a.Tones {
				key := byte(tone.Key())
				all = append(all, message{int(at), [3]byte{0x90 | byte(i), key, 80}}, message{int(at + a.Length), [3]byte{0x80 | byte(i), key, 0}})
			}
		}
		sort.SliceStable(all, func(a, b int) bool {
			return all[a].at < all[b].at || all[a].at == all[b].at && all[a].text[0] < all[b].text[0]
		})
		content := append([]byte{0, 0xFF, 0x03, byte(len(l.Name))}, l.Name...)
		now := 0
		for _, m := range all {
			delta := m.at - now
			for shift := 21; shift > 0; shift -= 7 {
				if delta>>shift > 0 {
					content = append(content, byte(delta>>shift)|0x80)
				}
			}
			content = append(append(content, byte(delta)&0x7F), m.text[:]...)
			now = m.at
		}
		track(content)
	}
	return out.Flush()
}

// What is measured beside ours says as much: every attack, in MIDI with its tone
// and length, too.
func TestPlainEncodersSayTheSame(t *testing.T) {
	p := fromText(t, canal(8, 100))
	var ours, plain bytes.Buffer
	require.NoError(t, midi.Write(&ours, p, midi.Options{}))
	require.NoError(t, plainMIDI(&plain, p))
	a, err := heardmidi.Read(ours.Bytes())
	require.NoError(t, err)
	b, err := heardmidi.Read(plain.Bytes())
	require.NoError(t, err)
	assert.Equal(t, sounds(a), sounds(b))

	plain.Reset()
	require.NoError(t, plainChart(&plain, p))
	// Cycles of 5 to 12 eighths with two attacks each in 800 eighths.
	assert.Equal(t, 320+267+229+200+178+160+145+133, strings.Count(strings.ToLower(plain.String()), "x"))
}
