package layout

import (
	"fmt"
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/source"
)

// Lay writes a piece down: the full score, one part a player. It walks every
// bar once to prove that it can be written, and reports all that cannot.
// Only when there are no problems is the sheet good. Walking a part of the sheet
// is then the second and last time that its bars are made.
func Lay(p *score.Piece, o Options) (*sheet.Sheet, source.Problems) {
	parts, problems := scoreParts(p, o)
	if len(problems) > 0 {
		return nil, problems
	}
	return proven(p, o, parts, false)
}

func scoreParts(p *score.Piece, o Options) ([]*part, source.Problems) {
	if o.Barring.View == Own { // a score has one grid of bars for all
		o.Barring.View = Common
	}
	return lay(p, o, p.Players(), false)
}

// partAlone is the part of one, and the partner's above it if one is asked for.
func partAlone(p *score.Piece, o Options, player int) ([]*part, source.Problems) {
	return lay(p, o, p.Players()[player:player+1], true)
}

// LayPart writes the part of one of p.Players, counted from 0, as it is printed alone:
// with the marks that concern everybody, and rests gathered.
func LayPart(p *score.Piece, o Options, player int) (*sheet.Sheet, source.Problems) {
	parts, problems := partAlone(p, o, player)
	if len(problems) > 0 {
		return nil, problems
	}
	return proven(p, o, parts, true)
}

// lay plans the parts of a sheet, from the top.
func lay(p *score.Piece, o Options, only []score.Player, alone bool) (plans []*part, problems source.Problems) {
	looks := lookups(p, &o)
	for i, player := range only {
		pt := newPart(p, o, player, looks, &problems)
		pt.top, pt.alone, pt.chords = i == 0, alone, alone && pt.pitched()
		if alone {
			pt.tablature()
		}
		plans = append(plans, pt)
	}
	if !alone && len(plans) > 0 {
		plans[max(0, slices.IndexFunc(plans, func(pt *part) bool { return pt.plan.pitched }))].chords = true
	}
	if alone && o.Partner != "" && !plans[0].plays(o.Partner) {
		if partner := partnerPart(p, o, o.Partner, looks, &problems); partner != nil {
			partner.frame = plans[0].frame
			plans[0].top, plans[0].alone, partner.top = false, false, true
			plans = append([]*part{partner}, plans...)
		}
	}
	return plans, problems
}

// part is one part and how it is written. It is never changed by walks.
type part struct {
	p      *score.Piece
	o      Options
	plan   *partPlan   // of the instrument that it begins with
	plans  []*partPlan // of what the player has on each instrument
	whole  score.Player
	takes  []*instrument.Instrument // in the order in which they are taken up; nil where the player has one
	again  []bool                   // by section: it is played again, and begins with another instrument than it ends with
	writer *bar.Writer
	frame  *framer
	top    bool          // carries the signs for everybody
	frets  bool          // has tablature
	chords bool          // carries the chord symbols
	alone  bool          // printed alone
	over   *barlineBeams // that go on over barlines, once the part is proven; nil without
}

// feed opens the reader of one voice in one section; nil when it is silent there.
type feed func(section int) *cursor

func newPart(p *score.Piece, o Options, player score.Player, looks []sectionLook, problems *source.Problems) *part {
	pt := &part{p: p, o: o}
	for _, one := range apart(p, &pt.o, player) {
		pt.plans = append(pt.plans, newPlan(p, o, one, problems))
	}
	if pt.plan = pt.plans[0]; len(pt.plans) > 1 && !player.Doubles() {
		pt.inOneClef(player)
	}
	pt.takeTurns(player)
	pt.writer = &bar.Writer{NoteValues: bar.NoteValues{Grid: p.Grid, Double: o.DoubleDots}, Player: player.Name, Pitched: pt.plan.pitched, Strict: o.Strict, ByMeter: o.Beams == BeamMeter}
	pt.frame = &framer{p: p, o: &pt.o, lookups: looks}
	pt.frame.bars = barsOf(p, &pt.o, player, problems)
	return pt
}

