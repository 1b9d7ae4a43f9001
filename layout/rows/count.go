package rows

import (
	"slices"
	"strconv"

	"tieover/score"
	"tieover/score/beat"
)

// Syllable is one word of the spoken count.
type Syllable struct {
	At   beat.Time // from the bar's start
	Text string
}

// Count returns what a player says in a bar: every beat's number and, where
// they are not closer than least and fall on the step, what lies between
// (1 + 2 +, 1 e + a, and 1 + a for beats of three). A bar that begins inside is
// counted from where it begins.
func Count(grid beat.Grid, bar score.Bar, step, least beat.Time) []Syllable {
	var out []Syllable
	say := func(at beat.Time, word string) {
		if at >= 0 {
			out = append(out, Syllable{at, word})
		}
	}
	at := -bar.Skipped
	for i, span := range bar.Signature.Beats() {
		length := grid.Must(span)
		if at+length > bar.Length {
			break
		}
		say(at, strconv.Itoa(i+1))
		words := division(span, length, step, least)
		for k, word := range words {
			say(at+length*beat.Time(k+1)/beat.Time(len(words)+1), word)
		}
		at += length
	}
	return out
}

// Counts returns what is spoken in whole bars of each of the section's signatures.
func (ch *Chart) Counts(least beat.Time) [][]Syllable {
	grid, step := ch.Section.Grid, ch.Plain()
	var all [][]Syllable
	for _, sig := range ch.signatures {
		all = append(all, Count(grid, score.Bar{Signature: sig, Length: grid.Must(sig.Span())}, step, least))
	}
	return all
}

// division says what is spoken inside a beat.
func division(span beat.Span, length, step, least beat.Time) []string {
	fits := func(parts beat.Time) bool {
		return length%parts == 0 && length/parts%step == 0 && length/parts >= least
	}
	parts := span.Num() // the units of an additive or dotted beat
	switch {
	case parts == 3 && fits(3):
		return []string{"+", "a"}
	case parts == 3:
		return nil
	case parts > 4 && fits(beat.Time(parts)):
		return slices.Repeat([]string{"+"}, int(parts)-1)
	case parts > 4:
		return nil
	case fits(4):
		return []string{"e", "+", "a"}
	case fits(2):
		return []string{"+"}
	}
	return nil
}

// CountTuplet returns the count of a tuplet family in a bar: for three in the
// time of two "1 t l", where the first word is what a plain count says at that
// moment (the beat's number, or + and the like inside a beat), else 1 2 3 4 5 in
// every tuplet. The count stands on the pulses of the layers, so a tuplet that a
// barline cuts is counted on behind it.
func (ch *Chart) CountTuplet(b *Bar, f Family) []Syllable {
	starts := map[beat.Time]string{}
	for _, y := range Count(ch.Section.Grid, b.Bar, 1, 0) {
		starts[y.At] = y.Text
	}
	unit := f.Container / beat.Time(f.Actual)
	origin := ch.origin(b, f)
	var out []Syllable
	for t := origin.Mod(unit); t < b.Length; t += unit {
		k := int((t - origin).Mod(f.Container) / unit)
		word := strconv.Itoa(k + 1)
		if f.Actual == 3 && k > 0 {
			word = "tl"[k-1 : k]
		} else if spoken, on := starts[t]; f.Actual == 3 && on {
			word = spoken
		}
		out = append(out, Syllable{t, word})
	}
	return out
}

// origin finds from where a family's tuplets are counted in a bar: the section's
// start, a layer's entry or the barline, whichever has most of the layers' cells
// on its pulses.
func (ch *Chart) origin(b *Bar, f Family) beat.Time {
	unit := f.Container / beat.Time(f.Actual)
	origins := []beat.Time{-b.Start}
	var rows []Row
	for _, row := range b.Rows {
		if l := ch.Section.Layers[row.Layer]; ch.kind(l) == f.kind {
			rows = append(rows, row)
			origins = append(origins, l.Enters-b.Start)
		}
	}
	best, most := origins[0], -1
	for _, origin := range append(origins, 0) {
		n := 0
		for _, row := range rows {
			for _, c := range row.Cells {
				if (c.At - origin).Mod(unit) == 0 {
					n++
				}
			}
		}
		if n > most {
			best, most = origin, n
		}
	}
	return best
}
