package heard

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
)

// Remark is one thing that was left out of a file or does not add up.
type Remark struct {
	Kind RemarkKind
	Part string // name of the part; "" for the whole file
	Bar  string // number of the bar; "" when it is no bar
	Text string // "bar 5 holds 9/8, its meter is 5/4"

	// What Summary joins remarks by; "" is joined with nothing. Of LeftOut and
	// Hidden it is the thing counted, "grace note"; of Short the voice; of Misfit
	// what the bar holds; of Loose whether a tie "begins" or "ends".
	Of    string
	Count int // how many of it are in the bar

	At beat.Span // of Loose: where the other end should be
}

type RemarkKind int

const (
	LeftOut RemarkKind = iota // grace and cue notes, and other things that do not count
	Misfit                    // a bar that does not add up
	Loose                     // a tie without its other end
	Short                     // a voice that ends before its bar does
	Hidden                    // notes that sound but are not printed
)

// Summary joins remarks of a part that say the same of several bars into one,
// in the place of the first of them.
func Summary(all []Remark) []Remark {
	type key struct {
		kind     RemarkKind
		part, of string
	}
	var joined [][]Remark
	at := map[key]int{}
	for _, r := range all {
		k := key{r.Kind, r.Part, r.Of}
		if r.Kind == Short { // all voices together
			k.of = "voice"
		}
		i, known := at[k]
		if !known || r.Of == "" {
			i = len(joined)
			at[k] = i
			joined = append(joined, nil)
		}
		joined[i] = append(joined[i], r)
	}
	summary := make([]Remark, len(joined))
	for i, same := range joined {
		summary[i] = join(same)
	}
	return summary
}

// join makes one remark of several that say the same.
func join(same []Remark) Remark {
	r := same[0]
	if r.Of == "" || len(same) == 1 && r.Text != "" {
		return r
	}
	var bars, voices []string
	r.Count = 0
	for _, s := range same {
		r.Count += s.Count
		if !slices.Contains(bars, s.Bar) {
			bars = append(bars, s.Bar)
		}
		if !slices.Contains(voices, s.Of) {
			voices = append(voices, s.Of)
		}
	}
	places := barList(bars)
	switch r.Kind {
	case LeftOut:
		r.Text = fmt.Sprintf("%s left out in %s", beat.Counted(r.Count, r.Of), places)
	case Hidden:
		r.Text = fmt.Sprintf("%s in %s %s taken to sound", beat.Counted(r.Count, r.Of), places, beat.Inflect(r.Count, "is", "are"))
	case Short:
		slices.Sort(voices)
		r.Text = fmt.Sprintf("%s %s %s before the barline in %s; silence is taken to follow",
			beat.Noun(len(voices), "voice"), beat.Listed(voices, "and"), beat.Inflect(len(voices), "ends", "end"), places)
	case Misfit:
		r.Text = fmt.Sprintf("%s %s %s", places, beat.Inflect(len(bars), "holds", "hold"), r.Of)
	case Loose:
		begin, end := "begin", "end nowhere"
		if r.Of == "ends" {
			begin, end = "end", "begin nowhere"
		}
		r.Text = fmt.Sprintf("%s %s in %s but %s", beat.Counted(r.Count, "tie"), begin, places, end)
	}
	return r
}

// mostPlaces is how many places a list of bars names before it counts the rest.
const mostPlaces = 8

// barList says which bars these are: "bar 2", "bars 4 to 6 and 9". Bars that
// follow each other by number are one place.
func barList(numbers []string) string {
	if len(numbers) == 1 {
		return "bar " + numbers[0]
	}
	var places []string
	for i := 0; i < len(numbers); {
		j := i + 1
		for j < len(numbers) && isNext(numbers[j-1], numbers[j]) {
			j++
		}
		if j-i > 2 {
			places = append(places, numbers[i]+" to "+numbers[j-1])
		} else {
			places = append(places, numbers[i:j]...)
		}
		i = j
	}
	if n := len(places); n > mostPlaces {
		return "bars " + strings.Join(places[:mostPlaces-2], ", ") + fmt.Sprintf(" and %d more", n-mostPlaces+2)
	}
	return "bars " + beat.Listed(places, "and")
}

func isNext(a, b string) bool {
	m, err := strconv.Atoi(a)
	n, err2 := strconv.Atoi(b)
	return err == nil && err2 == nil && n == m+1
}
