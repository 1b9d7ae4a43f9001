package report

import (
	"io"
	"math/big"
	"slices"

	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
)

// Version is the version of the JSON form. It grows when a key changes its
// meaning or goes; new keys may come at any time.
const Version = 1

// JSON writes everything that is known about a settled piece. Musical times
// are fractions of a whole note as strings, counted from the section's start.
// The keys of a piece of one section stand at the top; of a longer piece in
// the list "sections".
func JSON(w io.Writer, p *score.Piece) error {
	out := newStream(w)
	out.object("", func() {
		out.value("version", Version)
		out.value("title", p.Title)
		if len(p.Sections) == 1 {
			newFacts(out, p.Sections[0]).all()
		} else {
			out.list("sections", func() {
				for _, s := range p.Sections {
					out.object("", newFacts(out, s).all)
				}
			})
		}
		out.list("warnings", func() {
			for _, warning := range p.Warnings {
				out.value("", warning.String())
			}
		})
	})
	out.out.WriteByte('\n')
	return out.out.Flush()
}

// facts writes one section.
type facts struct {
	*stream
	s     *score.Section
	f     *analysis.Facts
	place *analysis.Placer
	time  *score.Clock
}

func newFacts(out *stream, s *score.Section) *facts {
	return &facts{out, s, analysis.Of(s), analysis.NewPlacer(s), s.Clock()}
}

func (j *facts) all() { fill(j, sectionKeys(), j.s) }

func sectionKeys() []field[*score.Section] {
	return []field[*score.Section]{
		{"section", "its name", func(_ *facts, s *score.Section) any { return s.Name }},
		{"meter", "as the spec has it", func(_ *facts, s *score.Section) any { return s.Meter.String() }},
		{"pulse", "of the section", func(_ *facts, s *score.Section) any { return s.Pulse.String() }},
		{"length", "of the section", func(j *facts, s *score.Section) any { return j.span(s.Length) }},
		{"pickup", "what comes before bar 1, if anything", func(_ *facts, s *score.Section) any { return unless(s.Pickup.Sign() == 0, s.Pickup.String()) }},
		{"end", "stop, land, repeat", func(_ *facts, s *score.Section) any { return s.End.String() }},
		{"times", "how often it is played", func(_ *facts, s *score.Section) any { return s.Played() }},
		{"bars", "how many, with that of a landing", func(_ *facts, s *score.Section) any { return s.BarCount() }},
		{"seconds", "how long, with the pickup, an exact fraction", func(_ *facts, s *score.Section) any { return s.Seconds(s.Length).RatString() }},
		{"brief", "the opening sentences of the report, with American names", func(j *facts, s *score.Section) any {
			t := text{words: newWords(s, beat.American), f: j.f}
			return t.sentences()
		}},
		{"tempos", "list, see below", func(j *facts, s *score.Section) any { return lines(j, tempoKeys, s.Tempos()) }},
		{"speeds", "how fast it goes, beat by beat where the tempo is gradual: list, see below", func(j *facts, s *score.Section) any { return lines(j, speedKeys, s.Speeds()) }},
		{"realigningSet", "names of the layers whose heads have to meet", func(j *facts, s *score.Section) any { return j.names(s.Set) }},
		{"withBarline", "the barline belongs to the set", func(_ *facts, s *score.Section) any { return s.WithBarline }},
		{"leastCommonCycle", "meeting of the set", func(j *facts, _ *score.Section) any { return j.meeting(j.f.Together, false) }},
		{"leastCommonCycleOnBarline", "meeting of the set and the barline", func(j *facts, _ *score.Section) any { return j.meeting(j.f.OnBarline, false) }},
		{"resultant", "rhythm of the heads of the set alone, where they are equally far apart", func(j *facts, _ *score.Section) any {
			if j.f.Resultant == nil {
				return absent{}
			}
			return line(j, resultantKeys, j.f.Resultant)
		}},
		{"rotationHome", "first realignment on the first bar of a rotation of meters", func(j *facts, _ *score.Section) any { return j.optional(j.f.Home) }},
		{"return", "until heads, series and processes stand as they began, if ever", func(j *facts, _ *score.Section) any { return j.optional(j.f.Return) }},
		{"layers", "list, see below", func(j *facts, s *score.Section) any {
			return each(func(yield func(any) bool) {
				for i := range s.Layers {
					if !yield(inside(func() { fill(j, layerKeys(), i) })) {
						return
					}
				}
			})
		}},
		{"realignments", "list, see below", func(j *facts, s *score.Section) any {
			return linesOf(j, realignmentKeys, s.Realignments())
		}},
		{"alsoTogether", "what comes together inside the last bar before a cut and does not count", func(j *facts, s *score.Section) any {
			return lines(j, asideKeys, slices.Collect(s.AlsoTogether()))
		}},
		{"pairs", "every two layers, see below", func(j *facts, _ *score.Section) any { return lines(j, pairKeys, j.f.Pairs) }},
		{"alike", "pairs that share sounds or register, see below", func(j *facts, _ *score.Section) any { return lines(j, alikeKeys, j.f.Alike) }},
		{"colors", "pitch series that run on over the rhythm, see below", func(j *facts, _ *score.Section) any { return lines(j, colorKeys, j.f.Colors) }},
		{"cuttings", "layers that a rule cuts, see below", func(j *facts, _ *score.Section) any { return lines(j, cuttingKeys, j.f.Cuttings) }},
		{"uncut", "meeting of the set as if nothing were cut", func(j *facts, s *score.Section) any {
			if m, ok := s.MeetUncut(); ok && len(j.f.Cuttings) > 0 {
				return j.meeting(m, false)
			}
			return absent{}
		}},
		{"journeys", "layers that move on by steps, see below", func(j *facts, _ *score.Section) any {
			return listed(slices.Values(j.f.Journeys), func(way analysis.Journey) any { return inside(func() { fill(j, journeyKeys(), way) }) })
		}},
		{"composite", "all attacks as one rhythm, see below", func(j *facts, s *score.Section) any {
			return linesOf(j, compositeKeys, analysis.Moments(s))
		}},
		{"onePlayer", "what one player can do of it", func(j *facts, _ *score.Section) any { return line(j, aloneKeys, j.f.Composite.Alone) }},
		{"attacksPerBar", "list of `attacks` and `bar`", func(_ *facts, s *score.Section) any {
			return listed(analysis.AttacksPerBar(s), func(b analysis.PerBar) any { return object{{"attacks", b.Attacks}, {"bar", b.Bar}} })
		}},
		{"ends", "how the last cycle of each layer ends, see below", func(j *facts, _ *score.Section) any { return lines(j, endKeys, j.ends()) }},
		{"cleanEnd", "null if unknown, or `bar` that ends there, `bars` more, `time`", func(j *facts, _ *score.Section) any {
			if c := j.f.Clean; c.Known {
				return object{{"bar", c.Bar}, {"bars", c.Bars}, {"time", j.span(c.At)}}
			}
			return nil
		}},
		{"barrings", "ways to bar it, best first, see below", func(j *facts, _ *score.Section) any { return lines(j, barringKeys, j.f.Barrings) }},
		{"pivots", "values that are played already, see below", func(j *facts, _ *score.Section) any { return lines(j, pivotKeys, j.f.Pivots) }},
	}
}

