package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"tieover/score/find"
	"tieover/score/found"
	"tieover/score/heard"
	"tieover/score/heard/midi"
)

// fromScore reads a MusicXML or MIDI file.
func (o *findOptions) fromScore(s streams, name string) (found.Music, error) {
	score, err := readAnyScore(s, name)
	if err != nil {
		return found.Music{}, err
	}
	fail := func(err error) (found.Music, error) {
		return found.Music{}, fmt.Errorf("%s: %w", name, err)
	}
	parts, err := o.parts(score)
	if err != nil {
		return fail(err)
	}
	m, wrong := found.Selection{Voice: o.voice, Divide: o.all, From: o.bars.from, To: o.bars.to}.Read(score, parts)
	switch {
	case len(wrong) > 0 && (!o.all || len(m.Lines) == 0):
		if errors.Is(wrong[0], find.ErrNoPulse) && isMIDIName(name) {
			return fail(fmt.Errorf("%w; if it was played freely, write --onsets %s", wrong[0], name))
		}
		return fail(wrong[0])
	case len(m.Lines) == 0:
		return fail(fmt.Errorf("nothing sounds in it"))
	}
	for _, err := range wrong {
		m.Notes = append(m.Notes, "left out: "+err.Error())
	}
	if o.all || o.asSpec {
		m.TakeMeters()
	}
	if o.bars == (bars{}) {
		m.Plan.End = m.Lines[0].Part.End()
	}
	return m, nil
}

// parts returns all parts, the one that is asked for, or the only one.
func (o *findOptions) parts(score *heard.Score) ([]*heard.Part, error) {
	if o.all {
		return score.Parts, nil
	}
	var names []string
	for _, p := range score.Parts {
		names = append(names, p.Name)
	}
	if o.part != "" {
		if p, ok := score.Find(o.part); ok {
			return []*heard.Part{p}, nil
		}
		return nil, fmt.Errorf("no part %q; its parts are %s", o.part, strings.Join(names, ", "))
	}
	if len(score.Parts) > 1 {
		return nil, fmt.Errorf("several parts: %s; choose one with --part, or take --all", strings.Join(names, ", "))
	}
	return score.Parts, nil
}

func isMIDIName(name string) bool {
	ext := strings.ToLower(filepath.Ext(name))
	return ext == ".mid" || ext == ".midi"
}

func readAnyScore(s streams, name string) (*heard.Score, error) {
	if !isMIDIName(name) {
		return readScore(s, name)
	}
	data, err := readBytes(s, name, largestScore)
	if err != nil {
		return nil, err
	}
	score, err := midi.Read(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return score, nil
}
