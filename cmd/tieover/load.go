package main

import (
	"fmt"
	"io"
	"os"

	"tieover/cmd/tieover/files"
	"tieover/score"
	"tieover/score/source"
	"tieover/score/spec"
)

// longPiece is the number of bars from which on a section gets a remark, where the
// spec does not say how many it has.
const longPiece = 4096

// lengthWords is a length as the spec says it.
func lengthWords(r score.LengthRule) string {
	unit := r.Kind.String()
	if r.N != 1 {
		unit += "s"
	}
	return fmt.Sprintf("%d %s", r.N, unit)
}

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
			fmt.Fprintf(s.err, "note: section %d became %d bars long (length: %v)\n", i+1, n, lengthWords(sec.LengthRule))
		}
	}
	return p, nil
}

func loadQuietly(s streams, names []string) (*score.Piece, error) {
	files := make([]spec.File, 0, len(names))
	for _, name := range names {
		text, err := readSpec(s, name)
		if err != nil {
			return nil, exit{wrongData, err}
		}
		files = append(files, spec.File{Name: name, Text: text})
	}
	p, problems := spec.Read(files)
	if len(problems) > 0 {
		return nil, exit{wrongData, problems.Err()}
	}
	return p, nil
}

// readSpec reads one file whole, at most one byte more than a spec may have,
// so that the reader can say it is too large.
func readSpec(s streams, name string) ([]byte, error) {
	if name == "-" {
		text, err := io.ReadAll(io.LimitReader(s.in, spec.MaxSize+1))
		if err != nil {
			return nil, files.Error("cannot read", "standard input", err)
		}
		return text, nil
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

// problemsOf turns what layout or an exporter found into an error.
func problemsOf(problems source.Problems) error {
	if len(problems) == 0 {
		return nil
	}
	return exit{wrongData, problems.Err()}
}

// largestScore is the most bytes of a score or a list that is read.
const largestScore = 64 << 20

// readBytes reads a file that is no spec whole, "-" for standard input.
func readBytes(s streams, name string) ([]byte, error) {
	in, called, err := openInput(s, name)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	data, err := io.ReadAll(io.LimitReader(in, largestScore+1))
	if err != nil {
		return nil, exit{wrongData, files.Error("cannot read", called, err)}
	}
	if len(data) > largestScore {
		return nil, exit{wrongData, fmt.Errorf("%s is larger than %d MiB", called, largestScore>>20)}
	}
	return data, nil
}

// openInput opens a file, "-" for standard input, and says what it is called.
func openInput(s streams, name string) (in io.ReadCloser, called string, err error) {
	if name == "-" {
		return io.NopCloser(s.in), "standard input", nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, name, exit{wrongData, files.Error("cannot read", name, err)}
	}
	return f, name, nil
}
