package main

import (
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

var (
	wholePart = regexp.MustCompile(`(?s)<part id=.*?</part>`)
	wholeBar  = regexp.MustCompile(`(?s)<measure .*?</measure>`)
	barNumber = regexp.MustCompile(`<measure number="[^"]*"`)
)

// inEachPart edits the bars of every part alike and counts them anew.
func inEachPart(text string, change func(bars []string) []string) string {
	return wholePart.ReplaceAllStringFunc(text, func(part string) string {
		at := wholeBar.FindAllStringIndex(part, -1)
		bars := change(wholeBar.FindAllString(part, -1))
		for i, bar := range bars {
			bars[i] = barNumber.ReplaceAllString(bar, fmt.Sprintf(`<measure number="%d"`, i+1))
		}
		return part[:at[0][0]] + strings.Join(bars, "\n") + part[at[len(at)-1][1]:]
	})
}

// What a person does to a whole score in one move is told in one line, ties and
// labels included. The sections are ones in which no two bars are alike.
func TestVerifyTellsAMoveInOneLine(t *testing.T) {
	cut := func(bars []string) []string { return append(bars[:4:4], bars[5:]...) }
	double := func(bars []string) []string { return append(append(bars[:5:5], bars[4]), bars[5:]...) }
	repeat := func(bars []string) []string {
		bars[4] = strings.Replace(bars[4], ">", `><barline location="left"><repeat direction="forward"/></barline>`, 1)
		bars[5] = strings.Replace(bars[5], "</measure>", `<barline location="right"><repeat direction="backward"/></barline></measure>`, 1)
		return bars
	}
	for _, name := range []string{"towpath", "sluice-triplets", "three-sluices"} {
		spec, err := os.ReadFile("../../testdata/sections/" + name + "/section.yaml")
		if !assert.NoError(t, err) {
			continue
		}
		for want, change := range map[string]func([]string) []string{
			"bar 5 is missing in all parts; what follows is compared a bar later":                     cut,
			"bar 5 stands twice in all parts, again as bar 6; what follows is compared a bar earlier": double,
			"bars 5 and 6 are repeated; the spec plays them once":                                     repeat,
		} {
			code, out := edited(t, string(spec), func(text string) string { return inEachPart(text, change) })
			assert.Equal(t, differs, code)
			lines := strings.Split(out, "\n")
			assert.Equal(t, want, lines[0], name)
			assert.True(t, strings.HasPrefix(lines[1], "1 difference "), "%s: %s", name, out)
		}
	}
}
