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
}

// findInfo is what is known besides.
type findInfo struct {
	title   string
	meter   string
	bar     beat.Span
	changes []find.Change
	tempo   string
	notes   []string // what the user must be told of the input
}

// lines reads whatever the command line names.
func (o *findOptions) lines(s streams, args []string) ([]findLine, findInfo, error) {
	switch {
	case o.onsets != "":
		if len(args) > 0 {
			return nil, findInfo{}, usage("--onsets and other input together: choose one")
		}
		if o.all {
			return nil, findInfo{}, usage("--onsets and --all together: taps are one line; choose it with --part")
		}
		return o.fromOnsets(s)
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

// fromOnsets reads seconds, or a MIDI file as it was played.
func (o *findOptions) fromOnsets(s streams) ([]findLine, findInfo, error) {
	data, err := readBytes(s, o.onsets)
	if err != nil {
		return nil, findInfo{}, err
	}
	var list *find.List
	var taps *find.Taps
	options := find.TapOptions{Tempo: o.tempo, Tolerance: o.seconds}
	if bytes.HasPrefix(data, []byte("MThd")) {
		list, taps, err = o.played(data, options)
	} else {
		var onsets []float64
		if onsets, err = seconds(string(data)); err == nil {
			list, taps, err = find.FromOnsets(onsets, options)
		}
	}
	if err != nil {
		return nil, findInfo{}, exit{wrongData, fmt.Errorf("%s: %w", o.onsets, err)}
	}
	info := findInfo{title: "Found", tempo: strconv.FormatFloat(taps.Tempo, 'f', 1, 64)}
	return []findLine{{name: "Line", list: list, taps: taps}}, info, nil
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

func (o *findOptions) played(data []byte, options find.TapOptions) (*find.List, *find.Taps, error) {
	score, err := midi.Read(data)
	if err != nil {
		return nil, nil, err
	}
	part, err := o.onePart(score)
	if err != nil {
		return nil, nil, err
	}
	return find.FromPlayed(part, options)
}
