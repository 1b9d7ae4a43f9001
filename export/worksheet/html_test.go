package worksheet_test

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The document keeps what WCAG 2.2 asks of one that does nothing: a language
// (3.1.1), a title (2.4.2), one main landmark, headings without gaps (1.3.1) and
// words for every picture (1.1.1). It runs nothing and fetches nothing.
func TestTheDocumentCanBeReadAndPrinted(t *testing.T) {
	files, _, err := makeSheet(t, rising, 1)
	require.NoError(t, err)
	text := string(contents(t, files)["worksheet.html"])
	count, ids, labels := map[string]int{}, map[string]bool{}, []string{}
	level, key := 0, false
	d := xml.NewDecoder(strings.NewReader(strings.TrimPrefix(text, "<!doctype html>")))
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		name := e.Name.Local
		count[name]++
		attr := map[string]string{}
		for _, a := range e.Attr {
			attr[a.Name.Local] = a.Value
			assert.NotContains(t, []string{"src", "href", "onclick", "onload"}, a.Name.Local)
		}
		switch name {
		case "html":
			assert.Equal(t, "en", attr["lang"])
		case "svg":
			assert.Equal(t, "img", attr["role"])
			assert.NotEmpty(t, attr["aria-label"])
		case "h1", "h2", "h3", "h4":
			n := int(name[1] - '0')
			assert.LessOrEqual(t, n, level+1, "no level of heading is left out")
			level = n
		case "section":
			labels = append(labels, attr["aria-labelledby"])
			key = key || attr["class"] == "key"
			assert.False(t, attr["class"] == "key" && count["h3"] > 0, "the key comes last")
		}
		if id := attr["id"]; id != "" {
			assert.False(t, ids[id], "id %s twice", id)
			ids[id] = true
		}
	}
	for _, l := range labels {
		assert.True(t, ids[l], "a section's label %q", l)
	}
	assert.True(t, key)
	for name, n := range map[string]int{"html": 1, "title": 1, "main": 1, "h1": 1, "script": 0, "link": 0, "img": 0, "iframe": 0} {
		assert.Equal(t, n, count[name], name)
	}
	assert.GreaterOrEqual(t, count["svg"], 8)
	assert.NotContains(t, text, "url(")
	assert.NotContains(t, text, "@import")
	assert.Contains(t, text, `aria-label="empty staff"`)
}

// Six bars of mixed triplets, 24 columns a half bar, are written in squares of 5 mm,
// a bar a row; a chart of eighths in cells of 7 mm. A short exercise stays on
// one page, and what is written stands with what it is about.
func TestRowsToWriteIn(t *testing.T) {
	read := func(text string, level int) string {
		files, _, err := makeSheet(t, text, level)
		require.NoError(t, err)
		return string(contents(t, files)["worksheet.html"])
	}
	triplets := read("title: Two Sluices\nmeter: 4/4\ntempo: 92\nlength: 12 bars\nlayers:\n  - {name: East, groups: 3+3+2}\n"+
		"  - {name: West, groups: 2+2+2+3, pulse: 1/8 in 3:2}\n  - {name: Gate, groups: 4+4+4, pulse: 1/4 in 3:2}\n", 3)
	assert.Contains(t, triplets, `<pre tabindex="0" class="squared">`)
	assert.NotContains(t, triplets, `<pre tabindex="0" class="wide">`)
	given, _, _ := strings.Cut(triplets, `<h2 id="e2">`)
	assert.NotRegexp(t, `bar +\(\d`, given, "no bar in pieces")
	plain := read(rising, 1)
	assert.Contains(t, plain, `<pre tabindex="0" class="wide">`)
	assert.Contains(t, plain, `class="short"`)
	assert.Contains(t, plain, "section.short{break-inside:avoid}")
	assert.Contains(t, plain, ":has(+.blanks)")
}
