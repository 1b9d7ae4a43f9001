package rows

import (
	"fmt"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Family is a way of counting that some layers share: plain pulses, or the
// pulses of one tuplet.
type Family struct {
	Name    string // "3s", or where that names two "1/8 3s" or "1/16 5:4"; "" for plain pulses
	Meaning string // "3 eighths in the time of 2"
	kind
}

// kind is what makes two tuplets the same to count.
type kind struct {
	Actual    int       // 1 for plain pulses
	Container beat.Time // the time of one whole tuplet; 0 for plain pulses
}

// Families lists the ways of counting: plain first, which says the beats in
// any case, then tuplets in the order of the layers.
func (ch *Chart) Families() []Family {
	list := []Family{{kind: kind{Actual: 1}}}
	var pulses []beat.Pulse // of the tuplets, as the first layer of each writes them
	for _, i := range ch.Layers {
		l := ch.Section.Layers[i]
		if !l.Pulse.IsTuplet() || hasKind(list, ch.kind(l)) {
			continue
		}
		list = append(list, Family{kind: ch.kind(l)})
		pulses = append(pulses, l.Pulse)
	}
	for i, p := range pulses {
		list[i+1].Name = tupletName(p, pulses)
		list[i+1].Meaning = fmt.Sprintf("%s in the time of %d", beat.CountOf(int64(p.Actual), beat.Plain(p.Base), beat.American), p.Normal)
	}
	return list
}

func hasKind(list []Family, k kind) bool {
	return slices.ContainsFunc(list, func(f Family) bool { return f.kind == k })
}

// tupletName says as little of a tuplet as tells it from the others.
func tupletName(p beat.Pulse, all []beat.Pulse) string {
	sameNumber, sameValue := 0, 0
	for _, q := range all {
		if q.Actual == p.Actual {
			sameNumber++
			if q.Base == p.Base {
				sameValue++
			}
		}
	}
	switch {
	case sameNumber == 1 && p.Actual != 2: // plain pulses may be called 2s
		return fmt.Sprintf("%ds", p.Actual)
	case sameValue == 1:
		return fmt.Sprintf("%v %ds", p.Base, p.Actual)
	}
	return fmt.Sprintf("%v %d:%d", p.Base, p.Actual, p.Normal)
}

// kind is how a layer's pulses are counted.
func (ch *Chart) kind(l *score.Layer) kind {
	if !l.Pulse.IsTuplet() {
		return kind{Actual: 1}
	}
	return kind{l.Pulse.Actual, ch.Section.Grid.Must(l.Pulse.Container())}
}
