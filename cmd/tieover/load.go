package main

import (
	"fmt"
	"io"
	"os"

	"tieover/cmd/tieover/files"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/spec"
)

// longPiece is the number of bars from which on a section gets a remark, where the
// spec does not say how many it has.
const longPiece = 4096

// load reads the specs named on the command line, "-" for standard input, as
// consecutive sections of one piece. Warnings go to the error stream.
func load(s streams, names []string) (*score.Piece, error) {
	p, err := loadQuietly(s, names)
	if err != nil {
		return nil, err
	}
	for _, w := range p.Warnings {
		fmt.Fprintf(s.err, "warning: %v\n", w)
	}
	for i, sec := range p.Sections {
		if n := sec.BarCount(); n >= longPiece && sec.LengthRule.Kind != score.Bars {
			rule := beat.Counted(sec.LengthRule.N, sec.LengthRule.Kind.String())
			fmt.Fprintf(s.err, "note: section %d became %d bars long (length: %s)\n", i+1, n, rule)
		}
	}
	return p, nil
}

func loadQuietly(s streams, names []string) (*score.Piece, error) {
	files := make([]spec.File, 0, len(names))
	for _, name := range names {
		text, err := readSpec(s, name)
		if err != nil {
			return nil, err
		}
		files = append(files, spec.File{Name: name, Text: text})
	}
	p, problems := spec.Read(files)
	if len(problems) > 0 {
		return nil, problems.Err()
	}
	return p, nil
}

// readSpec reads one file whole, at most one byte more than a spec may have,
// so that the reader can say it is too large.
func readSpec(s streams, name string) ([]byte, error) {
	if name == "-" {
		text, _, err := readUpTo(s, name, spec.MaxSize+1)
		return text, err
	}
	before, err := os.Stat(name)
	if err != nil {
		return nil, files.Error("cannot read", name, err)
	}
	if before.IsDir() {
		return nil, fmt.Errorf("%s is a folder; name a spec file in it", name)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, files.Error("cannot read", name, err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, spec.MaxSize+1))
	if err != nil {
		return nil, files.Error("cannot read", name, err)
	}
	after, err := f.Stat()
	if err == nil && before.Mode().IsRegular() &&
		(after.Size() != before.Size() || !after.ModTime().Equal(before.ModTime())) {
		return nil, fmt.Errorf("%s was changed while it was read; try again", name)
	}
	return text, nil
}

// What is read at most, in bytes.
const (
	largestScore    = 64 << 20 // or a list of durations or times
	largestTemplate = 1 << 20
)

// readBytes reads a file that is no spec whole, "-" for standard input, and refuses
// one of more than most bytes.
func readBytes(s streams, name string, most int64) ([]byte, error) {
	data, called, err := readUpTo(s, name, most+1)
	if err == nil && int64(len(data)) > most {
		err = fmt.Errorf("%s is larger than %d MiB", called, most>>20)
	}
	return data, err
}

// readTemplate reads a template, "" where none is named.
func readTemplate(s streams, name string) (string, error) {
	if name == "" {
		return "", nil
	}
	text, err := readBytes(s, name, largestTemplate)
	return string(text), err
}

// readUpTo reads the first most bytes of a file, "-" for standard input, and says what
// it is called.
func readUpTo(s streams, name string, most int64) (data []byte, called string, err error) {
	in, called, err := openInput(s, name)
	if err != nil {
		return nil, called, err
	}
	defer in.Close()
	if data, err = io.ReadAll(io.LimitReader(in, most)); err != nil {
		return nil, called, files.Error("cannot read", called, err)
	}
	return data, called, nil
}

// openInput opens a file, "-" for standard input, and says what it is called.
func openInput(s streams, name string) (in io.ReadCloser, called string, err error) {
	if name == "-" {
		return io.NopCloser(s.in), "standard input", nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, name, files.Error("cannot read", name, err)
	}
	return f, name, nil
}
