package main

import (
	"io"
	"os"
	"regexp"
	"strings"
	"testing"

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

// TestReadmeLinks: each link inside the page leads to a heading, whose place is
// its words in small letters, joined by hyphens.
func TestReadmeLinks(t *testing.T) {
	readme := document(t, "README.md")
	places := map[string]bool{}
	for _, line := range strings.Split(readme, "\n") {
		if heading, ok := strings.CutPrefix(strings.TrimLeft(line, "#"), " "); ok && strings.HasPrefix(line, "#") {
			words := regexp.MustCompile("[^a-z0-9 -]").ReplaceAllString(strings.ToLower(heading), "")
			places[strings.ReplaceAll(words, " ", "-")] = true
		}
	}
	links := regexp.MustCompile(`\]\(#([^)]*)\)`).FindAllStringSubmatch(readme, -1)
	require.NotEmpty(t, links)
	for _, link := range links {
		assert.True(t, places[link[1]], "no heading for #%s", link[1])
	}
}

// TestReadmeNamesEveryKey: the reference of the spec lacks no key.
func TestReadmeNamesEveryKey(t *testing.T) {
	reference := part(t, document(t, "README.md"), "## The section spec")
	for _, table := range spec.KeyTables() {
		for _, key := range table.Keys {
			shown := strings.Contains(reference, "`"+key+"`") || strings.Contains(reference, "`"+key+": ")
			assert.True(t, shown, "the reference does not explain %s of %s", key, table.Name)
		}
	}
}

// TestReadmeNamesEveryOutput: what --only may name is explained.
func TestReadmeNamesEveryOutput(t *testing.T) {
	commands := part(t, document(t, "README.md"), "## Commands")
	for _, name := range kindNames() {
		assert.Contains(t, commands, "`"+name+"`")
	}
}

// TestReadmeNamesEveryFlag: each command and each of its flags stands in the
// README.
func TestReadmeNamesEveryFlag(t *testing.T) {
	readme := document(t, "README.md")
	for _, c := range newRoot(streams{strings.NewReader(""), io.Discard, io.Discard}).Commands() {
		if c.Hidden || c.Name() == "help" {
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

// TestDevelopersImportTable holds the printed table to the one that is enforced.
func TestDevelopersImportTable(t *testing.T) {
	printed := map[string]string{}
	for _, line := range strings.Split(part(t, document(t, "DEVELOPERS.md"), "## Who may import whom"), "\n") {
		cells := strings.Split(line, "|")
		if len(cells) != 4 || !strings.HasPrefix(cells[1], " `") {
			continue
		}
		allowed := strings.TrimSpace(cells[2])
		if allowed == "nothing" {
			allowed = ""
		}
		printed[strings.Trim(cells[1], " `")] = allowed
	}
	assert.Equal(t, mayImport, printed)
}
