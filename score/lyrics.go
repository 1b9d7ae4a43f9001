package score

import (
	"strings"

	"tieover/score/beat"
	"tieover/score/source"
)

// Verse is text that is sung once, one entry an attack from the layer's entry on.
type Verse struct {
	Pos    source.Pos
	Lyrics []Lyric
}

// Lyric is what one attack has of one verse.
type Lyric struct {
	Text     string // empty where nothing new is sung
	Syllabic Syllabic
	Extend   bool // a word that is at its end is held over the next attack too
}

// Syllabic is a syllable's place in its word.
type Syllabic int

const (
	WholeWord Syllabic = iota
	WordBegins
	WordGoesOn
	WordEnds
)

// Words deals what is sung or spoken to the attacks of a layer.
type Words struct {
	l      *Layer
	sung   [][]Lyric         // what is left, by attack
	spoken map[int][][]Lyric // by group size and pulse
}

// Words returns the layer's words from its entry on; a layer may have none.
func (l *Layer) Words() *Words {
	w := &Words{l: l, spoken: map[int][][]Lyric{}}
	for v, verse := range l.Verses {
		for i, y := range verse.Lyrics {
			if i == len(w.sung) {
				w.sung = append(w.sung, make([]Lyric, len(l.Verses)))
			}
			w.sung[i][v] = y
		}
	}
	for size, words := range l.Syllables {
		for _, text := range strings.Fields(words) {
			w.spoken[size] = append(w.spoken[size], []Lyric{{Text: text}})
		}
	}
	return w
}

// Next returns the words of an attack, one entry a verse, or nil; callers must
// not change them. It must be called with every attack of every cycle, in order. A nil
// Words has none.
func (w *Words) Next(c *Cycle, a *Attack) []Lyric {
	if w == nil || c.Start+a.At < w.l.Enters {
		return nil
	}
	if len(w.sung) > 0 {
		now := w.sung[0]
		w.sung = w.sung[1:]
		return now
	}
	if len(w.spoken) == 0 || a.Group < 0 || a.Group >= len(c.Groups) {
		return nil
	}
	g := &c.Groups[a.Group]
	past := a.At - g.At
	if g.Tail {
		past += beat.Time(g.Size)*w.l.Unit - g.Length
	}
	if past%w.l.Unit != 0 {
		return nil
	}
	return w.Spoken(g.Size, int(past/w.l.Unit)+1)
}

// Spoken returns what is spoken on a pulse, from 1, of a group of so many, struck or
// held; nil where nothing is.
func (w *Words) Spoken(size, pulse int) []Lyric {
	if words := w.spoken[size]; pulse <= len(words) {
		return words[pulse-1]
	}
	return nil
}

// lyrics warns of syllables that no attack is left for.
func (st *settler) lyrics() {
	for i, l := range st.s.Layers {
		most := 0
		for _, v := range l.Verses {
			most = max(most, len(v.Lyrics))
		}
		attacks := st.s.countHeard(i, most)
		for _, v := range l.Verses {
			left := 0
			for _, y := range v.Lyrics[min(attacks, len(v.Lyrics)):] {
				if y.Text != "" {
					left++
				}
			}
			if left > 0 {
				st.warn(v.Pos, "", "%s of %s %s left over", beat.Counted(left, "syllable"), l.Name, beat.Inflect(left, "is", "are"))
			}
		}
	}
}

// countHeard counts the attacks that a layer is heard with, but not past most.
func (s *Section) countHeard(layer, most int) int {
	if most == 0 {
		return 0
	}
	n, r := 0, s.ReadCycles(layer)
	for n < most {
		c, ok := r.Next()
		if !ok {
			break
		}
		for _, a := range c.Attacks {
			if c.Start+a.At >= s.Layers[layer].Enters {
				n++
			}
		}
	}
	return n
}
