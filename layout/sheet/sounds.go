package sheet

import (
	"iter"

	"tieover/score"
	"tieover/score/beat"
)

// Sound is one attack as the written notes make it sound. Times count from the
// start of the piece.
type Sound struct {
	At, Length beat.Time
	Voice      int // index into Measure.Voices
	Heads      []Head
	Accent     bool
}

// Signs is how many notes and rests a bar has.
func (m *Measure) Signs() (n int) {
	for i := range m.Voices {
		n += len(m.Voices[i].Events)
	}
	return n
}

// Sounds undoes the ties of a part: what was struck, in order of each sound's
// end, and at one moment in voice order.
func Sounds(p *Part) iter.Seq[Sound] {
	return func(yield func(Sound) bool) {
		open := map[int]*Sound{} // by voice number
		for bar := range p.Bars() {
			for i := range bar.Measure.Voices {
				v := &bar.Measure.Voices[i]
				if v.Small || v.As == score.AsSlashes {
					continue
				}
				for _, e := range v.Events {
					n, ok := e.(*Note)
					if !ok {
						continue
					}
					s := open[v.Number]
					if n.TieIn && s != nil {
						s.Length += n.Length
					} else {
						s = &Sound{At: bar.Start + n.Start, Length: n.Length, Voice: i, Heads: n.Heads, Accent: n.Accent}
					}
					open[v.Number] = s
					if !n.TieOut {
						delete(open, v.Number)
						if !yield(*s) {
							return
						}
					}
				}
			}
		}
	}
}

// Together walks the bars of several parts in lockstep. The slice and its bars
// are only good until the next.
func Together(parts []Part) iter.Seq[[]*Bar] {
	return func(yield func([]*Bar) bool) {
		row := make([]*Bar, len(parts))
		next := make([]func() (*Bar, bool), len(parts))
		for i := range parts {
			pull, stop := iter.Pull(parts[i].Bars())
			defer stop()
			next[i] = pull
		}
		for {
			for i := range parts {
				bar, ok := next[i]()
				if !ok {
					return
				}
				row[i] = bar
			}
			if len(parts) == 0 || !yield(row) {
				return
			}
		}
	}
}
