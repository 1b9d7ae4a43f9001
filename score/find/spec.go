package find

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/process"
)

// Found is one layer of a section to be written.
type Found struct {
	Name       string
	Player     string // whose part it is, where one part has several layers; else ""
	Instrument string // as a spec names it; "" for a mere rhythm
	List       *List
	Ranked     []*Description // as Search returns them
	// Sound names a tone of an unpitched instrument as a spec does; nil when the
	// layer's tones are pitches.
	Sound func(heard.Tone) string
	Bare  bool // the instrument has a single sound, which need not be named
}

// Plan is what a section spec says besides its layers.
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

// Limits of a spec for one cycle.
const (
	mostGroups = 4096
	mostSize   = 4096
	mostOffset = 1_000_000
	mostChords = 4096
)

// Spec writes a section spec whose attacks are those of the lists: each layer
// takes the first of its descriptions that a spec can say, at worst the list
// as a free line.
func (p Plan) Spec(layers []Found) (string, error) {
	unit, end := beat.Span{}, beat.Span{}
	for _, f := range layers {
		unit = commonMeasure(unit, f.List.Pulse.Span())
		if over := f.List.Pulse.Span().Times(f.List.End); over.Cmp(end) > 0 {
			end = over
		}
	}
	pulse, err := pulseOf(unit)
	if err != nil {
		return "", err
	}
	if len(layers) == 1 {
		pulse = layers[0].List.Pulse
	}
	p, before := p.withPickup(pulse)
	w := &writer{before: before, plan: p, pulse: pulse, end: end, taken: map[string]bool{}}
	if _, whole := p.End.Over(pulse.Span()).IsWhole(); whole && p.End.Cmp(end) > 0 && !w.stopsInLastBar(layers) {
		w.end = p.End
	}
	if p.Meter == "" && len(layers) == 1 {
		w.barFor(layers[0])
	}
	w.until = before == 0 && w.resetsAtRealignments(layers)
	for _, f := range layers {
		w.taken[f.Name] = true
	}
	var bodies []string
	for _, f := range layers {
		bodies = append(bodies, w.layer(f))
	}
	pulses, _ := w.end.Over(pulse.Span()).IsWhole()
	var b strings.Builder
	fmt.Fprintf(&b, "title: %s\n", quote(p.Title))
	if p.Tempo != "" {
		fmt.Fprintf(&b, "tempo: %s\n", p.Tempo)
	}
	if w.plan.Meter != "" {
		fmt.Fprintf(&b, "meter: %s\n", w.plan.Meter)
	}
	if before > 0 {
		fmt.Fprintf(&b, "pickup: %v\n", p.Pickup)
	}
	fmt.Fprintf(&b, "pulse: %v\nlength: %d pulses\n\nlayers:\n%s", pulse, pulses-before, strings.Join(bodies, ""))
	b.WriteString(w.planText())
	return b.String(), nil
}

type writer struct {
	before int64 // pulses of the section in its pickup
	plan   Plan
	pulse  beat.Pulse
	end    beat.Span
	until  bool            // the section realigns just when processes start over
	taken  map[string]bool // names of layers
	marks  []planMark
}

// stopsInLastBar reports whether the music ends inside the plan's last bar
// although a loop would go on to its end: then the section is as long as the
// music, which fills the bar with rests anyway.
func (w *writer) stopsInLastBar(layers []Found) bool {
	if w.plan.End.Sub(w.end).Cmp(w.plan.Bar) >= 0 {
		return false
	}
	full := *w
	full.end = w.plan.End
	return slices.ContainsFunc(layers, func(f Found) bool {
		d := f.Ranked[0]
		_, early, _ := w.leaves(f, d)
		_, late, _ := full.leaves(f, d)
		return late && !early && !d.Literal
	})
}

