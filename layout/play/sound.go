package play

import (
	"fmt"
	"slices"

	"tieover/score"
	"tieover/score/source"
)

// bareKeys are the General MIDI percussion keys dealt to rhythms without an
// instrument, chosen so that neighbors differ in color: claves, low conga,
// cowbell, mute high conga, high agogo, low bongo, low agogo, high bongo,
// tambourine, side stick, hand clap, maracas. The wood blocks are the click's.
var bareKeys = []int{75, 64, 56, 62, 67, 61, 68, 60, 54, 37, 39, 70}

func hasStaccato(p *score.Piece) bool {
	for _, s := range p.Sections {
		for _, l := range s.Layers {
			if slices.Contains(l.Touches, score.Staccato) {
				return true
			}
		}
	}
	return false
}

func sortMarkers(marks []Marker) {
	slices.SortStableFunc(marks, func(a, b Marker) int { return int(min(1, max(-1, a.At-b.At))) })
}

// unsoundable reports pitches that have no MIDI key.
func unsoundable(p *score.Piece) error {
	var problems source.Problems
	for _, s := range p.Sections {
		for _, l := range s.Layers {
			for tone := range tones(l) {
				if key := tone.Key(); tone.IsPitched() && (key < 0 || key > 127) {
					problems.Add(l.Pos, fmt.Sprintf("layer %q: %v has no MIDI key", l.Name, tone),
						"sounding pitches go from C-1 to G9")
					break
				}
			}
		}
	}
	return problems.Err()
}

// tones walks every tone that a layer may sound.
func tones(l *score.Layer) func(yield func(score.Tone) bool) {
	series := slices.Clone(l.Series)
	for _, e := range l.Except {
		series = append(series, e.Series)
	}
	for _, n := range l.Line {
		series = append(series, []score.Chord{n.Tones})
	}
	return func(yield func(score.Tone) bool) {
		for _, chords := range series {
			for _, chord := range chords {
				for _, tone := range chord {
					if !yield(tone) {
						return
					}
				}
			}
		}
	}
}
