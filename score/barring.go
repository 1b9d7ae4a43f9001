package score

type barring struct{}
type tempoChange struct{}
