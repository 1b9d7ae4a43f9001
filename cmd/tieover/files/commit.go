package files

import (
	"errors"
	"fmt"
	"io"
	"os"
)

// Commit gives all files their names and removes what is left of earlier
// builds; it returns what is to be told about that. Once it has begun no signal
// stops it.
func (b *Batch) Commit() (notes []string, err error) {
	defer b.release()
	defer lockFolder(b.dir)()
	listed, err := b.mayCommit()
	if err == nil && !b.Unlisted {
		// Both sums of a file are as tieover wrote it, whichever it has if the program is killed now.
		err = b.list(listed.and(b.files))
	}
	if err != nil {
		b.Abandon()
		return nil, err
	}
	for i, f := range b.files {
		if err := os.Rename(f.temp, f.target); err != nil {
			b.files = b.files[i:]
			b.Abandon()
			err = Error("cannot write", f.target, err)
			if i > 0 {
				err = fmt.Errorf("%w; %d of the other files are already replaced", err, i)
			}
			return nil, err
		}
	}
	if !b.Unlisted {
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
func (b *Batch) mayCommit() (listed manifest, err error) {
	if b.ctx.Err() != nil {
		return nil, ErrStopped
	}
	for _, f := range b.files {
		if err := b.checkTarget(f.name); err != nil {
			return nil, err
		}
	}
	if b.Unlisted {
		return nil, nil
	}
	if err := b.checkTarget(ManifestName); err != nil {
		return nil, err
	}
	listed, err = readManifest(b.dir)
	var damaged errDamaged
	switch {
	case errors.As(err, &damaged) && b.Force:
		return manifest{}, nil
	case err != nil:
		return nil, err
	}
	if b.Force {
		return listed, nil
	}
	if lost := b.wouldBeLost(listed); len(lost) > 0 {
		return nil, errLost{lost}
	}
	return listed, nil
}

// list writes the manifest.
func (b *Batch) list(m manifest) error {
	f, err := b.begin(ManifestName)
	if err != nil {
		return err
	}
	_, err = io.WriteString(f.file, m.String())
	if err != nil {
		err = Error("cannot write", f.target, err)
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

// Abandon removes whatever has no final name yet, even what is still being
// written, and new folders that are still empty.
func (b *Batch) Abandon() {
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
