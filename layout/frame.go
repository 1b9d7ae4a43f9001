package layout

import (
	"fmt"
	"iter"
	"slices"
	"sync"

	"tieover/layout/cyclebars"
	"tieover/layout/sheet"
	"tieover/layout/systems"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/source"
)

// frameBar is what a bar has in common in all parts.
type frameBar struct {
	section  int
	s        *score.Section
	again    bool      // what the section repeats begins with it
	skipped  beat.Time // of a pickup: how much of its bar lies before it
	from, to beat.Time
	number   int
	scoreBar int // the common bar that begins here; 0 in bars of one's own that do not meet one
	sig      score.Signature
	landing  bool
	key      score.Key // at sounding pitch

	newMeter, newKey, newSection bool
	printsKey                    bool // its signature differs from the one in force, or a repeat may come from another
	barline, left                sheet.Barline
	times                        int
	brk                          sheet.Break
	breaksNext                   bool // a system that is planned begins after it
	labels                       []label
	entries                      []*score.PlanEntry // of the plan, at moments in the bar
	tempos                       []score.TempoAt    // that begin in the bar
	ended                        []beat.Time        // where gradual ones end, up to the bar's end
	steps                        []score.Speed      // of gradual ones
	realigned                    []beat.Time        // realignments up to the bar's end: those in it, after the last one before it
	changed                      []score.SeriesChange
	starts                       bool // realigned at its start
	forced, divides              bool // and how
}

// framer walks the bars of a piece with all that the parts share.
type framer struct {
	p       *score.Piece
	o       *Options
	bars    func(section int) iter.Seq[score.Bar] // nil: the section's own meter
	systems iter.Seq[systems.System]              // chosen for a part; nil: they begin where systems.Breaker says
	lookups []sectionLook
}

// sectionLook is what is found once for each section, for all parts.
type sectionLook struct {
	room   func() int // for so many bars in a system
	tempos []score.TempoAt
}

func lookups(p *score.Piece, o *Options) (all []sectionLook) {
	room := systems.ScoreRoom(o.Line)
	for _, s := range p.Sections {
		all = append(all, sectionLook{sync.OnceValue(func() int { return room.Bars(s) }), s.Tempos()})
	}
	return all
}

// walk yields the frame of each bar. The bar is only good until the next.
func (f *framer) walk(yield func(*frameBar) bool) {
	var br breaks
	if f.systems != nil {
		var stop func()
		br.planned, stop = iter.Pull(f.systems)
		defer stop()
		br.next, _ = br.planned()
	}
	var before score.Signature
	var key score.Key
	for i, s := range f.p.Sections {
		w := newSectionWalk(f, i, s, &br)
		for fb := range w.bars {
			first := len(before.Terms) == 0
			fb.newMeter = first || !sameSignature(&before, &fb.sig)
			fb.newKey = first || key != fb.key || fb.again && len(s.Keys()) > 1
			fb.printsKey = first || !key.LooksLike(fb.key) ||
				fb.again && slices.ContainsFunc(s.Keys(), func(k score.KeyAt) bool { return !k.Key.LooksLike(fb.key) })
			before, key = fb.sig, fb.key
			if !yield(fb) {
				w.stop()
				return
			}
		}
		w.stop()
	}
}

// sameSignature compares without writing the signatures out when they are one
// value of the spec.
func sameSignature(a, b *score.Signature) bool {
	return len(a.Terms) > 0 && len(b.Terms) > 0 && &a.Terms[0] == &b.Terms[0] || a.Equal(*b)
}

// barsOf returns the bars of a part where they are not the section's own; nil
// where they are.
func barsOf(p *score.Piece, o *Options, player score.Player, problems *source.Problems) func(section int) iter.Seq[score.Bar] {
	if o.Barring.View == Common {
		return nil
	}
	leaders := make([]int, len(p.Sections)) // the layer whose cycles are bars; -1: the meter's own bars
	found := false
	for i, s := range p.Sections {
		leaders[i] = -1
		for j, l := range s.Layers {
			if o.Barring.View == ByLayer && l.Name == o.Barring.Layer {
				leaders[i] = j
			}
		}
		for _, j := range player.Layers[i] {
			if o.Barring.View == Own && leaders[i] < 0 && s.Layers[j].Line == nil {
				leaders[i] = j // a free line has no cycles: it keeps the meter's bars
			}
		}
		if j := leaders[i]; j >= 0 {
			found = true
			cyclebars.Check(s, j, o.Barring.Split, problems)
		}
	}
	if !found && o.Barring.View == ByLayer {
		problems.Add(source.Pos{}, fmt.Sprintf("no section has a layer %q whose cycles could be the bars", o.Barring.Layer),
			"name one of the layers")
	}
	return func(section int) iter.Seq[score.Bar] {
		s := p.Sections[section]
		if leaders[section] < 0 {
			return s.Bars()
		}
		return cyclebars.Of(s, leaders[section], o.Barring.Split)
	}
}