func (j *facts) span(t beat.Time) string { return j.s.Grid.Span(t).String() }

// big writes a number of ticks as a fraction of a whole note.
func (j *facts) big(ticks *big.Int) string { return ratio64(ticks, beat.Time(j.s.Grid)) }

func (j *facts) optional(ticks *big.Int) any {
	if ticks == nil {
		return absent{}
	}
	return j.big(ticks)
}

func ratio64(n *big.Int, unit beat.Time) string {
	return new(big.Rat).SetFrac(n, big.NewInt(int64(unit))).RatString()
}

func (j *facts) names(layers []int) []string {
	names := make([]string, len(layers))
	for i, l := range layers {
		names[i] = j.name(l)
	}
	return names
}

func (j *facts) name(layer int) string { return j.s.Layers[layer].Name }

// at is the three keys that tell where in the meter a moment is.
func at[T any](moment func(T) (t beat.Time, ok bool)) []field[T] {
	placed := func(j *facts, v T, of func(analysis.Place) any) any {
		t, ok := moment(v)
		if !ok {
			return absent{}
		}
		return of(j.place.At(t))
	}
	return []field[T]{
		{"bar", "where it is", func(j *facts, v T) any { return placed(j, v, func(p analysis.Place) any { return p.Bar }) }},
		{"beat", "from 1", func(j *facts, v T) any { return placed(j, v, func(p analysis.Place) any { return p.Beat }) }},
		{"past", "how long after that beat", func(j *facts, v T) any { return placed(j, v, func(p analysis.Place) any { return j.span(p.Past) }) }},
	}
}

// moment is the time of a moment, under a key, and where it is.
func moment[T any](key string, of func(T) beat.Time) []field[T] {
	return append([]field[T]{{key, "when, from the section's start", func(j *facts, v T) any { return j.span(of(v)) }}},
		at(func(v T) (beat.Time, bool) { return of(v), true })...)
}

// join puts tables one behind another.
func join[T any](tables ...[]field[T]) []field[T] {
	var all []field[T]
	for _, t := range tables {
		all = append(all, t...)
	}
	return all
}
