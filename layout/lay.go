package layout

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/source"
)

// Lay writes a piece down: the full score, one part a player. It walks every
// bar once to prove that it can be written, and reports all that cannot.
// Only when there are no problems is the sheet good. Walking a part of the sheet
// is then the second and last time that its bars are made.
func Lay(p *score.Piece, o Options) (*sheet.Sheet, source.Problems) {
	parts, problems := scoreParts(p, o)
	return proven(p, o, parts, problems, false)
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
	return proven(p, o, parts, problems, true)
}

// lay plans the parts of a sheet, from the top.
func lay(p *score.Piece, o Options, only []score.Player, alone bool) (plans []*part, problems source.Problems) {
	looks := lookups(p, &o)
	for i, player := range only {
		pt := playerPart(p, o, player, looks, &problems)
		pt.top, pt.alone, pt.chords = i == 0, alone, alone && pt.pitched()
		if alone {
			pt.tablature()
		}
		plans = append(plans, pt)
	}
	if !alone && len(plans) > 0 {
		plans[max(0, slices.IndexFunc(plans, func(pt *part) bool { return pt.plan.Pitched }))].chords = true
	}
	if alone && o.Partner != "" && !plans[0].plays(o.Partner) {
		if partner := partnerPart(p, o, plans[0].frame, &problems); partner != nil {
			plans[0].top, plans[0].alone = false, false
			plans = append([]*part{partner}, plans...)
		}
	}
	return plans, problems
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
