package layout

import (
	"fmt"
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/layout/staves"
	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/source"
)

// part is one part and how it is written. It is never changed by walks.
type part struct {
	p       *score.Piece
	o       Options
	plan    *partPlan   // of the instrument that it begins with
	plans   []*partPlan // of what the player has on each instrument
	whole   score.Player
	takes   []*instrument.Instrument // in the order in which they are taken up; nil where the player has one
	again   []bool                   // by section: it is played again, and begins with another instrument than it ends with
	writer  *bar.Writer
	frame   *framer
	top     bool          // has the signs for everybody
	frets   bool          // has tablature
	chords  bool          // has the chord symbols
	alone   bool          // is printed alone
	partner bool          // is another player's rhythm above a part printed alone: it has no marks of its own
	over    *barlineBeams // beams that go on over barlines, once the part is proven; nil without
}

// partPlan is what stays the same through a part while the player holds one instrument.
type partPlan struct {
	staves.Plan
	player score.Player   // with that instrument and its layers alone
	feeds  []feed         // by voice
	wanted bar.Transposer // without a key
}

// feed opens the reader of one voice in one section; nil where it is silent.
type feed func(section int) *cursor

// newPart makes a part of the plans of one player, with the meter's bars.
func newPart(p *score.Piece, o Options, plans []*partPlan, looks []sectionLook) *part {
	pt := &part{p: p, o: o, plan: plans[0], plans: plans}
	pt.writer = &bar.Writer{NoteValues: bar.NoteValues{Grid: p.Grid, Double: o.DoubleDots}, Player: pt.plan.player.Name,
		Strict: o.Strict, ByMeter: o.Beams == BeamMeter}
	pt.frame = &framer{p: p, o: &pt.o, lookups: looks}
	return pt
}

func playerPart(p *score.Piece, o Options, player score.Player, looks []sectionLook, problems *source.Problems) *part {
	var plans []*partPlan
	for _, one := range apart(p, &o, player) {
		plans = append(plans, newPlan(p, o, one, problems))
	}
	pt := newPart(p, o, plans, looks)
	if len(plans) > 1 && !player.Doubles() {
		pt.inOneClef(player)
	}
	pt.takeTurns(player)
	pt.frame.bars = barsOf(p, &pt.o, player, problems)
	return pt
}

// newPlan plans what a player reads of one instrument.
func newPlan(p *score.Piece, o Options, player score.Player, problems *source.Problems) *partPlan {
	plan := &partPlan{player: player, wanted: bar.NewTransposer(player.Instrument, o.Concert)}
	plan.Plan = staves.ForPlayer(p, player, plan.wanted, problems)
	lines := plan.LyricLines(p, player)
	for _, v := range plan.Voices {
		switch {
		case v.Other:
			plan.feeds = append(plan.feeds, otherHand(p, player, v))
		case v.Layers != nil:
			plan.feeds = append(plan.feeds, sideFeed(p, player, v.Layers, lines))
		default:
			plan.feeds = append(plan.feeds, ownHand(player, plan.Voices, v, layerFeed(p, player, v.Layer, lines[v.Layer])))
		}
	}
	return plan
}

// partnerPart is another layer's rhythm on a small line, above a part printed alone,
// whose bars it has. It is a part of its own, so that every reader of the file keeps the
// two apart.
func partnerPart(p *score.Piece, o Options, frame *framer, problems *source.Problems) *part {
	player := score.Player{Name: o.Partner, Instrument: instrument.Rhythm, Layers: make([][]int, len(p.Sections))}
	known := false
	for i, s := range p.Sections {
		for j, l := range s.Layers {
			if l.Name == o.Partner {
				player.Layers[i], player.Short, known = []int{j}, l.Short, true
			}
		}
	}
	if !known {
		problems.Add(source.Pos{}, fmt.Sprintf("no section has a layer %q that could be the partner", o.Partner), "name one of the layers")
		return nil
	}
	pt := newPart(p, o, []*partPlan{newPlan(p, o, player, problems)}, nil)
	pt.top, pt.partner, pt.frame = true, true, frame
	pt.plan.Voices[0].Small, pt.plan.Voices[0].Bare = true, true
	pt.plan.Staves[0].Small = true
	return pt
}

func (pt *part) plays(layer string) bool {
	return slices.ContainsFunc(pt.plans, func(plan *partPlan) bool { return plan.StaffOf(layer) > 0 })
}

// sheetPart is the part as exporters see it.
func (pt *part) sheetPart() sheet.Part {
	out := sheet.Part{Name: pt.plan.player.Name, Short: pt.plan.player.Short, Instrument: pt.plan.player.Instrument,
		Instruments: pt.takes, Staves: pt.plan.Staves, Concert: pt.o.Concert}
	for _, plan := range pt.plans {
		out.Layers = append(out.Layers, plan.Layers()...)
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
