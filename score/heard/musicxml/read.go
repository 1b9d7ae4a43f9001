package musicxml

import (
	"context"
	"fmt"
	"io"

	"tieover/score/heard"
)

// MaxBytes is how many bytes a file may have, and what a .mxl unpacks to.
const MaxBytes = 64 << 20

// What the reader takes besides. A file past one of these is refused with an
// error that names the limit, however small the file itself is.
const (
	maxRatio    = 200       // unpacked bytes to packed ones
	maxEntries  = 100       // files in a .mxl
	maxDepth    = 32        // elements inside one another
	maxNotes    = 1_000_000 // as written, and again as played
	maxBars     = 1_000_000 // as played
	maxElements = 20_000    // in one note, direction or other child of a bar
	maxGrid     = 1 << 19   // ticks in a whole note: 17 bits of denominator and two to spare
	maxWholes   = 1 << 22   // whole notes of music
	maxBarSpan  = 1 << 10   // whole notes in one bar
	maxMeters   = 4096      // different signatures
	maxRemarks  = 10_000    // kept; further ones are dropped
)

// ReadError says where in a file the reader stopped. Line counts from 1; 0 is
// the file as a whole.
type ReadError struct {
	Line int
	Text string
}

func (e *ReadError) Error() string {
	if e.Line == 0 {
		return e.Text
	}
	return fmt.Sprintf("line %d: %s", e.Line, e.Text)
}

func failed(line int, format string, args ...any) error {
	return &ReadError{line, fmt.Sprintf(format, args...)}
}

// Read returns the music of a MusicXML file: partwise or timewise, plain or
// compressed (.mxl). Ties are joined, repeats, endings and jumps played out,
// transposition undone, so that the result is what sounds. What it leaves out
// (grace and cue notes) and what does not add up is in Score.Remarks.
//
// It shares no code with the writer, expands no entities and opens no other
// file. It stops when ctx is done.
func Read(ctx context.Context, r io.Reader) (*heard.Score, error) {
	text, err := textOf(r)
	if err != nil {
		return nil, err
	}
	in := newReading(ctx, text)
	if err := in.score(); err != nil {
		return nil, err
	}
	return in.perform()
}
