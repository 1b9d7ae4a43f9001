package find

import (
	"fmt"
	"slices"
	"strconv"

	"tieover/score/beat"
)

// stretch cuts the list where the melody's cycles begin.
func (w *melodyWord) stretch(steps []melodyStep) Stretch {
	s := Stretch{At: w.l.Hits[0].At, Until: w.l.End, ByCycle: true}
	if s.Process = w.p.rule(w.size); s.Process == nil {
		s.melody = &w.p.Melody
	}
	for range w.p.First {
		s.Groups = append(s.Groups, Item{Size: w.size})
	}
	until := 0
	for _, step := range steps {
		tone := min(step.tone, len(w.tones)-1)
		if step.kind == leftOut {
			tone = min(step.tone+step.tones-1, len(w.tones)-1) // the one that sounds
		}
		cycle := w.cycles[tone]
		if step.kind == besides && step.tone > 0 {
			cycle = w.cycles[step.tone-1]
		}
		if n := len(s.Turns); n == 0 || s.Turns[n-1].Cycle != cycle {
			s.Turns = append(s.Turns, Turn{Cycle: cycle, First: step.attack, at: w.l.Hits[step.attack].At})
		}
		last := &s.Turns[len(s.Turns)-1]
		last.slips = append(last.slips, w.words(step)...)
		until = step.tone + step.tones
	}
	s.endTurns(w.l.Hits, len(w.l.Hits))
	for _, t := range s.Turns {
		if len(t.slips) > 0 {
			s.Exceptions = append(s.Exceptions, Exception{Cycle: t.Cycle + 1, At: t.at, Played: t.Groups, Slips: t.slips})
		}
	}
	if until < len(w.tones) && !slices.Contains(w.heads, until) {
		s.Rest = s.Until - s.Turns[len(s.Turns)-1].at
	}
	return s
}

// words says what a step does instead of the melody's tone; none if nothing.
func (w *melodyWord) words(s melodyStep) (words []string) {
	number := func(tone int) string { return strconv.Itoa(tone - w.heads[w.cycles[min(tone, len(w.cycles)-1)]] + 1) }
	sounds := chordText(w.l.Chords[w.chords[s.attack]])
	switch s.kind {
	case otherTone:
		words = append(words, fmt.Sprintf("tone %s another: %s", number(s.tone), sounds))
	case leftOut:
		words = append(words, beat.Counted(s.tones-1, "tone")+" before "+sounds+" left out")
	case missing:
		words = append(words, beat.Counted(s.tones-1, "tone")+" after "+sounds+" missing")
	case besides:
		words = append(words, sounds+" too many")
	case swapped:
		words = append(words, "tones "+number(s.tone)+" and "+number(s.tone+1)+" swapped")
	}
	if s.length > 0 {
		words = append(words, "tone "+number(s.tone)+" "+resizedWords(int(s.length-w.size)))
	}
	return words
}
