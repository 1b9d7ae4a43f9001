// Package files writes files so that all of a batch appear under their names, or none,
// and nothing is replaced that somebody changed.
//
//   - Each file is written under a temporary name and synced; when all are whole, all
//     targets are looked at again, and then they are renamed. Once renaming began no
//     signal stops it; if a rename fails midway the message says how many files are
//     already new. A process killed outright leaves .tieover-* files, never half a file
//     under its name. Outside a batch signals have their usual effect.
//   - A folder's manifest lists the sums of what was written there; a target that has
//     neither its listed sum nor its new one stops the batch. Before the first rename the
//     manifest has old and new sums, afterwards the new ones, so that a program killed in
//     between vouches for both; a lock on the folder keeps commands that run at once from
//     losing each other's lines.
package files

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
)

// Batch writes several files so that either all appear under their names or
// none: each is written beside its target under another name, and only when
// all are whole are they renamed. While it lives, a signal that would end the
// program makes writing fail instead, so that it can clean up; a second one
// ends it at once. It is safe for use by several goroutines.
type Batch struct {
	ctx     context.Context
	release func() // gives signals their usual effect again
	dir     string
	inputs  []os.FileInfo // files that must not be replaced
	made    []string      // folders that did not exist before, outermost first
	mu      sync.Mutex    // of made, files and over
	files   []pending
	over    bool // no more files are begun

	Bytes    atomic.Int64 // written so far
	Unlisted bool         // what is written stands in no manifest, and replaces what is there
	Force    bool         // also what was changed since it was written is replaced
	Whole    []string     // groups of which nothing else is to stay
}

// Context ends when a signal stops the batch.
func (b *Batch) Context() context.Context { return b.ctx }

// pending is a file that waits for its name, until it is whole and all are.
type pending struct {
	name, temp, target string
	group              string
	file               *os.File
	sum                Sum
}

// New prepares dir, making it if need be. The inputs are names of files
// that the program reads, which are never written over. Whatever ctx ends stops
// all writing. A batch ends with Commit or Abandon.
func New(ctx context.Context, dir string, inputs ...string) (*Batch, error) {
	b := &Batch{dir: dir}
	b.ctx, b.release = Stoppable(ctx)
	context.AfterFunc(b.ctx, b.release)
	for _, name := range inputs {
		if info, err := os.Stat(name); err == nil {
			b.inputs = append(b.inputs, info)
		}
	}
	if err := b.makeDir(dir); err != nil {
		b.Abandon()
		return nil, err
	}
	return b, nil
}

// makeDir makes a folder and those it lies in, and remembers which are new.
func (b *Batch) makeDir(dir string) error {
	info, err := os.Stat(dir)
	switch {
	case err == nil && info.IsDir():
		return nil
	case err == nil:
		return fmt.Errorf("%s is not a folder", dir)
	case !errors.Is(err, fs.ErrNotExist):
		return Error("cannot use the folder", dir, err)
	}
	if parent := filepath.Dir(dir); parent != dir {
		if err := b.makeDir(parent); err != nil {
			return err
		}
	}
	err = os.Mkdir(dir, 0o777)
	if errors.Is(err, fs.ErrExist) { // another program was quicker, or it is a link to nowhere
		if info, statErr := os.Stat(dir); statErr == nil && info.IsDir() {
			return nil
		}
		return fmt.Errorf("%s is a link to a folder that does not exist", dir)
	}
	if err != nil {
		return Error("cannot make the folder", dir, err)
	}
	b.made = append(b.made, dir)
	return nil
}

// Write writes one file of the batch; name is relative to its folder and uses
// forward slashes. The file appears at commit. A panic of fill becomes an error.
func (b *Batch) Write(name, group string, fill func(io.Writer) error) error {
	if strings.EqualFold(name, ManifestName) {
		return fmt.Errorf("%s is where tieover keeps what it wrote; choose another name", b.target(name))
	}
	if err := b.checkTarget(name); err != nil {
		return err
	}
	f, err := b.create(name)
	if err != nil {
		return err
	}
	err = Safely(func(w io.Writer) error { return Buffered(fill, w) }, &guarded{b.ctx, f.file, &f.sum, f.target, &b.Bytes})
	if err == nil {
		err = f.close()
	}
	f.file.Close()
	f.group = group
	b.mu.Lock()
	defer b.mu.Unlock()
	for i := range b.files {
		if b.files[i].temp == f.temp {
			b.files[i] = f
		}
	}
	return err
}

// target is the path of a file of the batch.
func (b *Batch) target(name string) string { return filepath.Join(b.dir, filepath.FromSlash(name)) }

// create makes the file that is to become the target, for the same people.
func (b *Batch) create(name string) (pending, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.over {
		return pending{}, ErrStopped
	}
	if err := b.makeDir(filepath.Dir(b.target(name))); err != nil {
		return pending{}, err
	}
	f, err := b.begin(name)
	if err == nil {
		b.files = append(b.files, f)
	}
	return f, err
}

// begin makes a file under another name beside its target.
func (b *Batch) begin(name string) (pending, error) {
	target := b.target(name)
	dir := filepath.Dir(target)
	temp := filepath.Join(dir, ".tieover-"+rand.Text())
	f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return pending{}, Error("cannot write into", dir, err)
	}
	if old, err := os.Lstat(target); err == nil {
		_ = f.Chmod(old.Mode().Perm()) // a file that is replaced stays as private as it was, where the system knows of such things
	}
	return pending{name: name, temp: temp, target: target, file: f}, nil
}

// close puts a whole file on the disk.
func (f *pending) close() error {
	err := syncFile(f.file, f.target)
	if closeErr := f.file.Close(); err == nil && closeErr != nil {
		err = Error("cannot write", f.target, closeErr)
	}
	return err
}

// syncFile waits until the file is on the disk, so that not even a power cut
// leaves half of it under its name. Some file systems cannot tell.
func syncFile(f *os.File, target string) error {
	err := f.Sync()
	if err == nil || errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.EINVAL) {
		return nil
	}
	return Error("cannot write", target, err)
}

// checkTarget refuses to replace anything but an ordinary file that may be
// changed and is none of the inputs, and folders in between that are links.
func (b *Batch) checkTarget(name string) error {
	for i := range name {
		if name[i] != '/' {
			continue
		}
		folder := b.target(name[:i])
		if info, err := os.Lstat(folder); err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return fmt.Errorf("%s is a link, which may lead out of the folder; remove it or choose another place", folder)
		}
	}
	target := b.target(name)
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
	case mode&0o200 == 0:
		return fmt.Errorf("%s is read-only; remove it or choose another place", target)
	}
	for _, input := range b.inputs {
		if os.SameFile(info, input) {
			return fmt.Errorf("%s is what is read; choose another place", target)
		}
	}
	return nil
}

var ErrStopped = errors.New("stopped; nothing was written")
