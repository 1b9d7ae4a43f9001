package find

import (
	"fmt"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
)

// How often the loop that was played is found. The tables are made in full by
//
//	TAKES=30 go test ./score/find -run TestRates -v -timeout 0
//
// Without TAKES each cell has a single take at two scatters, which only tells
// whether all is broken. The rates asked for are of a first trial with takes of its
// own, 30 a cell, so that their standard error is up to 9 points: a row's mean may be 5
// points lower, a cell 15.
const (
	rowLower  = 5
	cellLower = 15
)

// scatters are in seconds.
var scatters = []float64{0.005, 0.010, 0.020, 0.030, 0.040}

// rates is how many per cent of the takes were right, a cell a scatter.
type rates []float64

func ratesOf(text string) (r rates) {
	for _, word := range strings.Split(text, "/") {
		n, err := strconv.ParseFloat(word, 64)
		if err != nil {
			panic(err)
		}
		r = append(r, n)
	}
	return r
}

func (r rates) String() string {
	words := make([]string, len(r))
	for i, x := range r {
		words[i] = fmt.Sprintf("%.0f", x)
	}
	return strings.Join(words, "/")
}

func (r rates) mean() float64 {
	sum := 0.0
	for _, x := range r {
		sum += x
	}
	return sum / float64(len(r))
}

// takes returns how many takes a cell has, and whether that is the full number.
func takes(t *testing.T) (n int, full bool) {
	t.Helper()
	if testing.Short() {
		t.Skip("rates are measured in long runs")
	}
	text := os.Getenv("TAKES")
	if text == "" {
		return 1, false
	}
	n, err := strconv.Atoi(text)
	require.NoError(t, err)
	return n, n >= 30
}

// measure fills one row: of so many takes at each scatter, the share that is right.
func measure(t *testing.T, row string, want string, right func(seed uint64, scatter float64) bool) {
	n, full := takes(t)
	cells := scatters
	wanted := ratesOf(want)
	if !full && n == 1 {
		cells, wanted = cells[1:3], wanted[1:3]
	}
	got := make(rates, len(cells))
	for i, scatter := range cells {
		got[i] = 100 * share(n, func(seed uint64) bool { return right(seed, scatter) })
	}
	t.Logf("%-16s %v (asked for %v)", row, got, wanted)
	if !full {
		if wanted.mean() > 50 { // else no single take need be right
			assert.Positive(t, got.mean(), row)
		}
		return
	}
	assert.GreaterOrEqual(t, got.mean(), wanted.mean()-rowLower, "%s: %v", row, got)
	for i := range got {
		assert.GreaterOrEqual(t, got[i], wanted[i]-cellLower, "%s at %.0f ms", row, 1000*cells[i])
	}
}

