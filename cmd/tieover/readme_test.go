package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write what is printed into the goldens and README.md; read the difference by eye")

var consoleBlock = regexp.MustCompile("(?s)```console\n(.*?)```")

// TestReadmeIsReal runs every console block of README.md and of the pages of the
// reference, those of a page in order and in one folder, and compares what it
// prints.
func TestReadmeIsReal(t *testing.T) {
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	for _, page := range pages() {
		t.Run(page, func(t *testing.T) { replayPage(t, root, filepath.Join(root, page)) })
	}
}

func replayPage(t *testing.T, root, path string) {
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	dir := t.TempDir()
	require.NoError(t, os.Symlink(filepath.Join(root, "testdata"), filepath.Join(dir, "testdata")))
	t.Chdir(dir)
	made := consoleBlock.ReplaceAllFunc(text, func(block []byte) []byte {
		body := strings.TrimSuffix(strings.TrimPrefix(string(block), "```console\n"), "```")
		return []byte("```console\n" + replay(t, body) + "```")
	})
	if *update {
		require.NoError(t, os.WriteFile(path, made, 0o644))
		return
	}
	assert.Equal(t, string(text), string(made))
}

// replay runs the lines that begin with "$ " and returns them with their output.
func replay(t *testing.T, body string) string {
	var out strings.Builder
	for _, line := range strings.Split(body, "\n") {
		command, ok := strings.CutPrefix(line, "$ ")
		if !ok {
			continue
		}
		fmt.Fprintln(&out, line)
		out.WriteString(shell(t, command))
	}
	return out.String()
}

// shell understands what the README uses: tieover itself, and looking at files.
func shell(t *testing.T, command string) string {
	command = strings.Replace(command, "go run ./cmd/tieover", "tieover", 1)
	words := strings.Fields(command)
	var out bytes.Buffer
	switch words[0] {
	case "tieover":
		run(words[1:], streams{strings.NewReader(""), &out, &out})
	case "cat":
		text, err := os.ReadFile(words[1])
		require.NoError(t, err)
		out.Write(text)
	case "ls":
		entries, err := os.ReadDir(words[1])
		require.NoError(t, err)
		names := []string{}
		for _, e := range entries {
			if !strings.HasPrefix(e.Name(), ".") { // as ls does
				names = append(names, e.Name())
			}
		}
		sort.Strings(names)
		fmt.Fprintln(&out, strings.Join(names, "  "))
	default:
		t.Errorf("the README shows %q, which is not replayed", command)
	}
	return out.String()
}
