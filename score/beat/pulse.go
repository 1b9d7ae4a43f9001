package beat

import "fmt"

// Pulse is the note value that a layer's numbers count, in its written form:
// 1/8 in 4:3 and 3/32 last equally long, but the first is written as a
// quadruplet and the second as dotted values.
type Pulse struct {
	Base           Span // the note value, dots included: 1/8, 3/16
	Actual, Normal int  // Actual pulses in the time of Normal; 1 and 1 when plain
}

// Plain returns the pulse of an ordinary note value.
func Plain(base Span) Pulse { return Pulse{Base: base, Actual: 1, Normal: 1} }

// IsTuplet reports whether the pulse is written inside a tuplet.
func (p Pulse) IsTuplet() bool { return p.Actual > 1 }

// Span returns how long the pulse sounds.
func (p Pulse) Span() Span { return p.Base.Mul(Of(int64(p.Normal), int64(p.Actual))) }

// Container returns the time of one whole tuplet, Normal·Base; for a plain
// pulse the pulse itself.
func (p Pulse) Container() Span { return p.Base.Times(int64(p.Normal)) }

// String writes the pulse as a spec does: "1/8", "1/16 in 5:4".
func (p Pulse) String() string {
	if !p.IsTuplet() {
		return p.Base.String()
	}
	return fmt.Sprintf("%v in %d:%d", p.Base, p.Actual, p.Normal)
}
