package main

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"tieover/cmd/tieover/files"
)

func newTapCmd(s streams) *cobra.Command {
	port, dir := 0, ""
	cmd := &cobra.Command{
		Use:   "tap -o DIR",
		Short: "Tap parts to a recording, find their loops, and save the section",
		Long: "Serves a page to browsers on this machine only, where parts are tapped to an audio\n" +
			"file from your own disk, or to a click. The page finds the loops in the taps, as\n" +
			"tieover find does, and saves taps, section spec and all that is built from it in DIR.\n" +
			"The audio file is opened in the browser and never leaves it.",
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if dir == "" || dir == "-" {
				return usage("say where to save: -o DIR")
			}
			ctx, stop := files.Stoppable(cmd.Context())
			defer stop()
			return tap(ctx, s, dir, port)
		},
	}
	cmd.Flags().StringVarP(&dir, "output", "o", "", "folder to save into (needed)")
	cmd.Flags().IntVar(&port, "port", 0, "port to listen on; 0 takes any that is free")
	return cmd
}

// tap serves the page until the context ends.
func tap(ctx context.Context, s streams, dir string, port int) error {
	listener, port, err := listen(port)
	if err != nil {
		return err
	}
	t, err := newTapper(port, dir)
	if err != nil {
		listener.Close()
		return err
	}
	fmt.Fprintf(s.out, "http://127.0.0.1:%d/\n", port)
	return serveUntil(ctx, listener, t, time.Minute)
}
