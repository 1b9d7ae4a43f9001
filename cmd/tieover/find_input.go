package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/found"
	"tieover/score/heard/midi"
)

// music reads whatever the command line names.
func (o *findOptions) music(s streams, args []string) (found.Music, error) {
	m, err := o.read(s, args)
	if err == nil && o.meter != "" {
		o.setMeter(&m)
	}
	return m, err
}

// setMeter gives the music the bars of --meter.
func (o *findOptions) setMeter(m *found.Music) {
	m.Plan.Meter = o.meter
	m.Plan.Bar, _ = found.BarLength(o.meter)
	for i, line := range m.Lines {
		m.Lines[i].Bars = found.Bars(o.meter, line.List)
	}
}

func (o *findOptions) read(s streams, args []string) (found.Music, error) {
	switch {
	case len(o.onsets) > 0:
		if len(args) > 0 {
			return found.Music{}, usage("--onsets and other input together: choose one")
		}
		return o.fromOnsets(s)
	case len(args) == 1 && isScoreName(args[0]) && o.meter != "":
		return found.Music{}, usage("--meter: a score has bars of its own; leave it out")
	case len(args) == 1 && isScoreName(args[0]):
		return o.fromScore(s, args[0])
	case o.part != "" || o.all || o.bars != (bars{}):
		return found.Music{}, usage("--part, --bars and --all need a score")
	}
	words := args
	if len(args) == 0 || len(args) == 1 && args[0] == "-" {
		text, err := readBytes(s, "-", largestScore)
		if err != nil {
			return found.Music{}, err
		}
		words = strings.Fields(strings.ReplaceAll(string(text), ",", " "))
	}
	return o.fromDurations(words)
}

func isScoreName(name string) bool {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".musicxml", ".mxl", ".xml", ".mid", ".midi":
		return true
	}
	return false
}

// fromDurations reads durations in pulses: 3, "rest 2", 3+2+2, boxes.
func (o *findOptions) fromDurations(words []string) (found.Music, error) {
	base, ok := beat.ParseSpan(o.pulse)
	if !ok || base.Sign() <= 0 || base.Den() > 128 || base.Den()&(base.Den()-1) != 0 {
		return found.Music{}, usage("--pulse %s: write a note value such as 1/8 or 3/16", o.pulse)
	}
	var items []find.Item
	blank := false
	for _, word := range strings.FieldsFunc(strings.Join(words, " "), func(r rune) bool { return r == ' ' || r == '+' || r == ',' }) {
		if word == "rest" && !blank {
			blank = true
			continue
		}
		if _, err := strconv.ParseFloat(word, 64); err == nil && strings.Contains(word, ".") {
			return found.Music{}, fmt.Errorf("%s is no whole number of pulses; count shorter ones with --pulse, as in --pulse 1/16", word)
		}
		more, ok := durations(word)
		if !ok || blank && len(more) != 1 {
			return found.Music{}, fmt.Errorf("%q is no duration; write numbers of pulses, rest 2 for a silence of 2, or a box such as x..x", word)
		}
		if blank {
			more[0].Blank = true
		}
		items, blank = append(items, more...), false
	}
	if blank {
		return found.Music{}, fmt.Errorf("how long is the last rest?")
	}
	list, err := find.FromDurations(items, beat.Plain(base))
	if err != nil {
		return found.Music{}, err
	}
	pulses := int64(0) // a silence at the end included
	for _, item := range items {
		pulses += item.Size
	}
	return found.Music{Lines: []found.Line{{Name: "Line", List: list}}, Plan: found.Plan{Title: "Found", End: base.Times(pulses)}}, nil
}

// durations reads one word.
func durations(word string) (items []find.Item, ok bool) {
	if strings.Trim(word, "x=.") == "" && strings.Contains(word, "x") {
		for i := range len(word) {
			sounds := word[i] != '.'
			if n := len(items); n > 0 && (word[i] != 'x' && items[n-1].Blank != sounds) {
				items[n-1].Size++
				continue
			}
			if word[i] == '=' {
				return nil, false // nothing to hold
			}
			items = append(items, find.Item{Size: 1, Blank: !sounds})
		}
		return items, true
	}
	n, err := strconv.ParseInt(word, 10, 64)
	return []find.Item{{Size: n}}, err == nil && word[0] != '+' && word[0] != '-'
}