// newPlan plans what a player reads of one instrument.
func newPlan(p *score.Piece, o Options, player score.Player, problems *source.Problems) *partPlan {
	plan := &partPlan{player: player}
	var layers []*score.Layer
	for i, s := range p.Sections {
		for _, j := range player.Layers[i] {
			if !hasLayer(layers, s.Layers[j].Name) {
				layers = append(layers, s.Layers[j])
			}
		}
	}
	ins := player.Instrument
	plan.wanted = bar.NewTransposer(ins, o.Concert)
	plan.pitched = !ins.IsUnpitched() && ins.Lines != 1
	plan.planVoices(layers, ins)
	plan.restAbove()
	plan.joinSides(p.Sections, ins)
	for _, v := range plan.voices {
		if v.Number > 4*v.Staff {
			problems.Add(layers[0].Pos, "player \""+player.Name+"\" has more than four layers on one staff",
				"give some of them another player")
			break
		}
	}
	lines := plan.lyricLines(p.Sections)
	for _, v := range plan.voices {
		if v.Layers != nil {
			plan.feeds = append(plan.feeds, sideFeed(p, player, v.Layers, lines))
			continue
		}
		plan.feeds = append(plan.feeds, layerFeed(p, player, v.Layer, lines[v.Layer]))
	}
	return plan
}

// partnerPart is another layer's rhythm on a small line, to stand above a part
// that is printed alone. It is a part of its own, so that every reader of the
// file keeps the two apart.
func partnerPart(p *score.Piece, o Options, name string, looks []sectionLook, problems *source.Problems) *part {
	player := score.Player{Name: name, Instrument: instrument.Rhythm, Layers: make([][]int, len(p.Sections))}
	known := false
	for i, s := range p.Sections {
		for j, l := range s.Layers {
			if l.Name == name {
				player.Layers[i], player.Short, known = []int{j}, l.Short, true
			}
		}
	}
	if !known {
		problems.Add(source.Pos{}, fmt.Sprintf("no section has a layer %q that could be the partner", name), "name one of the layers")
		return nil
	}
	pt := newPart(p, o, player, looks, problems)
	pt.plan.voices[0].Small, pt.plan.voices[0].Bare = true, true
	pt.plan.staves[0].Small = true
	own := pt.plan.feeds[0]
	pt.plan.feeds[0] = func(section int) *cursor {
		c := own(section)
		if c != nil {
			c.partner = true
		}
		return c
	}
	return pt
}

func (pt *part) plays(layer string) bool {
	return slices.ContainsFunc(pt.plans, func(plan *partPlan) bool { return plan.staffOf(layer) > 0 })
}

func hasLayer(layers []*score.Layer, name string) bool {
	for _, l := range layers {
		if l.Name == name {
			return true
		}
	}
	return false
}

// layerFeed reads the player's layer of that name in each section that has one.
// (In another section a layer of that name may be somebody else's.) Its words stand
// below so many lines of others.
func layerFeed(p *score.Piece, player score.Player, name string, lines int) feed {
	return func(section int) *cursor {
		for _, i := range player.Layers[section] {
			if p.Sections[section].Layers[i].Name == name {
				c := newCursor(p.Sections[section], i)
				c.lines = lines
				return c
			}
		}
		return nil
	}
}

// sheetPart is the part as exporters see it.
func (pt *part) sheetPart() sheet.Part {
	out := sheet.Part{Name: pt.plan.player.Name, Short: pt.plan.player.Short, Instrument: pt.plan.player.Instrument,
		Instruments: pt.takes, Staves: pt.plan.staves, Concert: pt.o.Concert}
	for _, plan := range pt.plans {
		out.Layers = append(out.Layers, plan.layers()...)
	}
	out.Walk = func(yield func(*sheet.Bar) bool) {
		newPartWalk(pt, nil).printed()(yield)
	}
	out.Chord = func(b *sheet.Bar, symbol string) string {
		wanted := pt.planOn(b.Measure.Instrument).wanted
		wanted.KeyOf(pt.p.Sections[b.Section].Key)
		return written(wanted, symbol)
	}
	return out
}

// spellsByGroup decides the spelling of a layer in a bar. In a compound meter
// every beat shows, whatever the pulse; in the bars of cycles, and in other
// meters, it is by group while the pulse is at least half a beat, of which a bar
// of groups has one a unit, or two where the unit is a quarter or longer.
func (o *Options) spellsByGroup(l *score.Layer, sig score.Signature) bool {
	switch o.Spelling {
	case SpellGroup:
		return true
	case SpellMeter:
		return false
	}
	if sig.IsCompound() && o.Barring.View == Common {
		return false
	}
	unit := 0
	for _, t := range sig.Terms {
		unit = max(unit, t.Unit)
	}
	half := beat.Of(1, int64(unit))
	if !sig.IsCompound() && (!sig.IsAdditive() || unit <= 4) {
		half = half.Mul(beat.Of(1, 2))
	}
	return l.Pulse.Span().Cmp(half) >= 0
}
