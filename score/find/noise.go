package find

// noisy looks for a cycle that explains all but a few attacks.
func (ln *line) noisy(tolerance int, keep func(*Description)) {}
