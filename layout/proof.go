package layout

import (
	"fmt"
	"iter"
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/layout/systems"
	"tieover/score"
	"tieover/score/source"
)

// mostSystems is how many systems of a part are kept from the walk that chose
// them. A part that has more is walked ahead again whenever it is written.
const mostSystems = 1 << 14

// proof is what the first walk of a part has shown.
type proof struct {
	problems source.Problems // what cannot be written
	bars     int
	begins   sheet.Begins
	respelt  []sheet.Respelling
	over     *barlineBeams // nil without
}

// LayAll writes the full score, as Lay does with o, and the parts that are wanted, as
// LayPart does with alone: by player, nil where one is not wanted. Problems of the score
// come without those of its parts, and without any sheet. A part that is as the score has
// it, but for marks and systems, is walked once to prove both.
func LayAll(p *score.Piece, o, alone Options, wanted func(score.Player) bool) (whole *sheet.Sheet, parts []*sheet.Sheet, problems source.Problems) {
	together, problems := scoreParts(p, o)
	if len(problems) > 0 {
		return nil, nil, problems
	}
	if whole, parts := layTogether(p, o, alone, together, wanted); whole != nil {
		return whole, parts, nil
	}
	if whole, problems = proven(p, o, together, nil, false); len(problems) > 0 {
		return nil, nil, problems
	}
	parts = make([]*sheet.Sheet, len(together))
	for i, pt := range together {
		if wanted(pt.whole) {
			var bad source.Problems
			parts[i], bad = LayPart(p, alone, i)
			problems = append(problems, bad...)
		}
	}
	return whole, parts, problems
}

// layTogether lays the score by the proofs of its parts. It gives up, and returns nothing,
// where the parts are written otherwise than in the score, and where there is any problem.
func layTogether(p *score.Piece, o, alone Options, together []*part, wanted func(score.Player) bool) (whole *sheet.Sheet, parts []*sheet.Sheet) {
	same := alone
	same.Edition, same.Page = o.Edition, o.Page
	if same != o || alone.Barring.View == Own || alone.Partner != "" { // a partner's proof would come before the part's own
		return nil, nil
	}
	list, parts := make([]proof, len(together)), make([]*sheet.Sheet, len(together))
	for i, pt := range together {
		if !wanted(pt.whole) {
			list[i] = proofs(together[i:i+1], false)[0]
			continue
		}
		own, _ := partAlone(p, alone, i) // no problems, as in the score
		shown := proofs(own, alone.Breaks == BreakAuto)
		list[i] = shown[0]
		list[i].over = shown[0].over.clone()
		if parts[i], _ = sheetOf(p, alone, own, shown); parts[i] == nil {
			return nil, nil
		}
	}
	systemsOfScore(together, list)
	whole, _ = sheetOf(p, o, together, list)
	return whole, parts
}

// systemsOfScore puts into the proofs of a score's parts where its systems begin, which is
// the same in all of them.
func systemsOfScore(parts []*part, list []proof) {
	var begins sheet.Begins
	bar := 0
	for fb := range parts[0].frame.walk {
		if fb.brk != sheet.NoBreak {
			begins.See(&sheet.Bar{Break: fb.brk})
			if list[0].over == nil {
				break
			}
			for i := range list {
				list[i].over.cut(bar)
			}
		}
		bar++
	}
	for i := range list {
		list[i].begins = begins
	}
}

// proven walks each part once, to prove that it can be written, and puts all on
// a sheet; nothing if there are problems already. Of parts printed alone, the systems are
// chosen in the same walk.
func proven(p *score.Piece, o Options, parts []*part, problems source.Problems, alone bool) (*sheet.Sheet, source.Problems) {
	if len(problems) > 0 {
		return nil, problems
	}
	return sheetOf(p, o, parts, proofs(parts, alone && o.Breaks == BreakAuto))
}

// sheetOf puts proven parts on a sheet.
func sheetOf(p *score.Piece, o Options, parts []*part, list []proof) (*sheet.Sheet, source.Problems) {
	laid := &sheet.Sheet{Title: p.Title, Subtitle: p.Subtitle, Composer: p.Composer, Arranger: p.Arranger, Rights: p.Rights,
		Grid: p.Grid, Edition: o.Edition}
	var problems source.Problems
	for i, pr := range list {
		problems = append(problems, pr.problems...)
		parts[i].over = pr.over
		made := parts[i].sheetPart()
		made.Begins = &pr.begins
		laid.Bars = max(laid.Bars, pr.bars)
		laid.Parts = append(laid.Parts, made)
		laid.Respelled = append(laid.Respelled, pr.respelt...)
	}
	if len(problems) > 0 {
		return nil, problems
	}
	return laid, nil
}

