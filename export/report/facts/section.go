package facts

import (
	"io"
	"math/big"

	"tieover/export/report"
	"tieover/score"
	"tieover/score/analysis"
	"tieover/score/beat"
	"tieover/score/source"
)

// Version is the version of the JSON form. It grows when a key changes its
// meaning or goes; new keys may come at any time.
const Version = 1

// Write writes everything that is known about a settled piece. Musical times
// are fractions of a whole note as strings, counted from the section's start.
// The keys of a piece of one section stand at the top; of a longer piece in
// the list "sections".
func Write(w io.Writer, p *score.Piece) error {
	document := block{{"version", "of the form", Version}, {"title", "of the piece", p.Title}}
	of := func(s *score.Section) block { return newSection(s).fields() }
	if len(p.Sections) == 1 {
		document = append(document, of(p.Sections[0])...)
	} else {
		document = append(document, field{"sections", "list", lines(p.Sections, of)})
	}
	document = append(document, field{"warnings", "list", lines(p.Warnings, source.Problem.String)})
	return write(w, p.Grid, document)
}

// section makes the objects of one section.
type section struct {
	s     *score.Section
	f     *analysis.Facts
	place *analysis.Placer
	time  *score.Clock
}

func newSection(s *score.Section) *section {
	return &section{s, analysis.Of(s), analysis.NewPlacer(s), s.Clock()}
}

func (j *section) fields() block {
	s, f := j.s, j.f
	return block{
		{"section", "its name", s.Name},
		{"meter", "as the spec has it", s.Meter},
		{"pulse", "of the section", s.Pulse},
		{"length", "of the section", s.Length},
		{"pickup", "what comes before bar 1, if anything", unless(s.Pickup.Sign() == 0, s.Pickup)},
		{"end", "stop, land, repeat", s.End},
		{"times", "how often it is played", s.Played()},
		{"bars", "how many, with that of a landing", s.BarCount()},
		{"seconds", "how long, with the pickup, an exact fraction", s.Seconds(s.Length)},
		{"brief", "the opening sentences of the report, with American names", report.Sentences(f, beat.American)},
		{"tempos", "list, see below", lines(s.Tempos(), j.tempo)},
		{"speeds", "how fast it goes, beat by beat where the tempo is gradual: list, see below", lines(s.Speeds(), j.speed)},
		{"realigningSet", "names of the layers whose heads have to meet", j.names(s.Set)},
		{"withBarline", "the barline belongs to the set", s.WithBarline},
		{"leastCommonCycle", "meeting of the set", j.meeting(f.Together, false)},
		{"leastCommonCycleOnBarline", "meeting of the set and the barline", j.meeting(f.OnBarline, false)},
		{"resultant", "rhythm of the heads of the set alone, where they are equally far apart", j.resultant(f.Resultant)},
		{"rotationHome", "first realignment on the first bar of a rotation of meters", j.ticks(f.Home)},
		{"return", "until heads, series and processes stand as they began, if ever", j.ticks(f.Return)},
		{"layers", "list, see below", lines(f.Layers, j.layer)},
		{"realignments", "list, see below", listOf(s.Realignments(), j.realignment)},
		{"alsoTogether", "what comes together inside the last bar before a cut and does not count", listOf(s.AlsoTogether(), j.aside)},
		{"pairs", "every two layers, see below", lines(f.Pairs, j.pair)},
		{"alike", "pairs that share sounds or register, see below", lines(f.Alike, j.alike)},
		{"colors", "pitch series that run on over the rhythm, see below", lines(f.Colors, j.color)},
		{"cuttings", "layers that a rule cuts, see below", lines(f.Cuttings, j.cutting)},
		{"uncut", "meeting of the set as if nothing were cut", j.uncut()},
		{"journeys", "layers that move on by steps, see below", lines(f.Journeys, j.journey)},
		{"composite", "all attacks as one rhythm, see below", listOf(analysis.Moments(s), j.moment)},
		{"onePlayer", "what one player can do of it", j.alone(f.Composite.Alone)},
		{"attacksPerBar", "list of `attacks` and `bar`", listOf(analysis.AttacksPerBar(s), perBar)},
		{"ends", "how the last cycle of each layer ends, see below", j.ends()},
		{"cleanEnd", "null if unknown, or `bar` that ends there, `bars` more, `time`", cleanEnd(f.Clean)},
		{"barrings", "ways to bar it, best first, see below", lines(f.Barrings, j.barring)},
		{"pivots", "values that are played already, see below", lines(f.Pivots, j.pivot)},
	}
}

// fraction is a number of ticks as a fraction of a length of so many.
func fraction(n *big.Int, of beat.Time) *big.Rat {
	return new(big.Rat).SetFrac(n, big.NewInt(int64(of)))
}

// ticks is a number of ticks as a fraction of a whole note, absent where it is nil.
func (j *section) ticks(n *big.Int) any {
	if n == nil {
		return absent{}
	}
	return fraction(n, beat.Time(j.s.Grid))
}

func (j *section) name(layer int) string { return j.s.Layers[layer].Name }

func (j *section) names(layers []int) []string {
	names := make([]string, len(layers))
	for i, l := range layers {
		names[i] = j.name(l)
	}
	return names
}

// at puts first when a moment is, under a key, and where in the meter.
func (j *section) at(key string, t beat.Time, more object) object {
	return join(object{{key, "when, from the section's start", t}}, j.placed(t), more)
}

func (j *section) placed(t beat.Time) object {
	p := j.place.At(t)
	return object{{"bar", "where it is", p.Bar}, {"beat", "from 1", p.Beat}, {"past", "how long after that beat", p.Past}}
}
