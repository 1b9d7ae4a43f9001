package main

import (
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
	"tieover/score/heard/midi"
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
	lines, wrong := o.linesOf(parts, &info)
	switch {
	case len(wrong) > 0 && (!o.all || len(lines) == 0):
		if errors.Is(wrong[0], find.ErrNoPulse) && isMIDIName(name) {
			return fail(fmt.Errorf("%w; if it was played freely, write --onsets %s", wrong[0], name))
		}
		return fail(wrong[0])
	case len(lines) == 0:
		return fail(fmt.Errorf("nothing sounds in it"))
	}
	for _, err := range wrong {
		info.notes = append(info.notes, "left out: "+err.Error())
	}
	if o.all || o.asSpec {
		info.setMeters(barsOf(lines[0]))
	}
	return lines, info, nil
}

// linesOf makes a line of each part, or of each voice, and says which cannot be
// one.
func (o *findOptions) linesOf(parts []*heard.Part, info *findInfo) (lines []findLine, wrong []error) {
	names, taken, notes := partNames(parts)
	info.notes = append(info.notes, notes...)
	for _, part := range parts {
		from, to, err := o.stretch(part)
		if err != nil {
			wrong = append(wrong, fmt.Errorf("%s: %w", names[part], err))
			continue
		}
		for _, v := range o.voices(part, names[part]) {
			if v.player != "" {
				v.name = taken.own(v.name)
			}
			list, err := find.FromAttacks(v.attacks, from, to)
			if err != nil {
				wrong = append(wrong, fmt.Errorf("%s: %w", v.name, err))
				continue
			}
			if list.Joined {
				info.notes = append(info.notes, fmt.Sprintf("%s: sounds that overlap are taken to end where the next begins", v.name))
			}
			lines = append(lines, findLine{name: v.name, player: v.player, part: part, from: from, to: to, list: list})
		}
	}
	return lines, wrong
}

func isMIDIName(name string) bool {
	ext := strings.ToLower(filepath.Ext(name))
	return ext == ".mid" || ext == ".midi"
}

func readAnyScore(s streams, name string) (*heard.Score, error) {
	if !isMIDIName(name) {
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

// infoOf takes title and tempo from the first part that has them.
func infoOf(score *heard.Score) findInfo {
	info := findInfo{title: cmp.Or(tidy(score.Title), "Found")}
	for _, r := range heard.Summary(score.Remarks) {
		info.notes = append(info.notes, r.Part+": "+r.Text)
	}
	for _, p := range score.Parts {
		if info.tempo == "" && p.Quarters().Sign() > 0 {
			info.setTempo(p.Tempos)
		}
	}
	return info
}

// barsOf returns the bars of the line's stretch of its part, counted from its
// start.
func barsOf(line findLine) []heard.Bar {
	var bars []heard.Bar
	for _, bar := range line.part.Bars {
		if bar.Start.Cmp(line.from) >= 0 && bar.Start.Cmp(line.to) < 0 {
			bar.Start = bar.Start.Sub(line.from)
			bars = append(bars, bar)
		}
	}
	return bars
}

// setMeters takes over the meters of the bars, and says so when it cannot.
func (info *findInfo) setMeters(bars []heard.Bar) {
	meters, err := find.Meters(bars)
	switch {
	case err != nil:
		info.notes = append(info.notes, "the bars are not taken over: "+err.Error())
	case len(meters) > 0:
		info.meter, info.changes = meters[0].Meter, meters[1:]
		if len(info.changes) == 0 && !strings.HasPrefix(info.meter, "[") {
			info.bar = bars[0].Length
		}
	}
}

// setTempo takes the first tempo with the three decimals that a spec may have, and says
// so when it had more.
func (info *findInfo) setTempo(tempos []heard.Tempo) {
	quarters := tempos[0].Quarters
	if slices.ContainsFunc(tempos, func(t heard.Tempo) bool { return t.Quarters != quarters }) {
		info.notes = append(info.notes, "the tempo changes; only the first is taken over")
	}
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
func (o *findOptions) voices(part *heard.Part, name string) []voiceLine {
	var all []voiceLine
	at := map[string]int{}
	for _, a := range part.Attacks {
		i, known := at[a.Voice]
		if !known {
			i = len(all)
			at[a.Voice] = i
			all = append(all, voiceLine{name: name + ", voice " + tidy(a.Voice), player: name})
		}
		all[i].attacks = append(all[i].attacks, a)
	}
	if o.voice != "" {
		if i, ok := at[o.voice]; ok {
			return all[i : i+1]
		}
		return []voiceLine{{name: name + ", voice " + o.voice}}
	}
	if !o.all || len(all) < 2 {
		return []voiceLine{{name: name, attacks: part.Attacks}}
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
