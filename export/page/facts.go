package page

import (
	"fmt"

	"tieover/score/beat"
)

// facts are the section in short: meter and tempo, when all realign, and each
// layer's cycle.
func (v *view) facts() []string {
	s := v.s
	bars := fmt.Sprintf("%d bars", s.BarCount())
	if s.Opening() < 0 {
		bars = "a pickup and " + bars
	}
	first := fmt.Sprintf("%v, %s, %s, %s", s.Meter, s.Tempo.InWords(beat.American)+s.Tempo.EquationInWords(beat.American), bars, beat.InMinutes(s.Seconds(s.Length)))
	switch n := s.Played(); {
	case n == 2:
		first += ", played twice"
	case n > 2:
		first += fmt.Sprintf(", played %d times", n)
	}
	facts := []string{first}
	if words := v.meets(); words != "" {
		facts = append(facts, words)
	}
	for _, r := range v.rows {
		if len(r.cycles) > 0 {
			length := pulses(r.cycles[0].Length, r.unit)
			facts = append(facts, fmt.Sprintf("%s %s: %s = %s", r.letter, isolated(r.layer.Name), v.groupsOf(&r), pulsesWords(length, r.layer.Pulse)))
		}
	}
	return facts
}

// meets says when all realign for the first time.
func (v *view) meets() string {
	m := v.s.Together()
	switch {
	case m.Never:
		return "The layers never realign."
	case m.First == nil:
		return "The layers do not realign within the section."
	case !m.First.IsInt64():
		return "The layers realign beyond any length that could be played."
	}
	t := beat.Time(m.First.Int64())
	if t > v.s.Length {
		return "The layers realign after the section's end."
	}
	how := "All together"
	if len(v.s.Set) == 1 {
		how = "On the barline"
	}
	return fmt.Sprintf("%s again at %s, after %s.", how, v.readings[0].where(t, v.end), beat.InMinutes(v.s.Seconds(t)))
}

// meetings lists the realignments after the start.
func (v *view) meetings() []meeting {
	var all []meeting
	for _, r := range v.realignments {
		all = append(all, meeting{r.Name(), v.compared(r.Time), beat.InMinutes(v.s.Seconds(r.Time)), r.Time})
	}
	return all
}
