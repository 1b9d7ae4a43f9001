package found

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
)

// Plan is a section spec without its layers.
type Plan struct {
	Title string
	Meter string    // "" for 4/4, or for one cycle if the only layer is cut
	Bar   beat.Span // one bar of Meter; zero when the meter changes
	// Changes are the meters after the first, in order.
	Changes []Change
	Pickup  beat.Span // how long the first bar is, if it is not counted: then Changes begins with the meter of bar 1
	Tempo   string    // "" when not known
	Swing   string    // a ratio such as "2:1" that the section is played with; "" when straight
	End     beat.Span // how long the section lasts if its layers fall silent before; zero: to the last sound
}

// Spec writes a section spec whose attacks are those of the lists: each layer
// takes the first of its descriptions that a spec can say, at worst the list
// as a free line. The error holds find.ErrNoPulse.
func (p Plan) Spec(layers []Layer) (string, error) {
	var units []beat.Span
	w := &writer{taken: Names{}}
	for _, f := range layers {
		units = append(units, f.List.Pulse.Span())
		if end := f.List.Pulse.Span().Times(f.List.End); end.Cmp(w.end) > 0 {
			w.end = end
		}
		w.taken[f.Name] = true
	}
	var err error
	if w.pulse, err = find.CommonPulse(units); err != nil {
		return "", fmt.Errorf("the lines have %w", err)
	}
	if len(layers) == 1 {
		w.pulse = layers[0].List.Pulse
	}
	w.plan, w.pickup = p.splitPickup(w.pulse)
	if _, whole := p.End.Over(w.pulse.Span()).IsWhole(); whole && p.End.Cmp(w.end) > 0 && !w.stopsInLastBar(layers) {
		w.end = p.End
	}
	if w.plan.Meter == "" && len(layers) == 1 {
		w.chooseMeter(layers[0])
	}
	w.until = w.pickup == 0 && w.resetsAtRealignments(layers)
	return w.section(layers), nil
}

// writer writes one section.
type writer struct {
	plan   Plan
	pickup int64 // pulses of the section in its pickup
	pulse  beat.Pulse
	end    beat.Span
	until  bool  // the section realigns just when processes start over
	taken  Names // names of layers
	marks  []planMark
}

// planMark is a mark where another stretch begins.
type planMark struct {
	pulse int64 // of the section, from 1
	text  string
}

func (w *writer) section(layers []Layer) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title: %s\n", quote(w.plan.Title))
	if w.plan.Tempo != "" {
		fmt.Fprintf(&b, "tempo: %s\n", w.plan.Tempo)
	}
	if w.plan.Meter != "" {
		fmt.Fprintf(&b, "meter: %s\n", w.plan.Meter)
	}
	if w.pickup > 0 {
		fmt.Fprintf(&b, "pickup: %v\n", w.plan.Pickup)
	}
	pulses, _ := w.end.Over(w.pulse.Span()).IsWhole()
	length, inBars := w.bars(w.pulse.Span().Times(pulses - w.pickup))
	if !inBars {
		length = fmt.Sprintf("%d pulses", pulses-w.pickup)
	}
	fmt.Fprintf(&b, "pulse: %v\nlength: %s\n\nlayers:\n", w.pulse, length)
	for _, f := range layers {
		b.WriteString(w.layer(f))
	}
	b.WriteString(w.changes())
	return b.String()
}

// stopsInLastBar reports whether the music ends inside the plan's last bar
// although a loop would go on to its end: then the section is as long as the
// music, which fills the bar with rests anyway.
func (w *writer) stopsInLastBar(layers []Layer) bool {
	if w.plan.End.Sub(w.end).Cmp(w.plan.Bar) >= 0 {
		return false
	}
	full := *w
	full.end = w.plan.End
	return slices.ContainsFunc(layers, func(f Layer) bool {
		d := f.Ranked[0]
		early, _ := w.leaves(f, d)
		late, _ := full.leaves(f, d)
		return late != "" && early == "" && !d.Literal
	})
}

// chooseMeter chooses a meter of which one bar is as long as what the layer is cut to, so
// that the cut can be written in bars.
func (w *writer) chooseMeter(f Layer) {
	loop := f.Ranked[0].Loop()
	if loop.CutEvery == 0 || loop.At != 0 {
		return
	}
	bar := f.List.Pulse.Span().Times(loop.CutEvery)
	for _, unit := range []int64{4, 8, 16, 32, 64, 128} {
		if count, whole := bar.Over(beat.Of(1, unit)).IsWhole(); whole && count <= mostCount {
			w.plan.Meter, w.plan.Bar = fmt.Sprintf("%d/%d", count, unit), bar
			return
		}
	}
}

// changes writes the plan: changes of meter before the end, the marks of stretches, and
// that it is swung; "" when there is nothing.
func (w *writer) changes() string {
	var b strings.Builder
	for _, c := range w.plan.Changes {
		if c.At.Cmp(w.end) < 0 {
			fmt.Fprintf(&b, "  - {at: bar %d, meter: %s}\n", c.Bar, c.Meter)
		}
	}
	if w.plan.Swing != "" {
		fmt.Fprintf(&b, "  - {at: pulse 1, text: %s}\n", strconv.Quote("swung "+w.plan.Swing))
	}
	for i, m := range w.marksInOrder() {
		fmt.Fprintf(&b, "  - {at: pulse %d, mark: %s, text: %s}\n", m.pulse, letters(i+1), strconv.Quote(m.text))
	}
	if b.Len() == 0 {
		return ""
	}
	return "\nplan:\n" + b.String()
}

// marksInOrder returns the marks, those of one moment as one.
func (w *writer) marksInOrder() []planMark {
	slices.SortStableFunc(w.marks, func(a, b planMark) int { return cmp.Compare(a.pulse, b.pulse) })
	var all []planMark
	for _, m := range w.marks {
		if n := len(all); n > 0 && all[n-1].pulse == m.pulse {
			if all[n-1].text != m.text {
				all[n-1].text += "; " + m.text
			}
			continue
		}
		all = append(all, m)
	}
	return all
}
