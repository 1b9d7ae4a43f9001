package report

import (
	"fmt"
	"iter"
	"math/big"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/process"
)

// together says when the realigning set comes together.
func (t *text) together() {
	t.heading("Coming together")
	set := t.names(t.s.Set)
	if len(set) == 0 {
		t.item(nothingRealigns)
		return
	}
	if t.forcing(set) {
		return
	}
	if len(t.f.Journeys) > 0 && !t.o.listed {
		return // they are said step by step
	}
	if t.s.WithBarline {
		set = append(set, "the barline")
	}
	sentences := t.meeting(t.f.Together, t.s.Set, t.s.WithBarline, beat.Listed(set, "and"))
	if t.s.EveryBar() {
		sentences = append(sentences, t.unmarked())
	}
	if !t.s.WithBarline && !t.f.Together.Never {
		sentences = append(sentences, t.withBarline(t.f.Together, t.f.OnBarline, t.s.Set))
	}
	if t.f.Home != nil {
		sentences = append(sentences, "With the first bar of the meter's rotation: first after "+t.long(t.f.Home)+".")
	}
	t.item(strings.Join(sentences, " "))
}

const nothingRealigns = "Nothing realigns: no loop goes round from the start to the end, but for those that start over at realignments."

// unmarked says why the realignments have no labels.
func (t *text) unmarked() string {
	why := "That is every bar"
	if t.f.Together.Walked {
		why = "That is the first bar already"
	}
	switch {
	case t.unnamed:
		return why + ", so a score would mark none of them."
	case slices.ContainsFunc(t.s.Plan, func(e score.PlanEntry) bool { return e.Mark != "" }):
		return why + ", so the score marks none of them but what the plan marks."
	}
	return why + ", so the score marks none of them."
}

// atBarline is how the moments at which layers begin together lie to the
// barlines.
type atBarline int

const (
	neverThere  atBarline = iota // no such moment is ever on a barline
	notThere                     // none within the section is
	alwaysThere                  // each is
	firstThere                   // the first is; more is not known
	laterThere                   // some are, the first of them at its own time
)

// atBarlines compares a meeting with the one on a barline.
func atBarlines(m, on score.Meeting) atBarline {
	switch {
	case on.Never:
		return neverThere
	case on.First == nil:
		return notThere
	case m.Period != nil && on.Period != nil && m.Period.Cmp(on.Period) == 0 && m.First.Cmp(on.First) == 0:
		return alwaysThere
	case on.Period == nil && m.First.Cmp(on.First) == 0:
		return firstThere
	}
	return laterThere
}

// barlineWords say so as a sentence, and after another one.
var barlineWords = [...]struct{ sentence, after string }{
	neverThere:  {"They never come together on a barline.", "; never on a barline"},
	notThere:    {"They do not come together on a barline within the section.", "; not on a barline within the section"},
	alwaysThere: {"Each time it is on a barline.", "; each time on a barline"},
	firstThere:  {"The first is on a barline.", ", the first time on a barline"},
}

// withBarline says as a sentence how a meeting lies to the barlines.
func (t *text) withBarline(m, on score.Meeting, layers []int) string {
	if at := atBarlines(m, on); at != laterThere {
		return barlineWords[at].sentence
	}
	return "On a barline: first " + t.firstOnBarline(on, layers) + "."
}

// firstOnBarline says when a meeting on a barline comes, if it is not the first at all.
func (t *text) firstOnBarline(on score.Meeting, layers []int) string {
	sentence := "after " + t.long(on.First)
	if on.Period != nil {
		sentence += t.then(on, layers, true, t.long(on.Period))
	}
	return sentence
}

// then goes on after the first coincidence: at equal distances where each layer
// has one head in a period, else only the whole pattern repeats.
func (t *text) then(m score.Meeting, layers []int, withBarline bool, period string) string {
	switch {
	case m.First.Cmp(m.Period) == 0:
		return ", and so on"
	case t.headsAreEven(layers) && !(withBarline && len(t.s.Meter) > 1):
		return ", then every " + period
	}
	return "; the whole pattern of such moments repeats every " + period
}

// headsAreEven reports whether each layer's heads are equally far apart.
func (t *text) headsAreEven(layers []int) bool {
	for _, i := range layers {
		l := t.s.Layers[i]
		if !t.f.Layers[i].Even() || l.Loop != score.Run {
			return false
		}
		for _, p := range l.Process {
			if p.Kind == process.Rotate || p.Kind == process.Shift {
				return false
			}
		}
	}
	return true
}

