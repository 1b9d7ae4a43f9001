package report

import (
	"fmt"
	"io"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// Brief writes what the sections of a settled piece do in a few sentences, a
// paragraph a section.
func Brief(w io.Writer, p *score.Piece, o Options) error {
	out := newPaper(w)
	for _, s := range p.Sections {
		t := newText(out, s, o)
		out.gap()
		out.para(0, 0, strings.Join(append([]string{t.called(p)}, t.sentences()...), " "))
	}
	return out.out.Flush()
}

// Sentences returns what the section of some facts does, in a few sentences.
func Sentences(f *analysis.Facts, terms beat.Terms) []string {
	t := text{words: newWords(f.Section, terms), f: f}
	return t.sentences()
}

// called says which section it is and how long.
func (t *text) called(p *score.Piece) string {
	name := t.fullName(p)
	if t.s.Title() != "" {
		name += ","
	}
	return fmt.Sprintf("%s is %s of %s and lasts %s (%s).", name, t.extent(), t.s.Meter, t.clock(t.s.Length), t.opens())
}

// fullName is the title with the section's name.
func (t *text) fullName(p *score.Piece) string {
	if title := t.s.Title(); title != "" {
		return p.Title + ", " + title
	}
	return p.Title
}

// sentences says what the section does, in the order in which one asks.
func (t *text) sentences() []string {
	var all []string
	for _, say := range []func() []string{t.loops, t.meets, t.inBar, t.heardAsOne, t.changes, t.cutting, t.mistaken, t.closes} {
		all = append(all, say()...)
	}
	return all
}

// opening sets the sentences under the title.
func (t *text) opening() {
	t.gap()
	t.para(0, 0, strings.Join(t.sentences(), " "))
}

// loops says what each layer plays, and who has several of them.
func (t *text) loops() []string {
	var looped, lines, sentences []string
	for i, l := range t.f.Layers {
		name, present := t.s.Layers[i].Name, t.present(i)
		if t.s.Layers[i].Line != nil {
			lines = append(lines, name+present)
			continue
		}
		loops := " "
		if len(looped) == 0 {
			loops = " loops "
		}
		looped = append(looped, name+loops+t.loop(i, l)+present)
	}
	if len(looped) > 0 {
		sentences = append(sentences, beat.Listed(shortened(looped), "and")+".")
	}
	if len(lines) > 0 {
		sentences = append(sentences, fmt.Sprintf("%s %s.", beat.Listed(shortened(lines), "and"), beat.Inflect(len(lines), "plays a free line", "play free lines")))
	}
	return append(sentences, t.shared()...)
}

// loop says the groups of a layer and how long they are.
func (t *text) loop(i int, l analysis.Layer) string {
	if len(l.Groups) == 1 && len(l.Groups[0].Sizes) == 1 && l.Length > 0 {
		return t.length(l.Length, t.s.Layers[i].Pulse)
	}
	groups := terminal.Clip(strings.Join(written(l), " and "), 60)
	if len(l.Groups) > 1 {
		groups += " by turns"
	}
	if l.Rhythm != nil && l.Rhythm.Rhythm.Units <= maxBox {
		groups += ", struck " + l.Rhythm.Rhythm.Box()
	}
	if l.Length == 0 {
		return groups
	}
	return fmt.Sprintf("%s (%s)", groups, t.length(l.Length, t.s.Layers[i].Pulse))
}

// maxBox is up to how many pulses a rhythm is written as a box.
const maxBox = 32

// present says from when to when a layer plays, if not from start to end.
func (t *text) present(i int) string {
	l, sentence := t.s.Layers[i], ""
	usual := beat.Time(0)
	if l.Line != nil {
		usual = t.s.Opening()
	}
	switch l.Enters {
	case usual:
	case t.s.Opening():
		sentence += " from the pickup"
	default:
		sentence += " from " + t.at(l.Enters)
	}
	if l.Leaves < t.s.Length {
		sentence += " until " + t.at(l.Leaves)
	}
	return sentence
}

// mostNamed is up to how many of a kind are named in the opening sentences.
const mostNamed = 8

// shortened keeps a list short enough to be read.
func shortened(list []string) []string {
	if len(list) <= mostNamed {
		return list
	}
	return append(list[:mostNamed-1:mostNamed-1], fmt.Sprintf("%d more", len(list)-mostNamed+1))
}

// shared says which players have several layers.
func (t *text) shared() []string {
	var players []string
	has := map[string][]string{}
	for _, l := range t.s.Layers {
		if l.Player == "" {
			continue
		}
		if has[l.Player] == nil {
			players = append(players, l.Player)
		}
		has[l.Player] = append(has[l.Player], l.Name)
	}
	var sentences []string
	for _, p := range players {
		if len(has[p]) > 1 {
			sentences = append(sentences, fmt.Sprintf("%s plays %s", p, beat.Listed(shortened(has[p]), "and")))
		}
	}
	if len(sentences) == 0 {
		return nil
	}
	return []string{strings.Join(shortened(sentences), "; ") + "."}
}

// everybody names layers: "Both" and "All three" where these are all there are.
func (t *text) everybody(layers []int) string {
	switch n := len(layers); {
	case n < len(t.s.Layers) || n < 2:
		return beat.Listed(shortened(t.names(layers)), "and")
	case n == 2:
		return "Both"
	default:
		return "All " + spelledOut(n)
	}
}

// meets says how long until all begin together, and how often each goes round.
func (t *text) meets() []string {
	m, set := t.f.Together, t.s.Set
	if len(t.f.Journeys) > 0 && len(t.s.Layers) > 1 {
		return t.journeys()
	}
	if len(set) == 0 {
		return []string{nothingRealigns}
	}
	who := t.everybody(set)
	if layers := t.cutLayers(); layers != nil {
		sentences := shortened(each(layers, t.atCuts))
		if m.First == nil {
			sentences = append(sentences, who+notAgain+".")
		}
		if uncut, ok := t.s.MeetUncut(); ok {
			sentences = append(sentences, t.meetUncut(uncut))
		}
		return sentences
	}
	if t.s.WithBarline && len(set) == 1 {
		return t.meetsBarline(m, who)
	}
	if m.Never {
		return []string{t.meeting(m, set, t.s.WithBarline, beat.Listed(t.names(set), "and"))[0]}
	}
	period := ""
	if m.Period != nil {
		period = t.long(m.Period)
	}
	sentence := t.coming(m, set, t.s.WithBarline, who, period)
	switch {
	case m.First == nil:
		return []string{sentence + "."}
	case m.Period != nil && m.First.Cmp(m.Period) == 0:
		sentence += t.rounds(m)
	}
	return []string{sentence + t.onBarline() + "."}
}

// meetsBarline says when a single loop begins on a barline again.
func (t *text) meetsBarline(m score.Meeting, who string) []string {
	switch {
	case m.Never:
		return []string{who + " never begins on a barline."}
	case m.First == nil:
		return []string{who + " does not begin on a barline again within the section."}
	case m.Walked || m.First.Cmp(m.Period) != 0:
		return []string{fmt.Sprintf("%s begins on a barline first after %s.", who, t.long(m.First))}
	}
	return []string{fmt.Sprintf("%s begins on a barline every %s%s.", who, t.long(m.Period), t.rounds(m))}
}

// rounds says how often each goes round until then.
func (t *text) rounds(m score.Meeting) string {
	var parts []string
	for l, n := range t.roundsIn(m) {
		sentence := beat.Thousands(n)
		if len(parts) == 0 {
			sentence = beat.CountedBig(n, "round")
		}
		if len(t.s.Set) > 1 {
			sentence += " of " + t.s.Layers[l].Name
		}
		parts = append(parts, sentence)
	}
	if len(parts) == 0 {
		return ""
	}
	return ", after " + beat.Listed(shortened(parts), "and")
}

// onBarline compares with the meetings on a barline, as the end of a sentence.
func (t *text) onBarline() string {
	if t.s.WithBarline {
		return ""
	}
	if at := atBarlines(t.f.Together, t.f.OnBarline); at != laterThere {
		return barlineWords[at].after
	}
	return "; on a barline first " + strings.TrimSuffix(t.firstOnBarline(t.f.OnBarline, t.s.Set), ", and so on")
}