// barFor chooses a meter whose bar is what the layer is cut to, so that the cut
// can be said in bars.
func (w *writer) barFor(f Found) {
	k := f.Ranked[0].CutEvery
	if k == 0 || f.Ranked[0].Lead != 0 {
		return
	}
	bar := f.List.Pulse.Span().Times(k)
	for _, unit := range []int64{4, 8, 16, 32, 64, 128} {
		if count, whole := bar.Over(beat.Of(1, unit)).IsWhole(); whole && count <= 64 {
			w.plan.Meter, w.plan.Bar = fmt.Sprintf("%d/%d", count, unit), bar
			return
		}
	}
}

// layer writes one line of attacks, as one layer or as one for each stretch.
func (w *writer) layer(f Found) string {
	for _, d := range f.Ranked {
		if d.Stretches != nil {
			if layers, ok := w.stretches(f, d); ok {
				return layers
			}
			continue
		}
		if body, ok := w.loopText(f, d); ok {
			return w.head(f) + body
		}
	}
	return w.head(f) + f.line(0, f.List.End)
}

func (w *writer) head(f Found) string {
	s := "  - name: " + quote(f.Name) + "\n"
	if f.Player != "" {
		s += "    player: " + quote(f.Player) + "\n"
	}
	if f.Instrument != "" {
		s += "    instrument: " + f.Instrument + "\n"
	}
	if f.List.Pulse != w.pulse {
		s += fmt.Sprintf("    pulse: %v\n", f.List.Pulse)
	}
	return s
}

// loopText writes a description. ok is false when a spec cannot say it.
func (w *writer) loopText(f Found, d *Description) (body string, ok bool) {
	if d.Literal || len(d.Groups) > mostGroups || d.Lead > mostOffset || d.spent && slices.ContainsFunc(d.Process, func(p process.Rule) bool { return p.By < 0 && p.Kind == process.Grow }) {
		return "", false
	}
	for _, item := range d.Groups {
		if item.Size > mostSize {
			return "", false
		}
	}
	series, ok := w.pitches(f, d)
	if !ok {
		return "", false
	}
	key, groups, listed := "groups", GroupsText(d.Groups), d.Reset > 0 && !w.until
	switch {
	case d.Melody != nil:
		groups, series, ok = f.cyclesOf(d)
		if f.Instrument == "" || f.Bare {
			series = ""
		}
	case listed && d.has(process.Shift):
		key = "box"
		groups, series, ok = f.cyclesAsBoxes(d, series)
	case listed:
		groups, series, ok = f.cyclesAsList(d, series)
	}
	if !ok {
		return "", false
	}
	var b strings.Builder
	entry := func(key, value string) { b.WriteString(foldEntry("    "+key+": ", value)) }
	entry(key, groups)
	switch {
	case key == "box":
	case d.Strike == Short:
		entry("strike", "short")
	case d.Strike == All:
		entry("strike", "all")
	}
	lead, early := w.begins(f, d.Lead)
	if early {
		entry("enters", "pickup")
	}
	if lead > 0 {
		entry("offset", strconv.FormatInt(lead, 10))
	}
	if d.CutEvery > 0 {
		bars, ok := w.bars(f.List.Pulse.Span().Times(d.CutEvery))
		if !ok || lead > 0 || early {
			return "", false
		}
		entry("loop", "cut every "+bars)
	}
	if len(d.Process) > 0 && !listed {
		entry("process", d.processText())
	}
	if series != "" {
		entry("pitches", series)
		if d.Series.Own && len(d.Series.Chords) > 1 {
			entry("restart", "never")
		}
	}
	at, must, ok := w.leaves(f, d)
	if must {
		entry("leaves", at)
	}
	return b.String(), ok
}

// begins says how many pulses a loop that begins after so many pulses of the list is
// late, and whether that counts from the pickup, in which it is early.
func (w *writer) begins(f Found, pulse int64) (late int64, early bool) {
	if w.before == 0 {
		return pulse, false
	}
	n, whole := w.plan.Pickup.Over(f.List.Pulse.Span()).IsWhole()
	if whole && pulse >= n {
		return pulse - n, false
	}
	return pulse, true
}
