package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"tieover/export/midi"
	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// findLine is one line of attacks to look at.
type findLine struct {
	name   string
	player string      // the part's name, where it has several lines
	part   *heard.Part // nil when it comes from durations
	from   beat.Span   // where the list begins in the part
	list   *find.List
	taps   *find.Taps // nil unless it was tapped
	ranked []*find.Description
}

// findInfo is what is known besides.
type findInfo struct {
	title string
	meter string
	bar   beat.Span
	tempo string
	notes []string // what the user must be told of the input
}

// lines reads whatever the command line names.
func (o *findOptions) lines(s streams, args []string) ([]findLine, findInfo, error) {
	switch {
	case o.onsets != "":
		if len(args) > 0 {
			return nil, findInfo{}, usage("--onsets and other input together: choose one")
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

// fromDurations reads durations in pulses: 3, r2, "rest 2", 3+2+2, boxes.
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
		more, ok := durations(word)
		if !ok || blank && len(more) != 1 {
			return nil, findInfo{}, exit{wrongData, fmt.Errorf("%q is no duration; write numbers of pulses, r2 for a silence of 2, or a box such as x..x", word)}
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
	digits, blank := strings.CutPrefix(word, "r")
	n, err := strconv.ParseInt(digits, 10, 64)
	return []find.Item{{Size: n, Blank: blank}}, err == nil && digits[0] != '+' && digits[0] != '-'
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

// seconds reads onset times, one a word; what follows # is a remark.
func seconds(text string) ([]float64, error) {
	var onsets []float64
	for i, row := range strings.Split(text, "\n") {
		row, _, _ = strings.Cut(row, "#")
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
	quarters := 120.0 // what a MIDI file without a tempo means
	if part.Quarters.Sign() > 0 {
		quarters = float64(part.Quarters.Num()) / float64(part.Quarters.Den())
	}
	return find.FromPlayed(part.Attacks, 240/quarters, options)
}

// onePart returns the part that is asked for, or the only one.
func (o *findOptions) onePart(score *heard.Score) (*heard.Part, error) {
	var names []string
	for _, p := range score.Parts {
		names = append(names, p.Name)
	}
	if o.part != "" {
		if p, ok := score.Find(o.part); ok {
			return p, nil
		}
		return nil, fmt.Errorf("no part %q; its parts are %s", o.part, strings.Join(names, ", "))
	}
	if len(score.Parts) > 1 {
		return nil, fmt.Errorf("several parts: %s; choose one with --part, or take --all", strings.Join(names, ", "))
	}
	return score.Parts[0], nil
}

// fromScore reads a MusicXML or MIDI file.
func (o *findOptions) fromScore(s streams, name string) ([]findLine, findInfo, error) {
	score, err := readAnyScore(s, name)
	if err != nil {
		return nil, findInfo{}, err
	}
	fail := func(err error) ([]findLine, findInfo, error) {
		return nil, findInfo{}, exit{wrongData, fmt.Errorf("%s: %w", name, err)}
	}
	info := infoOf(score)
	parts := score.Parts
	if !o.all {
		part, err := o.onePart(score)
		if err != nil {
			return fail(err)
		}
		parts = []*heard.Part{part}
	}
	var lines []findLine
	for _, part := range parts {
		from, to, err := o.stretch(part)
		if err != nil {
			return fail(err)
		}
		for _, v := range o.voices(part) {
			list, err := find.FromAttacks(v.attacks, from, to)
			switch {
			case err != nil && o.all:
				info.notes = append(info.notes, fmt.Sprintf("%s left out: %v", v.name, err))
				continue
			case err != nil:
				return fail(fmt.Errorf("%s: %w", v.name, err))
			}
			if list.Joined {
				info.notes = append(info.notes, fmt.Sprintf("%s: sounds that overlap are taken to end where the next begins", v.name))
			}
			lines = append(lines, findLine{name: v.name, player: v.player, part: part, from: from, list: list})
		}
	}
	if len(lines) == 0 {
		return fail(fmt.Errorf("nothing sounds in it"))
	}
	return lines, info, nil
}

func readAnyScore(s streams, name string) (*heard.Score, error) {
	if ext := strings.ToLower(filepath.Ext(name)); ext != ".mid" && ext != ".midi" {
		return readScore(s, name)
	}
	data, err := readBytes(s, name)
	if err != nil {
		return nil, err
	}
	score, err := midi.Read(data)
	if err != nil {
		return nil, exit{wrongData, fmt.Errorf("%s: %w", name, err)}
	}
	return score, nil
}

// infoOf takes title, tempo and meter from the first part that has them. A
// meter that changes is not taken.
func infoOf(score *heard.Score) findInfo {
	info := findInfo{title: score.Title}
	if info.title == "" {
		info.title = "Found"
	}
	left := map[heard.RemarkKind]int{}
	for _, r := range score.Remarks {
		if left[r.Kind]++; left[r.Kind] <= 5 {
			info.notes = append(info.notes, r.Part+": "+r.Text)
		}
	}
	for _, n := range left {
		if n > 5 {
			info.notes = append(info.notes, fmt.Sprintf("… and %d more of the kind", n-5))
		}
	}
	for _, p := range score.Parts {
		if info.tempo == "" && p.Quarters.Sign() > 0 {
			info.setTempo(p.Quarters)
		}
		for i, bar := range p.Bars {
			if i == 0 && info.meter == "" {
				info.meter, info.bar = bar.Meter, bar.Length
			}
			if bar.Meter != info.meter || bar.Length != info.bar {
				info.bar = beat.Span{}
			}
		}
	}
	return info
}

// setTempo takes a tempo with the three decimals that a spec may have, and says
// so when it had more.
func (info *findInfo) setTempo(quarters beat.Span) {
	exact := float64(quarters.Num()) / float64(quarters.Den())
	text := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(exact, 'f', 3, 64), "0"), ".")
	if _, whole := quarters.Times(1000).IsWhole(); !whole {
		info.notes = append(info.notes, fmt.Sprintf("the tempo %s is written as %s", quarters, text))
	}
	info.tempo = text
}

// voiceLine is one voice of a part.
type voiceLine struct {
	name    string
	player  string
	attacks []heard.Attack
}

// voices divides a part: with --all each voice is a line, else the one asked
// for, or all together.
func (o *findOptions) voices(part *heard.Part) []voiceLine {
	var all []voiceLine
	at := map[string]int{}
	for _, a := range part.Attacks {
		i, known := at[a.Voice]
		if !known {
			i = len(all)
			at[a.Voice] = i
			all = append(all, voiceLine{name: part.Name + ", voice " + a.Voice, player: part.Name})
		}
		all[i].attacks = append(all[i].attacks, a)
	}
	if o.voice != "" {
		if i, ok := at[o.voice]; ok {
			return all[i : i+1]
		}
		return []voiceLine{{name: part.Name + ", voice " + o.voice}}
	}
	if !o.all || len(all) < 2 {
		return []voiceLine{{name: part.Name, attacks: part.Attacks}}
	}
	return all
}

// stretch returns the moments between which the part is looked at.
func (o *findOptions) stretch(part *heard.Part) (from, to beat.Span, err error) {
	to = part.End()
	if o.bars == "" {
		return from, to, nil
	}
	first, last, err := barRange(o.bars)
	if err != nil {
		return from, to, err
	}
	found := false
	for _, bar := range part.Bars {
		n, convErr := strconv.Atoi(bar.Number)
		if convErr != nil || n < first || last > 0 && n > last {
			continue
		}
		if !found {
			from, found = bar.Start, true
		}
		to = bar.Start.Add(bar.Length)
	}
	if !found {
		return from, to, fmt.Errorf("it has no bars %s", o.bars)
	}
	return from, to, nil
}
