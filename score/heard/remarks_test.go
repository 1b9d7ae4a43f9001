package heard

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is wrong in many bars of a part for one reason is told once, with the
// bars.
func TestSummary(t *testing.T) {
	grace := func(part, bar string, n int, text string) Remark {
		return Remark{Kind: LeftOut, Part: part, Bar: bar, Of: "grace note", Count: n, Text: text}
	}
	short := func(bar, voice string) Remark {
		return Remark{Kind: Short, Part: "Piano", Bar: bar, Of: voice, Count: 1}
	}
	misfit := func(bar, holds string) Remark {
		return Remark{Kind: Misfit, Part: "Piano", Bar: bar, Of: holds, Count: 1, Text: "bar " + bar + " holds " + holds}
	}
	tie := func(bar, end string) Remark {
		return Remark{Kind: Loose, Part: "Piano", Bar: bar, Of: end, Count: 1, Text: "a tie in bar " + bar}
	}
	for _, c := range []struct {
		name string
		all  []Remark
		want []string
	}{
		{"nothing", nil, nil},
		{"one", []Remark{grace("Piano", "4", 1, "1 grace note left out in bar 4")}, []string{"Piano: 1 grace note left out in bar 4"}},
		{"two parts", []Remark{grace("Piano", "4", 1, ""), grace("Voice", "4", 2, ""), grace("Piano", "5", 2, ""), grace("Piano", "6", 1, ""), grace("Piano", "9", 1, "")},
			[]string{"Piano: 5 grace notes left out in bars 4 to 6 and 9", "Voice: 2 grace notes left out in bar 4"}},
		{"short voices", []Remark{short("2", "3"), short("4", "3"), short("4", "5")},
			[]string{"Piano: voices 3 and 5 end before the barline in bars 2 and 4; silence is taken to follow"}},
		{"one short voice", []Remark{short("2", "3")}, []string{"Piano: voice 3 ends before the barline in bar 2; silence is taken to follow"}},
		{"many places", []Remark{short("1", "2"), short("3", "2"), short("5", "2"), short("7", "2"), short("9", "2"), short("11", "2"), short("13", "2"), short("15", "2"), short("17", "2")},
			[]string{"Piano: voice 2 ends before the barline in bars 1, 3, 5, 7, 9, 11 and 3 more; silence is taken to follow"}},
		{"misfits", []Remark{misfit("10", "3/4, it should be 1"), misfit("11", "3/4, it should be 1"), misfit("12", "5/8, it should be 1")},
			[]string{"Piano: bars 10 and 11 hold 3/4, it should be 1", "Piano: bar 12 holds 5/8, it should be 1"}},
		{"ties", []Remark{tie("19", "begins"), tie("20", "begins"), tie("21", "ends")},
			[]string{"Piano: 2 ties begin in bars 19 and 20 but end nowhere", "Piano: a tie in bar 21"}},
		{"hidden", []Remark{{Kind: Hidden, Part: "Piano", Bar: "3", Of: "hidden note", Count: 8}, {Kind: Hidden, Part: "Piano", Bar: "3b", Of: "hidden note", Count: 1}},
			[]string{"Piano: 9 hidden notes in bars 3 and 3b are taken to sound"}},
		{"what cannot be joined", []Remark{{Part: "Piano", Text: "something else"}, {Part: "Piano", Text: "and more"}}, []string{"Piano: something else", "Piano: and more"}},
	} {
		var got []string
		for _, r := range Summary(c.all) {
			got = append(got, r.Part+": "+r.Text)
		}
		assert.Equal(t, c.want, got, c.name)
	}
}
