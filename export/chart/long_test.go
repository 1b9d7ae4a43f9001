package chart_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/chart"
)

// A cycle of any length that a spec can write has its number before its row;
// 4096 groups of 4096 are 16,777,216. Where
// growth makes a number longer than any written, a + stands for it.
func TestLongCyclesHaveTheirNumber(t *testing.T) {
	for groups, number := range map[string]string{
		"100": "100", "1000": "1000", "4096+4096+2000": "10192", "4096x30": "122880",
	} {
		for _, columns := range []int{24, 40, 80} {
			for _, name := range []string{"a", "Weir"} {
				opt := chart.Default()
				opt.Width = columns
				alone := written(t, "title: T\nmeter: 4/4\ntempo: 60\nlength: 2 bars\nlayers:\n  - {name: "+name+", groups: "+groups+"}\n", opt)
				assert.Regexp(t, regexp.MustCompile(`(?m)^ *`+number+` *\|X`), alone, "%s at %d", groups, columns)
				two := written(t, "title: T\nmeter: 4/4\ntempo: 60\nlength: 2 bars\nlayers:\n  - {name: "+name+", groups: "+groups+"}\n  - {name: b, groups: 3+2}\n", opt)
				assert.Regexp(t, regexp.MustCompile(`(?m)^ *`+number+` *\|X`), two, "%s at %d", groups, columns)
				for _, line := range strings.Split(alone+two, "\n") {
					assert.LessOrEqual(t, len([]rune(line)), columns)
				}
			}
		}
	}
	longest := written(t, "title: T\nmeter: 4/4\ntempo: 60\nlength: 2 bars\nlayers:\n  - {name: a, groups: 4096x4096}\n", chart.Default())
	assert.Regexp(t, regexp.MustCompile(`(?m)^ *16777216 +\|X`), longest)
	opt := chart.Default()
	opt.From, opt.To = 1500, 1501
	grown := written(t, "title: T\nmeter: 64/1\ntempo: 60\nlength: 1501 bars\npulse: 1/128\nlayers:\n  - {name: a, groups: 4, process: {grow: {group: 1, by: 4096, from: none}}}\n", opt)
	assert.Regexp(t, regexp.MustCompile(`(?m)^ +(\d+|\+) *\|`), grown)
	for _, length := range []int{5, 6, 7} { // an exception is as long as it is written
		text := fmt.Sprintf("title: T\nmeter: 4/4\ntempo: 60\nlength: 40 bars\nlayers:\n  - {name: a, groups: 3+2, except: [{cycle: 2, groups: 4096x%d}]}\n", length)
		assert.Regexp(t, regexp.MustCompile(fmt.Sprintf(`(?m)^ *%d *\|`, 4096*length)), written(t, text, chart.Default()))
	}
}
