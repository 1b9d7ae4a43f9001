package files

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// ManifestName is the file in which a folder keeps what tieover wrote there, so
// that nothing is written over that somebody changed since.
const ManifestName = ".tieover"

const manifestHead = "tieover 2"

// manifest lists by name, with forward slashes, what was written into a folder.
type manifest map[string]entry

// entry is one file that was written.
type entry struct {
	group string // what it was written together with
	sums  []Sum  // of its content; two while a build gives files their names
}

// errDamaged is a manifest that tieover did not write.
type errDamaged struct{ path, why string }

func (e errDamaged) Error() string {
	return fmt.Sprintf("%s, in which tieover keeps what it wrote there, is damaged (%s): nobody knows which files were changed since; "+
		"move it away and save what you changed, or add --force to write over all", e.path, e.why)
}

// readManifest reads a folder's manifest; a folder without one has an empty one.
func readManifest(dir string) (manifest, error) {
	path := filepath.Join(dir, ManifestName)
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return manifest{}, nil
	}
	if err != nil {
		return nil, Error("cannot read", path, err)
	}
	m, bad := parseManifest(fromFirst(dir, text))
	if bad != "" {
		return nil, errDamaged{path, bad}
	}
	return m, nil
}

// parseManifest reads lines of a sum, a group and a quoted name.
func parseManifest(text []byte) (m manifest, bad string) {
	m = manifest{}
	lines := bufio.NewScanner(bytes.NewReader(text))
	lines.Buffer(nil, 1<<20)
	for n := 1; lines.Scan(); n++ {
		line := lines.Text()
		if n == 1 {
			if line != manifestHead {
				return nil, fmt.Sprintf("line 1 is not %q", manifestHead)
			}
			continue
		}
		sum, rest, _ := strings.Cut(line, " ")
		group, quoted, _ := strings.Cut(rest, " ")
		s, err := parseSum(sum)
		name, quoteErr := strconv.Unquote(quoted)
		if err != nil || quoteErr != nil || group == "" || !isInside(name) {
			return nil, fmt.Sprintf("line %d", n)
		}
		e := m[name]
		m[name] = entry{group, append(e.sums, s)}
	}
	if lines.Err() != nil || !bytes.HasSuffix(text, []byte("\n")) {
		return nil, "its end is missing"
	}
	return m, ""
}

// isInside reports whether a name of a manifest stays in its folder.
func isInside(name string) bool {
	return filepath.IsLocal(filepath.FromSlash(name)) && name != "." && !strings.EqualFold(name, ManifestName)
}

// String writes the manifest as parseManifest reads it, in order of name.
func (m manifest) String() string {
	var b strings.Builder
	b.WriteString(manifestHead + "\n")
	for _, name := range slices.Sorted(maps.Keys(m)) {
		for _, s := range m[name].sums {
			fmt.Fprintf(&b, "%v %s %s\n", s, m[name].group, strconv.Quote(name))
		}
	}
	return b.String()
}

// and returns the manifest with files added to it; a file may have what it had,
// or what it gets.
func (m manifest) and(files []pending) manifest {
	all := maps.Clone(m)
	for _, f := range files {
		e := entry{f.group, slices.Clone(m[f.name].sums)}
		if !slices.Contains(e.sums, f.sum) {
			e.sums = append(e.sums, f.sum)
		}
		all[f.name] = e
	}
	return all
}

// has reports whether a file of that content was written under the name.
func (m manifest) has(name string, s Sum) bool { return slices.Contains(m[name].sums, s) }

// errLost says what would be written over, though it is not as tieover wrote it.
type errLost struct{ files []string }

func (e errLost) Error() string {
	what, it := "these files", "them"
	if len(e.files) == 1 {
		what, it = "this file", "it"
	}
	return fmt.Sprintf("%s would be lost:\n  %s\nNothing was written. Move %s away or choose another place; --force writes over %s.",
		what, strings.Join(e.files, "\n  "), it, it)
}

// wouldBeLost lists the targets that are neither as they were written nor as
// they will be.
func (b *Batch) wouldBeLost(listed manifest) (lost []string) {
	for _, f := range b.files {
		now, err := sumOf(f.target)
		_, known := listed[f.name]
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			lost = append(lost, fmt.Sprintf("%s cannot be read", f.target))
		case now == f.sum || listed.has(f.name, now):
		case known:
			lost = append(lost, f.target+" was changed after tieover wrote it")
		default:
			lost = append(lost, f.target+" was not written by tieover")
		}
	}
	slices.Sort(lost)
	return lost
}

// removeLeft removes what an earlier build wrote and this one no longer has,
// unless it was changed, and takes it off the list. It returns what is to be
// told about that.
func (b *Batch) removeLeft(listed manifest) (notes []string) {
	written := map[string]bool{}
	for _, f := range b.files {
		written[f.name] = true
	}
	for _, name := range slices.Sorted(maps.Keys(listed)) {
		if written[name] || !slices.Contains(b.Whole, listed[name].group) {
			continue
		}
		path := filepath.Join(b.dir, filepath.FromSlash(name))
		now, err := sumOf(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil || !listed.has(name, now) || b.checkTarget(name) != nil || b.isWritten(path):
			notes = append(notes, fmt.Sprintf("note: %s is of an earlier build and was changed since; it is left as it is", path))
		default:
			if err := os.Remove(path); err != nil {
				notes = append(notes, Error("note: cannot remove", path, err).Error())
				continue
			}
			notes = append(notes, fmt.Sprintf("note: removed %s, which was of an earlier build", path))
			for dir := filepath.Dir(path); dir != filepath.Clean(b.dir) && os.Remove(dir) == nil; {
				dir = filepath.Dir(dir)
			}
		}
		delete(listed, name)
	}
	return notes
}

// isWritten reports whether the path is, by another spelling, a file of this
// batch.
func (b *Batch) isWritten(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && slices.ContainsFunc(b.files, func(f pending) bool {
		other, err := os.Lstat(f.target)
		return err == nil && os.SameFile(info, other)
	})
}