// share tells how large a part of the seeds is right.
func share(n int, right func(seed uint64) bool) float64 {
	hits := make([]bool, n)
	var wait sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := range next {
				hits[i] = right(uint64(i))
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wait.Wait()
	sum := 0
	for _, hit := range hits {
		if hit {
			sum++
		}
	}
	return float64(sum) / float64(n)
}

// foundIn reads taps and describes them.
func foundIn(onsets []float64, tempo float64) (*Description, *Taps) {
	l, taps, err := FromOnsets(onsets, TapOptions{Tempo: tempo})
	if err != nil {
		return &Description{Literal: true, Stretches: make([]Stretch, 1)}, nil
	}
	return Search(l, Options{})[0], taps
}

// told reports whether the loop is what is told first: as the pattern, or where none
// pays for itself as the nearest, as of a short take of two values with a slip. The
// first trial had no threshold.
func told(d *Description, loop []int64) bool {
	return hits(d, loop) || d.Literal && d.Nearest != nil && hits(d.Nearest, loop)
}

// hits reports whether the loop is found, in its rotation, alone or in a stretch of
// four fifths of the attacks.
func hits(d *Description, loop []int64) bool {
	groups := make([]Item, len(loop))
	for i, size := range loop {
		groups[i].Size = size
	}
	if d.IsExact() {
		return d.IsPlainLoop() && slices.Equal(d.Loop().Groups, groups)
	}
	attacks := d.Stretches[len(d.Stretches)-1].Next
	for _, s := range d.Stretches {
		if 5*(s.Next-s.First) >= 4*attacks && slices.Equal(s.Groups, groups) {
			return true
		}
	}
	return false
}

func TestRatesOfTaps(t *testing.T) {
	for i, row := range []struct{ given, guessed string }{
		{"100/100/100/100/100", "100/100/100/100/83"},
		{"100/100/100/100/100", "100/100/100/96/93"},
		{"100/100/100/100/100", "80/76/83/86/76"},
		{"100/100/100/100/100", "30/26/30/50/50"},
		{"100/100/100/100/100", "100/96/93/96/90"},
		{"100/100/100/100/96", "100/96/93/100/100"},
		{"100/100/100/100/100", "100/100/100/100/93"},
		{"96/93/100/93/93", "93/83/90/93/90"},
		{"96/96/100/100/93", "93/96/96/96/76"},
		{"96/93/100/96/96", "100/96/96/96/86"},
		{"83/86/100/93/93", "90/86/96/86/73"},
		{"90/86/96/93/96", "93/86/96/93/76"},
		{"100/100/100/100/100", "96/96/100/96/90"},
		{"96/93/100/100/93", "93/90/93/86/70"},
	} {
		f := flaws[i]
		t.Run(f.name, func(t *testing.T) {
			measure(t, "tempo given", row.given, func(seed uint64, scatter float64) bool {
				k := newTake(seed, f, scatter)
				d, _ := foundIn(k.onsets, k.tempo)
				return told(d, k.loop)
			})
			measure(t, "no tempo", row.guessed, func(seed uint64, scatter float64) bool {
				k := newTake(seed, f, scatter)
				d, _ := foundIn(k.onsets, 0)
				return told(d, k.loop)
			})
			if f.swing == 0 {
				return
			}
			// A straight reading of an even cycle goes first: the swung one is as near.
			measure(t, "or as near", map[float64]string{0.6: "96/96/96/96/96", 2.0 / 3: "88/88/88/88/88"}[f.swing], func(seed uint64, scatter float64) bool {
				k := newTake(seed, f, scatter)
				d, taps := foundIn(k.onsets, 0)
				return told(d, k.loop) || taps != nil && slices.ContainsFunc(taps.Near, func(n Near) bool {
					return strings.HasPrefix(n.Text, sizesText(k.loop)+" (")
				})
			})
		})
	}
}

func sizesText(loop []int64) string {
	items := make([]Item, len(loop))
	for i, size := range loop {
		items[i].Size = size
	}
	return GroupsText(items)
}

// One slip in 8 to 14 cycles of numbers; the list as the exact search alone reads
// it was right in 0 to 34 per cent of them, swapped groups in all.
func TestRatesOfNumbers(t *testing.T) {
	n, full := takes(t)
	if !full {
		n = 4
	}
	for _, f := range flaws {
		if f.slip == nil {
			continue
		}
		got := share(n, func(seed uint64) bool {
			r := random(seed, "numbers "+f.name)
			loop := takeLoops[r.IntN(len(takeLoops))]
			cycles := 8 + r.IntN(7)
			slip := 1 + r.IntN(cycles-2)
			var items []Item
			for c := range cycles {
				cycle := slices.Clone(loop)
				if c == slip {
					cycle = f.slip(r, cycle)
				}
				for _, size := range cycle {
					items = append(items, Item{Size: size})
				}
			}
			return hits(Search(listFrom(t, items), Options{})[0], loop)
		})
		t.Logf("%-10s %.0f", f.name, 100*got)
		if full {
			assert.GreaterOrEqual(t, got, 0.95, f.name)
		}
	}
}

func listFrom(t testing.TB, items []Item) *List {
	l, err := FromDurations(items, beat.Plain(beat.Of(1, 8)))
	require.NoError(t, err)
	return l
}

// Segments of 4 to 8 cycles: all loops right, and meeting within a cycle.
func TestRatesOfSegments(t *testing.T) {
	for _, c := range []struct {
		segments int
		numbers  float64
		taps     string
	}{{2, 96, "96/90/100/96/86"}, {3, 86, "90/93/96/96/93"}} {
		n, full := takes(t)
		if !full {
			n = 3
		}
		got := share(n, func(seed uint64) bool {
			groups, want := segmented(random(seed, fmt.Sprint("segments ", c.segments)), c.segments)
			var items []Item
			for _, g := range groups {
				items = append(items, Item{Size: g})
			}
			return meets(Search(listFrom(t, items), Options{})[0], want)
		})
		t.Logf("%d segments, numbers: %.0f (asked for %.0f)", c.segments, 100*got, c.numbers)
		if full {
			assert.GreaterOrEqual(t, 100*got, c.numbers-cellLower)
		}
		measure(t, fmt.Sprintf("%d segments", c.segments), c.taps, func(seed uint64, scatter float64) bool {
			r := random(seed, fmt.Sprint("segments ", c.segments))
			groups, want := segmented(r, c.segments)
			tempo := takeTempos[r.IntN(len(takeTempos))]
			d, _ := foundIn(tapGroups(r, groups, flaw{}, scatter, tempo), tempo)
			return meets(d, want)
		})
	}
}

// segment is where a loop was played.
type segment struct {
	loop []int64
	from int // attack
}

func segmented(r *rand.Rand, n int) (groups []int64, want []segment) {
	for len(want) < n {
		loop, cycles := takeLoops[r.IntN(len(takeLoops))], 4+r.IntN(5)
		if r.IntN(4) == 0 {
			loop, cycles = []int64{2 + r.Int64N(4)}, 12
		}
		if k := len(want); k > 0 && sameLoop(loop, want[k-1].loop) {
			continue
		}
		want = append(want, segment{loop, len(groups)})
		for range cycles {
			groups = append(groups, loop...)
		}
	}
	return groups, want
}

func sameLoop(a, b []int64) bool {
	for i := range a {
		if slices.Equal(slices.Concat(a[i:], a[:i]), b) {
			return true
		}
	}
	return false
}

// meets reports whether a description has just these segments, each a cycle early
// or late at most.
func meets(d *Description, want []segment) bool {
	if len(d.Stretches) != len(want) {
		return false
	}
	for i, s := range d.Stretches {
		var loop []int64
		for _, g := range s.Groups {
			loop = append(loop, g.Size)
		}
		off := s.First - want[i].from
		if !sameLoop(want[i].loop, loop) || max(off, -off) > len(want[i].loop) {
			return false
		}
	}
	return true
}

// Two parts on one clock, the second 0 to 7 pulses late: both loops and how late.
func TestRatesOfTwoParts(t *testing.T) {
	for _, c := range []struct {
		flaw flaw
		want string
	}{{flaws[0], "100/100/100/100/100"}, {flaws[1], "100/100/100/100/96"}} {
		measure(t, "two parts, "+c.flaw.name, c.want, func(seed uint64, scatter float64) bool {
			parts, loops, late, tempo := twoParts(random(seed, "two "+c.flaw.name), c.flaw.drift, scatter)
			take, err := FromParts(parts, TapOptions{Tempo: tempo})
			if err != nil {
				return false
			}
			one, two := take.Parts[0], take.Parts[1]
			return hits(one.Ranked[0], loops[0]) && hits(two.Ranked[0], loops[1]) && two.List.Hits[0].At-one.List.Hits[0].At == late
		})
	}
}

func twoParts(r *rand.Rand, drift bool, scatter float64) (parts []TapPart, loops [2][]int64, late int64, tempo float64) {
	loops = [2][]int64{takeLoops[r.IntN(len(takeLoops))], takeLoops[r.IntN(len(takeLoops))]}
	tempo = takeTempos[r.IntN(len(takeTempos))]
	late = r.Int64N(8)
	span := int64(80 + r.IntN(40))
	slower := []float64{.02, .03, .04, .05}[r.IntN(4)] * []float64{1, -1}[r.IntN(2)]
	if !drift {
		slower = 0
	}
	for k, loop := range loops {
		place := []int64{0, late}[k]
		var onsets []float64
		for i := 0; place < span; i++ {
			x := float64(place)
			onsets = append(onsets, 30/tempo*(x-slower*x*x/(2*float64(span)))+scatter*r.NormFloat64())
			place += loop[i%len(loop)]
		}
		parts = append(parts, TapPart{Name: []string{"Rake", "Scythe"}[k], Onsets: inOrder(onsets, 0.5)})
	}
	return parts, loops, late, tempo
}

// Lists made by chance hardly ever save over 4 bits with exceptions and segments
// allowed: of 1,000 lists at most 3, of taps none.
func TestRatesOfChance(t *testing.T) {
	n, full := takes(t)
	lists := 1000
	if !full {
		n, lists = 1, 150
	}
	invented := share(lists, func(seed uint64) bool {
		r := random(seed, "chance")
		items := make([]Item, 12+r.IntN(60))
		for i := range items {
			items[i].Size = 2 + r.Int64N(2+int64(seed%3))
		}
		d := Search(listFrom(t, items), Options{})[0]
		return !d.IsExact()
	}) * float64(lists)
	t.Logf("%.0f of %d random lists", invented, lists)
	assert.LessOrEqual(t, invented, 3.0)
	for _, scatter := range []float64{0.005, 0.02, 0.04} {
		got := share(n*3, func(seed uint64) bool {
			r := random(seed, "chance taps")
			groups := make([]int64, 20+r.IntN(40))
			for i := range groups {
				groups[i] = 2 + r.Int64N(2+int64(seed%3))
			}
			tempo := takeTempos[r.IntN(len(takeTempos))]
			d, _ := foundIn(tapGroups(r, groups, flaw{}, scatter, tempo), tempo)
			return !d.Literal
		})
		assert.LessOrEqual(t, got, 0.02, "random taps that scatter by %.0f ms", 1000*scatter)
	}
}

// A larger tolerance of milliseconds never finds less.
func TestRatesOfTolerance(t *testing.T) {
	n, _ := takes(t)
	before := 0.0
	for _, tolerance := range []float64{0.02, 0.04, 0.08} {
		right := 0.0
		for _, scatter := range []float64{0.01, 0.03} {
			right += share(2*n, func(seed uint64) bool {
				k := newTake(seed, flaws[0], scatter)
				l, _, err := FromOnsets(k.onsets, TapOptions{Tempo: k.tempo, Tolerance: tolerance})
				return err == nil && hits(Search(l, Options{})[0], k.loop)
			})
		}
		assert.GreaterOrEqual(t, right, before, "--tolerance %.0f ms", 1000*tolerance)
		before = right
	}
}
