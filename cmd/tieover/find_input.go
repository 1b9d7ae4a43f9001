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
	"tieover/score/heard"
	"tieover/score/heard/midi"
)

// findLine is one line of attacks to look at.
type findLine struct {
	name   string
	player string      // the part's name, where it has several lines
	part   *heard.Part // nil when it comes from durations
	from   beat.Span   // where the list begins in the part
	to     beat.Span   // where its stretch of the part ends
	list   *find.List
	taps   *find.Taps // nil unless it was tapped
	ranked []*find.Description
	bars   *heard.Part // of --meter, for places; else nil
}

// findInfo is what is known besides.
type findInfo struct {
	title   string
	meter   string
	bar     beat.Span
	changes []find.Change
	tempo   string
	swing   string
	clock   *find.Taps // of several parts on one clock; else nil
	notes   []string   // what the user must be told of the input
}

// lines reads whatever the command line names.
func (o *findOptions) lines(s streams, args []string) ([]findLine, findInfo, error) {
	lines, info, err := o.read(s, args)
	if err == nil && o.meter != "" {
		info.meter, info.bar = o.meter, barLength(o.meter)
		for i := range lines {
			lines[i].bars = barsIn(o.meter, lines[i].list)
		}
	}
	return lines, info, err
}

func (o *findOptions) read(s streams, args []string) ([]findLine, findInfo, error) {
	switch {
	case len(o.onsets) > 0:
		if len(args) > 0 {
			return nil, findInfo{}, usage("--onsets and other input together: choose one")
		}
		return o.fromOnsets(s)
	case len(args) == 1 && isScoreName(args[0]) && o.meter != "":
		return nil, findInfo{}, usage("--meter: a score has bars of its own; leave it out")
	case len(args) == 1 && isScoreName(args[0]):
		return o.fromScore(s, args[0])
	case o.part != "" || o.all || o.bars != "":
		return nil, findInfo{}, usage("--part, --bars and --all need a score")
	}
	words := args
	if len(args) == 0 || len(args) == 1 && args[0] == "-" {
		text, err := readBytes(s, "-")
		if err != nil {
			return nil, findInfo{}, err
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
func (o *findOptions) fromDurations(words []string) ([]findLine, findInfo, error) {
	base, ok := beat.ParseSpan(o.pulse)
	if !ok || base.Sign() <= 0 || base.Den() > 128 || base.Den()&(base.Den()-1) != 0 {
		return nil, findInfo{}, usage("--pulse %s: write a note value such as 1/8 or 3/16", o.pulse)
	}
	var items []find.Item
	blank := false
	for _, word := range strings.FieldsFunc(strings.Join(words, " "), func(r rune) bool { return r == ' ' || r == '+' || r == ',' }) {
		if word == "rest" && !blank {
			blank = true
			continue
		}
		if _, err := strconv.ParseFloat(word, 64); err == nil && strings.Contains(word, ".") {
			return nil, findInfo{}, exit{wrongData, fmt.Errorf("%s is no whole number of pulses; count shorter ones with --pulse, as in --pulse 1/16", word)}
		}
		more, ok := durations(word)
		if !ok || blank && len(more) != 1 {
			return nil, findInfo{}, exit{wrongData, fmt.Errorf("%q is no duration; write numbers of pulses, rest 2 for a silence of 2, or a box such as x..x", word)}
		}
		if blank {
			more[0].Blank = true
		}
		items, blank = append(items, more...), false
	}
	if blank {
		return nil, findInfo{}, exit{wrongData, fmt.Errorf("how long is the last rest?")}
	}
	list, err := find.FromDurations(items, beat.Plain(base))
	if err != nil {
		return nil, findInfo{}, exit{wrongData, err}
	}
	return []findLine{{name: "Line", list: list}}, findInfo{title: "Found"}, nil
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
func (o *findOptions) fromOnsets(s streams) ([]findLine, findInfo, error) {
	var parts []find.TapPart
	for _, name := range o.onsets {
		more, err := o.tapParts(s, name)
		if err != nil {
			return nil, findInfo{}, exit{wrongData, fmt.Errorf("%s: %w", name, err)}
		}
		parts = append(parts, more...)
	}
	if len(parts) == 1 {
		parts[0].Name = "Line"
	}
	ownTapNames(parts)
	take, err := find.FromParts(parts, find.TapOptions{Tempo: o.tempo, Tolerance: o.seconds, Exceptions: o.noise})
	if err != nil {
		return nil, findInfo{}, exit{wrongData, fmt.Errorf("%s: %w", strings.Join(o.onsets, ", "), err)}
	}
	info := findInfo{title: "Found", tempo: strconv.FormatFloat(take.Taps.Tempo, 'f', 1, 64), swing: take.Taps.SwingText()}
	var lines []findLine
	for i := range take.Parts {
		p := &take.Parts[i]
		lines = append(lines, findLine{name: p.Name, list: p.List, taps: &p.Taps, ranked: p.Ranked})
	}
	for _, p := range parts {
		info.notes = append(info.notes, tooClose(p)...)
	}
	if len(parts) > 1 {
		info.clock = &take.Taps
		if len(o.onsets) > 1 {
			info.notes = append(info.notes, "the parts' offset holds only if all files count from the same moment")
		}
	}
	return lines, info, nil
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
	data, err := readBytes(s, name)
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
	parts := score.Parts
	if !o.all {
		part, err := o.onePart(score)
		if err != nil {
			return nil, err
		}
		parts = []*heard.Part{part}
	}
	names, _, _ := partNames(parts)
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
	if own := tidy(strings.TrimSuffix(base, filepath.Ext(base))); own != "" && name != "-" {
		return own
	}
	return "Line"
}

// ownTapNames numbers parts of one name.
func ownTapNames(parts []find.TapPart) {
	taken := map[string]bool{}
	for i := range parts {
		own := parts[i].Name
		for n := 2; taken[own]; n++ {
			own = fmt.Sprintf("%s (%d)", parts[i].Name, n)
		}
		taken[own], parts[i].Name = true, own
	}
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
