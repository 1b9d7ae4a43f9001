package main

import (
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/chart"
	"tieover/export/worksheet"
)

// The reference names every field that a template is given, and no other.
func TestReferenceNamesTheFieldsOfTemplates(t *testing.T) {
	section := topicText("templates")
	for row, given := range map[string]any{"`head`": chart.Head{}, "`foot`": chart.Foot{}, "`student`, `key`": worksheet.Sheet{},
		"`Layers`": chart.Voice{}, "`Realignments` ": chart.Moment{}, "`Exercises`": worksheet.Exercise{}} {
		assert.ElementsMatch(t, fields(given), documented(section, row), row)
	}
}

func fields(of any) []string {
	var names []string
	for i := range reflect.TypeOf(of).NumField() {
		names = append(names, reflect.TypeOf(of).Field(i).Name)
	}
	return names
}

// documented lists the words in backquotes of a table's row, and of the rows
// without a head that go on with it.
func documented(section, row string) []string {
	var names []string
	inside := false
	for _, line := range strings.Split(section, "\n") {
		rest, begins := strings.CutPrefix(line, "| "+row)
		inside = begins || inside && strings.HasPrefix(line, "| |")
		if begins {
			_, line, _ = strings.Cut(rest, "|")
		}
		if inside {
			for _, m := range regexp.MustCompile("`([A-Za-z]+)`").FindAllStringSubmatch(line, -1) {
				names = append(names, m[1])
			}
		}
	}
	return names
}
