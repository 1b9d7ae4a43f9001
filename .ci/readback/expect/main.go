// Command expect writes what a reader of the notation must find, computed from
// the score model alone: no layout, no exporter has a part in it.
//
//	expect SPEC… > expected.json
//
// All times are ticks of "grid", which a whole note has.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/spec"
)

type expected struct {
	Grid  beat.Grid        `json:"grid"`
	Title string           `json:"title"`
	Bars  []bar            `json:"bars"`
	Parts map[string]*part `json:"parts"`
}

type bar struct {
	Number    int         `json:"number"`
	Start     beat.Time   `json:"start"`
	Length    beat.Time   `json:"length"`
	Signature string      `json:"signature"`
	Spans     []beat.Time `json:"spans"` // ends of what a beam by the meter stays inside, from the bar's start
}

type part struct {
	Attacks []attack             `json:"attacks"`
	Lead    string               `json:"lead"`    // the first layer that has cycles, "" if none
	OwnBars bool                 `json:"ownBars"` // all cycles of the lead last as long as some bar: no thirds
	Starts  map[string][]started `json:"starts"`  // by layer: its cycles
	Ratios  []int                `json:"ratios"`  // of tuplets that may occur: 3 for 3:2
	CutTail bool                 `json:"cutTail"`
	Slashes bool                 `json:"slashes"` // somewhere slashes or a rhythm stand in place of notes
	Strings bool                 `json:"strings"` // the part printed alone has tablature
}

type started struct {
	At    beat.Time `json:"at"`
	Whole bool      `json:"whole"` // neither cut nor begun before the section
}

type attack struct {
	At     beat.Time `json:"at"`
	Length beat.Time `json:"length"`
	Keys   []int     `json:"keys"`
	Layer  string    `json:"layer"`
	Group  string    `json:"group"` // one name a group played
	Accent bool      `json:"accent"`
	Ratio  int       `json:"ratio"` // of the layer's pulse: 3 for 3:2, 1 for a plain one
	On     string    `json:"on"`    // the instrument or the first drum, where the player has several; else ""
}

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "expect:", err)
		os.Exit(1)
	}
}

func run(names []string) error {
	var files []spec.File
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		files = append(files, spec.File{Name: name, Text: text})
	}
	piece, problems := spec.Read(files)
	if err := problems.Err(); err != nil {
		return err
	}
	return json.NewEncoder(os.Stdout).Encode(expect(piece))
}

func expect(p *score.Piece) expected {
	made := expected{Grid: p.Grid, Title: p.Title, Parts: map[string]*part{}}
	for _, s := range p.Sections {
		for b := range s.Bars() {
			made.Bars = append(made.Bars, bar{b.Number, s.Start + b.Start, b.Length, b.Signature.String(), spans(p.Grid, b.Signature, b.Skipped)})
		}
	}
	tuplets := []int{}
	for _, s := range p.Sections {
		for _, l := range s.Layers {
			if l.Pulse.IsTuplet() && !slices.Contains(tuplets, l.Pulse.Actual) {
				tuplets = append(tuplets, l.Pulse.Actual)
			}
		}
	}
	for _, player := range p.Players() {
		pt := &part{Starts: map[string][]started{}, Ratios: tuplets}
		made.Parts[player.Name] = pt
		for i, s := range p.Sections {
			for _, layer := range player.Layers[i] {
				addLayer(pt, s, layer, player.Doubles())
			}
		}
	}
	return made
}

func addLayer(pt *part, s *score.Section, layer int, doubles bool) {
	l := s.Layers[layer]
	pt.CutTail = pt.CutTail || l.Tails == score.CutTails
	pt.Strings = pt.Strings || l.Tuning != nil
	for _, w := range s.WrittenAs(l) {
		pt.Slashes = pt.Slashes || w.Written == score.AsSlashes || w.Written == score.AsRhythm
	}
	if pt.Lead == "" && l.Line == nil {
		pt.Lead, pt.OwnBars = l.Name, true
	}
	for c := range s.Cycles(layer) {
		if l.Name == pt.Lead && s.Grid.Span(c.Length).Den()&(s.Grid.Span(c.Length).Den()-1) != 0 {
			pt.OwnBars = false
		}
		pt.Starts[l.Name] = append(pt.Starts[l.Name], started{s.Start + max(c.Start, l.Enters), c.Sounds == c.Length && c.Start >= l.Enters})
		for i := range c.Attacks {
			a := &c.Attacks[i]
			var keys []int
			for _, tone := range a.Tones {
				keys = append(keys, key(l, tone))
			}
			slices.Sort(keys)
			on := ""
			if doubles {
				on = l.Instrument.Label
				if l.Instrument.IsUnpitched() {
					on = l.Instrument.Drums[max(1, int(a.Tones[0].Drum))-1].Label
				}
			}
			pt.Attacks = append(pt.Attacks, attack{
				At: s.Start + c.Start + a.At, Length: a.Length, Keys: keys, Layer: l.Name,
				Group: fmt.Sprintf("%s %d %d", l.Name, s.Start+c.Start, a.Group), Accent: a.Accent || a.Touch.Has(score.Accented), Ratio: l.Pulse.Actual, On: on,
			})
		}
	}
}

// key is the MIDI key of a tone: of a percussion sound, General MIDI's.
func key(l *score.Layer, t score.Tone) int {
	if t.IsPitched() {
		return t.Key()
	}
	return l.Instrument.Drums[max(1, int(t.Drum))-1].Key
}

// spans are the ends of the stretches that a beam by the meter stays inside:
// the groups of an additive meter, dotted beats of a compound one, halves of a
// simple bar of 2, 4 or 8 beats, else single beats. A plain 5/8 or 7/8 has no
// stretches of its own: there is nothing to hold a beam against. Of a pickup so much of the
// bar is skipped.
func spans(g beat.Grid, s score.Signature, skipped beat.Time) []beat.Time {
	beats := s.Beats()
	if !s.IsAdditive() && !s.IsCompound() && s.Terms[0].Unit >= 8 {
		return nil
	}
	join := 1
	if n := len(beats); !s.IsAdditive() && !s.IsCompound() && (n == 2 || n == 4 || n == 8) {
		join = n / 2
	}
	var ends []beat.Time
	now := beat.Time(0)
	for i, b := range beats {
		now += g.Must(b)
		if (i+1)%join == 0 && now > skipped {
			ends = append(ends, now-skipped)
		}
	}
	return ends
}
