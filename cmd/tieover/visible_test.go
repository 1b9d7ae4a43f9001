package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand: C0, DEL and C1 by number, bytes that are no UTF-8 too, and the marks
// that turn the direction of what follows; isolates, which charts need, stay.
func TestShown(t *testing.T) {
	for text, want := range map[string]string{
		"plain\ttext\n": "plain\ttext\n", "größer 水 ½": "größer 水 ½", "\x1b[31mred": "<1B>[31mred", "a\rb": "a<0D>b", "\x00\x07\x7f": "<00><07><7F>",
		"\u009b2J": "<9B>2J", "\x9b2J": "<9B>2J", "a\xffb": "a<FF>b", "\u202eabc": "<202E>abc", "\u2068abc\u2069": "\u2068abc\u2069", "\ufffd": "\ufffd",
	} {
		assert.Equal(t, want, escapeControls(text), "%q", text)
	}
}

// A character may come in pieces; what never becomes one is shown in the end.
func TestVisibleInPieces(t *testing.T) {
	text := "größer \x1b水\u009b"
	for size := 1; size <= len(text); size++ {
		var b bytes.Buffer
		v := &visible{to: &b}
		for rest := []byte(text); len(rest) > 0; {
			n, err := v.Write(rest[:min(size, len(rest))])
			require.NoError(t, err)
			rest = rest[n:]
		}
		v.flush()
		assert.Equal(t, "größer <1B>水<9B>", b.String(), "%d bytes at a time", size)
	}
	var b bytes.Buffer
	v := &visible{to: &b}
	_, err := v.Write([]byte("a\xe6\xb0"))
	require.NoError(t, err)
	v.flush()
	assert.Equal(t, "a<E6><B0>", b.String())
}

// Nothing that a spec, a score, a name or an argument holds steers the terminal.
func TestNothingSteersTheTerminal(t *testing.T) {
	const evil = "\x1b]0;x\a\x9b31m\u009b31m\r"
	dir := t.TempDir()
	spec, score := filepath.Join(dir, "s.yaml"), filepath.Join(dir, "s.musicxml")
	put(t, spec, "title: T\n"+evil+": 3\nlayers:\n  - {name: \"A"+evil+"\", groups: 3+"+evil+"}\n")
	built := filepath.Join(dir, "good.yaml")
	put(t, built, twoGates)
	code, messages := at("build", built, "-o", filepath.Join(dir, "out"), "--only", "musicxml")
	require.Zero(t, code, messages)
	put(t, score, strings.ReplaceAll(content(t, filepath.Join(dir, "out", "score.musicxml")), "Gate", "G&#x9b;31m&#x202e;\u009b31m"))
	odd := filepath.Join(dir, "\x1b[31m\x9b.yaml")
	for _, args := range [][]string{
		{"chart", spec}, {"chart", odd}, {"chart", dir + "/" + evil + ".yaml"}, {evil}, {"chart", "--" + evil}, {"find", "3" + evil}, {"find", score}, {"find", score, "--part", evil},
		{"verify", built, score}, {"verify", built, score, "--part", evil + "=Gate"}, {"build", built, "-o", dir, "--only", evil}, {"build", built, "-o", dir + "/s.yaml/" + evil},
		{"build", built, "-o", dir, "--layers", evil}, {"fit", "3+" + evil, "--bars", "3"}, {"realign", evil}, {"new", "-", "--like", evil}, {"instruments", evil}, {"help", evil},
	} {
		var out, err bytes.Buffer
		run(args, streams{strings.NewReader(""), &out, &err})
		for _, said := range []string{err.String(), out.String()} {
			assert.Equal(t, escapeControls(said), said, "%q", args)
			assert.NotContains(t, said, "\x1b", "%q", args)
		}
	}
}

// The caret stands under its place, also behind signs for what was there.
func TestCaretBehindControlCharacters(t *testing.T) {
	spec := filepath.Join(t.TempDir(), "s.yaml")
	put(t, spec, "title: T # \x1b\nlayers:\n  - {name: A, groups: 3}\n")
	_, messages := at("chart", spec)
	assert.Contains(t, messages, "    title: T # <1B>\n               ^\n")
	put(t, spec, "title: \"\x1b\x1b\x9b\"\nlayers:\n  - {name: A, groups: 3}\n")
	_, messages = at("chart", spec)
	for _, line := range strings.Split(messages, "\n") {
		assert.Equal(t, escapeControls(line), line)
	}
	assert.NotContains(t, messages, string(os.PathSeparator)+"\x1b")
}
