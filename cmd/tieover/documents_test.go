package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/spec"
)

// document reads one of the two documents of the project.
func document(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../" + name)
	require.NoError(t, err)
	return string(text)
}

// part is what stands under a heading, up to the next of its level.
func part(t *testing.T, text, heading string) string {
	t.Helper()
	_, rest, found := strings.Cut(text, "\n"+heading+"\n")
	require.True(t, found, heading)
	level, _, _ := strings.Cut(heading, " ")
	inner, _, _ := strings.Cut(rest, "\n"+level+" ")
	return inner
}

// pages lists README.md and the pages of the reference, from the project's root.
func pages() []string {
	all := []string{"README.md"}
	for _, t := range topics {
		all = append(all, "cmd/tieover/help/"+t.name+".md")
	}
	return all
}

// TestLinks: each link leads to a heading of its page, whose place is its words
// in small letters joined by hyphens, or to a file of the project.
func TestLinks(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)#]*)(#[^)]*)?\)`)
	for _, page := range pages() {
		text := document(t, page)
		places := map[string]bool{}
		for _, line := range strings.Split(text, "\n") {
			if heading, ok := strings.CutPrefix(strings.TrimLeft(line, "#"), " "); ok && strings.HasPrefix(line, "#") {
				words := regexp.MustCompile("[^a-z0-9 -]").ReplaceAllString(strings.ToLower(heading), "")
				places["#"+strings.ReplaceAll(words, " ", "-")] = true
			}
		}
		for _, to := range link.FindAllStringSubmatch(text, -1) {
			if to[1] == "" {
				assert.True(t, places[to[2]], "%s: no heading for %s", page, to[2])
				continue
			}
			assert.FileExists(t, filepath.Join("../..", filepath.Dir(page), to[1]), page)
		}
	}
}

// TestTopics: each file of the reference is a topic that help lists and prints,
// README links to, and is no wider than a page.
func TestTopics(t *testing.T) {
	files, err := topicFiles.ReadDir("help")
	require.NoError(t, err)
	assert.Len(t, files, len(topics))
	readme := document(t, "README.md")
	listed := ran(t, "--help")
	for _, topic := range topics {
		assert.Contains(t, listed, "tieover help "+topic.name+" ")
		assert.Equal(t, topicText(topic.name), strings.TrimSpace(ran(t, "help", topic.name)))
		assert.Contains(t, readme, "](cmd/tieover/help/"+topic.name+".md)")
		for i, line := range strings.Split(topicText(topic.name), "\n") {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), 130, "%s.md:%d", topic.name, i+1)
		}
	}
	var out, messages bytes.Buffer
	assert.Equal(t, wrongUse, run([]string{"help", "weather"}, streams{strings.NewReader(""), &out, &messages}))
	assert.Equal(t, "tieover: there is no command or topic \"weather\"; tieover --help lists them\n", messages.String())
}

// ran is what tieover prints when all is well.
func ran(t *testing.T, args ...string) string {
	t.Helper()
	var out, messages bytes.Buffer
	require.Equal(t, done, run(args, streams{strings.NewReader(""), &out, &messages}), messages.String())
	return out.String()
}

// TestOnePageOfSpec: the spec that README shows on one page is one.
func TestOnePageOfSpec(t *testing.T) {
	assert.Contains(t, ran(t, "chart", "../../testdata/readme/one-page.yaml"), "WEIR AND WHEEL")
}

// TestReadmeNamesEveryKey: the reference of the spec lacks no key.
func TestReadmeNamesEveryKey(t *testing.T) {
	reference := document(t, "cmd/tieover/help/spec.md")
	for _, table := range spec.KeyTables() {
		for _, key := range table.Keys {
			shown := strings.Contains(reference, "`"+key+"`") || strings.Contains(reference, "`"+key+": ")
			assert.True(t, shown, "the reference does not explain %s of %s", key, table.Name)
		}
	}
}

// TestReadmeNamesEveryOutput: what --only may name is explained.
func TestReadmeNamesEveryOutput(t *testing.T) {
	commands := part(t, document(t, "README.md"), "## What comes out")
	for _, name := range kindNames() {
		assert.Contains(t, commands, "`"+name+"`")
	}
}

// TestReadmeNamesEveryFlag: each command and each of its flags stands in README
// or in a page of the reference.
func TestReadmeNamesEveryFlag(t *testing.T) {
	var all strings.Builder
	for _, page := range pages() {
		all.WriteString(document(t, page))
	}
	readme := all.String()
	for _, c := range newRoot(streams{strings.NewReader(""), io.Discard, io.Discard}).Commands() {
		if c.Hidden || !c.Runnable() || c.Name() == "help" {
			continue
		}
		assert.Contains(t, readme, "tieover "+c.Name())
		c.Flags().VisitAll(func(f *pflag.Flag) { namesFlag(t, readme, c, f) })
	}
}

func namesFlag(t *testing.T, readme string, c *cobra.Command, f *pflag.Flag) {
	if f.Name == "help" || f.Hidden {
		return
	}
	assert.Contains(t, readme, "--"+f.Name, "tieover %s", c.Name())
}
