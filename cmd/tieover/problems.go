package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/rivo/uniseg"

	"tieover/score/source"
)

// printProblems writes each problem with its line and a caret under the place.
func printProblems(w io.Writer, problems source.Problems) {
	for _, p := range problems {
		fmt.Fprintln(w, p)
		if p.Line == "" || p.Pos.Column == 0 {
			continue
		}
		fmt.Fprintf(w, "    %s\n    %s^\n", escapeControls(strings.ReplaceAll(p.Line, "\t", " ")), indent(p.Line, p.Pos.Column))
	}
	if n := len(problems); n > 1 {
		fmt.Fprintf(w, "%d problems; nothing was written.\n", n)
	}
}

// indent is blank space as wide as the characters before the column, which
// counts characters from 1.
func indent(line string, column int) string {
	runes := []rune(line)
	before := string(runes[:min(column-1, len(runes))])
	return strings.Repeat(" ", uniseg.StringWidth(escapeControls(strings.ReplaceAll(before, "\t", " "))))
}
