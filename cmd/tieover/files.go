package main

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"errors"
	"fmt"
	"hash"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
)

// batch writes several files so that either all appear under their names or
// none: each is written beside its target under another name, and only when
// all are whole are they renamed. While it lives, a signal that would end the
// program makes writing fail instead, so that it can clean up; a second one
// ends it at once. It is safe for use by several goroutines.
type batch struct {
	ctx     context.Context
	release func() // gives signals their usual effect again
	dir     string
	inputs  []os.FileInfo // files that must not be replaced
	made    []string      // folders that did not exist before, outermost first
	mu      sync.Mutex    // of made, files and over
	files   []pending
	over    bool // no more files are begun
	bytes   counter

	unlisted bool     // what is written stands in no manifest, and replaces what is there
	force    bool     // also what was changed since it was written is replaced
	whole    []string // groups of which nothing else is to stay
}

// pending is a file that waits for its name, until it is whole and all are.
type pending struct {
	name, temp, target string
	group              string
	file               *os.File
	sum                sum
}

// newBatch prepares dir, making it if need be. The inputs are names of files
// that the program reads, which are never written over. Whatever ctx ends stops
// all writing. A batch ends with commit or abandon.
func newBatch(ctx context.Context, dir string, inputs ...string) (*batch, error) {
	b := &batch{dir: dir}
	b.ctx, b.release = stoppable(ctx)
	context.AfterFunc(b.ctx, b.release)
	for _, name := range inputs {
		if info, err := os.Stat(name); err == nil {
			b.inputs = append(b.inputs, info)
		}
	}
	if err := b.makeDir(dir); err != nil {
		b.abandon()
		return nil, err
	}
	return b, nil
}

// stoppable is a context that the signals end that would end the program.
func stoppable(ctx context.Context) (context.Context, context.CancelFunc) {
	signals := interrupts()
	if len(signals) == 0 { // NotifyContext takes none for all
		return context.WithCancel(ctx)
	}
	return signal.NotifyContext(ctx, signals...)
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
		return fileError("cannot use the folder", dir, err)
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
		return fileError("cannot make the folder", dir, err)
	}
	b.made = append(b.made, dir)
	return nil
}

// write writes one file of the batch; name is relative to its folder and uses
// forward slashes. The file appears at commit. A panic of fill becomes an error.
func (b *batch) write(name, group string, fill func(io.Writer) error) error {
	if strings.EqualFold(name, manifestName) {
		return fmt.Errorf("%s is where tieover keeps what it wrote; choose another name", b.target(name))
	}
	if err := b.checkTarget(name); err != nil {
		return err
	}
	f, err := b.create(name)
	if err != nil {
		return err
	}
	h := sha256.New()
	err = safely(fill, &guarded{b.ctx, f.file, h, f.target, &b.bytes})
	if err == nil {
		err = f.close()
	}
	f.file.Close()
	f.group, f.sum = group, sum(h.Sum(nil))
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
func (b *batch) target(name string) string { return filepath.Join(b.dir, filepath.FromSlash(name)) }

// create makes the file that is to become the target, for the same people.
func (b *batch) create(name string) (pending, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.over {
		return pending{}, errStopped
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
func (b *batch) begin(name string) (pending, error) {
	target := b.target(name)
	dir := filepath.Dir(target)
	temp := filepath.Join(dir, ".tieover-"+rand.Text())
	f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return pending{}, fileError("cannot write into", dir, err)
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
		err = fileError("cannot write", f.target, closeErr)
	}
	return err
}

// safely fills and turns a panic into an error, so that nothing half-written
// stays behind.
func safely(fill func(io.Writer) error, w io.Writer) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = asBug(r)
		}
	}()
	return fill(w)
}

// syncFile waits until the file is on the disk, so that not even a power cut
// leaves half of it under its name. Some file systems cannot tell.
func syncFile(f *os.File, target string) error {
	err := f.Sync()
	if err == nil || errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.EINVAL) {
		return nil
	}
	return fileError("cannot write", target, err)
}

