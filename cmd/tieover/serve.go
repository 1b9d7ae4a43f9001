package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"slices"

	"github.com/spf13/cobra"

	"tieover/cmd/tieover/files"
	"tieover/export/page"
	"tieover/score/source"
)

func newServeCmd(s streams) *cobra.Command {
	port, cut := 0, 0
	cmd := &cobra.Command{
		Use:   "serve SPEC...",
		Short: "Show the page to this machine's browser while a spec is edited",
		Long: "Serves the page of one or more section specs to browsers on this machine only,\n" +
			"reads the specs again whenever one is saved, and lets the page reload itself.\n" +
			"What is wrong with a spec is printed and shown in place of the page.",
		Args: cobra.MinimumNArgs(1),
		RunE: func(cmd *cobra.Command, specs []string) error {
			if slices.Contains(specs, "-") {
				return usage("serve reads its specs again and again; give files, not -")
			}
			ctx, stop := files.Stoppable(cmd.Context())
			defer stop()
			if err := checkCut(cmd, cut); err != nil {
				return err
			}
			return serve(ctx, s, specs, port, cut)
		},
	}
	addCut(cmd, &cut)
	cmd.Flags().IntVar(&port, "port", 0, "port to listen on; 0 takes any that is free")
	return cmd
}

// serve serves the page until the context ends.
func serve(ctx context.Context, s streams, specs []string, port, cut int) error {
	listener, port, err := listen(port)
	if err != nil {
		return err
	}
	v := newViewer(port)
	n := 0
	renew := func() {
		n++
		version := fmt.Sprintf("%d-%d", os.Getpid(), n)
		v.show(pageOf(s, specs, pageOptions{version: version, cut: cut}), version)
	}
	w := newWatcher(specs)
	if unlessStopped(ctx, func() error { renew(); return nil }) != nil {
		return nil
	}
	fmt.Fprintf(s.out, "http://127.0.0.1:%d/\n", v.port)
	go w.follow(ctx, renew)
	return serveUntil(ctx, listener, v, 0)
}

// pageOf returns the page of the specs, or one that says what is wrong with
// them; that is printed too.
func pageOf(s streams, specs []string, how pageOptions) []byte {
	var b bytes.Buffer
	err := files.Safely(func(w io.Writer) error {
		p, err := load(s, specs)
		if err != nil {
			return err
		}
		fill, err := fillPage(p, how)
		if err != nil {
			return err
		}
		return fill(w)
	}, &b)
	if err == nil {
		return b.Bytes()
	}
	finish(s, err)
	b.Reset()
	var lines []string
	if problems, ok := source.Of(err); ok {
		for _, p := range problems {
			lines = append(lines, p.String())
		}
	} else {
		lines = append(lines, err.Error())
	}
	if err := page.WriteProblems(&b, lines, how.version); err != nil {
		finish(s, err)
	}
	return b.Bytes()
}
