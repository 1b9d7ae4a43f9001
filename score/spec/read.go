package spec

import (
	"fmt"

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
		problems = append(problems, r.problems...)
		problems = append(problems, andMore(r.file, r.more)...)
		warnings = append(warnings, r.warnings...)
	}
	if len(files) == 0 {
		problems.Add(source.Pos{}, "no spec was given", "name at least one file")
	}
	var p *score.Piece
	if len(drafts) == len(files) && len(drafts) > 0 {
		c := composer{drafts: drafts}
		p = c.compose()
		problems = append(problems, c.problems...)
		warnings = append(warnings, c.warnings...)
	}
	if len(problems) == 0 {
		p.Warnings = warnings
		problems = p.Settle()
		if n := len(problems) - maxProblems; n > 0 {
			problems = append(problems[:maxProblems], andMore(problems[0].Pos.File, n)...)
		}
		warnings = p.Warnings
	}
	problems, warnings = inOrder(problems, readers), inOrder(warnings, readers)
	if len(problems) > 0 {
		return nil, problems, warnings
	}
	p.Warnings = warnings
	return p, nil, warnings
}

// andMore counts the problems that are not shown.
func andMore(file string, n int) (problems source.Problems) {
	if n > 0 {
		problems.Add(source.Pos{File: file}, fmt.Sprintf("%d more problems in this file", n), "repair the first ones and try again")
	}
	return problems
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

// longestLine is how many bytes a line may have to be shown with a problem.
const longestLine = 2000

// inOrder puts problems in the order of the files and adds the offending lines,
// unless they are too long to be of use.
func inOrder(problems source.Problems, readers []*reader) source.Problems {
	var sorted source.Problems
	byFile := map[string]*reader{}
	for _, r := range readers {
		if byFile[r.file] != nil {
			continue
		}
		byFile[r.file] = r
		for _, p := range problems {
			if p.Pos.File == r.file {
				sorted = append(sorted, p)
			}
		}
	}
	for _, p := range problems {
		if byFile[p.Pos.File] == nil {
			sorted = append(sorted, p)
		}
	}
	sorted.Sort()
	for i, p := range sorted {
		if r := byFile[p.Pos.File]; r != nil && p.Pos.Line >= 1 && p.Pos.Line <= len(r.lines) && len(r.lines[p.Pos.Line-1]) <= longestLine {
			sorted[i].Line = r.lines[p.Pos.Line-1]
		}
	}
	return sorted
}

// KeyTable is one kind of map in a spec with the keys it may have.
type KeyTable struct {
	Name string // "section", "layer", "grow" …
	Keys []string
}

// KeyTables lists every map of the spec; the schema for editors is held to it.
func KeyTables() []KeyTable {
	return []KeyTable{
		{"section", names(sectionKeys())},
		{"layer", names(layerKeys())},
		{"process", names(processKeys())},
		{"grow", names(growKeys())},
		{"rotate", names(turnKeys())},
		{"shift", names(turnKeys())},
		{"retrograde", names(retrogradeKeys())},
		{"append", names(appendKeys())},
		{"pitchesBy", names(pitchesKeys())},
		{"except", names(exceptKeys())},
		{"plan", names(planKeys())},
		{"recording", names(recordingKeys())},
		{"recording mark", names(recordingMarkKeys())},
	}
}