// checkTarget refuses to replace anything but an ordinary file that may be
// changed and is none of the inputs, and folders in between that are links.
func (b *batch) checkTarget(name string) error {
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

// commit gives all files their names and removes what is left of earlier
// builds; it returns what is to be told about that. Once it has begun no signal
// stops it.
func (b *batch) commit() (notes []string, err error) {
	defer b.release()
	defer lockFolder(b.dir)()
	listed, err := b.mayCommit()
	if err == nil && !b.unlisted {
		// Both sums of a file are as tieover wrote it, whichever it has if the program is killed now.
		err = b.list(listed.and(b.files))
	}
	if err != nil {
		b.abandon()
		return nil, err
	}
	for i, f := range b.files {
		if err := os.Rename(f.temp, f.target); err != nil {
			b.files = b.files[i:]
			b.abandon()
			err = fileError("cannot write", f.target, err)
			if i > 0 {
				err = fmt.Errorf("%w; %d of the other files are already replaced", err, i)
			}
			return nil, err
		}
	}
	if !b.unlisted {
		notes = b.removeLeft(listed)
		for _, f := range b.files {
			delete(listed, f.name)
		}
		if err := b.list(listed.and(b.files)); err != nil {
			notes = append(notes, "note: "+err.Error())
		}
	}
	b.files, b.made = nil, nil
	return notes, nil
}

// mayCommit looks at all targets once more, and returns what is listed of the
// folder.
func (b *batch) mayCommit() (listed manifest, err error) {
	if b.ctx.Err() != nil {
		return nil, errStopped
	}
	for _, f := range b.files {
		if err := b.checkTarget(f.name); err != nil {
			return nil, err
		}
	}
	if b.unlisted {
		return nil, nil
	}
	if err := b.checkTarget(manifestName); err != nil {
		return nil, err
	}
	listed, err = readManifest(b.dir)
	var damaged errDamaged
	switch {
	case errors.As(err, &damaged) && b.force:
		return manifest{}, nil
	case err != nil:
		return nil, err
	}
	if b.force {
		return listed, nil
	}
	if lost := b.wouldBeLost(listed); len(lost) > 0 {
		return nil, errLost{lost}
	}
	return listed, nil
}

// list writes the manifest.
func (b *batch) list(m manifest) error {
	f, err := b.begin(manifestName)
	if err != nil {
		return err
	}
	_, err = io.WriteString(f.file, m.String())
	if err != nil {
		err = fileError("cannot write", f.target, err)
	} else {
		err = f.close()
	}
	f.file.Close()
	if err == nil {
		err = os.Rename(f.temp, f.target)
	}
	if err != nil {
		os.Remove(f.temp)
	}
	return err
}

// abandon removes whatever has no final name yet, even what is still being
// written, and new folders that are still empty.
func (b *batch) abandon() {
	defer b.release()
	b.mu.Lock()
	defer b.mu.Unlock()
	b.over = true
	for _, f := range b.files {
		f.file.Close() // some systems remove no open file; most are closed already
		os.Remove(f.temp)
	}
	for i := len(b.made) - 1; i >= 0; i-- {
		os.Remove(b.made[i]) // fails, as it should, when something is in it
	}
	b.files, b.made = nil, nil
}

var errStopped = errors.New("stopped; nothing was written")

// guarded stops writing as soon as the context ends, and counts.
type guarded struct {
	ctx    context.Context
	w      io.Writer
	sum    hash.Hash // of what is written; nil if nobody asks
	target string
	bytes  *counter
}

func (g *guarded) Write(p []byte) (int, error) {
	if g.ctx.Err() != nil {
		return 0, errStopped
	}
	n, err := g.w.Write(p)
	g.bytes.add(n)
	if g.sum != nil {
		g.sum.Write(p[:n])
	}
	if err != nil {
		err = fileError("cannot write", g.target, err)
	}
	return n, err
}
