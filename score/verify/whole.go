package verify

import (
	"errors"
	"math"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
)

// whole is the comparison of a score with its spec, all parts together.
type whole struct {
	piece *score.Piece
	score *heard.Score
	grid  beat.Grid
	parts []*comparison
	edits edits            // what was done to the bars of all parts
	own   map[string]edits // and to those of one part, by its name
	found []Difference
}

func newWhole(p *score.Piece, s *heard.Score, pairs []pair, o Options) (*whole, error) {
	w := &whole{piece: p, score: s, grid: commonGrid(p, s), own: map[string]edits{}}
	if !w.holds() {
		return nil, errors.New("the note values of the score and those of the spec have no common measure that is coarse enough to compare them")
	}
	words := &vocabulary{index: map[string]word{}}
	for _, pair := range pairs {
		c := &comparison{piece: p, part: pair.part, layers: pair.layers, grid: w.grid, words: words, composite: pair.composite, rhythmOnly: o.RhythmOnly}
		c.read()
		c.settle()
		w.parts = append(w.parts, c)
	}
	return w, nil
}

// holds reports whether every moment of both sides can be counted in ticks
// without a number that is too large.
func (w *whole) holds() bool {
	end := w.score.End()
	wholes := end.Num()/end.Den() + 1
	for _, s := range w.piece.Sections {
		wholes += 2*int64(s.Extent())/int64(s.Grid) + 1
	}
	return wholes < math.MaxInt64/4/int64(w.grid)/int64(w.grid)
}

// where says where a moment is in the first part.
func (w *whole) where(at beat.Time) heard.Where { return w.score.Parts[0].Where(w.grid.Span(at)) }

// compares reports whether the part is compared.
func (w *whole) compares(part string) bool {
	return slices.ContainsFunc(w.parts, func(c *comparison) bool { return c.part.Name == part })
}

// joinRuns makes one difference of it when all parts are late, or early, by the
// same amount from the same bar on.
func (w *whole) joinRuns() {
	var first, all run
	var of *comparison
	layers := 0
	for _, c := range w.parts {
		for k := range c.names {
			layers++
			runs := slices.DeleteFunc(slices.Clone(c.runs), func(r run) bool { return r.layer != k })
			if len(runs) != 1 || !runs[0].last || of != nil && (runs[0].by != first.by || c.where(runs[0].from).Bar != of.where(first.from).Bar) {
				return
			}
			if of == nil || runs[0].from < first.from {
				first, of = runs[0], c
			}
			all.notes, all.lost = all.notes+runs[0].notes, all.lost+runs[0].lost
		}
	}
	if layers < 2 {
		return
	}
	all.by = first.by
	who := "all parts are "
	if len(w.parts) == 1 {
		who = "all layers of " + of.part.Name + " are "
	}
	for _, c := range w.parts {
		c.found = slices.DeleteFunc(c.found, func(d Difference) bool { return d.Kind == MovedRun })
	}
	w.found = append(w.found, of.place(first.from, Difference{Kind: MovedRun, Count: all.notes,
		Want: of.where(first.from - first.by).String(), Got: of.where(first.from).String(),
		text: "from here on " + who + of.late(all.by) + " (" + countOf(all) + ")"}))
}

// findExchangedParts finds parts that hold each other's music.
func (w *whole) findExchangedParts() {
	var odd []*comparison // parts of which less than half is theirs
	for _, c := range w.parts {
		if c.right {
			continue
		}
		if want, _ := c.leftover(c.exactly()); !c.composite && 2*len(want) > len(c.want) {
			odd = append(odd, c)
		}
	}
	if len(odd) < 2 {
		return
	}
	owner := make([]int, len(odd)) // whose music each holds
	for i, c := range odd {
		owner[i] = -1
		for j, other := range odd {
			held := *c
			held.layers = other.layers
			held.read()
			if want, got := held.leftover(held.exactly()); i != j && 4*len(want) < len(held.want) && 4*len(got) < len(held.got) {
				owner[i] = j
				break
			}
		}
	}
	done := make([]bool, len(odd))
	for i := range odd {
		if ring := ringOf(owner, done, i); ring != nil {
			w.exchange(odd, ring)
		}
	}
}

// ringOf follows owners round to where it began, and returns nil when that is
// never, or when the ring was found before.
func ringOf(owner []int, done []bool, from int) []int {
	ring := []int{from}
	for at := owner[from]; at != from; at = owner[at] {
		if at < 0 || len(ring) > len(owner) || done[at] {
			return nil
		}
		ring = append(ring, at)
	}
	for _, at := range ring {
		done[at] = true
	}
	return ring
}

// exchange reports that the parts of a ring hold each other's music, and has each
// compared with what it holds.
func (w *whole) exchange(odd []*comparison, ring []int) {
	var names, each []string
	layers := make([][]layer, len(ring))
	for k, at := range ring {
		next := odd[ring[(k+1)%len(ring)]]
		layers[k] = next.layers
		names = append(names, odd[at].part.Name)
		that := " that of "
		if k == 0 {
			that = " has the music of "
		}
		each = append(each, odd[at].part.Name+that+next.part.Name)
	}
	for k, at := range ring {
		odd[at].layers = layers[k]
		odd[at].read()
	}
	text := "each has the other's music"
	if len(ring) > 2 {
		text = strings.Join(each, ", ")
	}
	w.found = append(w.found, Difference{Kind: PartsExchanged, Layer: names[0], Want: names[0], Got: names[1], Count: len(names),
		text: "the parts " + beat.Listed(names, "and") + " are exchanged: " + text})
}
