package layout

import (
	"fmt"
	"iter"
	"slices"
	"strconv"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/peek"
	"tieover/score/source"
)

// memoSize bounds the bars that a walk remembers, and memoSigns the notes and rests
// in them; when full it forgets all.
const (
	memoSize  = 4096
	memoSigns = 4 * memoSize
)

// partWalk makes the bars of a part one after another. Equal input gives the
// same Measure.
type partWalk struct {
	*part
	writer   *bar.Writer // the walk's own: it collects respellings
	problems *source.Problems
	lenient  bool            // bars that cannot be written are left empty: another walk reports them
	bare     bool            // without marks: nobody will see the bars
	seen     *barlineBeams   // what is noted of beams over barlines; nil unless this walk proves
	reported map[string]bool // problems, by whose they are and the reason

	plan      *partPlan                // of the current instrument
	*hand                              // of the same
	hands     []hand                   // by plan
	turns     *peek.Peeker[score.Turn] // nil where the player has one instrument
	announced bool                     // the instrument that comes next

	section int
	nth     int // bar in its section, from 1
	bars    int // made so far
	grids   map[string]*bar.MetricGrid
	sig     score.Signature // of the bar before
	grid    *bar.MetricGrid
	ids     map[string]int // of signature, key, clefs and instrument
	in      bar.Input
	key     []byte
	memo    map[string]made
	kept    int    // notes and rests in it
	altered []byte // what the bar before altered
	bar     sheet.Bar
	signs   []score.Dynamic // dynamics printed in the bar
	equal   equalBars

	spelling  *bar.Transposer // the writer's, of the current key
	rewritten bool            // some layer of the section is not written as notes
	from      beat.Time       // where the bar before begins; kept only where rewritten
}

type made struct {
	measure *sheet.Measure
	altered []byte
}

// voiceState is what the marks of one voice remember.
type voiceState struct {
	dynamics []score.Dynamic // to come
	dynamic  string          // the last that was
	silent   beat.Time       // since when; section time
	heard    bool            // something has sounded in the section
	grouped  beat.Time       // the realignment after which the grouping was last printed: -1 before the first, -2 while it never was
	labels   map[*score.Group]string
	printed  string // the grouping, in the play edition
	reprint  bool   // the dynamic is due at the next attack
	slurred  bool   // a slur leads out of the bar before
	severed  bool   // what would be tied out of the bar before was cut off earlier
	bracket  bool   // of a cycle that began in a bar before
	inside   *bool  // some cycle of the section begins inside a bar; nil until it is asked

	hairpins []hairpin       // to come, and the open one
	spelling *bar.Transposer // of the note that is tied out of the bar before
}

func newPartWalk(pt *part, problems *source.Problems) *partWalk {
	own := *pt.writer
	w := &partWalk{part: pt, writer: &own, problems: problems, reported: map[string]bool{}, section: -1, hands: newHands(pt.plans),
		grids: map[string]*bar.MetricGrid{}, ids: map[string]int{}, memo: map[string]made{}}
	w.take(pt.plan)
	if pt.takes != nil {
		w.turns = peek.From(pt.p.ReadTurns(pt.whole).Next)
	}
	return w
}

func (w *partWalk) walk(yield func(*sheet.Bar) bool) {
	for fb := range w.frame.walk {
		if fb.section != w.section {
			w.enter(fb)
		}
		w.nth++
		w.bars++
		if !yield(w.make(fb)) {
			break
		}
	}
}

// printed are the bars as the player sees them: a part alone gathers its rests.
func (w *partWalk) printed() iter.Seq[*sheet.Bar] {
	if w.alone {
		return gather(w.walk, newCuer(w))
	}
	return w.walk
}

// enter opens the section's layers, on each of the player's instruments.
func (w *partWalk) enter(fb *frameBar) {
	w.section, w.nth, w.rewritten, w.equal = fb.section, 0, false, equalBars{}
	now := w.plan
	for _, plan := range w.plans {
		w.take(plan)
		w.open(fb)
	}
	w.take(now)
}

func (w *partWalk) open(fb *frameBar) {
	w.ordinary()
	w.enterClefs(fb.s)
	for i := range w.cursors {
		c := w.plan.feeds[i](fb.section)
		w.cursors[i] = c
		w.voices[i] = voiceState{grouped: -2, silent: fb.s.Opening(), labels: map[*score.Group]string{}, printed: w.voices[i].printed}
		if c == nil {
			continue
		}
		if c.frets = w.frets; !w.partner && !c.share.other {
			w.voices[i].dynamics = dynamicsOf(fb.s, c)
		}
	}
	if !w.partner {
		w.enterHairpins(fb.section)
	}
	w.rewritten = w.rewrites() || w.rewritten
}