// walked explains an answer without arithmetic.
const walked = "Cycles or bars change on the way, so this was found by stepping through them."

// meeting says the arithmetic of a meeting, a sentence a line.
func (t *text) meeting(m score.Meeting, layers []int, withBarline bool, who string) []string {
	switch {
	case m.Never && m.A < 0 && m.B < 0:
		return []string{"They never begin together."}
	case m.Never:
		return []string{t.never(m, who)}
	case m.Walked:
		return []string{t.coming(m, layers, withBarline, who, "") + ". " + walked}
	}
	sentences := []string{t.coming(m, layers, withBarline, who, t.lcm(m.Lengths)+" = "+t.long(m.Period)) + "."}
	if r := t.repeats(m); r != "" {
		sentences = append(sentences, r)
	}
	return sentences
}

// coming says when layers that may meet begin together, as the beginning of a
// sentence; period says after how long the moments repeat.
func (t *text) coming(m score.Meeting, layers []int, withBarline bool, who, period string) string {
	switch {
	case m.First == nil:
		return who + notAgain
	case m.Walked:
		return fmt.Sprintf("%s begin together first after %s", who, t.long(m.First))
	case m.First.Cmp(m.Period) != 0:
		return fmt.Sprintf("%s begin together first after %s%s", who, t.long(m.First), t.then(m, layers, withBarline, period))
	}
	return fmt.Sprintf("%s begin together every %s", who, period)
}

// notAgain is what layers do that meet no more.
const notAgain = " do not begin together again within the section"

// never says why the heads never coincide.
func (t *text) never(m score.Meeting, who string) string {
	if m.Apart == 0 {
		return fmt.Sprintf("%s never all begin together, though each two of them do.", who)
	}
	other := "the barline"
	if m.B >= 0 {
		other = t.s.Layers[m.B].Name
	}
	pair := t.s.Layers[m.A].Name + " and " + other
	if who == pair || who == "They" {
		pair = "they"
	}
	return fmt.Sprintf("%s never begin together: %s stay %s apart at the least.", who, pair, t.both(m.Apart, t.s.Pulse))
}

// lcm writes "lcm(10, 12)", counted in the section's pulse where all lengths
// are whole, else in the largest unit that all are.
func (t *text) lcm(lengths []*big.Int) string {
	unit := big.NewInt(int64(t.s.Grid.Must(t.s.Pulse.Span())))
	named := ""
	for _, n := range lengths {
		if new(big.Int).Rem(n, unit).Sign() != 0 {
			unit = commonDivisor(lengths)
			named = " " + t.unitName(t.s.Grid.Span(beat.Time(unit.Int64())))
			break
		}
	}
	parts := each(lengths, func(n *big.Int) string { return beat.Thousands(new(big.Int).Quo(n, unit)) })
	if len(parts) == 1 {
		return parts[0] + named
	}
	return "lcm(" + strings.Join(parts, ", ") + ")" + named
}

func commonDivisor(lengths []*big.Int) *big.Int {
	g := new(big.Int)
	for _, n := range lengths {
		g.GCD(nil, nil, g, n)
	}
	return g
}

// mostDigits is the greatest number of digits that a reader is given: of a count, or of a
// period in ticks whose rounds are counted.
const mostDigits = 15

// repeats says how many cycles of each make up the period.
func (t *text) repeats(m score.Meeting) string {
	var parts []string
	for l, n := range t.roundsIn(m) {
		parts = append(parts, numberedName(t.s.Layers[l].Name)+" "+times(n))
	}
	if len(parts) == 0 {
		return ""
	}
	return "In that time: " + beat.Listed(parts, "and") + "."
}

// roundsIn yields the layers of the realigning set whose cycles are all alike, and how
// often each goes round in the period of a meeting; none where that is too many.
func (t *text) roundsIn(m score.Meeting) iter.Seq2[int, *big.Int] {
	return func(yield func(int, *big.Int) bool) {
		if !readable(m.Period) {
			return
		}
		for _, l := range t.s.Set[:min(len(t.s.Set), len(m.Lengths))] {
			length := t.f.Layers[l].Length
			if length > 0 && !yield(l, new(big.Int).Quo(m.Period, big.NewInt(int64(length)))) {
				return
			}
		}
	}
}

// times says "once", "twice", "6 times".
func times(n *big.Int) string {
	switch {
	case n.Cmp(big.NewInt(1)) == 0:
		return "once"
	case n.Cmp(big.NewInt(2)) == 0:
		return "twice"
	}
	return beat.Thousands(n) + " times"
}
