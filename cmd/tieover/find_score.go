package main

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"tieover/export/midi"
	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

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
