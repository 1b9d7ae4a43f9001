package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"github.com/spf13/cobra"
)

// output is one file to write.
type output struct {
	name string
	fill func(io.Writer) error
}

// addOutput registers where a single text goes.
func addOutput(cmd *cobra.Command, name *string) {
	cmd.Flags().StringVarP(name, "output", "o", "", "write to `FILE` instead of standard output")
}

// writeOut writes to standard output, or so that the named file appears only
// when it is whole. It never replaces one of the inputs.
func writeOut(ctx context.Context, s streams, name string, fill func(io.Writer) error, inputs ...string) error {
	if name == "" || name == "-" {
		return writeTo(s, fill)
	}
	if os.IsPathSeparator(name[len(name)-1]) {
		return usage("-o %s: that is a folder; name a file in it", name)
	}
	return writeAll(ctx, s, filepath.Dir(name), []output{{filepath.Base(name), fill}}, inputs...)
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
	var written counter
	stop := func() {}
	if !isTerminal(s.out) { // there it would stand in what is written
		stop = progress(s.err, &written)
	}
	err := fill(&guarded{context.Background(), s.out, "standard output", &written})
	stop()
	if isClosedPipe(err) {
		return nil
	}
	return err
}

// writers is how many files are written at once: the machine has few cores, and
// one file is written in order.
const writers = 2

// writeAll writes all outputs into dir, or none of them.
func writeAll(ctx context.Context, s streams, dir string, outputs []output, inputs ...string) error {
	b, err := newBatch(ctx, dir, inputs...)
	if err != nil {
		return err
	}
	stop := progress(s.err, &b.bytes)
	err = unlessStopped(b.ctx, func() error { return b.fill(outputs) })
	stop()
	if err != nil {
		b.abandon()
		return err
	}
	return b.commit()
}

// fill writes the outputs, several at once, until the first that fails.
func (b *batch) fill(outputs []output) error {
	queue := make(chan output)
	failures := make(chan error, len(outputs))
	var working sync.WaitGroup
	for range writers {
		working.Go(func() {
			for out := range queue {
				err := b.write(out.name, out.fill)
				if err != nil && !errors.Is(err, errStopped) && len(outputs) > 1 && !strings.Contains(err.Error(), out.name) {
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

// unlessStopped works, but returns errStopped as soon as the context ends. Work
// is then left behind, wherever it is, so the program should end soon after.
func unlessStopped(ctx context.Context, work func() error) error {
	result := make(chan error, 1)
	go func() { result <- safely(func(io.Writer) error { return work() }, nil) }()
	select {
	case err := <-result:
		return err
	case <-ctx.Done():
		return errStopped
	}
}
