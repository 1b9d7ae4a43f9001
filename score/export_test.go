package score

// AttackBounds opens attackBounds to the tests outside.
func (s *Section) AttackBounds(layer int) (least, most int) { return s.attackBounds(s.Layers[layer]) }

// CountAttacks opens countAttacks to the tests outside.
func (s *Section) CountAttacks(layer, most int) int { return s.countAttacks(layer, most) }
