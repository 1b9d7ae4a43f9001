package spec

import (
	"cmp"
	"slices"

	"tieover/score"
	"tieover/score/source"
)

// File is one spec as the user gave it.
type File struct {
	Name string // as on the command line
	Text []byte
}

// Read reads the files as consecutive sections of one piece. The piece is nil
// when anything is wrong; its Warnings hold what is legal but probably not
// meant.
func Read(files []File) (*score.Piece, source.Problems) {
	p, problems, _ := read(files)
	return p, problems
}

// read also returns the warnings of a piece that has problems.
func read(files []File) (*score.Piece, source.Problems, source.Problems) {
	var problems, warnings source.Problems
	readers := make([]*reader, len(files))
	var drafts []*draft
	for i, f := range files {
		r := &reader{file: f.Name}
		readers[i] = r
		if d := r.readFile(f.Text); d != nil {
			drafts = append(drafts, d)
		}
		problems = append(problems, r.all()...)
		warnings = append(warnings, r.warnings...)
	}
	if len(files) == 0 {
		problems.Add(source.Pos{}, "no spec was given", "name at least one file")
	}
	var p *score.Piece
	if len(drafts) == len(files) && len(drafts) > 0 {
		c := composer{drafts: drafts}
		p = c.compose()
		problems = append(problems, c.all()...)
		warnings = append(warnings, c.warnings...)
	}
	if len(problems) == 0 {
		p.Warnings = warnings
		settled := findings{problems: p.Settle()}
		if n := len(settled.problems) - maxProblems; n > 0 {
			settled.problems, settled.more = settled.problems[:maxProblems], n
		}
		problems, warnings = settled.all(), p.Warnings
	}
	texts := source.Texts{}
	for _, r := range readers {
		if _, met := texts[r.file]; !met {
			texts[r.file] = r.lines
		}
	}
	problems, warnings = texts.Quote(inOrder(problems, readers)), texts.Quote(inOrder(warnings, readers))
	if len(problems) > 0 {
		return nil, problems, warnings
	}
	p.Warnings, p.Source = warnings, texts
	return p, nil, warnings
}

func (r *reader) readFile(text []byte) *draft {
	clean, ok := r.scan(text)
	if !ok {
		return nil
	}
	root, ok := r.parse(clean)
	if !ok {
		return nil
	}
	return r.readSection(root)
}

// inOrder puts problems in the order of the files.
func inOrder(problems source.Problems, readers []*reader) source.Problems {
	place := map[string]int{} // of each file; the place past the last is none
	for i, r := range slices.Backward(readers) {
		place[r.file] = i
	}
	at := func(p source.Problem) int {
		if i, ok := place[p.Pos.File]; ok {
			return i
		}
		return len(readers)
	}
	slices.SortStableFunc(problems, func(a, b source.Problem) int { return cmp.Compare(at(a), at(b)) })
	problems.Sort() // within each file
	return problems
}

// KeyTable is one kind of map in a spec with the keys it may have.
type KeyTable struct {
	Name string // "section", "layer", "grow" …
	Keys []string

	called, example string // in messages
}

// KeyTables lists every map of the spec; the schema for editors is held to it.
func KeyTables() []KeyTable {
	return []KeyTable{
		{"section", names(sectionKeys()), "the section", "title: and layers:"},
		{"layer", names(layerKeys()), "a layer", "- name: Bell, and its keys in line below"},
		{"process", names(processKeys()), "a process", "{rotate: {by: 1}}, or another process"},
		{"grow", names(growKeys()), "grow", "{group: 1, by: 1, from: 2}"},
		{"rotate", names(turnKeys()), "rotate", "{by: 1}"},
		{"shift", names(turnKeys()), "shift", "{by: 1}"},
		{"retrograde", []string{"on"}, "retrograde", "{on: even}"},
		{"append", names(appendKeys()), "append", "{size: 2}"},
		{"pitchesBy", names(pitchesKeys()), "pitches", "{realignment: [E5 B4, G4 D5]}"},
		{"except", names(exceptKeys()), "an exception", "{cycle: 3, groups: 5+2}"},
		{"plan", names(planKeys()), "a plan entry", "{at: bar 5, mark: Weir}"},
		{"recording", names(recordingKeys()), "a recording", "{file: take.wav, starts: 1.283 s}"},
		{"recording mark", names(recordingMarkKeys()), "a mark of a recording", "{at: bar 9, sounds: 21.402 s}"},
	}
}
