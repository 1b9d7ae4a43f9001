package main

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/heard/musicxml"
)

// TestScoresSoundTheSpec reads every score back with a reader that shares no
// code with the writer, and compares its attacks with the spec's.
func TestScoresSoundTheSpec(t *testing.T) {
	if testing.Short() {
		t.Skip("long, and does nothing that others do not do as well where races are watched")
	}
	for name, specs := range pieces(t) {
		t.Run(name, func(t *testing.T) {
			p, err := load(streams{err: &bytes.Buffer{}}, specs)
			require.NoError(t, err)
			for _, flags := range [][]string{{}, {"--spelling", "meter", "--beams", "meter"}, {"--concert", "--marks", "none"}} {
				files := buildInto(t, specs, append(flags, "--only", "musicxml")...)
				heard := attacksRead(t, files["score.musicxml"])
				for part, want := range attacksOf(p) {
					got := heard[part]
					if strings.Contains(want[0], " "+dry+" ") {
						got = withoutLengths(got)
					}
					assert.Equal(t, want, got, "%s with %v", part, flags)
				}
			}
		})
	}
}

// dry stands for the length of what is written as one sign and rests.
const dry = "dry"

// withoutLengths takes the lengths off a part's attacks as they were read.
func withoutLengths(list []string) []string {
	var all []string
	for _, a := range list {
		words := strings.SplitN(a, " ", 3)
		all = append(all, words[0]+" "+dry+" "+words[2])
	}
	slices.Sort(all)
	return all
}

// attacksOf lists what each player sounds: moment, length and tones, in whole
// notes from the piece's start. Who has slashes somewhere is left out.
func attacksOf(p *score.Piece) map[string][]string {
	all := map[string][]string{}
	for _, player := range p.Players() {
		if slices.ContainsFunc(p.Sections, func(s *score.Section) bool {
			return slices.ContainsFunc(s.Layers, func(l *score.Layer) bool {
				return (l.Name == player.Name || l.Player == player.Name) && s.EverWritten(l)
			})
		}) {
			continue
		}
		start := -p.Sections[0].Opening()
		for i, layers := range player.Layers {
			for pass := range p.Sections[i].Played() {
				for _, l := range layers {
					for at, a := range p.Sections[i].Attacks(l) {
						if at < 0 && pass > 0 { // the pickup is played once
							continue
						}
						length := p.Grid.Span(a.Length).String()
						if p.Sections[i].Layers[l].Tails == score.CutTails {
							length = dry
						}
						all[player.Name] = append(all[player.Name], fmt.Sprint(p.Grid.Span(start+at), " ", length, " ", sounding(a.Tones)))
					}
				}
				start += p.Sections[i].Extent()
			}
		}
	}
	return inOrder(all)
}

// inOrder sorts each part's attacks: voices of one part are read one after
// another.
func inOrder(all map[string][]string) map[string][]string {
	for _, list := range all {
		slices.Sort(list)
	}
	return all
}

// sounding names tones by MIDI key, as spelling may change in transposition.
func sounding(tones score.Chord) string {
	var keys []string
	for _, tone := range tones {
		if tone.IsPitched() {
			keys = append(keys, fmt.Sprint(tone.Key()))
		}
	}
	return strings.Join(keys, "+")
}

func attacksRead(t *testing.T, text string) map[string][]string {
	read, err := musicxml.Read(context.Background(), strings.NewReader(text))
	require.NoError(t, err)
	all := map[string][]string{}
	for _, part := range read.Parts {
		for _, a := range part.Attacks {
			var keys []string
			for _, tone := range a.Tones {
				if key, ok := tone.Key(); ok && tone.Step != 0 {
					keys = append(keys, fmt.Sprint(key))
				}
			}
			all[part.Name] = append(all[part.Name], fmt.Sprint(a.Onset, " ", a.Length, " ", strings.Join(keys, "+")))
		}
	}
	return inOrder(all)
}
