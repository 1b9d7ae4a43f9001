package sheet

// OnlyPlayer returns the part when just one is written in full size; another
// player's rhythm may stand above it. nil when there are more.
func (s *Sheet) OnlyPlayer() (only *Part) {
	for i := range s.Parts {
		switch p := &s.Parts[i]; {
		case p.Staves[0].Small:
		case only != nil:
			return nil
		default:
			only = p
		}
	}
	return only
}
