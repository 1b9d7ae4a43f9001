package verify

import (
	"cmp"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
)

// Options says what is compared.
type Options struct {
	RhythmOnly bool                // pitches and drum sounds do not matter
	Parts      map[string][]string // part name or id: the layers it holds; parts not named here go by name
}

// Kind is a kind of difference.
type Kind int

const (
	Missing    Kind = iota // the spec has a note that the score lacks
	Extra                  // the score has a note that the spec lacks
	OtherPitch             // a note sounds something else
	Moved                  // a note sounds earlier or later
	MovedRun               // so do many in a row, by the same amount
	OtherLength
	BadBar // a bar does not add up
	BadTie // a tie lacks an end
	LostMark
	MovedMark
	NoPart     // a layer has no part, or a part no layer
	Transposed // many notes in a row sound higher or lower by one amount
	Exchanged  // two neighbors changed places
	PartsExchanged
	BarMissing    // one or more bars in a row
	BarTwice      // bars that come twice in a row
	BarExtra      // bars that the spec does not have
	Repeated      // bars that a repeat sign plays again
	RepeatMissing // a section is to be played twice
)

// Difference is one thing to put right.
type Difference struct {
	Kind  Kind
	At    beat.Span // from the start of the piece
	Where heard.Where
	Layer string // or the part, for bars and ties
	Want  string // what the spec says
	Got   string // what the score has
	Count int    // notes of a MovedRun or of a Transposed, else bars of a difference of bars
	text  string
}

// String says the difference in words.
func (d Difference) String() string { return d.text }

// Result is what came of a comparison.
type Result struct {
	Differences []Difference // in order of time, those without a place first
	Compared    []string     // names of the layers that were compared
	Notes       int          // notes that the spec wants of them
	Remarks     []string     // what the reader left out, or had to take in one way of several
	NotCompared []string     // what was not looked at: "tempo", "dynamics" …
}

// Compare looks for every difference between the spec and the score. Of a
// file that is one player's part, by its own word or by the options', only that
// part's layers are compared. It fails when no part of the score can be matched
// with a layer.
//
// What one move of a hand explains is one difference, the widest first: parts
// that hold each other's music, bars cut, put in or repeated, rows of notes that
// are late; what follows from it is not reported.
func Compare(p *score.Piece, s *heard.Score, o Options) (*Result, error) {
	pairs, unmatched, err := match(p, s, o)
	if err != nil {
		return nil, err
	}
	w, err := newWhole(p, s, pairs, o)
	if err != nil {
		return nil, err
	}
	r := &Result{Differences: unmatched, NotCompared: notCompared(p, pairs, o)}
	for _, c := range w.parts {
		r.Notes += c.wanted
		r.Compared = append(r.Compared, c.names...)
		r.Remarks = append(r.Remarks, c.writtenRemarks()...)
	}
	w.findExchangedParts()
	w.findBars()
	for _, c := range w.parts {
		c.run(s.Remarks)
	}
	w.joinRuns()
	for _, c := range w.parts {
		r.Differences = append(r.Differences, c.found...)
	}
	r.Differences = append(r.Differences, w.found...)
	marks, remark := w.marks()
	r.Differences = append(r.Differences, marks...)
	if remark != "" {
		r.Remarks = append(r.Remarks, remark)
	}
	unexplained := slices.DeleteFunc(slices.Clone(s.Remarks), w.explains)
	for _, remark := range heard.Summary(unexplained) {
		switch {
		case remark.Kind != heard.Misfit && remark.Kind != heard.Loose:
			r.Remarks = append(r.Remarks, remark.Part+": "+remark.Text)
		case w.compares(remark.Part):
			r.Differences = append(r.Differences, fromRemark(remark, s))
		}
	}
	slices.SortStableFunc(r.Differences, func(a, b Difference) int {
		return cmp.Or(cmp.Compare(hasPlace(a), hasPlace(b)), a.At.Cmp(b.At))
	})
	return r, nil
}

func hasPlace(d Difference) int {
	if d.Kind == NoPart || d.Kind == PartsExchanged {
		return 0
	}
	return 1
}

// notCompared lists what no difference is looked for in.
func notCompared(p *score.Piece, pairs []pair, o Options) (all []string) {
	if o.RhythmOnly {
		all = append(all, "pitches and drum sounds")
	}
	var cut []string
	for _, pair := range pairs {
		if pair.composite {
			cut = append(cut, composite)
			continue
		}
		for _, l := range pair.layers {
			for own := range l.in(p) {
				if own.Tails == score.CutTails && !slices.Contains(cut, l.name) {
					cut = append(cut, l.name)
				}
			}
		}
	}
	if len(cut) > 0 {
		all = append(all, "how long notes of "+beat.Listed(cut, "and")+" last")
	}
	return append(all, "tempo", "dynamics", "articulation", "text", "how it is written")
}

// fromRemark turns a remark of the reader into a difference.
func fromRemark(remark heard.Remark, s *heard.Score) Difference {
	d := Difference{Kind: BadBar, Layer: remark.Part, Got: remark.Text, text: remark.Part + ": " + remark.Text}
	if remark.Kind == heard.Loose {
		d.Kind = BadTie
	}
	if part, ok := s.Find(remark.Part); ok {
		for _, bar := range part.Bars {
			if bar.Number == remark.Bar {
				d.At = bar.Start
				d.Where = heard.Where{Bar: bar.Number, Pass: bar.Pass, Beat: 1}
				break
			}
		}
	}
	return d
}

// String names the kind for programs.
func (k Kind) String() string {
	return [...]string{
		"missing", "extra", "pitch", "moved", "moved-run", "length", "bar", "tie", "mark-missing", "mark-moved", "no-part", "transposed", "exchanged",
		"parts-exchanged", "bar-missing", "bar-twice", "bar-extra", "repeated", "repeat-missing"}[k]
}
