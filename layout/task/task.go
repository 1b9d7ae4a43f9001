package task

import (
	"math/rand/v2"
	"slices"
	"strings"

	"tieover/layout/rows"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/source"
)

// Kind is one sort of exercise.
type Kind string

const (
	Composite Kind = "composite" // fill in the composite
	Realign   Kind = "realign"   // mark the realignments
	Groups    Kind = "groups"    // name the groupings
	Next      Kind = "next"      // write the next cycle of a process
	Beam      Kind = "beam"      // bar and beam an unbarred line
	Cut       Kind = "cut"       // say where the loop must be cut
)

// kinds lists all sorts in the order of a worksheet.
var kinds = []Kind{Composite, Realign, Groups, Next, Beam, Cut}

// Kinds returns all sorts in the order of a worksheet.
func Kinds() []Kind { return slices.Clone(kinds) }

// Exercise is one task with its answer.
type Exercise struct {
	Kind     Kind
	Title    string   // "Fill in the composite"
	Prompt   string   // what to do, in full sentences
	Blanks   []string // lines for the student to complete
	Answer   []string // the same lines completed
	Staves   int      // empty staves on which the answer is written instead of Blanks; 0 where these serve
	Given    View     // what the student sees
	Solution View     // what the key shows
}

// View is one way to show music: as rows of a chart, as rows of signs, as a
// sheet, or several of these.
type View struct {
	Piece    *score.Piece // for a chart; nil when there is none
	From, To int          // the bars shown, from 1
	Hide     rows.Hiding
	Legend   []string // what the signs of the rows are
	Rows     []Row
	Sheet    *sheet.Sheet // for notation; nil when there is none
}

// Row is music written as signs, however many lines they take.
type Row struct {
	Head  string   // what is set before it; "" for a line without barlines
	Signs []string // one a pulse, or one a finer step
	Tail  string   // what is set after it
}

// Options choose what is made. The rules of difficulty:
//
//	level 1  at most two layers, 2 bars, the starts of cycles are shown, a realignment within 8 bars, a cut after 2 to 4 bars
//	level 2  at most three layers, 4 bars, no starts, two realignments within 16 bars, after 5 to 8
//	level 3  at most four layers, 6 bars, no starts, three realignments within 32 bars, after 9 to 12
//
// Where cycles are not all alike, a search for realignments shows their starts
// at every level.
type Options struct {
	Seed  uint64 // another seed draws other layers, bars and numbers
	Level int    // 1 to 3
	Only  []Kind // nil: all that the piece allows
}

// Left is a sort of exercise that the piece does not allow, and why.
type Left struct {
	Kind Kind
	Why  string
}

// Make makes the exercises, in the order of Kinds. The same piece and options
// give the same exercises, and none prints the answer of another; leaving a kind
// out changes the others only where they made way for it.
func Make(p *score.Piece, o Options) (made []Exercise, left []Left) {
	onSheet := newPrinted(p)
	whys := map[Kind]string{}
	exercises := map[Kind]Exercise{}
	for _, kind := range byNeed {
		if o.Only != nil && !slices.Contains(o.Only, kind) {
			continue
		}
		exercises[kind], whys[kind] = newSetter(p, o, kind, onSheet).make(kind)
		if strings.HasSuffix(whys[kind], hintOnly(kind)) { // a promise that is kept
			if _, why := newSetter(p, o, kind, newPrinted(p)).make(kind); why != "" {
				whys[kind] = why
			}
		}
	}
	for _, kind := range kinds {
		e, asked := exercises[kind]
		switch {
		case !asked:
		case whys[kind] != "":
			left = append(left, Left{kind, whys[kind]})
		default:
			e.Kind = kind
			made = append(made, e)
		}
	}
	return made, left
}

// setter sets one exercise.
type setter struct {
	p       *score.Piece
	level   int
	seed    uint64
	random  *rand.Rand
	printed *printed

	refused *source.Problem // why the last excerpt could not be made
}

func newSetter(p *score.Piece, o Options, kind Kind, onSheet *printed) *setter {
	random := rand.New(rand.NewPCG(o.Seed, uint64(slices.Index(kinds, kind))))
	return &setter{p: p, level: o.Level, seed: o.Seed, random: random, printed: onSheet}
}

// make tries the piece's sections in a drawn order until one allows the
// exercise; why says what the last one lacked.
func (m *setter) make(kind Kind) (e Exercise, why string) {
	how := map[Kind]func(*score.Section) (Exercise, string){
		Composite: m.composite, Realign: m.realign, Groups: m.groups,
		Next: m.next, Beam: m.beam, Cut: m.cut,
	}[kind]
	for _, i := range m.random.Perm(len(m.p.Sections)) {
		if e, why = how(m.p.Sections[i]); why == "" {
			return e, ""
		}
	}
	return e, why
}

// draw chooses n of the numbers, or all if there are fewer, in rising order.
func (m *setter) draw(numbers []int, n int) []int {
	order := m.random.Perm(len(numbers))
	var chosen []int
	for _, i := range order[:min(n, len(order))] {
		chosen = append(chosen, numbers[i])
	}
	slices.Sort(chosen)
	return chosen
}
