package score

import "tieover/score/beat"

// AttackBounds opens attackBounds to the tests outside.
func (s *Section) AttackBounds(layer int) (least, most int) { return s.attackBounds(s.Layers[layer]) }

// CountAttacks opens countAttacks to the tests outside.
func (s *Section) CountAttacks(layer, most int) int { return s.countAttacks(layer, most) }

// NthRealignment opens the arithmetic of counted labels to the tests outside.
func (s *Section) NthRealignment(k int) beat.Time { return s.meeting.nth(k) }
