package layout

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
)

// dynamics prints the layer's dynamic where it enters, again after four bars or
// more of rest, and the plan's dynamics and hairpins.
func (w *partWalk) dynamics(fb *frameBar, i int, c *cursor, st *voiceState) {
	for _, e := range fb.entries {
		if !concerns(e, c.layer) {
			continue
		}
		if e.Dynamic != "" {
			st.dynamic, st.reprint = e.Dynamic, false
			w.put(fb, e.Time, sheet.Mark{Kind: sheet.DynamicMark, Voice: i, Text: e.Dynamic})
		}
	}
	w.hairpins(fb, i, c, st)
	for k := range c.sounds {
		s := &c.sounds[k]
		if s.at >= fb.to {
			break
		}
		if s.at < fb.from {
			st.silent = s.end
			continue
		}
		if st.heard && s.at-st.silent >= 4*(fb.to-fb.from) {
			st.reprint = true
		}
		if st.reprint && st.dynamic != "" && !w.hasDynamic(i) {
			w.put(fb, s.at, sheet.Mark{Kind: sheet.DynamicMark, Voice: i, Text: st.dynamic})
		}
		st.reprint, st.heard, st.silent = false, true, s.end
	}
}

func (w *partWalk) hasDynamic(voice int) bool {
	return slices.ContainsFunc(w.bar.Marks, func(m sheet.Mark) bool { return m.Kind == sheet.DynamicMark && m.Voice == voice })
}

// hairpins opens and closes the plan's hairpins that begin or end in the bar.
func (w *partWalk) hairpins(fb *frameBar, i int, c *cursor, st *voiceState) {
	for _, e := range fb.entries {
		if e.Hairpin == score.NoHairpin || !concerns(e, c.layer) {
			continue
		}
		n := 1
		if e.Hairpin == score.Diminuendo {
			n = 2
		}
		w.put(fb, e.Time, sheet.Mark{Kind: sheet.HairpinStart, Voice: i, N: n})
		st.hairpins = append(st.hairpins, e.ToTime)
	}
	open := st.hairpins[:0]
	for _, end := range st.hairpins {
		if end > fb.to && !fb.last {
			open = append(open, end)
			continue
		}
		w.put(fb, min(end, fb.to), sheet.Mark{Kind: sheet.HairpinStop, Voice: i})
	}
	st.hairpins = open
}

// concerns reports whether a plan entry's dynamics are for the layer.
func concerns(e *score.PlanEntry, l *score.Layer) bool {
	return len(e.For) == 0 || slices.Contains(e.For, l.Name)
}
