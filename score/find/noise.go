package find

import (
	"fmt"
	"math/bits"
	"sort"
	"strings"
)

// longestNoisy is the longest list in pulses in which patterns with exceptions
// are looked for.
const longestNoisy = 65_536

// noisy looks for a cycle that explains all but a few attacks. Onsets are a
// row of bits; where the row agrees with itself a cycle later but for a few
// bits, the cycle's attacks are those that most of its passes have.
// Three passes are asked for: two have no majority.
func (ln *line) noisy(tolerance int, keep func(*Description)) {
	span := ln.end - ln.lead
	if span > longestNoisy || len(ln.hits) < 4 {
		return
	}
	row := newRow(ln.hits, ln.lead, span)
	var periods []int64
	for length := int64(2); length <= span/fewestCycles; length++ {
		if multiple(length, periods) || row.differs(length, 4*tolerance) {
			continue
		}
		groups, late := ln.majority(length)
		if groups == nil {
			continue
		}
		d := &Description{Groups: groups, Lead: ln.lead + late, Strike: ln.strike}
		if d.except(ln.hits, ln.end, tolerance) && len(d.Exceptions) > 0 {
			d.Cycles, d.Rest = d.strokes(ln.end, func(stroke) bool { return true })
			keep(d)
			periods = append(periods, length)
		}
	}
}

func multiple(n int64, of []int64) bool {
	for _, p := range of {
		if n%p == 0 {
			return true
		}
	}
	return false
}

// row is a list's onsets, one bit a pulse.
type row struct {
	bits []uint64
	span int64
}

func newRow(hits []Hit, from, span int64) row {
	r := row{make([]uint64, span/64+2), span}
	for _, h := range hits {
		at := h.At - from
		r.bits[at/64] |= 1 << (at % 64)
	}
	return r
}

// differs reports whether the row and itself so many pulses later disagree at
// more than `most` of the pulses that both have.
func (r row) differs(by int64, most int) bool {
	words, shift := by/64, uint(by%64)
	n := 0
	for i := int64(0); i*64 < r.span-by; i++ {
		later := r.bits[i+words]>>shift | r.bits[i+words+1]<<(64-shift) // a shift by 64 gives 0
		both := r.bits[i] ^ later
		if left := r.span - by - i*64; left < 64 {
			both &= 1<<left - 1
		}
		if n += bits.OnesCount64(both); n > most {
			return true
		}
	}
	return false
}

// majority returns the cycle of the given length with the attacks that more
// than half of its passes have, each as long as most of them are; nil when it
// has none. A cycle whose last sound rings over its edge begins late, with its
// first attack.
func (ln *line) majority(length int64) (groups []Item, late int64) {
	passes := (ln.end - ln.lead + length - 1) / length
	votes := map[int64]map[int64]int{} // place in the cycle, length
	for _, h := range ln.hits {
		at := (h.At - ln.lead) % length
		if votes[at] == nil {
			votes[at] = map[int64]int{}
		}
		votes[at][h.Length]++
	}
	var kept []Hit
	for at, lengths := range votes {
		n, best := 0, int64(0)
		for l, count := range lengths {
			n += count
			if count > lengths[best] || count == lengths[best] && l > best {
				best = l
			}
		}
		if 2*int64(n) > passes {
			kept = append(kept, Hit{At: at, Length: best})
		}
	}
	if len(kept) == 0 {
		return nil, 0
	}
	sort.Slice(kept, func(i, j int) bool { return kept[i].At < kept[j].At })
	if last := kept[len(kept)-1]; last.At+last.Length > length {
		late = kept[0].At
	}
	pattern := &line{hits: kept, strike: ln.strike}
	return pattern.groups(kept, late, length), late
}

// except plays the description beside the hits and notes where they part. ok
// is false when that is more often than tolerated.
func (d *Description) except(hits []Hit, end int64, tolerance int) (ok bool) {
	i := 0
	before, want := int64(-1), int64(0) // the pattern's attack before, and its length
	note := func(e Exception) bool {
		d.Exceptions = append(d.Exceptions, e)
		return len(d.Exceptions) <= tolerance
	}
	heard := func(at int64) (ok bool) { // hits before the pattern's next attack
		for ok = true; ok && i < len(hits) && hits[i].At < at; i++ {
			ok = note(Exception{At: hits[i].At, bits: hits[i].At - before})
		}
		return ok
	}
	ok = true
	d.strokes(end, func(s stroke) bool {
		if ok = heard(s.at); !ok {
			return false
		}
		before, want = s.at, s.length
		if i >= len(hits) || hits[i].At > s.at {
			ok = note(Exception{At: s.at, Missed: true, bits: 1})
			return ok
		}
		if got := hits[i].Length; got != want && !shortened(hits, i, want) && !prolonged(hits, i) {
			ok = note(Exception{At: s.at, Length: got, bits: got})
		}
		i++
		return ok
	})
	return ok && heard(end+1)
}

// shortened reports whether a hit ends early because the next came early.
func shortened(hits []Hit, i int, want int64) bool {
	return i+1 < len(hits) && hits[i].Length < want && hits[i+1].At == hits[i].At+hits[i].Length
}

// prolonged reports whether a hit goes on until the next because that came
// late.
func prolonged(hits []Hit, i int) bool {
	return i+1 < len(hits) && hits[i+1].At == hits[i].At+hits[i].Length || i+1 == len(hits)
}

// exceptText writes the cycles that deviate as boxes. ok is false when that
// cannot be said: there are no fixed cycles to number, something sounds before
// the first, most cycles deviate, or one only goes on with a sound.
func exceptText(l *List, d *Description) (text string, ok bool) {
	length := d.Length()
	if length > mostGroups || d.CutEvery > 0 || len(d.Process) > 0 || d.Strike != Hold || l.Hits[0].At < d.Lead {
		return "", false
	}
	var b strings.Builder
	b.WriteString("    except:\n")
	own, deviate := boxOf(d.Groups), 0
	cycles := int((l.End - d.Lead + length - 1) / length)
	for n := range cycles {
		start := d.Lead + int64(n)*length
		box := l.box(start, length)
		if heard := min(length, l.End-start); box[:heard] == own[:heard] {
			continue
		}
		deviate++
		switch {
		case strings.Contains(box, "x"):
			fmt.Fprintf(&b, "      - {cycle: %d, box: %s}\n", n+1, box)
		case strings.Contains(box, "="):
			return "", false
		default:
			fmt.Fprintf(&b, "      - {cycle: %d, rest: yes}\n", n+1)
		}
	}
	return b.String(), deviate > 0 && 2*deviate < cycles
}

// boxOf writes groups, one sign a pulse.
func boxOf(groups []Item) string {
	var b strings.Builder
	for _, g := range groups {
		if g.Blank {
			b.WriteString(strings.Repeat(".", int(g.Size)))
			continue
		}
		b.WriteString("x" + strings.Repeat("=", int(g.Size)-1))
	}
	return b.String()
}

// box writes the list from a moment on, one sign a pulse.
func (l *List) box(from, length int64) string {
	signs := []byte(strings.Repeat(".", int(length)))
	first := sort.Search(len(l.Hits), func(i int) bool { return l.Hits[i].At+l.Hits[i].Length > from })
	for _, h := range l.Hits[first:] {
		if h.At >= from+length {
			break
		}
		for k := range h.Length {
			if at := h.At + k - from; at >= 0 && at < length {
				signs[at] = '='
			}
		}
		if h.At >= from {
			signs[h.At-from] = 'x'
		}
	}
	return string(signs)
}