func proofs(parts []*part, choose bool) []proof {
	list := make([]proof, len(parts))
	if choose {
		planSystems(parts, list)
		return list
	}
	for i, pt := range parts {
		w := newPartWalk(pt, &list[i].problems)
		w.bare = !pt.alone // what is printed alone gathers the rests that have no marks
		w.watchBeams()
		for b := range w.printed() {
			list[i].bars++
			list[i].begins.See(b)
		}
		list[i].respelt, list[i].over = w.writer.Respelt, w.seen
	}
	return list
}

// fail records a bar that cannot be written: each layer and reason once.
func (w *partWalk) fail(fb *frameBar, u *bar.Unwritable) {
	if w.lenient {
		return
	}
	if w.problems == nil {
		panic(fmt.Sprintf("layout: bar %d, %q: %s, which no walk has reported", fb.number, w.plan.Voices[u.Voice].Layer, u.Reason))
	}
	l := w.cursors[u.Voice].layer
	if !w.firstTime(l.Name + "\x00" + u.Reason) {
		return
	}
	hint := "choose a meter whose bars end where its pulses do, or print the part in bars of its own (--view own)"
	if w.cursors[u.Voice].isComposite() {
		hint = "put together layers of one kind of pulse (--composite NAME,NAME), or give the others a pulse that goes with theirs"
	}
	w.problems.Add(l.Pos, fmt.Sprintf("bar %d, layer %q cannot be written: %s", fb.number, l.Name, u.Reason), hint)
}

// empty is the bar with rests only, in place of one that cannot be written.
func (w *partWalk) empty(fb *frameBar) *sheet.Measure {
	m := &sheet.Measure{Signature: w.in.Signature, Key: w.in.Key, Clefs: w.in.Clefs, Instrument: w.in.Instrument,
		Length: w.in.MetricGrid.Length, Skipped: fb.skipped}
	for _, v := range w.plan.Voices {
		m.Voices = append(m.Voices, sheet.Voice{Staff: v.Staff, Number: v.Number, Layer: v.Layer,
			Events: []sheet.Event{&sheet.Rest{Length: m.Length, Whole: true}}})
	}
	return m
}

// firstTime reports whether a problem has not been reported, and remembers it.
func (w *partWalk) firstTime(problem string) bool {
	first := !w.reported[problem]
	w.reported[problem] = true
	return first
}

// planSystems chooses where the systems of parts begin that are printed alone,
// one above the other: where it suits the lowest. Each is walked once, which
// proves it.
func planSystems(parts []*part, list []proof) {
	walks := ahead(parts)
	for i, w := range walks {
		w.lenient, w.problems = false, &list[i].problems
		w.watchBeams()
	}
	var kept []systems.System
	var begins sheet.Begins
	for s := range walks.systems() {
		begins.See(&sheet.Bar{Break: s.Break})
		if len(kept) <= mostSystems {
			kept = append(kept, s)
		}
	}
	for i, w := range walks {
		list[i] = proof{list[i].problems, w.bars, begins, w.writer.Respelt, w.seen}
	}
	frame := parts[0].frame // one for all
	frame.systems = slices.Values(kept)
	if len(kept) > mostSystems {
		frame.systems = func(yield func(systems.System) bool) {
			ahead(parts).systems()(yield)
		}
	}
}

// walksAhead walk parts side by side as they will be printed but without breaks,
// to see what each bar holds.
type walksAhead []*partWalk

// ahead opens the walks.
func ahead(parts []*part) (walks walksAhead) {
	for _, pt := range parts {
		plain := *pt
		plain.o.Breaks, plain.over = BreakNone, nil
		frame := *pt.frame
		frame.o, frame.systems = &plain.o, nil
		plain.frame = &frame
		w := newPartWalk(&plain, nil)
		w.lenient = true
		walks = append(walks, w)
	}
	return walks
}

// systems yields the systems that the bars of the lowest part fill, but for the
// first. Every bar is walked.
func (walks walksAhead) systems() iter.Seq[systems.System] {
	return func(yield func(systems.System) bool) {
		staves := 0
		var beside func() (*sheet.Bar, bool)
		for _, w := range walks {
			staves += len(w.plan.Staves)
		}
		if len(walks) > 1 {
			next, stop := iter.Pull(walks[0].printed())
			defer stop()
			beside = next
		}
		lowest := walks[len(walks)-1]
		all := systems.PartRoom(lowest.o.Line).Of(lowest.p.Grid, lowest.printed(), beside)
		if page := lowest.o.Page; page != (sheet.PageRoom{}) {
			all = systems.Pages(all, page, staves)
		}
		all(yield)
	}
}
