package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/spf13/cobra"

	"tieover/cmd/tieover/files"
)

// output is one file to write.
type output struct {
	name  string
	fill  func(io.Writer) error
	group string // what it belongs to in the manifest
}

// constant fills a file with a text.
func constant(text string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}
}

// place is a folder to write into, and how.
type place struct {
	dir      string
	force    bool     // write over what was changed since it was written
	unlisted bool     // without a manifest, over whatever is there
	whole    []string // groups of outputs of which nothing else is to stay
}

// target is where a single text goes.
type target struct {
	file  string
	force bool
}

// textGroup is what single texts belong to in a manifest.
const textGroup = "text"

// addOutput registers where a single text goes.
func addOutput(cmd *cobra.Command, t *target) {
	cmd.Flags().StringVarP(&t.file, "output", "o", "", "write to `FILE` instead of standard output")
	addForce(cmd, &t.force)
}

// addForce registers the leave to write over what somebody changed.
func addForce(cmd *cobra.Command, force *bool) {
	cmd.Flags().BoolVar(force, "force", false, "write also over files that were changed since they were written")
}

// writeOut writes to standard output, or so that the named file appears only
// when it is whole. It never replaces one of the inputs.
func writeOut(ctx context.Context, s streams, t target, fill func(io.Writer) error, inputs ...string) error {
	if t.file == "" || t.file == "-" {
		return writeTo(s, fill)
	}
	return writeFile(ctx, s, t.file, place{force: t.force}, fill, inputs...)
}

// writeFile writes one file into its folder.
func writeFile(ctx context.Context, s streams, name string, to place, fill func(io.Writer) error, inputs ...string) error {
	if os.IsPathSeparator(name[len(name)-1]) {
		return usage("-o %s: that is a folder; name a file in it", name)
	}
	to.dir = filepath.Dir(name)
	return writeAll(ctx, s, to, []output{{filepath.Base(name), fill, textGroup}}, inputs...)
}

// writeOne streams the only output to standard output.
func writeOne(s streams, outputs []output) error {
	if len(outputs) != 1 {
		names := make([]string, len(outputs))
		for i, out := range outputs {
			names[i] = out.name
		}
		return usage("-o - takes a single file, and this would be %d: %s; choose with --only, --layers", len(outputs), strings.Join(names, ", "))
	}
	return writeTo(s, outputs[0].fill)
}

// writeTo writes to standard output. A reader that goes away has seen enough.
func writeTo(s streams, fill func(io.Writer) error) error {
	var written atomic.Int64
	stop := func() {}
	if !isTerminal(s.out) { // there it would mix with what is written
		stop = progress(s.err, &written)
	}
	err := files.Buffered(fill, files.Guard(context.Background(), s.out, "standard output", &written))
	stop()
	if isClosedPipe(err) {
		return nil
	}
	return err
}

// mostWriters bounds how many files are written at once, for each remembers bars:
// 2 MiB of a piece that repeats, 30 of one that does not. The score, written in
// order, is nearly half of the work, so that more would gain nothing.
const mostWriters = 4

// writeAll writes all outputs into a folder, or none of them.
func writeAll(ctx context.Context, s streams, to place, outputs []output, inputs ...string) error {
	b, err := files.New(ctx, to.dir, inputs...)
	if err != nil {
		return err
	}
	b.Force, b.Unlisted, b.Whole = to.force, to.unlisted, to.whole
	stop := progress(s.err, &b.Bytes)
	err = unlessStopped(b.Context(), func() error { return fill(b, outputs) })
	stop()
	if err != nil {
		b.Abandon()
		return err
	}
	notes, err := b.Commit()
	for _, note := range notes {
		fmt.Fprintln(s.err, note)
	}
	return err
}

// fill writes the outputs, several at once, until the first that fails.
func fill(b *files.Batch, outputs []output) error {
	queue := make(chan output)
	failures := make(chan error, len(outputs))
	var working sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), mostWriters) {
		working.Go(func() {
			for out := range queue {
				err := b.Write(out.name, out.group, out.fill)
				if err != nil && !errors.Is(err, files.ErrStopped) && len(outputs) > 1 && !strings.Contains(err.Error(), out.name) {
					err = fmt.Errorf("%s: %w", out.name, err)
				}
				if err != nil {
					failures <- err
				}
			}
		})
	}
	for _, out := range outputs {
		if len(failures) > 0 {
			break
		}
		queue <- out
	}
	close(queue)
	working.Wait()
	close(failures)
	return <-failures
}

// unlessStopped works, but returns files.ErrStopped as soon as the context ends. Work
// is then left behind, wherever it is, so the program should end soon after.
func unlessStopped(ctx context.Context, work func() error) error {
	result := make(chan error, 1)
	go func() { result <- files.Safely(func(io.Writer) error { return work() }, nil) }()
	select {
	case err := <-result:
		return err
	case <-ctx.Done():
		return files.ErrStopped
	}
}
