package chart_test

import (
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"github.com/rivo/uniseg"
)

// A second reader of charts, which shares nothing with the writer: it knows
// only what the legend and MUSIC tell a player.

// heard is where something stands: bar as numbered, whole notes after its barline.
type heard struct {
	Bar int
	At  string
}
type read struct {
	Onsets [][]heard // by layer
	Labels map[string]heard
	Lands  []bool
	Loose  bool
	Both   map[heard]string // the row "together": who or how many
}

var (
	unitLine   = regexp.MustCompile(`unit: ((?:dotted )?\S+(?: of a whole note)?)(?: = (\d+) columns)?`)
	columnLine = regexp.MustCompile(`1 column = ((?:dotted )?\S+(?: of a whole note)?)`)
	cellRow    = regexp.MustCompile(`^   (\d*) *$`)
	signs      = regexp.MustCompile(`[a-z]|\d`)
	token      = regexp.MustCompile(`\S+(?: \S+)*`)
	values     = map[string]string{"whole": "1", "half": "1/2", "quarter": "1/4", "eighth": "1/8", "sixteenth": "1/16",
		"thirty-second": "1/32", "sixty-fourth": "1/64", "128th": "1/128", "dotted thirty-second": "3/64", "dotted whole": "3/2",
		"dotted sixty-fourth": "3/128", "dotted half": "3/4", "dotted quarter": "3/8", "dotted eighth": "3/16", "dotted sixteenth": "3/32"}
)

// readChart reads the chart of one section; full form, not compact.
func readChart(text string) read {
	r := read{Labels: map[string]heard{}, Both: map[heard]string{}}
	column := big.NewRat(1, 16)
	flat := strings.Join(strings.Fields(text), " ")
	if m := unitLine.FindStringSubmatch(flat); m != nil {
		n, _ := strconv.Atoi("0" + m[2])
		column = new(big.Rat).Quo(value(m[1]), big.NewRat(int64(max(n, 2)), 1))
		if n == 1 {
			column = value(m[1])
		}
	} else if m := columnLine.FindStringSubmatch(flat); m != nil {
		column = value(m[1])
	}
	r.Loose = strings.Contains(flat, "only barlines stand under one another")
	bar, shift := 0, 0 // the bar being read and its columns in rows above
	for _, block := range strings.Split(text, "\n\n") {
		lines := strings.Split(block, "\n")
		var stretches []stretch
		layer := 0
		for i, l := range lines {
			if strings.HasPrefix(l, "count ") {
				stretches, bar, shift = ruled(l, lines[i-1], bar, shift)
				for _, above := range lines[:i] {
					r.label(above, stretches, column)
				}
			}
			for _, s := range stretches {
				if strings.HasPrefix(l, "together ") && !s.lands {
					for _, m := range signs.FindAllStringIndex(l[s.from:min(s.to, len(l))], -1) {
						r.Both[s.at(s.from+m[0], column)] = l[s.from+m[0] : s.from+m[1]]
					}
				}
			}
			if len(stretches) == 0 || strings.IndexAny(l, "|:") != stretches[0].from-1 || !cellRow.MatchString(l[:stretches[0].from-1]) {
				continue
			}
			if layer == len(r.Onsets) {
				r.Onsets, r.Lands = append(r.Onsets, nil), append(r.Lands, false)
			}
			for _, s := range stretches {
				for col := s.from; col < min(s.to, len(l)); col++ {
					if strings.IndexByte("Xxo", l[col]) < 0 {
						continue
					}
					if s.lands {
						r.Lands[layer] = true
						continue
					}
					r.Onsets[layer] = append(r.Onsets[layer], s.at(col, column))
				}
			}
			layer++
		}
	}
	return r
}

// stretch is the columns of one bar in one row; before is how many of the bar
// stand in rows above.
type stretch struct {
	from, to, bar, before int
	lands                 bool
}

func (s stretch) at(col int, column *big.Rat) heard {
	t := new(big.Rat).Mul(column, big.NewRat(int64(col-s.from+s.before), 1))
	return heard{s.bar, t.RatString()}
}

// ruled splits the count line at its barlines and numbers the bars.
func ruled(count, ruler string, bar, shift int) ([]stretch, int, int) {
	var all []stretch
	from := strings.IndexAny(count, "|:") + 1
	goesOn := count[from-1] == ':'
	for from < len(count) {
		end := strings.IndexAny(count[from:], "|:")
		s := stretch{from: from, to: len(count), lands: end < 0}
		if end >= 0 {
			s.to = from + end
		}
		if !goesOn {
			bar, shift = bar+1, 0
		}
		if n, err := strconv.Atoi(strings.SplitN(strings.TrimLeft(cut(ruler, from), "("), " ", 2)[0]); err == nil {
			bar = n
		}
		s.bar, s.before = bar, shift
		shift += s.to - s.from
		all = append(all, s)
		for from = s.to; from < len(count) && strings.IndexByte("|:", count[from]) >= 0; from++ {
			goesOn = count[from] == ':'
		}
	}
	return all, bar, shift
}

// cut returns the words that begin at a column.
func cut(s string, col int) string {
	for i := range s {
		if uniseg.StringWidth(s[:i]) == col && s[i-1] == ' ' {
			return strings.Split(s[i:], "  ")[0]
		}
	}
	return ""
}

// label reads the ruler and the mark lines.
func (r *read) label(line string, stretches []stretch, column *big.Rat) {
	for _, m := range token.FindAllStringIndex(line, -1)[1:] {
		word, col := line[m[0]:m[1]], uniseg.StringWidth(line[:m[0]])
		if strings.HasPrefix(line, "bar") {
			if _, word, _ = strings.Cut(word, " "); word == "" {
				continue
			}
		} else if pointed, ok := strings.CutSuffix(word, " v"); ok && strings.HasPrefix(line, "mark") {
			word, col = pointed, col+uniseg.StringWidth(word)-1
		} else if !strings.HasPrefix(line, "mark") {
			continue
		}
		for _, s := range stretches {
			if col >= s.from && (col < s.to || s.lands) {
				r.Labels[strings.TrimSuffix(word, " = beginning")] = s.at(col, column)
			}
		}
	}
}

func value(name string) *big.Rat {
	name = strings.TrimSuffix(strings.TrimSpace(name), " of a whole note")
	if v, ok := values[name]; ok {
		name = v
	}
	v, _ := new(big.Rat).SetString(name)
	return v
}