// make writes one bar.
func (w *partWalk) make(fb *frameBar) *sheet.Bar {
	before := w.plan // its layers, or others on its instrument
	turned := w.turn(fb)
	newKey := w.keyFor(fb, before, turned)
	w.playedAgain(fb)
	newClef := w.clefsFor(fb) || w.restates(fb, sameClefs)
	w.measureFor(fb, newClef || w.plan != before)
	empty := w.read(fb)
	if w.over != nil {
		w.beamOver(fb)
	}
	w.write(fb)
	w.oneHand(fb)
	w.in.NewSystem = fb.brk != sheet.NoBreak && w.plan.Pitched && w.alteredTieIn()
	w.in.Numbers = !w.o.FewNumbers || w.nth <= 2
	w.in.Altered = w.altered
	w.in.Fermatas = w.in.Fermatas[:0]
	for _, e := range fb.entries {
		if e.Fermata && e.Time < fb.to {
			w.in.Fermatas = append(w.in.Fermatas, e.Time-fb.from)
		}
	}
	w.bar = sheet.Bar{Number: fb.number, Start: fb.s.Start + fb.from, Measure: w.remembered(fb), Marks: w.bar.Marks[:0],
		Barline: fb.barline, Left: fb.left, Times: fb.times, Break: fb.brk, NewMeter: fb.newMeter, NewKey: newKey, NewClef: newClef && w.bars > 1, NewInstrument: turned,
		Implicit: fb.skipped > 0, Empty: empty, Section: fb.section, Realigned: fb.starts, Forced: fb.forced, Divides: fb.divides}
	if w.frame.bars != nil {
		w.bar.Printed = "(" + strconv.Itoa(fb.number) + ")"
		if fb.starts && fb.scoreBar > 0 {
			w.bar.Printed = strconv.Itoa(fb.scoreBar)
		}
	}
	if w.seen != nil {
		w.seen.see(w, &w.bar)
	}
	if !w.bare {
		w.marks(fb)
	}
	return &w.bar
}

// read puts what sounds in the bar into its input, and reports whether nothing does.
func (w *partWalk) read(fb *frameBar) (empty bool) {
	empty = true
	for i, c := range w.cursors {
		v := &w.in.Voices[i]
		if c == nil {
			v.Segments, v.Groups, v.Cycles = v.Segments[:0], v.Groups[:0], v.Cycles[:0]
			v.Pulse, v.Unit = beat.Pulse{}, 0
			continue
		}
		c.read(fb.from, fb.to)
		c.fill(v, fb.from, fb.to)
		if len(v.Segments) == 0 {
			continue
		}
		empty = false
		w.spellTies(v.Segments, &w.voices[i])
		v.ByGroup = c.byGroup && !c.plainVoice
	}
	return empty
}

// measureFor finds the metric grid and key of the bar.
func (w *partWalk) measureFor(fb *frameBar, newClef bool) {
	if w.grid != nil && !fb.newSection && !fb.newKey && !newClef && w.grid.Skipped == fb.skipped && sameSignature(&w.sig, &fb.sig) {
		return
	}
	name := fmt.Sprint(fb.sig, fb.skipped)
	m, ok := w.grids[name]
	if !ok {
		m = bar.NewMetricGrid(fb.sig, w.p.Grid).After(fb.skipped)
		w.grids[name] = m
	}
	key := w.writer.Wanted.Key
	w.sig, w.grid = fb.sig, m
	w.in.Signature, w.in.MetricGrid, w.in.Key = fb.sig, m, key
	full := fmt.Sprintf("%s %v %v %d", name, key, w.in.Clefs, slices.Index(w.plans, w.plan))
	id, ok := w.ids[full]
	if !ok {
		id = len(w.ids)
		w.ids[full] = id
	}
	w.in.KeyID = id
	for _, c := range w.cursors {
		if c != nil {
			c.byGroup = !c.joined() && w.o.spellsByGroup(c.layer, fb.sig)
		}
	}
}

// remembered returns the measure for the current input, made anew unless it is known.
func (w *partWalk) remembered(fb *frameBar) *sheet.Measure {
	w.key = w.in.AppendKey(w.key[:0])
	done, ok := w.memo[string(w.key)]
	if !ok {
		m, altered, err := w.writer.Write(&w.in)
		if err != nil {
			w.fail(fb, err.(*bar.Unwritable))
			m, altered = w.empty(fb), nil
		}
		if w.kept += m.Signs(); len(w.memo) >= memoSize || w.kept > memoSigns {
			clear(w.memo)
			w.kept = m.Signs()
		}
		done = made{m, altered}
		w.memo[string(w.key)] = done
	}
	w.altered = done.altered
	return done.measure
}
