package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
)

// batch writes several files so that either all appear under their names or
// none: each is written beside its target under another name, and only when
// all are whole are they renamed. It is safe for use by several goroutines.
type batch struct {
	ctx   context.Context
	dir   string
	made  []string // folders that did not exist before, outermost first
	mu    sync.Mutex
	files []pending
	bytes counter
}

// pending is a whole file that waits for its name.
type pending struct{ temp, target string }

// newBatch prepares dir, making it if need be. Whatever ctx ends stops all
// writing.
func newBatch(ctx context.Context, dir string) (*batch, error) {
	b := &batch{ctx: ctx, dir: dir}
	if err := b.makeDir(dir); err != nil {
		b.abandon()
		return nil, err
	}
	return b, nil
}

// makeDir makes a folder and those it lies in, and remembers which are new.
func (b *batch) makeDir(dir string) error {
	info, err := os.Stat(dir)
	switch {
	case err == nil && info.IsDir():
		return nil
	case err == nil:
		return fmt.Errorf("%s is not a folder", dir)
	case !errors.Is(err, fs.ErrNotExist):
		return plain("cannot use the folder", dir, err)
	}
	if parent := filepath.Dir(dir); parent != dir {
		if err := b.makeDir(parent); err != nil {
			return err
		}
	}
	if err := os.Mkdir(dir, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
		return plain("cannot make the folder", dir, err)
	}
	b.made = append(b.made, dir)
	return nil
}

// write writes one file of the batch; name is relative to its folder and uses
// forward slashes. The file appears at commit.
func (b *batch) write(name string, fill func(io.Writer) error) error {
	target := filepath.Join(b.dir, filepath.FromSlash(name))
	if err := b.checkTarget(target); err != nil {
		return err
	}
	b.mu.Lock()
	err := b.makeDir(filepath.Dir(target))
	b.mu.Unlock()
	if err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(target), ".tieover-*")
	if err != nil {
		return plain("cannot write into", filepath.Dir(target), err)
	}
	b.mu.Lock()
	b.files = append(b.files, pending{f.Name(), target})
	b.mu.Unlock()

	err = fill(&guarded{b.ctx, f, &b.bytes})
	if syncErr := f.Sync(); err == nil && syncErr != nil {
		err = plain("cannot write", target, syncErr)
	}
	if closeErr := f.Close(); err == nil && closeErr != nil {
		err = plain("cannot write", target, closeErr)
	}
	if err == nil {
		err = os.Chmod(f.Name(), 0o666&^umask())
	}
	return err
}

// writeSafely is write for a goroutine of its own: a panic becomes an error, so
// that nothing half-written stays behind.
func (b *batch) writeSafely(out output) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = asBug(r)
		}
	}()
	return b.write(out.name, out.fill)
}

// checkTarget refuses to replace anything but an ordinary file.
func (b *batch) checkTarget(target string) error {
	info, err := os.Lstat(target)
	if err != nil {
		return nil // there is nothing yet
	}
	switch mode := info.Mode(); {
	case mode.IsDir():
		return fmt.Errorf("%s is a folder; remove it or choose another place", target)
	case mode&fs.ModeSymlink != 0:
		return fmt.Errorf("%s is a link; remove it or choose another place", target)
	case !mode.IsRegular():
		return fmt.Errorf("%s is not an ordinary file; choose another place", target)
	}
	return nil
}

// commit gives all files their names.
func (b *batch) commit() error {
	for i, f := range b.files {
		if err := b.ctx.Err(); err != nil {
			b.abandon()
			return errStopped
		}
		if err := os.Rename(f.temp, f.target); err != nil {
			b.files = b.files[i:]
			b.abandon()
			return plain("cannot write", f.target, err)
		}
	}
	b.files, b.made = nil, nil
	return nil
}

// abandon removes whatever has no final name yet, and new folders that are
// still empty.
func (b *batch) abandon() {
	for _, f := range b.files {
		os.Remove(f.temp)
	}
	for i := len(b.made) - 1; i >= 0; i-- {
		os.Remove(b.made[i]) // fails, as it should, when something is in it
	}
	b.files, b.made = nil, nil
}

var errStopped = errors.New("stopped; nothing was written")

// plain turns a file error into words: what could not be done, where, why.
func plain(what, path string, err error) error {
	var deeper *fs.PathError
	if errors.As(err, &deeper) {
		err = deeper.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		err = link.Err
	}
	return fmt.Errorf("%s %s: %w", what, path, err)
}

// guarded stops writing as soon as the context ends, and counts.
type guarded struct {
	ctx   context.Context
	w     *os.File
	bytes *counter
}

func (g *guarded) Write(p []byte) (int, error) {
	if g.ctx.Err() != nil {
		return 0, errStopped
	}
	n, err := g.w.Write(p)
	g.bytes.add(n)
	if err != nil {
		err = plain("cannot write", filepath.Dir(g.w.Name()), err)
	}
	return n, err
}
