package layout

import (
	"cmp"
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// dynamics prints the layer's dynamics: with what it plays, never at a rest.
// One that falls into its silence waits for the next attack, where only the last
// of several is printed; after four bars or more of rest it is printed again.
func (w *partWalk) dynamics(fb *frameBar, i int, c *cursor, st *voiceState) {
	w.hairpins(fb, i, st)
	for k := range c.sounds {
		s := &c.sounds[k]
		if s.at < fb.from {
			st.silent = s.end
			continue
		}
		w.dynamicsBefore(fb, i, st, s.at)
		if st.heard && s.at-st.silent >= 4*(fb.to-fb.from) {
			st.reprint = true
		}
		for len(st.dynamics) > 0 && st.dynamics[0].Time <= s.at {
			st.dynamic, st.reprint, st.dynamics = st.dynamics[0].Text, true, st.dynamics[1:]
		}
		if st.reprint && st.dynamic != "" {
			w.dynamic(fb, s.at, i, st.dynamic)
		}
		st.reprint, st.heard, st.silent = false, true, s.end
	}
	w.dynamicsBefore(fb, i, st, fb.to)
}

// dynamicsBefore prints the dynamics before a moment that fall into what sounds,
// and keeps the last of the others.
func (w *partWalk) dynamicsBefore(fb *frameBar, i int, st *voiceState, to beat.Time) {
	for len(st.dynamics) > 0 && st.dynamics[0].Time < to {
		d := st.dynamics[0]
		st.dynamics = st.dynamics[1:]
		st.dynamic, st.reprint = d.Text, d.Time < fb.from || d.Time >= st.silent
		if !st.reprint {
			w.dynamic(fb, d.Time, i, d.Text)
		}
	}
}

// dynamic prints one sign, once for all voices of the part that have it at that
// moment: both hands of a keyboard read it below the upper staff.
func (w *partWalk) dynamic(fb *frameBar, at beat.Time, voice int, text string) {
	sign := score.Dynamic{Time: at, Text: text}
	if slices.Contains(w.signs, sign) {
		return
	}
	w.signs = append(w.signs, sign)
	w.put(fb, at, sheet.Mark{Kind: sheet.DynamicMark, Voice: voice, Text: text})
}

// hairpins opens and closes the layer's hairpins that begin or end in the bar.
func (w *partWalk) hairpins(fb *frameBar, i int, st *voiceState) {
	for len(st.hairpins) > 0 && st.hairpins[0].from < fb.to {
		h := &st.hairpins[0]
		if !h.open {
			h.open = true
			w.put(fb, h.from, sheet.Mark{Kind: sheet.HairpinStart, Voice: i, N: h.kind})
		}
		if h.to > fb.to {
			return
		}
		w.put(fb, h.to, sheet.Mark{Kind: sheet.HairpinStop, Voice: i})
		st.hairpins = st.hairpins[1:]
	}
}

// hairpin is one that is printed: from a sound to the end of a sound, in section
// time.
type hairpin struct {
	from, to beat.Time
	kind     int // 1 opens, 2 closes
	attacks  int
	held     bool // some sound can grow by itself
	open     bool
}

// shows reports whether the hairpin of another voice of the part says what this one
// would: it looks alike, or this one is over a single stroke.
func (h hairpin) shows(other hairpin) bool {
	one := other.attacks <= 1 && !other.held && h.from < other.to && other.from < h.to
	return h.kind == other.kind && (one || h.from == other.from && h.to == other.to)
}

// hairpinsOf cuts the plan's hairpins for a voice to what it plays: each from
// the first attack in it to the last sound, or from what sounds where it begins.
// A whole bar of rest breaks it. Two attacks are needed, or a quarter's length that is
// held; where no piece has either, the longest is printed, for it sounds.
func (w *partWalk) hairpinsOf(section, voice int) []hairpin {
	s := w.p.Sections[section]
	c := w.cursors[voice]
	var planned []hairpin
	end := beat.Time(0)
	for k := range s.Plan {
		e := &s.Plan[k]
		if !c.any(e.Swells) {
			continue
		}
		h := hairpin{from: e.Time, to: e.ToTime, kind: 1}
		if e.Hairpin == score.Diminuendo {
			h.kind = 2
		}
		planned = append(planned, h)
		end = max(end, h.to)
	}
	if planned == nil {
		return nil
	}
	made := make([][]hairpin, len(planned))
	ahead, silent := w.plan.feeds[voice](section), false // a bar of rest since the sound before
	for bar := range s.Bars() {
		if bar.Start >= end {
			break
		}
		ahead.read(bar.Start, bar.End())
		for _, sound := range ahead.sounds {
			if sound.at >= bar.Start {
				for k, h := range planned {
					made[k] = h.hearing(made[k], sound, silent, c.holds(sound))
				}
				silent = false
			}
		}
		silent = silent || len(ahead.sounds) == 0
	}
	var all []hairpin
	quarter := w.p.Grid.Must(beat.Of(1, 4))
	for _, list := range made {
		printed := slices.DeleteFunc(slices.Clone(list), func(h hairpin) bool { return h.attacks <= 1 && (!h.held || h.to-h.from < quarter) })
		if len(printed) == 0 && len(list) > 0 {
			printed = append(printed, slices.MaxFunc(list, func(a, b hairpin) int { return cmp.Compare(a.to-a.from, b.to-b.from) }))
		}
		all = append(all, printed...)
	}
	slices.SortStableFunc(all, func(a, b hairpin) int { return cmp.Compare(a.from, b.from) })
	for k := 1; k < len(all); k++ { // a voice has one at a time
		all[k-1].to = min(all[k-1].to, all[k].from)
	}
	return slices.DeleteFunc(all, func(h hairpin) bool { return h.to <= h.from })
}

// holds reports whether a sound lasts, so that it can grow.
func (c *cursor) holds(s sound) bool {
	return s.Touch.Has(score.Rolled) || !c.joined() && c.layer.Tails != score.CutTails
}

// hearing makes a planned hairpin reach over one more sound, which is held or not. One
// that is not matters only where it is struck.
func (h hairpin) hearing(made []hairpin, s sound, silent, held bool) []hairpin {
	from, to := max(h.from, s.at), min(h.to, s.end)
	if from >= to || !held && s.at < h.from {
		return made
	}
	n := 0
	if s.at >= h.from {
		n = 1
	}
	if last := len(made) - 1; last >= 0 && !silent {
		made[last].to = max(made[last].to, to)
		made[last].attacks += n
		made[last].held = made[last].held || held
		return made
	}
	return append(made, hairpin{from: from, to: to, kind: h.kind, attacks: n, held: held})
}
