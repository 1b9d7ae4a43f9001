package chart_test

import (
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/rivo/uniseg"
)

// A second reader of charts, which shares nothing with the writer. It does what
// a player does: learn from the legend how long a column is, find the bars in
// the line "count" and take down what stands where.

// heard is where something stands: bar as numbered, whole notes after its barline.
type heard struct {
	Bar int
	At  string
}

type read struct {
	Onsets  [][]heard          // by layer
	Touches []map[heard]string // by layer: the signs over its strokes
	Lands   []bool             // by layer: struck after the last barline
	Labels  map[string]heard
	Both    map[heard]string // the row "together": who or how many
	Loose   bool
}

var (
	unit     = regexp.MustCompile(`(unit:|1 column =) (dotted )?(\S+)(?: of a whole note)?(?: = (\d+) columns)?`)
	word     = regexp.MustCompile(`\S+(?: \S+)*`)
	cellRow  = regexp.MustCompile(`^ {1,3}(\d*) *$`)
	touchRow = regexp.MustCompile(`^ {5}[>^'g -]+$`)
	values   = []string{"whole", "half", "quarter", "eighth", "sixteenth", "thirty-second", "sixty-fourth", "128th"}
)

// readChart reads the chart of one section; full form, not compact.
func readChart(text string) read {
	flat := strings.Join(strings.Fields(text), " ")
	column := columnOf(flat)
	r := read{Labels: map[string]heard{}, Both: map[heard]string{}, Loose: strings.Contains(flat, "only barlines stand under one another")}
	bar, in := 0, int64(0) // in: columns of the bar so far, those in rows above too
	for _, block := range strings.Split(text, "\n\n") {
		var at []heard // of the block's columns
		numbers, labels := map[int]int{}, map[string]int{}
		layer, end, touches := 0, 0, []string{}
		for _, line := range strings.Split(block, "\n") {
			head := line[:max(0, strings.IndexAny(line, "|:"))]
			switch {
			case strings.HasPrefix(line, "mark "), strings.HasPrefix(line, "bar "):
				ruled(line, numbers, labels)
			case strings.TrimSpace(head) == "count":
				end = strings.LastIndexAny(line, "|:")
				for col, c := range line {
					at = append(at, heard{bar, new(big.Rat).Mul(column, big.NewRat(in, 1)).RatString()})
					number, numbered := numbers[col+1]
					switch {
					case c == '|' && numbered:
						bar, in = number, 0
					case c == '|' && (in > 0 || bar == 0): // not the second of a double barline
						bar, in = bar+1, 0
					case col > len(head) && c != ':' && c != '|':
						in++
					}
				}
				for label, col := range labels {
					r.Labels[label] = at[col]
				}
			case strings.TrimSpace(head) == "together":
				for col, c := range line {
					if col > len(head) && col < end && strings.ContainsRune("abcdefghijklmnopqrstuvwxyz0123456789", c) {
						r.Both[at[col]] = string(c)
					}
				}
			case at != nil && touchRow.MatchString(line):
				touches = append(touches, line)
			case at != nil && head != "" && cellRow.MatchString(head):
				r.row(layer, line, at, end, touches)
				layer, touches = layer+1, nil
			}
		}
	}
	return r
}

// columnOf is the length of one column, in whole notes; a unit has two.
func columnOf(legend string) *big.Rat {
	m := unit.FindStringSubmatch(legend)
	if m == nil {
		return new(big.Rat)
	}
	length, _ := new(big.Rat).SetString(m[3])
	if k := slices.Index(values, m[3]); k >= 0 {
		length = big.NewRat(1, 1<<k)
	}
	if m[2] != "" {
		length.Mul(length, big.NewRat(3, 2))
	}
	columns, _ := strconv.ParseInt(m[4], 10, 64)
	if columns == 0 {
		columns = map[string]int64{"unit:": 2, "1 column =": 1}[m[1]]
	}
	return length.Quo(length, big.NewRat(columns, 1))
}

// ruled takes down the bar numbers and labels of a line, and their columns.
func ruled(line string, numbers map[int]int, labels map[string]int) {
	for _, m := range word.FindAllStringIndex(line, -1)[1:] {
		text, col := line[m[0]:m[1]], uniseg.StringWidth(line[:m[0]])
		if strings.HasPrefix(line, "bar ") {
			number, label, _ := strings.Cut(text, " ")
			if n, err := strconv.Atoi(number); err == nil { // not of (7), the rest of bar 7
				numbers[col] = n
			}
			text = strings.TrimSuffix(label, " = beginning")
		} else if pointed, ok := strings.CutSuffix(text, " v"); ok {
			text, col = pointed, col+uniseg.StringWidth(text)-1
		}
		labels[text] = col
	}
	delete(labels, "")
}

// row takes down the strokes of one layer, and the touches above them.
func (r *read) row(layer int, line string, at []heard, end int, touches []string) {
	if layer == len(r.Onsets) {
		r.Onsets, r.Lands, r.Touches = append(r.Onsets, nil), append(r.Lands, false), append(r.Touches, map[heard]string{})
	}
	for col, c := range line {
		switch {
		case !strings.ContainsRune("Xxo", c):
		case col > end:
			r.Lands[layer] = true
		default:
			r.Onsets[layer] = append(r.Onsets[layer], at[col])
		}
	}
	for _, line := range touches {
		for col, c := range line {
			if c != ' ' && col < end {
				r.Touches[layer][at[col]] += string(c)
			}
		}
	}
}