// fromOnsets reads parts of seconds, or of MIDI files as they were played, all on
// one clock.
func (o *findOptions) fromOnsets(s streams) (found.Music, error) {
	var parts []find.TapPart
	for _, name := range o.onsets {
		more, err := o.tapParts(s, name)
		if err != nil {
			return found.Music{}, fmt.Errorf("%s: %w", name, err)
		}
		parts = append(parts, more...)
	}
	if len(parts) == 1 && parts[0].Played == nil {
		parts[0].Name = "Line"
	}
	m, err := o.fromTaps(parts)
	if err != nil {
		return m, fmt.Errorf("%s: %w", strings.Join(o.onsets, ", "), err)
	}
	if m.Clock != nil && len(o.onsets) > 1 {
		m.Notes = append(m.Notes, "the parts' offset holds only if all files count from the same moment")
	}
	return m, nil
}

// fromTaps reads parts that were tapped, all on one clock.
func (o *findOptions) fromTaps(parts []find.TapPart) (found.Music, error) {
	taken := found.Names{}
	for i := range parts {
		parts[i].Name = taken.Own(parts[i].Name)
	}
	take, err := find.FromParts(parts, find.TapOptions{Tempo: o.tempo, Tolerance: o.seconds, Exceptions: o.noise})
	if err != nil {
		return found.Music{}, err
	}
	m := found.Music{Plan: found.Plan{Title: "Found", Tempo: strconv.FormatFloat(take.Taps.Tempo, 'f', 1, 64), Swing: take.Taps.Swing.String()}}
	for i := range take.Parts {
		p := &take.Parts[i]
		m.Lines = append(m.Lines, found.Line{Name: p.Name, Played: parts[i].Played, List: p.List, Taps: &p.Taps, Ranked: p.Ranked})
	}
	for _, p := range parts {
		m.Notes = append(m.Notes, tooClose(p)...)
	}
	if len(parts) > 1 {
		m.Clock = &take.Taps
	}
	return m, nil
}

// closest is how near two taps of one part may be, in seconds, before one of
// them is thought a slip: no hand repeats a stroke that fast (common practice).
const closest = 0.03

// tooClose names the first two taps of a part that are nearer than that.
func tooClose(p find.TapPart) []string {
	for i := 1; i < len(p.Onsets); i++ {
		if apart := p.Onsets[i] - p.Onsets[i-1]; apart < closest {
			return []string{fmt.Sprintf("%s: taps %d and %d are %.0f ms apart; is one of them a slip?", p.Name, i, i+1, 1000*apart)}
		}
	}
	return nil
}

// tapParts reads the parts of one file.
func (o *findOptions) tapParts(s streams, name string) ([]find.TapPart, error) {
	data, err := readBytes(s, name, largestScore)
	if err != nil {
		return nil, err
	}
	if !bytes.HasPrefix(data, []byte("MThd")) {
		onsets, err := seconds(string(data))
		return []find.TapPart{{Name: partFromFile(name), Onsets: onsets}}, err
	}
	score, err := midi.Read(data)
	if err != nil {
		return nil, err
	}
	parts, err := o.parts(score)
	if err != nil {
		return nil, err
	}
	names, _, _ := found.PartNames(parts)
	var all []find.TapPart
	for _, p := range parts {
		played := find.PlayedPart(p)
		played.Name = names[p]
		all = append(all, played)
	}
	return all, nil
}

// partFromFile names a part by its file.
func partFromFile(name string) string {
	base := filepath.Base(name)
	if own := found.Tidy(strings.TrimSuffix(base, filepath.Ext(base))); own != "" && name != "-" {
		return own
	}
	return "Line"
}

// decimalComma is a word that could be a number with a comma for its point.
var decimalComma = regexp.MustCompile(`(^|\s)[0-9]+,[0-9]+(\s|$)`)

// seconds reads onset times, one a word; what follows # is a remark.
func seconds(text string) ([]float64, error) {
	var onsets []float64
	pointed := strings.Contains(text, ".")
	for i, row := range strings.Split(text, "\n") {
		row, _, _ = strings.Cut(row, "#")
		if comma := strings.TrimSpace(decimalComma.FindString(row)); comma != "" && !pointed {
			return nil, fmt.Errorf("line %d: %q may be one number or two; write %s, or a blank between them", i+1, comma, strings.Replace(comma, ",", ".", 1))
		}
		for _, word := range strings.Fields(strings.ReplaceAll(row, ",", " ")) {
			t, err := strconv.ParseFloat(word, 64)
			if err != nil {
				return nil, fmt.Errorf("line %d: %q is no time in seconds", i+1, word)
			}
			onsets = append(onsets, t)
		}
	}
	return onsets, nil
}
