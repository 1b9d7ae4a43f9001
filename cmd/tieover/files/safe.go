package files

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"runtime/debug"
	"strconv"
	"strings"
	"sync/atomic"
	"unicode"
)

// Stoppable is a context that the signals end that would end the program.
func Stoppable(ctx context.Context) (context.Context, context.CancelFunc) {
	signals := interrupts()
	if len(signals) == 0 { // NotifyContext takes none for all
		return context.WithCancel(ctx)
	}
	return signal.NotifyContext(ctx, signals...)
}

// Safely fills and turns a panic into an error, so that nothing half-written
// stays behind.
func Safely(fill func(io.Writer) error, w io.Writer) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = AsBug(r)
		}
	}()
	return fill(w)
}

// Buffered fills through a buffer, so that few and large pieces are written,
// however small those are that fill makes.
func Buffered(fill func(io.Writer) error, w io.Writer) error {
	out := bufio.NewWriterSize(w, 1<<16)
	if err := fill(out); err != nil {
		return err
	}
	return out.Flush()
}

// Guard is a writer that stops as soon as the context ends, and counts what it
// writes to the target.
func Guard(ctx context.Context, w io.Writer, target string, bytes *atomic.Int64) io.Writer {
	return &guarded{ctx, w, nil, target, bytes}
}

// guarded stops writing as soon as the context ends, and counts.
type guarded struct {
	ctx    context.Context
	w      io.Writer
	sum    *Sum // of what is written; nil if nobody asks
	target string
	bytes  *atomic.Int64
}

func (g *guarded) Write(p []byte) (int, error) {
	if g.ctx.Err() != nil {
		return 0, ErrStopped
	}
	n, err := g.w.Write(p)
	g.bytes.Add(int64(n))
	if g.sum != nil {
		g.sum.Write(p[:n])
	}
	if err != nil {
		err = Error("cannot write", g.target, err)
	}
	return n, err
}

// Error turns a file error into words: what could not be done, where, why. A
// name that would not show is quoted.
func Error(what, path string, err error) error {
	var deeper *fs.PathError
	if errors.As(err, &deeper) {
		err = deeper.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		err = link.Err
	}
	if path == "" || strings.ContainsFunc(path, unicode.IsControl) {
		path = strconv.Quote(path)
	}
	return fmt.Errorf("%s %s: %w", what, path, err)
}

// AsBug turns a panic, which no input should be able to cause, into an error.
func AsBug(r any) error {
	return fmt.Errorf("this is a bug in tieover, not a mistake of yours: %v\n%s", r, debug.Stack())
}
